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

// What a choice of lengths costs.
const (
	widowCost  = 1000 // a page that begins with a widow
	lengthCost = 1    // an opening that is not of full pages
)

// lengthen gives pages a line more or less, so that none begins with the last line of a paragraph. The two pages of an
// opening are kept alike; as few openings as can be are not of full pages. A page by itself faces a cover or a title:
//
//	lines a page: 30    page 2 would end before the last line of a paragraph: pages 2 and 3 get 29 lines each, or 31
//
// An opening's lengths bear upon all that follow. So from the end of the work backwards the best is worked out for every line that
// might begin an opening: what is best from there on is so however one came there, and pages that turn out as they were
// cast off leave the rest as it was. The lines follow upon the pages that are made; those keep their lengths, and so does the
// fellow of the last.
func lengthen(lines []uint8, made maker, recto func(page int) bool) []int {
	lengths := make([]int, len(made.ends))
	for i, e := range made.ends {
		lengths[i] = e.Lines
	}
	made.ends = nil
	perPage, at := made.perPage, 0

	best := make([]choice, len(lines)+1)
	for from := len(lines) - 1; from > 0; from-- {
		if lines[from] != blank {
			best[from] = choose(lines, best, from, begun(lines, from, made), 2)
		}
	}
	take := func(more, pages int) {
		var n int
		at, made, n = opening(made, lines, at, pages, perPage+more, nil)
		for range n {
			lengths = append(lengths, perPage+more)
		}
	}
	if n := len(lengths); recto(n+1) && len(lines) > 0 { // a page by itself, or the fellow of one that is made
		if n > 0 {
			take(lengths[n-1]-perPage, 1)
		} else {
			take(choose(lines, best, at, made, 1).more, 1)
		}
	}
	for at < len(lines) {
		take(choose(lines, best, at, made, 2).more, 2)
	}
	return lengths
}

// A choice is how an opening is best made, and what it and all that follow cost.
type choice struct{ more, cost int }

// choose makes an opening of so many pages as each length has it and takes the best; of equals full pages, then short ones.
func choose(lines []uint8, best []choice, at int, m maker, pages int) choice {
	chosen := choice{cost: -1}
	for _, more := range []int{0, -1, 1} {
		if m.perPage+more < 1+m.drop {
			continue
		}
		cost := more * more * lengthCost
		next, _, _ := opening(m, lines, at, pages, m.perPage+more, &cost)
		if cost += best[next].cost; chosen.cost < 0 || cost < chosen.cost {
			chosen = choice{more, cost}
		}
	}
	return chosen
}

// begun is a maker that has made all before a line, which begins a page.
func begun(lines []uint8, at int, m maker) maker {
	for at--; at >= 0 && lines[at] == blank; at-- {
	}
	if at >= 0 {
		m.page = 1
		m.open = lines[at] != feed
		m.dropped = m.open
	}
	return m
}

// opening makes up so many pages; to cost it adds those that follow upon one of them and begin with a widow.
func opening(m maker, lines []uint8, at, pages, length int, cost *int) (next int, after maker, made int) {
	full := m.perPage
	for range pages {
		var n int
		at, m, n = advance(m, lines, at, 1, length)
		made += n
		for at < len(lines) && lines[at] == blank {
			at++ // left out at the head of a page
		}
		if cost != nil && at < len(lines) && lines[at] == widow && m.open {
			*cost += widowCost
		}
	}
	m.perPage = full
	return at, m, made
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
