package page

import (
	"context"

	"formewise/demand/stick"
	"formewise/texts/read"
)

// What one line is to a page that may not begin with it.
const (
	ordinary uint8 = iota
	widow          // the last line of a paragraph of several
	blank
	feed
)

// lengthen gives pages a line more or less, so that none begins with the last line of a paragraph. The two pages of an
// opening are kept alike, and of the lengths that serve the one nearest to the full page is taken, a shorter before a
// longer one; where none serves, the one that leaves fewest. A page by itself faces a cover or a title:
//
//	lines a page: 30    page 2 would end before the last line of a paragraph: pages 2 and 3 get 29 lines each, or 31
func lengthen(lines []uint8, perPage, drop int, recto func(page int) bool) []int {
	var lengths []int
	m := maker{perPage: perPage, drop: drop}
	for at := 0; at < len(lines); {
		pages := 2
		if recto(len(lengths) + 1) {
			pages = 1 // the verso before it was not there, or was by itself
		}
		best, left := 0, 3
		for _, more := range []int{0, -1, 1} {
			if perPage+more < 1+drop {
				continue
			}
			if _, _, widows := opening(m, lines, at, pages, perPage+more); widows < left {
				best, left = more, widows
			}
		}
		var made int
		at, m, made = advance(m, lines, at, pages, perPage+best)
		for range max(made, 1) {
			lengths = append(lengths, perPage+best)
		}
	}
	return lengths
}

// opening makes up so many pages and counts those that follow upon one of them and begin with a widow.
func opening(m maker, lines []uint8, at, pages, length int) (next int, after maker, widows int) {
	for range pages {
		at, m, _ = advance(m, lines, at, 1, length)
		for at < len(lines) && lines[at] == blank {
			at++ // left out at the head of a page
		}
		if at < len(lines) && lines[at] == widow && m.open {
			widows++
		}
	}
	return at, m, widows
}

// advance makes up so many pages of a length, and gives the line that begins the next and how many pages were made.
func advance(m maker, lines []uint8, at, pages, length int) (next int, after maker, made int) {
	m.perPage = length
	if m.open {
		m.line = length // the page in hand is done, whatever its length was
	}
	first := m.page
	for at < len(lines) {
		ahead := m
		var begins bool
		switch lines[at] {
		case blank:
			ahead.blank()
		case feed:
			_, begins = ahead.feed()
		default:
			begins = ahead.text()
		}
		if begins && ahead.page-first > pages {
			break
		}
		m = ahead
		at++
	}
	return at, m, m.page - first
}

// look sets the whole copy once, only to see what kind of line follows upon which.
func look(ctx context.Context, copy *read.Copy, s *stick.Stick) ([]uint8, error) {
	var lines []uint8
	err := inOrder(ctx, copy, s, func(h *stick.Hand) {
		for i := range h.Lines {
			l := &h.Lines[i]
			kind := ordinary
			switch {
			case l.Kind == read.Blank:
				kind = blank
			case l.Kind == read.Break:
				kind = feed
			case l.Last && !l.First:
				kind = widow
			}
			lines = append(lines, kind)
		}
	})
	return lines, err
}

// inPlace says where a line of the first look would not go in.
func inPlace(err error, perPage, drop int, lines []uint8) error {
	b := bench{maker: maker{perPage: perPage, drop: drop}}
	for _, kind := range lines {
		switch kind {
		case blank:
			b.blank()
		case feed:
			b.feed()
		default:
			b.text()
		}
	}
	return b.place(err)
}
