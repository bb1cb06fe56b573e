package standing

import (
	"formewise/demand/impose"
	"formewise/demand/tally"
)

// CanStand is how much of a work can stand at once.
type CanStand struct {
	PagesAnywhere  int    // the most pages of which every run can stand; all of them where the work can, 0 where some page cannot
	PagesFromStart int    // pages that can stand from the first
	LinesFromStart int    // lines of text that can stand from the first
	Formes         int    // the most formes, in by-formes order, of which every run can stand
	LimitedBy      *Limit // what stops the first run of one page more than PagesAnywhere that cannot stand; nil where the whole work can
	Whole          bool   // the whole work can stand
}

// Stand says how much of a work can stand. textLines gives the lines of text on the first so many pages; lines is asked for
// one page at the most, the one on which type gives out.
func Stand(t *tally.Table, formes []impose.Forme, columns []Column, textLines func(pages int) int, lines Lines) CanStand {
	have := newStock(columns)
	pages := longestRuns(t, eachPage(t.Pages()), have)
	c := CanStand{
		PagesAnywhere:  pages.anywhere,
		PagesFromStart: pages.fromStart,
		LimitedBy:      pages.limit,
		Whole:          pages.limit == nil,
		Formes:         longestRuns(t, eachForme(formes), have).anywhere,
	}
	c.LinesFromStart = textLines(c.PagesFromStart)
	if c.PagesFromStart < t.Pages() {
		full := newPile(t)
		full.add(upTo(c.PagesFromStart))
		c.LinesFromStart += have.linesThatGo(full.sum, lines(c.PagesFromStart+1))
	}
	return c
}

// eachPage gives the pages of a work as units of one page.
func eachPage(pages int) [][]int {
	units := make([][]int, pages)
	all := upTo(pages)
	for i := range units {
		units[i] = all[i : i+1 : i+1]
	}
	return units
}

// eachForme gives the formes of a work as units of pages.
func eachForme(formes []impose.Forme) [][]int {
	units := make([][]int, len(formes))
	for i, forme := range formes {
		units[i] = forme.Pages
	}
	return units
}

// upTo gives 1 to n.
func upTo(n int) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = i + 1
	}
	return list
}

// runs is what longestRuns finds, in units.
type runs struct {
	anywhere, fromStart int
	limit               *Limit
}

// longestRuns finds the greatest number of units of which every run can stand. A window goes over the units; each is put on
// at its front, and while the window is too much, the run from its back is one unit shorter than the window, and the back
// moves on. So every unit is put on once and taken off once.
//
//	units   3  2  4  1  5     8 available
//	       [3  2  4]          9: from the first, 2 can stand
//	          [2  4  1  5]   12: from the second, 3
//	             [4  1  5]   10: from the third, 2
//	                [1  5]    6: the end; nothing stops the runs from here
//	so every run of 2 can stand, and the first 3 are the first run of 3 that cannot
func longestRuns(t *tally.Table, units [][]int, have *stock) runs {
	found := runs{anywhere: len(units), fromStart: len(units)}
	window := newPile(t)
	back, shortest := 0, -1 // shortest: the first back from which the fewest can stand
	for front, unit := range units {
		window.add(unit)
		for !have.canStand(window.sum) {
			if back == 0 {
				found.fromStart = front
			}
			if shortest < 0 || front-back < found.anywhere {
				shortest, found.anywhere = back, front-back
			}
			window.take(units[back])
			back++
		}
	}
	if shortest >= 0 {
		window.clear()
		for _, unit := range units[shortest : shortest+found.anywhere+1] {
			window.add(unit)
		}
		found.limit = have.limit(window.sum)
	}
	return found
}

// linesThatGo counts the lines of text of a page that can stand on top of sum, before the first line that cannot. sum is
// used up.
func (s *stock) linesThatGo(sum []int, lines []Line) int {
	used := s.use(sum)
	count := 0
	for _, line := range lines {
		for _, c := range line.Pieces {
			sum[c]++
			col := &s.columns[c]
			if !col.Space {
				if sum[c] > col.Available {
					return count
				}
				continue
			}
			used[s.poolOf[c]] += col.Width
			if used[s.poolOf[c]] > s.width[s.poolOf[c]] {
				return count
			}
		}
		if line.Text {
			count++
		}
	}
	return count
}
