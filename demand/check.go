package demand

import (
	"context"
	"slices"
	"sync"

	"formewise/demand/impose"
	"formewise/demand/page"
	"formewise/demand/standing"
	"formewise/texts/house"
	"formewise/texts/read"
	"formewise/texts/sorts"
)

// Check is the whole walk: it sets the copy by the plan and asks what the stock carries. The errors are those of Set.
func Check(ctx context.Context, plan Plan, stock Stock, copy *read.Copy) (*Answer, error) {
	set, err := Set(ctx, plan, stock, copy)
	if err != nil {
		return nil, err
	}
	table := set.pages.Table
	formes := impose.Formes(table.Pages(), plan.Imposing)
	sorts, columns := available(plan, stock, set)

	// Questions to one tally, none of which waits for another.
	var (
		use      standing.Demand
		stand    standing.CanStand
		sections *standing.Sections
		asked    sync.WaitGroup
	)
	asked.Go(func() { use = standing.Reckon(table, formes, plan.Schedule, columns, set.standingLines()) })
	asked.Go(func() {
		stand = standing.Stand(table, formes, columns, set.pages.TextLines, set.standingLines())
		sections = standing.Cut(table, formes, plan.Imposing, columns)
	})
	asked.Wait()
	a := &Answer{
		Copy: copy, Plan: plan, Stock: stock, Formes: slices.Clone(formes), Sorts: sorts, setting: set, numbered: formes, columns: columns, AtPeak: use.PagesAtPeak,
		CastOff:  CastOff{Lines: set.pages.Lines, Pages: table.Pages(), HalfSheets: impose.HalfSheets(table.Pages(), plan.Imposing)},
		Stand:    stand,
		Sections: sections,
	}
	for c := range a.Sorts {
		s := &a.Sorts[c]
		s.FormeMax, s.Peak, s.PeakForme = use.FormeMax[c], use.Peak[c], use.PeakForme[c]
		s.Short = max(0, s.Peak-s.Available)
		s.RunsOut, s.Straight = use.RunsOut[c], use.RunsOutStraight[c]
	}
	if plan.Page.Leading > 0 {
		a.CastOff.LeadsPage = set.pages.LongestPage() - 1
		a.CastOff.LeadsPeak = a.AtPeak * a.CastOff.LeadsPage
	}
	a.Verdict = verdict(a.Stand.Whole, use.Holds, a.Sections != nil)
	a.note(set.pages.Notes)
	for _, l := range set.pages.Forced {
		a.Forced = append(a.Forced, Place{l.Page, l.Line})
	}
	a.number()
	return a, nil
}

// available reckons what of every sort can be counted on.
func available(plan Plan, stock Stock, set *Setting) ([]SortDemand, []standing.Column) {
	table := set.pages.Table
	sorts := make([]SortDemand, 0, table.Columns())
	columns := make([]standing.Column, 0, table.Columns())
	for _, f := range stock {
		for _, s := range f.Sorts {
			c := len(sorts)
			d := SortDemand{Font: f.Name, Sort: s, Total: table.Total(c), PageMax: table.PageMax(c)}
			d.KeptBack = plan.Allowance.keptBack(s.OnHand, d.Total, table.Pages())
			d.Available = max(0, s.OnHand-s.Standing-d.KeptBack)
			sorts = append(sorts, d)
			columns = append(columns, standing.Column{Font: f.Name, Sort: s.Name, Space: s.isSpace(), Width: s.thousandths(), Available: d.Available})
		}
	}
	return sorts, columns
}

func verdict(whole, holds, sections bool) Verdict {
	switch {
	case whole:
		return Stands
	case holds:
		return Distribute
	case sections:
		return InSections
	}
	return Short
}

// note sorts what the copy asked for and the font has not, and what came of its kerned sorts.
func (a *Answer) note(uses []page.Use) {
	rules := house.Substitutes()
	for _, u := range uses {
		use := Use{Character: u.Character, Count: u.Count, Page: u.Page, Line: u.Line}
		switch u.Rule {
		case sorts.NoSort:
			a.Missing = append(a.Missing, use)
		case sorts.Eased, sorts.Strikes:
			a.Kerned = append(a.Kerned, a.setting.kern(u))
		default:
			use.Set, use.Note = rules[u.Rule].Set, rules[u.Rule].Note
			a.MadeUp = append(a.MadeUp, use)
		}
	}
}

// kern says in names what came of a kerned sort.
func (s *Setting) kern(u page.Use) Kern {
	k := Kern{Count: u.Count, Page: u.Page, Line: u.Line}
	name := func(id sorts.ID) (font, sort string) {
		return s.cases.Font(s.cases.Owner(id)).Name, s.cases.Sort(id).Name
	}
	k.Font, k.Sort = name(u.Sort)
	if u.Rule == sorts.Eased {
		k.SpaceFont, k.Space = name(u.By)
	}
	return k
}

// number gives all pages the numbers of the plan.
func (a *Answer) number() {
	more := a.Plan.FirstPage - 1
	if more == 0 {
		return
	}
	shift := func(pages []int) []int {
		out := make([]int, len(pages))
		for i, p := range pages {
			out[i] = p + more
		}
		return out
	}
	for i := range a.Formes {
		a.Formes[i].Pages = shift(a.Formes[i].Pages)
	}
	for i := range a.Sorts {
		for _, at := range []*standing.Place{a.Sorts[i].RunsOut, a.Sorts[i].Straight} {
			if at != nil {
				at.Page += more
			}
		}
	}
	for _, uses := range [][]Use{a.Missing, a.MadeUp} {
		for i := range uses {
			uses[i].Page += more
		}
	}
	for i := range a.Kerned {
		a.Kerned[i].Page += more
	}
	for i := range a.Forced {
		a.Forced[i].Page += more
	}
	if a.Sections != nil {
		for i := range a.Sections.List {
			a.Sections.List[i].Pages = shift(a.Sections.List[i].Pages)
		}
	}
}
