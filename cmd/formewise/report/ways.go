package report

import (
	"fmt"
	"strings"

	"formewise/demand"
)

// ways says how the work can be printed all the same.
func (c Check) ways() (string, error) {
	a := c.Answer
	if a.Verdict == demand.Stands || a.Verdict == demand.Distribute {
		return "", nil
	}
	var list []string
	for _, s := range a.Eased() {
		list = append(list, fmt.Sprintf("set %s: the type carries that (%s)", scheduleWords(s), c.flags(s)))
	}
	if a.Sections != nil {
		list = append(list, fmt.Sprintf("set it in the %s below, each printed and distributed before the next", Count(len(a.Sections.List), "section", "sections")))
	}
	if buy := a.Wanting(); len(buy) > 0 {
		var parts []string
		for i, w := range buy {
			if i == mostShort {
				parts = append(parts, fmt.Sprintf("and %s more sorts", Number(len(buy)-i)))
				break
			}
			parts = append(parts, fmt.Sprintf("%s %s", Number(w.Pieces), sortName(w.Sort)))
		}
		list = append(list, "have cast or buy, allowance included: "+strings.Join(parts, ", "))
	}
	var b strings.Builder
	b.WriteString("Ways out\n")
	for _, way := range list {
		b.WriteString(strings.ReplaceAll(strings.TrimSuffix("- "+Wrap(way, width-2), "\n"), "\n", "\n  ") + "\n")
	}
	if len(a.Wanting()) > 0 {
		b.WriteString(Wrap(Caution, width))
	}
	return b.String(), nil
}

// flags are what asks for a schedule.
func (c Check) flags(s demand.Schedule) string {
	var parts []string
	if s.Seriatim != c.Answer.Plan.Schedule.Seriatim {
		parts = append(parts, "--setting by-formes")
	}
	if s.SheetRelease != c.Answer.Plan.Schedule.SheetRelease {
		parts = append(parts, "--release forme")
	}
	if s.Standing != c.Answer.Plan.Schedule.Standing {
		parts = append(parts, fmt.Sprintf("--standing %d", s.Standing))
	}
	return strings.Join(parts, " ")
}
