package stick

import (
	"unicode"
	"unicode/utf8"

	"formewise/texts/sorts"
)

// initials are what an opening paragraph begins with: its first letter from a larger font, two lines deep. The first line begins
// with it and a thin space; the second is so much shorter:
//
//	\__/  e are told
//	 \/   that the ferry
//	once went by night.
type initials struct {
	font    int
	opening func(paragraph int) bool
	cutter  *sorts.Cutter
	clear   quadding // between it and the text
}

// Initials begins every paragraph for which opening says so with an initial from a font of the cases, where it begins with a
// letter that the font has.
func Initials(font int, opening func(paragraph int) bool) Option {
	return func(s *Stick) { s.initial = &initials{font: font, opening: opening} }
}

// An initial as it stands in a paragraph.
type initial struct {
	ids   []sorts.ID
	width int // with the space beside it
	next  int // place in the text after its letter
}

// initialOf gives the initial that a paragraph begins with; its width is 0 if it has none.
func (j *job) initialOf() initial {
	in := j.h.stick.initial
	if in == nil || !in.opening(j.place.Paragraph) {
		return initial{}
	}
	at := j.h.stick.cutter.Skip(j.text, 0)
	r, n := utf8.DecodeRune(j.text[at:])
	if !unicode.IsLetter(r) {
		return initial{}
	}
	var g sorts.Galley
	w := in.cutter.Word(&g, j.text[:at+n], at, at+n, 1<<62)
	if len(g.Notes) > 0 {
		return initial{} // no sort for it: an ordinary letter will do
	}
	return initial{ids: g.IDs, width: w.Width + in.clear.width, next: at + n}
}
