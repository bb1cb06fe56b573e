package page

import (
	"context"
	"slices"

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

// A reach is how far the pages have come by one choice of lengths.
type reach struct {
	maker
	at     int // the line that begins the next page
	cost   int
	before *reach
	more   int // lines by which the pages of the last opening are longer
	made   int // pages of it
}

// What a choice of lengths costs, and how many are followed side by side.
const (
	widowCost  = 1000 // a page that begins with a widow
	lengthCost = 1    // an opening that is not of full pages
	followed   = 32
)

// lengthen gives pages a line more or less, so that none begins with the last line of a paragraph. The two pages of an
// opening are kept alike; as few openings as can be are not of full pages. A page by itself faces a cover or a title:
//
//	lines a page: 30    page 2 would end before the last line of a paragraph: pages 2 and 3 get 29 lines each, or 31
//
// An opening's lengths bear upon all that follow, so the best ways to each place are followed side by side. The lines
// follow upon the pages that are made; those keep their lengths, and so does the fellow of the last.
func lengthen(lines []uint8, made maker, recto func(page int) bool) []int {
	perPage, drop := made.perPage, made.drop
	lengths := make([]int, len(made.ends))
	for i, e := range made.ends {
		lengths[i] = e.Lines
	}
	made.ends = nil
	begun := &reach{maker: made}
	if n := len(lengths); n > 0 && recto(n+1) {
		begun = opening(begun, lines, 1, lengths[n-1])
		begun.more = lengths[n-1] - perPage
	}
	ways := []*reach{begun}
	var done *reach
	for len(ways) > 0 {
		var next []*reach
		found := map[int]int{} // by place, the way that leads there
		for _, way := range ways {
			pages := 2
			if recto(way.page + 1) {
				pages = 1 // its verso was not there, or was by itself
			}
			for _, more := range []int{0, -1, 1} {
				if perPage+more < 1+drop {
					continue
				}
				to := opening(way, lines, pages, perPage+more)
				to.more = more
				if more != 0 {
					to.cost += lengthCost
				}
				if to.at == len(lines) {
					if done == nil || to.cost < done.cost {
						done = to
					}
					continue
				}
				if i, ok := found[to.at]; !ok {
					found[to.at] = len(next)
					next = append(next, to)
				} else if to.cost < next[i].cost {
					next[i] = to
				}
			}
		}
		slices.SortStableFunc(next, func(a, b *reach) int { return a.cost - b.cost })
		ways = next[:min(len(next), followed)]
		if done != nil && (len(ways) == 0 || done.cost <= ways[0].cost) {
			break
		}
	}
	var chosen []int
	for ; done != nil && done.before != nil; done = done.before {
		for range done.made {
			chosen = append(chosen, perPage+done.more)
		}
	}
	slices.Reverse(chosen)
	return append(lengths, chosen...)
}

// opening makes up so many pages and counts those that follow upon one of them and begin with a widow.
func opening(way *reach, lines []uint8, pages, length int) *reach {
	to := &reach{maker: way.maker, at: way.at, cost: way.cost, before: way}
	for range pages {
		var made int
		to.at, to.maker, made = advance(to.maker, lines, to.at, 1, length)
		to.made += made
		for to.at < len(lines) && lines[to.at] == blank {
			to.at++ // left out at the head of a page
		}
		if to.at < len(lines) && lines[to.at] == widow && to.open {
			to.cost += widowCost
		}
	}
	return to
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
		begins := ahead.put(lines[at], stick.Place{})
		if begins && ahead.page-first > pages {
			break
		}
		m = ahead
		at++
	}
	return at, m, m.page - first
}

// put puts a line on its page, and tells whether it begins that page. Its place matters only to pages whose ends are given.
func (m *maker) put(kind uint8, at stick.Place) (begins bool) {
	switch kind {
	case blank:
		m.blank()
	case feed:
		_, begins = m.feed()
	default:
		begins = m.text(at)
	}
	return begins
}

// look sets the whole copy once, only to see what kind of line follows upon which: the lines that come after the pages whose
// ends are given.
func look(ctx context.Context, p *Pages) (lines []uint8, made maker, err error) {
	made = maker{perPage: p.perPage, drop: p.options.drop, ends: p.options.ends}
	making := len(made.ends) > 0
	err = inOrder(ctx, p.copy, p.stick, p.cuts, func(h *stick.Hand) {
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
			if making {
				ahead := made
				ahead.put(kind, l.Place)
				if ahead.page <= len(made.ends) {
					made = ahead
					continue
				}
				making = false
			}
			lines = append(lines, kind)
		}
	})
	return lines, made, err
}

// inPlace says where a line of the first look would not go in.
func inPlace(err error, made maker, lines []uint8) error {
	if len(lines) > 0 && len(made.ends) > 0 { // none of them goes on the last page that is made
		made.ends, made.line = nil, made.perPage
	}
	b := bench{maker: made}
	for _, kind := range lines {
		b.put(kind, stick.Place{})
	}
	return b.place(err)
}
