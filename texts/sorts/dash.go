package sorts

import (
	"unicode"
	"unicode/utf8"

	"formewise/texts/house"
)

// How far the text is looked over for what a dash belongs to.
const reach = 16

// goesOn tells whether the line may end after text[from:to]: after a hyphen or dash that has a word before it and one
// after it. A dash that opens a speech stays with it, and none is parted from the quote or point that closes it.
func goesOn(text []byte, from, to int) bool {
	last, _ := utf8.DecodeLastRune(text[from:to])
	if !endsLine(last) {
		return false
	}
	for p := from; ; {
		if p == 0 || from-p > reach {
			return false
		}
		r, n := utf8.DecodeLastRune(text[:p])
		if unicode.IsSpace(r) {
			return false
		}
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			break
		}
		p -= n
	}
	r, n := utf8.DecodeRune(text[to:])
	if r == '"' || r == '\'' {
		s, _ := house.Turn(text, to)
		r, _ = utf8.DecodeRuneInString(s)
	}
	if r == '’' { // an apostrophe may head a word: well—’tis late
		r, _ = utf8.DecodeRune(text[to+n:])
		return unicode.IsLetter(r) || unicode.IsDigit(r)
	}
	return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.Is(unicode.Ps, r) || unicode.Is(unicode.Pi, r)
}

// endsLine tells the hyphens and dashes after which a line may end; the no-break hyphen U+2011 is not one.
func endsLine(r rune) bool {
	switch r {
	case '-', '‐', '‒', '–', '—', '―', '⸺', '⸻':
		return true
	}
	return false
}
