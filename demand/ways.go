package demand

import (
	"formewise/demand/order"
	"formewise/demand/standing"
)

// Schedule is how the work is set and distributed; see standing.Schedule.
type Schedule = standing.Schedule

// Eased lists schedules easier on the type than the one asked for that the type carries: first the one that changes least,
// fewer formes left standing; then setting by formes where it was seriatim; then releasing forme by forme where it was by
// the sheet. Of each only the one that keeps most formes standing; empty where none is carried.
func (a *Answer) Eased() []Schedule {
	asked := a.Plan.Schedule
	bases := []Schedule{asked}
	if asked.Seriatim {
		s := asked
		s.Seriatim = false
		bases = append(bases, s)
	}
	if asked.SheetRelease {
		s := bases[len(bases)-1]
		s.SheetRelease = false
		bases = append(bases, s)
	}
	var found []Schedule
	for i, s := range bases {
		from := asked.Standing
		if from == standing.All {
			from = len(a.Formes) - 1
		} else if i == 0 {
			from-- // the schedule asked for was tried
		}
		if s.Standing = a.most(s, from); s.Standing >= 0 {
			found = append(found, s)
			break // a greater change is not called for
		}
	}
	return found
}

// most is the greatest number of formes, up to from, that a schedule can leave standing; -1 if the type does not carry it with
// none. Fewer standing never need more type, so halving finds it.
func (a *Answer) most(s Schedule, from int) int {
	low, high := -1, min(from, len(a.Formes)-1)
	for low < high {
		s.Standing = (low + high + 1) / 2
		if standing.Reckon(a.setting.pages.Table, a.numbered, s, a.columns, nil).Holds {
			low = s.Standing
		} else {
			high = s.Standing - 1
		}
	}
	return low
}

// A Want is what has to be added to the stock of a sort.
type Want struct {
	Font, Sort string
	Pieces     int
}

// Wanting lists the least that has to be cast or bought, sort by sort, after which no sort is short under the schedule asked for.
func (a *Answer) Wanting() []Want {
	var list []Want
	for _, s := range a.Sorts {
		if s.Short == 0 {
			continue
		}
		pieces := order.Least(s.OnHand, s.Standing, s.Peak, a.Plan.Allowance.Num, a.Plan.Allowance.Den)
		if a.Plan.Allowance.OfPage { // what is kept back does not grow with the stock
			pieces = order.Least(s.OnHand, s.Standing+s.KeptBack, s.Peak, 0, 1)
		}
		list = append(list, Want{s.Font, s.Name, pieces})
	}
	return list
}
