package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

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
	text, err := c.tables(list, mostShort, []Column{Numbers("short"), Words("runs out")}, func(s *demand.SortDemand) []string {
		at := "-"
		if s.RunsOut != nil {
			at = fmt.Sprintf("f. %d, p. %d, l. %d", s.RunsOut.Forme, s.RunsOut.Page, s.RunsOut.Line)
		}
		return []string{Number(s.Short), at}
	})
	return head + "\n" + text + Wrap(columnsKey, width), err
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
	text, err := c.tables(list, most, []Column{Numbers("used")}, func(s *demand.SortDemand) []string {
		if s.Peak == 0 {
			return []string{"-"}
		}
		return []string{Ratio(100*s.Peak, s.Available, 0) + "%"}
	})
	if !c.short() {
		text += Wrap(columnsKey, width)
	}
	return head + "\n" + text, err
}

// columnsKey explains the columns of the tables of sorts, under the first of them.
const columnsKey = "Of each sort: pieces in 1,000 of this text, most to a page, mean to a forme, most in use at once; " +
	"in the case, and of those usable, the allowance being kept back."

// tables shows sorts, with some columns more than all tables of sorts have. Where several fonts print, each has a table of
// its own under its name, and its spaces, drawn from another font or not, with the first.
func (c Check) tables(list []*demand.SortDemand, most int, more []Column, cells func(*demand.SortDemand) []string) (string, error) {
	var out strings.Builder
	groups := c.byFont(list)
	for i, group := range groups {
		if len(groups) > 1 {
			if i > 0 {
				out.WriteByte('\n')
			}
			out.WriteString(Clean(group[0].Font) + "\n")
		}
		rows, rest := c.rows(group, most, cells)
		columns := []Column{Words("sort"), Numbers("/1000"), Numbers("page"), Numbers("forme"), Numbers("in use"), Numbers("case"), Numbers("usable")}
		text, err := Table(append(columns, more...), rows)
		if err != nil {
			return "", err
		}
		out.WriteString(text + rest)
	}
	return out.String(), nil
}

// byFont parts sorts by the font they are of, in the order of the stock; sorts of fonts without letters stay with the first.
func (c Check) byFont(list []*demand.SortDemand) [][]*demand.SortDemand {
	var groups [][]*demand.SortDemand
	for i, f := range c.Answer.Stock {
		var group []*demand.SortDemand
		for _, s := range list {
			if s.Font == f.Name || i == 0 && !c.prints(s.Font) {
				group = append(group, s)
			}
		}
		if len(group) > 0 && (i == 0 || c.prints(f.Name)) {
			groups = append(groups, group)
		}
	}
	return groups
}

// prints tells whether a font of the work has letters, and not only spaces.
func (c Check) prints(font string) bool {
	for _, f := range c.Answer.Stock {
		if f.Name == font {
			return slices.ContainsFunc(f.Sorts, func(s demand.Sort) bool { return s.Kind != "space" })
		}
	}
	return false
}

func (c Check) rows(list []*demand.SortDemand, most int, cells func(*demand.SortDemand) []string) (rows [][]string, more string) {
	a := c.Answer
	printing := a.Printing()
	for i, s := range list {
		if i == most && len(list) > most+1 {
			return rows, fmt.Sprintf("and %s more; --all shows every sort\n", Number(len(list)-i))
		}
		row := []string{
			sortName(s.Name), Fixed(1000*s.Total, printing, 1), Number(s.PageMax), Fixed(s.Total, len(a.Formes), 1),
			Number(s.Peak), Number(s.OnHand - s.Standing), Number(s.Available),
		}
		rows = append(rows, append(row, cells(s)...))
	}
	return rows, ""
}

// sortName is how a sort is named on the screen.
func sortName(name string) string { return Clean(name) }
