package standing

import (
	"sort"

	"formewise/demand/impose"
	"formewise/demand/tally"
)

// Place is where a sort runs out.
type Place struct {
	Forme int // from 1; 0 where the question knows no formes
	Page  int // from 1
	Line  int // as Line.Number
}

// Demand is what a schedule asks of the type. Its lists have one entry a column.
type Demand struct {
	Peak            []int    // most pieces in use at once: on pages set and not distributed, counted just after each page is set
	PeakForme       []int    // the forme then being set, from 1, the first if several; 0 where the sort is not used
	FormeMax        []int    // pieces in the forme that takes most
	RunsOut         []*Place // the first line that puts more in use than is available; nil where none does
	RunsOutStraight []*Place // the same from page 1 in reading order, distributing nothing
	Holds           bool     // at every moment the pages in use can stand
	PagesAtPeak     int      // most pages in use at once
}

// Reckon plays a schedule against what is available; columns has an entry for each column of t. What is short of a sort is
// its Peak less what is available, where that is more than nothing. Lines is asked once for each page where something runs
// out; where it is nil, the places are not looked for.
func Reckon(t *tally.Table, formes []impose.Forme, s Schedule, columns []Column, lines Lines) Demand {
	d := Demand{
		Peak:            make([]int, len(columns)),
		PeakForme:       make([]int, len(columns)),
		FormeMax:        formeMax(t, formes),
		RunsOut:         make([]*Place, len(columns)),
		RunsOutStraight: make([]*Place, len(columns)),
		Holds:           true,
	}
	have := newStock(columns)
	use, pages := newPile(t), 0
	var scheduled []crossing
	for e := range Play(formes, s) {
		if e.Page == 0 {
			distributed := formes[e.Forme-1].Pages
			use.take(distributed)
			pages -= len(distributed)
			continue
		}
		t.AddPageTo(use.sum, e.Page)
		pages++
		d.PagesAtPeak = max(d.PagesAtPeak, pages)
		for c, n := range use.sum {
			if n <= d.Peak[c] {
				continue
			}
			if has := columns[c].Available; d.Peak[c] <= has && n > has {
				scheduled = append(scheduled, crossing{column: c, forme: e.Forme, page: e.Page, room: has - (n - t.Page(e.Page, c))})
			}
			d.Peak[c], d.PeakForme[c] = n, e.Forme
		}
		d.Holds = d.Holds && have.canStand(use.sum)
	}
	if lines != nil {
		findLines(scheduled, straightCrossings(t, columns), lines, &d)
	}
	return d
}

// formeMax gives, column by column, what the forme that takes most takes.
func formeMax(t *tally.Table, formes []impose.Forme) []int {
	most := make([]int, t.Columns())
	one := newPile(t)
	for _, forme := range formes {
		one.clear()
		one.add(forme.Pages)
		for c, n := range one.sum {
			most[c] = max(most[c], n)
		}
	}
	return most
}

// straightCrossings finds where each column runs out in reading order. Running sums only rise, so the page is found by
// halving.
func straightCrossings(t *tally.Table, columns []Column) []crossing {
	var found []crossing
	for c, col := range columns {
		before := sort.Search(t.Pages(), func(i int) bool { return t.Run(1, i+1, c) > col.Available })
		if before < t.Pages() {
			found = append(found, crossing{column: c, page: before + 1, room: col.Available - t.Run(1, before, c)})
		}
	}
	return found
}
