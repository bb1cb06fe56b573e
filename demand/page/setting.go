package page

import (
	"formewise/demand/stick"
	"formewise/texts/read"
	"formewise/texts/sorts"
)

// A Line is one line of a page.
type Line struct {
	Number int          // from 1
	Blank  bool         // leads and furniture: no sorts
	Pieces []sorts.ID   // from left to right; for a character with no sort, the cases' Missing
	Notes  []sorts.Note // what was made up or is missing, in order
	Gaps   []int        // the width of each word space, thousandths of a point
	Wants  int          // what is left of the measure for brass and paper, thousandths of a point
	Broken bool         // it ends in a divided word, and the hyphen for it
	Forced bool         // divided where only the measure asks for it
	Last   bool         // the last line of its paragraph, quadded out
}

// A Setter sets pages again, line by line, with their pieces in order.
type Setter struct {
	pages *Pages
	hand  *stick.Hand
}

// NewSetter gives one; it is used by one goroutine at a time.
func (p *Pages) NewSetter() *Setter {
	h := p.stick.NewHand()
	h.Arrange = true
	return &Setter{p, h}
}

// Page sets a page, counted from 1. Its lines are good until the next page is set.
func (s *Setter) Page(page int) []Line {
	p := s.pages
	at := p.starts[page-1]
	m := maker{perPage: p.perPage}
	var lines []Line
	blanks := func(n int) {
		for range n {
			lines = append(lines, Line{Number: len(lines) + 1, Blank: true})
		}
	}
	s.hand.Clear()
	for at.Paragraph < len(p.copy.Paragraphs) {
		switch paragraph := p.copy.Paragraphs[at.Paragraph]; paragraph.Kind {
		case read.Break:
			n, begins := m.feed()
			if begins && m.page > 1 {
				return lines
			}
			blanks(n)
			return lines
		case read.Blank:
			if m.blank() {
				blanks(1)
			}
		default:
			if len(lines) == p.perPage {
				return lines
			}
			before := len(lines)
			done := s.set(paragraph, at, p.perPage-before, &lines)
			for range len(lines) - before {
				m.text()
			}
			if !done {
				return lines
			}
		}
		at = stick.Place{Paragraph: at.Paragraph + 1}
	}
	return lines
}

// set adds up to so many lines of a paragraph, and tells whether that was the whole of it. All went in when the pages were
// made, so nothing is too narrow now.
func (s *Setter) set(p read.Paragraph, at stick.Place, most int, lines *[]Line) (done bool) {
	h := s.hand
	from, notes := len(h.Lines), 0
	if from > 0 {
		notes = h.Lines[from-1].Notes
	}
	_, done, _ = h.Paragraph(p, at, most)
	for i := from; i < len(h.Lines); i++ {
		l, setting := &h.Lines[i], &h.Settings[i]
		*lines = append(*lines, Line{
			Number: len(*lines) + 1, Pieces: setting.Pieces, Gaps: setting.Gaps, Notes: h.Galley.Notes[notes:l.Notes],
			Wants: int(l.Wants), Broken: l.Broken, Forced: l.Forced, Last: done && i == len(h.Lines)-1,
		})
		notes = l.Notes
	}
	return done
}
