package report

import "strings"

// Quoted writes a word so that a shell takes it for one and changes nothing in it.
func Quoted(word string) string {
	plain := func(r rune) bool {
		return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || strings.ContainsRune("-_./:,+%@", r)
	}
	switch {
	case word != "" && strings.TrimFunc(word, plain) == "":
		return word
	case !strings.ContainsAny(word, "\"$`\\!"):
		return `"` + word + `"`
	}
	return "'" + strings.ReplaceAll(word, "'", `'\''`) + "'"
}
