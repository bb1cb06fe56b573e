package report

import (
	"strings"
	"unicode/utf8"
)

// Wrap sets running text to a width in characters, a newline after each line. A word longer than that stands by itself.
func Wrap(text string, width int) string {
	var b strings.Builder
	used := 0
	for _, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		switch {
		case used == 0:
		case used+1+n > width:
			b.WriteByte('\n')
			used = 0
		default:
			b.WriteByte(' ')
			used++
		}
		b.WriteString(word)
		used += n
	}
	if used > 0 {
		b.WriteByte('\n')
	}
	return b.String()
}
