package inventory

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

const (
	maxName = 100 // characters in the name of a font or a sort
	maxText = 16  // characters in the text of a sort

	// missingMark begins what stands in setting copy for a character without a
	// sort ("?U+00FE"), so no sort may be called so.
	missingMark = "?U+"
)

// FontName gives the name of a font as the shop keeps it, trimmed and in NFC, or
// says why no font can be called that.
func FontName(name string) (string, error) {
	tidied, fault := plainName(name)
	if fault != "" {
		return "", refuse("", "font name %q: %s", shorten(name), fault)
	}
	return tidied, nil
}

// sortName does the same for the name of a sort.
func sortName(name string) (string, error) {
	tidied, fault := plainName(name)
	if fault == "" {
		switch {
		case strings.HasPrefix(tidied, missingMark):
			fault = `a name cannot begin with "?U+", which marks a character without a sort`
		case looksLikeFormula(tidied):
			fault = "a name cannot look like the formula of a spreadsheet"
		}
	}
	if fault != "" {
		return "", refuse("", "sort name %q: %s", shorten(name), fault)
	}
	return tidied, nil
}

// sortText gives the text of the sort of that name in NFC, or says why no sort
// prints that. "" is left to kindSuitsText.
func sortText(name, text string) (string, error) {
	fault := ""
	if !utf8.ValidString(text) {
		fault = "it is not UTF-8"
	}
	text = norm.NFC.String(text)
	if n := utf8.RuneCountInString(text); fault == "" && n > maxText {
		fault = "it is longer than 16 characters"
	}
	if i := strings.IndexFunc(text, unprintable); fault == "" && i >= 0 {
		r, _ := utf8.DecodeRuneInString(text[i:])
		fault = "it holds " + describe(r) + ", and a sort prints neither white space nor control characters"
	}
	if fault == "" && looksLikeFormula(text) {
		fault = "it looks like the formula of a spreadsheet"
	}
	if fault != "" {
		return "", refuse("", "sort %q: text %q: %s", name, shorten(text), fault)
	}
	return text, nil
}

// plainName trims a name and brings it to NFC; fault says what is wrong with it.
func plainName(name string) (tidied, fault string) {
	if !utf8.ValidString(name) {
		return "", "it is not UTF-8"
	}
	tidied = norm.NFC.String(strings.TrimSpace(name))
	if tidied == "" {
		return "", "it is empty"
	}
	if utf8.RuneCountInString(tidied) > maxName {
		return "", "it is longer than 100 characters"
	}
	for _, r := range tidied {
		if r != ' ' && unprintable(r) {
			return "", "it holds " + describe(r) + ", and a name has letters, signs and plain spaces only"
		}
	}
	return tidied, ""
}

// unprintable tells white space, control and format characters: what is not seen
// on a page and would make two different names look alike.
func unprintable(r rune) bool {
	return unicode.IsSpace(r) || unicode.In(r, unicode.Cc, unicode.Cf, unicode.Z)
}

// looksLikeFormula tells what a spreadsheet would take for a formula when the
// stock is exported: a sign alone is a sort, a sign and a reference is not.
func looksLikeFormula(s string) bool {
	if s == "" || !strings.ContainsRune("=+-@", rune(s[0])) {
		return false
	}
	next, _ := utf8.DecodeRuneInString(s[1:])
	return len(s) > 1 && (unicode.IsLetter(next) || unicode.IsDigit(next) || strings.ContainsRune("([{", next))
}

// describe names a character that cannot be shown.
func describe(r rune) string {
	if r == ' ' {
		return "a space"
	}
	return fmt.Sprintf("U+%04X", r)
}

// shorten keeps a refused cell from filling the screen.
func shorten(s string) string {
	const most = 40
	if utf8.RuneCountInString(s) <= most {
		return s
	}
	return string([]rune(s)[:most]) + "…"
}
