// Package report says finished results: a table, a number, a list of pages.
// It finds nothing out; what it is given, it words, and the same input gives
// the same bytes on every machine.
//
//	table, err := report.Table(
//		[]report.Column{report.Words("sort"), report.Numbers("wanted"), report.Numbers("in the case")},
//		[][]string{{"e", report.Number(1204), report.Number(980)}, {"thick", "311", "2,400"}})
//
// gives
//
//	sort   wanted  in the case
//	e       1,204          980
//	thick     311        2,400
package report

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"
)

// Clean makes text from outside (names of files and fonts, characters of a
// manuscript) safe to show on one line of a terminal: what would steer the
// terminal, turn the direction of writing, break the line or not be seen at
// all is shown by its code, as <U+001B>, and a byte that is not UTF-8 as
// <byte 9B>. Everything else, the plain space included, stays.
func Clean(text string) string {
	if !strings.ContainsFunc(text, unsafe) && utf8.ValidString(text) {
		return text
	}
	var b strings.Builder
	for i, r := range text {
		switch {
		case r == utf8.RuneError && !strings.HasPrefix(text[i:], "\uFFFD"):
			fmt.Fprintf(&b, "<byte %02X>", text[i])
		case unsafe(r):
			fmt.Fprintf(&b, "<U+%04X>", r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// visibleJSON writes by their codes (\u009b) the characters in JSON that Clean does not show either: the names and
// characters in it keep their values, and none of them steers a terminal.
func visibleJSON(text string) string {
	steers := func(r rune) bool { return r != '\n' && unsafe(r) } // the line ends are the JSON's own
	if !strings.ContainsFunc(text, steers) {
		return text
	}
	var b strings.Builder
	for _, r := range text {
		if !steers(r) {
			b.WriteRune(r)
			continue
		}
		for _, unit := range utf16.Encode([]rune{r}) {
			fmt.Fprintf(&b, `\u%04x`, unit)
		}
	}
	return b.String()
}

// unsafe holds of controls (C0, C1 with U+009B), of format characters (bidi
// controls, zero-width signs, the soft hyphen), of line and paragraph
// separators, and of every space but the plain one.
func unsafe(r rune) bool {
	return r != ' ' && unicode.In(r, unicode.Cc, unicode.Cf, unicode.Z)
}
