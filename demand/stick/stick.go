// Package stick sets paragraphs in lines, as a compositor does in the stick.
//
// Let S be what the words of a line leave of the measure, g the gaps between them, s = S/g in ems, and t = 1/3, the thick
// space. A line may end after a word, after a hyphen or dash of the copy's own, or inside a word where that may be divided.
// Places where s is below the thin space are out. Each other one costs max(s/t, t/s), and 0.15 more where it divides a word;
// a third division on end is out; the cheapest is taken, and the later of equals. A line without a gap is taken only if nothing
// else will go. What is left of a paragraph is its last line as soon as it goes in with spaces not below the thin:
//
//	measure 20 ems, words of 4 5 3 4 6 ...    after the 3rd: S = 8, g = 2, s = 4; after the 4th: S = 4, g = 3, s = 1.33: cost 4
//
// Where the line ends, its spaces are made of those that the font has (see filler). A place where they cannot fill the line
// to a twentieth of an em is taken only where none can that does.
//
// A line depends on nothing but the text from its first word on and on whether the lines before it were divided, so
// setting can begin again at any line.
package stick

import (
	"fmt"

	"formewise/texts/house"
	"formewise/texts/read"
	"formewise/texts/sorts"
)

// A Stick is set to a measure, for a font and its spaces. It does not change: any number of hands may work with it.
type Stick struct {
	cases   *sorts.Cases
	cutter  *sorts.Cutter
	fill    *filler
	measure int
	em      int
	indent  [2]quadding // of a paragraph's first line; of the turned-over part of a line of verse
	divider Divider     // nil: words are divided only at soft hyphens
	old     bool        // old spacing:
	pauses  [3]quadding // and what stands after a clause or sentence then
	initial *initials   // nil: none
	pitch   pitch       // how closely the words are spaced by choice
}

// A Divider tells where a word may be divided: it appends byte offsets into the word, ascending, to dst.
type Divider interface {
	Places(word []byte, dst []int) []int
}

// An Option sets the stick otherwise than by default.
type Option func(*Stick)

// Dividing lets words be divided where d says.
func Dividing(d Divider) Option { return func(s *Stick) { s.divider = d } }

// OldSpacing sets an em after a sentence and an en after a colon or semicolon, whatever the other spaces of the line; see
// house.PauseAfter. Only where a line has no other gap do these share what is left, as ordinary ones.
func OldSpacing() Option { return func(s *Stick) { s.old = true } }

// New sets a stick: text and spaces are numbers of fonts among the cases, the measure is in thousandths of a point. The
// em is that of the text font's body.
func New(cases *sorts.Cases, text, spaces, measure int, options ...Option) (*Stick, error) {
	em := cases.Font(text).Body
	var easing []sorts.Option
	if thin, ok := partingOf(cases, spaces, em); ok {
		easing = append(easing, sorts.EasedBy(thin))
	}
	cutter, err := sorts.NewCutter(cases, text, easing...)
	if err != nil {
		return nil, err
	}
	f := newFiller(cases, spaces, em)
	if f == nil {
		return nil, fmt.Errorf("font %q has no space that can be used in composing (thick, middle, thin, 6-to-em, hair, en quad, em quad, 2-em quad, 3-em quad)", cases.Font(spaces).Name)
	}
	s := &Stick{cases: cases, cutter: cutter, fill: f, measure: measure, em: em}
	s.indent[0], _ = f.quadOut(em)
	s.indent[1], _ = f.quadOut(2 * em)
	s.pauses[house.Clause], _ = f.quadOut(em / 2)
	s.pauses[house.Sentence], _ = f.quadOut(em)
	for _, set := range options {
		set(s)
	}
	if s.initial != nil {
		if s.initial.cutter, err = sorts.NewCutter(cases, s.initial.font); err != nil {
			return nil, err
		}
		s.initial.clear, _ = f.quadOut(thinOf(cases, spaces, em))
	}
	return s, nil
}

// Measure is the length of the line in thousandths of a point.
func (s *Stick) Measure() int { return s.measure }

// Cases are the fonts the stick was set for.
func (s *Stick) Cases() *sorts.Cases { return s.cases }

// A Place is where a line begins: a place from which setting can go on.
type Place struct {
	Paragraph int
	At        int  // place in the paragraph's text
	Inset     bool // the line stands beside an initial that was begun on the line before
	Divisions int8 // how many lines on end before it were divided, up to 2
}

// A Line is one line as set down by a hand; IDs and Spaces are where its share of the hand's galleys ends.
type Line struct {
	Place
	IDs, Spaces, Notes int
	Kind               read.Kind // Prose or Verse for a line of text; Blank; Break
	First, Last        bool      // of its paragraph
	Broken             bool      // it ends in a divided word, and the hyphen for it
	Forced             bool      // that division is at no place where the word may be divided: nothing else would go
	Beside             int32     // thousandths of a point of the measure that an initial begun on the line before takes up
	Wants              int32     // what is left of the measure for brass and paper, thousandths of a point
}

// TooNarrow is the error of a measure in which not even part of a word goes.
type TooNarrow struct {
	Place  Place
	Sort   sorts.ID // the sort that does not go in; it may be the missing one
	Needs  int      // thousandths of a point, with indent and hyphen
	Indent int
}

func (e *TooNarrow) Error() string {
	return fmt.Sprintf("the measure is too narrow: a line needs %d thousandths of a point", e.Needs)
}
