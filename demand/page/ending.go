package page

import (
	"formewise/demand/stick"
	"formewise/texts/read"
)

// An End is where a page ends that has been set, or is not to change.
type End struct {
	Next  stick.Place // where the next page begins; at the end of the work, the paragraph after its last
	Lines int         // of the full page, where it stands; asked for by NoWidow only
}

// Ending ends the first pages where they ended, whatever their lines say. ends[0] is page 1's; they ascend, and each leaves its
// page a line at least. A paragraph is cut there: the line before is justified as if it went on, and the next has no
// indent. A form feed ends its page all the same.
//
//	lines a page: 3     copy: a b c d e f g     pages: (a b c) (d e f) (g)     page 1 ended after b: (a b) (c d e) (f g)
func Ending(ends []End) Option { return func(o *options) { o.ends = ends } }

// Ends are where the first pages end as they are made up, so many of them.
func (p *Pages) Ends(pages int) []End {
	ends := make([]End, pages)
	for i := range ends {
		ends[i] = End{Next: p.Start(i + 2), Lines: p.full(i + 1)}
	}
	return ends
}

// Start is where a page begins, counted from 1; of the one after the last, the end of the copy.
func (p *Pages) Start(page int) stick.Place {
	if page > len(p.starts) {
		return stick.Place{Paragraph: len(p.copy.Paragraphs)}
	}
	return p.starts[page-1].Place
}

func before(a, b stick.Place) bool {
	return a.Paragraph < b.Paragraph || a.Paragraph == b.Paragraph && a.At < b.At
}

// cuts are the places inside paragraphs where a page ends, ascending, by paragraph.
type cuts map[int][]int

func cutsOf(ends []End) cuts {
	var c cuts
	for _, e := range ends {
		if e.Next.At > 0 {
			if c == nil {
				c = cuts{}
			}
			c[e.Next.Paragraph] = append(c[e.Next.Paragraph], e.Next.At)
		}
	}
	return c
}

// after is the first of them that lies in a place's paragraph and after it; if there is none, the end of the paragraph.
func (c cuts) after(at stick.Place, copy *read.Copy) int {
	for _, cut := range c[at.Paragraph] {
		if cut > at.At {
			return cut
		}
	}
	return len(copy.Paragraphs[at.Paragraph].Text)
}

// Opens tells whether a page begins the work or follows a form feed.
func (p *Pages) Opens(page int) bool { return page <= len(p.starts) && p.starts[page-1].drop }
