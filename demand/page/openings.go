package page

import (
	"formewise/demand/stick"
	"formewise/texts/read"
)

// initialLines is how many lines a paragraph must have at least to begin with an initial two lines deep.
const initialLines = 3

// Openings finds the paragraphs that begin a part of the work: at its head and after every form feed, the first of prose that is
// long enough for an initial. Titles and short lines that go before it are passed over.
func Openings(copy *read.Copy, s *stick.Stick) func(paragraph int) bool {
	list := map[int]bool{}
	h := s.NewHand()
	looking := true
	for i, p := range copy.Paragraphs {
		switch {
		case p.Kind == read.Break:
			looking = true
		case looking && p.Kind == read.Prose:
			h.Clear()
			// A measure too narrow is found when the whole is set.
			_, _, _ = h.Paragraph(p, stick.Place{Paragraph: i}, initialLines)
			if len(h.Lines) >= initialLines {
				list[i] = true
				looking = false
			}
		}
	}
	return func(paragraph int) bool { return list[paragraph] }
}
