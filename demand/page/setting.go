package page

import (
	"formewise/demand/stick"
	"formewise/texts/read"
	"formewise/texts/sorts"
)

// A Part is what a line is to its page.
type Part uint8

// The parts of a page.
const (
	Body      Part = iota // a line of text, or a blank one
	Head                  // the head line
	Direction             // the direction line at the foot
)

// A Line is one line of a page.
type Line struct {
	Part   Part
	Number int          // from 1; of the head line 0, of the direction line one more than the full page has
	Blank  bool         // leads and furniture: no sorts
	Pieces []sorts.ID   // from left to right; for a character with no sort, the cases' Missing
	Notes  []sorts.Note // what was made up or is missing, in order
	Gaps   []int        // the width of each word space, thousandths of a point
	Beside int          // of the measure, what an initial begun on the line before takes up, thousandths of a point
	Wants  int          // what is left of the measure for brass and paper, thousandths of a point
	Broken bool         // it ends in a divided word, and the hyphen for it
	Forced bool         // divided where only the measure asks for it
	First  bool         // the first line of its paragraph
	Last   bool         // the last line of its paragraph, quadded out
	At     stick.Place  // where in the copy it begins
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
	s.hand.Clear()
	var lines []Line
	// All went in when the pages were made, so there is no error now.
	if head, _ := p.headLine(s.hand, page); head != nil {
		lines = append(lines, spread(head, Head, headNumber))
	}
	lines = s.body(page, lines)
	if direction, _ := p.directionLine(s.hand, page); direction != nil {
		lines = append(lines, spread(direction, Direction, p.length(page)+1))
	}
	return lines
}

func spread(l *stick.Spread, part Part, number int) Line {
	return Line{Part: part, Number: number, Pieces: l.Pieces, Notes: l.Notes, Wants: l.Wants}
}

// body adds the lines of text and the blank ones.
func (s *Setter) body(page int, lines []Line) []Line {
	p := s.pages
	from := p.starts[page-1]
	at, full := from.Place, p.full(page)
	end, ended := p.Start(page+1), page <= len(p.options.ends)
	number, held := 0, 0
	blanks := func(n int) {
		for range n {
			number++
			lines = append(lines, Line{Number: number, Blank: true, At: at})
		}
	}
	for ; at.Paragraph < len(p.copy.Paragraphs); at = (stick.Place{Paragraph: at.Paragraph + 1}) {
		paragraph := p.copy.Paragraphs[at.Paragraph]
		switch paragraph.Kind {
		case read.Break:
			blanks(max(0, full-number))
			return lines
		case read.Blank:
			switch {
			case number > 0 && number < full:
				blanks(1)
			case number > 0 && ended:
				held++ // see maker.held
			}
		default:
			if number == full && !ended || ended && !before(at, end) {
				return lines
			}
			if number == 0 && from.drop {
				blanks(p.options.drop)
			}
			blanks(held)
			held = 0
			before := len(lines)
			most := full - number
			if ended {
				most = 0
			}
			done := s.set(paragraph, at, most, number, &lines)
			number += len(lines) - before
			if !done {
				return lines
			}
		}
	}
	return lines
}

// set adds up to so many lines of a paragraph, and tells whether that was the whole of it. All went in when the pages were
// made, so nothing is too narrow now.
func (s *Setter) set(p read.Paragraph, at stick.Place, most, number int, lines *[]Line) (done bool) {
	h := s.hand
	from, notes := len(h.Lines), 0
	if from > 0 {
		notes = h.Lines[from-1].Notes
	}
	_, done, _ = h.ParagraphTo(p, at, most, s.pages.cuts.after(at, s.pages.copy))
	for i := from; i < len(h.Lines); i++ {
		l, setting := &h.Lines[i], &h.Settings[i]
		number++
		*lines = append(*lines, Line{
			Number: number, Pieces: setting.Pieces, Gaps: setting.Gaps, Notes: h.Galley.Notes[notes:l.Notes],
			Beside: int(l.Beside), Wants: int(l.Wants), Broken: l.Broken, Forced: l.Forced, First: l.First, Last: l.Last, At: l.Place,
		})
		notes = l.Notes
	}
	return done
}
