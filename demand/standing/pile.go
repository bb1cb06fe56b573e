package standing

import "formewise/demand/tally"

// pile is pages put together.
type pile struct {
	tally *tally.Table
	sum   []int // what they take in all, column by column
}

func newPile(t *tally.Table) pile { return pile{t, make([]int, t.Columns())} }

func (p pile) add(pages []int) {
	for _, page := range pages {
		p.tally.AddPageTo(p.sum, page)
	}
}

func (p pile) take(pages []int) {
	for _, page := range pages {
		p.tally.TakePageFrom(p.sum, page)
	}
}

func (p pile) clear() { clear(p.sum) }
