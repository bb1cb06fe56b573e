package standing

import (
	"iter"

	"formewise/demand/impose"
)

// All as Schedule.Standing leaves every forme standing: nothing is distributed.
const All = -1

// Schedule is the order of work.
type Schedule struct {
	Seriatim     bool // pages are set in reading order; else forme by forme
	Standing     int  // finished formes left standing while the next pages are set, from 0; or All
	SheetRelease bool // a forme is distributed only with its fellows of the same sheet; else by itself
}

// Event is one step of the schedule: a page is set, or a forme is distributed.
type Event struct {
	Page  int // the page that is set, from 1; 0 where a forme is distributed
	Forme int // the forme that the page belongs to, or that is distributed, from 1 in the order of the formes
}

// Play goes through a schedule step by step. Pages are set one after another. When the last page of a forme is set, the
// forme is printed and joins the standing formes. While more than s.Standing of them stand, the one that has stood longest
// is distributed before the next page is begun; with SheetRelease it waits until its fellows are printed too, and then they
// go together. The formes are those of impose.Formes, the formes of a sheet side by side.
func Play(formes []impose.Forme, s Schedule) iter.Seq[Event] {
	return func(yield func(Event) bool) {
		lots, lotOf := releases(formes, s.SheetRelease)
		left := make([]int, len(formes)) // pages of a forme yet to be set
		for f, forme := range formes {
			left[f] = len(forme.Pages)
		}
		standing := 0
		var queue []int // lots with standing formes; the one at the head has stood longest
		for set := range settingOrder(formes, s.Seriatim) {
			if !yield(set) {
				return
			}
			f := set.Forme - 1
			lot := &lots[lotOf[f]]
			left[f]--
			lot.unset--
			if left[f] > 0 {
				continue
			}
			if len(lot.printed) == 0 {
				queue = append(queue, lotOf[f])
			}
			lot.printed = append(lot.printed, f)
			standing++
			for s.Standing >= 0 && standing > s.Standing && lots[queue[0]].unset == 0 {
				for _, f := range lots[queue[0]].printed {
					if !yield(Event{Forme: f + 1}) {
						return
					}
					standing--
				}
				queue = queue[1:]
			}
		}
	}
}

// lot is the formes that are released together: one forme, or all of a sheet.
type lot struct {
	unset   int   // pages of the lot yet to be set
	printed []int // formes, in the order in which they were finished
}

// releases shares the formes out in lots, and says which lot each forme is in.
func releases(formes []impose.Forme, bySheet bool) (lots []lot, lotOf []int) {
	lotOf = make([]int, len(formes))
	for f, forme := range formes {
		if f == 0 || !bySheet || forme.Sheet != formes[f-1].Sheet {
			lots = append(lots, lot{})
		}
		lotOf[f] = len(lots) - 1
		lots[lotOf[f]].unset += len(forme.Pages)
	}
	return lots, lotOf
}

// settingOrder gives the pages, each with its forme, in the order in which they are set.
func settingOrder(formes []impose.Forme, seriatim bool) iter.Seq[Event] {
	return func(yield func(Event) bool) {
		var formeOf []int // of a page, from 1; 0 where no forme has the page
		for f, forme := range formes {
			for _, page := range forme.Pages {
				if !seriatim {
					if !yield(Event{Page: page, Forme: f + 1}) {
						return
					}
					continue
				}
				for len(formeOf) <= page {
					formeOf = append(formeOf, 0)
				}
				formeOf[page] = f + 1
			}
		}
		for page, f := range formeOf {
			if f > 0 && !yield(Event{Page: page, Forme: f}) {
				return
			}
		}
	}
}
