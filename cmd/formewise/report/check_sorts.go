package report

import (
	"cmp"
	"fmt"
	"slices"

	"formewise/demand"
)

// shortSorts lists the sorts that run short, the worst first.
func (c Check) shortSorts() (string, error) {
	var list []*demand.SortDemand
	for i := range c.Answer.Sorts {
		if s := &c.Answer.Sorts[i]; s.Short > 0 {
			list = append(list, s)
		}
	}
	if len(list) == 0 {
		return "", nil
	}
	slices.SortStableFunc(list, func(a, b *demand.SortDemand) int {
		return cmp.Or(cmp.Compare(spaceLast(a), spaceLast(b)), cmp.Compare(b.Short*max(a.Peak, 1), a.Short*max(b.Peak, 1)))
	})
	head := fmt.Sprintf("Short: %s", Count(len(list), "sort", "sorts"))
	if c.pooled() {
		head += " (spaces and quads make one another up, and together they suffice)"
	}
	rows, more := c.rows(list, mostShort)
	for i := range rows {
		at := "-"
		if list[i].RunsOut != nil {
			at = fmt.Sprintf("f. %d, p. %d, l. %d", list[i].RunsOut.Forme, list[i].RunsOut.Page, list[i].RunsOut.Line)
		}
		rows[i] = append(rows[i], Number(list[i].Short), at)
	}
	text, err := Table(append(c.columns(), Numbers("short"), Words("runs out")), rows)
	return head + "\n" + text + more + Wrap(columnsKey, width), err
}

// short tells whether any sort is short.
func (c Check) short() bool {
	return slices.ContainsFunc(c.Answer.Sorts, func(s demand.SortDemand) bool { return s.Short > 0 })
}

// pooled tells whether only spaces are short, and the pool makes up for them.
func (c Check) pooled() bool {
	return c.Answer.Verdict == demand.Stands || c.Answer.Verdict == demand.Distribute
}

func spaceLast(s *demand.SortDemand) int {
	if s.Kind == "space" {
		return 1
	}
	return 0
}

// holding lists the sorts that hold, the tightest first, or every one of them.
func (c Check) holding() (string, error) {
	var list []*demand.SortDemand
	for i := range c.Answer.Sorts {
		s := &c.Answer.Sorts[i]
		if s.Short == 0 && (c.All || s.Total > 0) {
			list = append(list, s)
		}
	}
	if len(list) == 0 {
		return "", nil
	}
	slices.SortStableFunc(list, func(a, b *demand.SortDemand) int {
		return cmp.Compare(b.Peak*max(a.Available, 1), a.Peak*max(b.Available, 1))
	})
	most, head := tightest, "These hold; the tightest first"
	if c.All {
		most, head = len(list), "These hold"
	}
	rows, more := c.rows(list, most)
	for i := range rows {
		used := "-"
		if list[i].Peak > 0 {
			used = Ratio(100*list[i].Peak, list[i].Available, 0) + "%"
		}
		rows[i] = append(rows[i], used)
	}
	text, err := Table(append(c.columns(), Numbers("used")), rows)
	if !c.short() {
		more += Wrap(columnsKey, width)
	}
	return head + "\n" + text + more, err
}

// columnsKey explains the columns of the tables of sorts, under the first of them.
const columnsKey = "Of each sort: pieces in 1,000 of this text, most to a page, mean to a forme, most in use at once; " +
	"in the case, and of those usable, the allowance being kept back."

// columns are what a printer reads of a sort.
func (c Check) columns() []Column {
	list := []Column{Words("sort"), Numbers("/1000"), Numbers("page"), Numbers("forme"), Numbers("in use"), Numbers("case"), Numbers("usable")}
	if c.fonts() > 1 {
		return append([]Column{Words("font")}, list...)
	}
	return list
}

// fonts is how many of the work's fonts have printing sorts.
func (c Check) fonts() int {
	n := 0
	for _, f := range c.Answer.Stock {
		if slices.ContainsFunc(f.Sorts, func(s demand.Sort) bool { return s.Kind != "space" }) {
			n++
		}
	}
	return n
}

func (c Check) rows(list []*demand.SortDemand, most int) (rows [][]string, more string) {
	a := c.Answer
	printing := a.Printing()
	for i, s := range list {
		if i == most && len(list) > most+1 {
			return rows, fmt.Sprintf("and %s more; --all shows every sort\n", Number(len(list)-i))
		}
		row := []string{
			sortName(s.Name), Ratio(1000*s.Total, printing, 1), Number(s.PageMax), Ratio(s.Total, len(a.Formes), 1),
			Number(s.Peak), Number(s.OnHand - s.Standing), Number(s.Available),
		}
		if c.fonts() > 1 {
			row = append([]string{s.Font}, row...)
		}
		rows = append(rows, row)
	}
	return rows, ""
}

// sortName is how a sort is named on the screen.
func sortName(name string) string { return Clean(name) }
