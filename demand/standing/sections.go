package standing

import (
	"slices"

	"formewise/demand/impose"
	"formewise/demand/tally"
)

// Sections is a work cut into parts, each set, printed and distributed before the next is begun.
type Sections struct {
	Unit string // what is kept whole: "sheet" (quired, the whole gathering), "forme" or "pull"
	List []Section
}

// Section is one such part.
type Section struct {
	Pages     []int  // ascending
	LimitedBy *Limit // the sort that kept the next unit out; nil for the last of the work, or of its forme where the unit is the pull
}

// Cut cuts the work into the fewest runs of whole sheets that can stand. If any sheet cannot, into runs of formes, in
// by-formes order; if any forme cannot, every forme for itself into runs of its pages, ascending, to be worked at pulls of
// their own. Nil where some page cannot stand. A work of no pages has no sections, of sheets.
//
// Each run takes as many units as it can. No other cut needs fewer runs: part of what can stand can stand, so a run that
// ends sooner never lets the next one end later.
func Cut(t *tally.Table, formes []impose.Forme, p impose.Plan, columns []Column) *Sections {
	have, section := newStock(columns), newPile(t)
	if list, ok := cut(section, gatherings(formes, p), have); ok {
		return &Sections{Unit: "sheet", List: list}
	}
	if list, ok := cut(section, eachForme(formes), have); ok {
		return &Sections{Unit: "forme", List: list}
	}
	pulls := &Sections{Unit: "pull", List: []Section{}}
	for _, forme := range formes {
		pages := make([][]int, len(forme.Pages))
		for i := range pages {
			pages[i] = forme.Pages[i : i+1]
		}
		list, ok := cut(section, pages, have)
		if !ok {
			return nil
		}
		pulls.List = append(pulls.List, list...)
	}
	return pulls
}

// cut takes as many units at a time as can stand; false where one alone cannot. section is scratch.
func cut(section pile, units [][]int, have *stock) (list []Section, ok bool) {
	section.clear()
	list = []Section{}
	var pages []int
	for _, unit := range units {
		section.add(unit)
		if !have.canStand(section.sum) && len(pages) > 0 {
			list = append(list, Section{Pages: pages, LimitedBy: have.limit(section.sum)})
			pages = nil
			section.clear()
			section.add(unit)
		}
		if len(pages) == 0 && !have.canStand(section.sum) {
			return nil, false
		}
		pages = append(pages, unit...)
	}
	if len(pages) > 0 {
		list = append(list, Section{Pages: pages})
	}
	for _, s := range list {
		slices.Sort(s.Pages)
	}
	return list, true
}

// gatherings gives the pages of each gathering; its formes stand together in the list.
func gatherings(formes []impose.Forme, p impose.Plan) [][]int {
	var units [][]int
	last := 0
	for _, forme := range formes {
		if g := impose.Gathering(p, forme.Sheet); g != last {
			units = append(units, nil)
			last = g
		}
		units[len(units)-1] = append(units[len(units)-1], forme.Pages...)
	}
	return units
}
