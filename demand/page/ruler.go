package page

import (
	"unicode/utf8"

	"formewise/demand/stick"
	"formewise/texts/read"
)

// A Ruler counts the lines of text that a stick makes of the copy from one place to another. It is used by one goroutine at a time.
type Ruler struct {
	copy *read.Copy
	hand *stick.Hand
}

// NewRuler gives one for a stick, which need not be the one that the pages were set with.
func NewRuler(copy *read.Copy, s *stick.Stick) *Ruler { return &Ruler{copy, s.NewHand()} }

// An Extent is how far a piece of the copy goes.
type Extent struct {
	Begun int // lines of text begun in it
	Whole int // of those, how many end in it too
	Part  int // of the one that does not, how much lies in it, by its characters: thousandths, rounded down
}

// Thousandths is an extent in thousandths of a line.
func (e Extent) Thousandths() int { return 1000*e.Whole + e.Part }

// Between measures from a place where a line begins to another place, which comes after it. Blank lines and form feeds are passed
// over. The error is a *stick.TooNarrow.
func (r *Ruler) Between(from, to stick.Place) (Extent, error) {
	var e Extent
	for at := from; before(at, to); at = (stick.Place{Paragraph: at.Paragraph + 1}) {
		p := r.copy.Paragraphs[at.Paragraph]
		if p.Kind == read.Blank || p.Kind == read.Break {
			continue
		}
		if err := r.paragraph(p, at, to, &e); err != nil {
			return e, err
		}
	}
	return e, nil
}

// paragraph adds the lines of one, line by line: no more of it than has to be is set.
func (r *Ruler) paragraph(p read.Paragraph, at, to stick.Place, e *Extent) error {
	for done := false; !done && before(at, to); {
		begin := at
		var err error
		r.hand.Clear()
		if at, done, err = r.hand.Paragraph(p, at, 1); err != nil {
			return err
		}
		e.Begun++
		end := at.At
		if done {
			end = len(p.Text)
		}
		if to.Paragraph > begin.Paragraph || end <= to.At {
			e.Whole++
			continue
		}
		line := utf8.RuneCount(p.Text[begin.At:end])
		e.Part = 1000 * utf8.RuneCount(p.Text[begin.At:to.At]) / line
	}
	return nil
}

// A Fitter tells how much a page can be made to give: its lines got in by close spacing, and driven out by wide.
type Fitter struct {
	pages       *Pages
	close, wide *Ruler
}

// NewFitter gives one; it is used by one goroutine at a time.
func (p *Pages) NewFitter() *Fitter {
	return &Fitter{p, NewRuler(p.copy, p.stick.Closely()), NewRuler(p.copy, p.stick.Widely())}
}

// Page tells of a page, counted from 1, how many of its lines of text can be got in, so that the same copy takes so many lines
// fewer, with spaces down to the thin; and how many more lines it can be driven out to, with spaces up to two thirds of an em.
// Only whole lines count. A spacing that the measure does not allow gives 0.
func (f *Fitter) Page(page int) (in, out int) {
	p := f.pages
	from, to := p.Start(page), p.Start(page+1)
	lines := p.TextLines(page) - p.TextLines(page-1)
	if e, err := f.close.Between(from, to); err == nil {
		in = max(0, lines-e.Begun)
	}
	if e, err := f.wide.Between(from, to); err == nil {
		out = max(0, e.Whole-lines)
	}
	return in, out
}
