package report

import (
	"fmt"
	"strconv"
	"strings"

	"formewise/demand"
)

const givesKey = "In: lines of the page that can be got in, with word spaces down to the thin. Out: lines that it can be driven out by, " +
	"with word spaces up to 2/3 em, an en and a sixth of an em."

// PageEnds is the marked copy as it is read on a screen.
func PageEnds(e *demand.PageEnds) (string, error) {
	var b strings.Builder
	b.WriteString(Wrap(Clean(fmt.Sprintf("%s: %s in %s. %s", e.Copy.Name, pages(len(e.Pages)), Count(len(e.Formes), "forme", "formes"), moved(e))), width))
	if len(e.Reported) > 0 {
		table, err := reported(e)
		if err != nil {
			return "", err
		}
		b.WriteString("\n" + table + Wrap("Lines: how much more of the copy went on the page than was cast off for it, by the set widths as entered; with a minus, less.", width))
		b.WriteString("\n" + Wrap(corrected(e), width))
	}
	rows := make([][]string, len(e.Pages))
	for i, p := range e.Pages {
		rows[i] = []string{strconv.Itoa(p.Page), strconv.Itoa(p.Forme), p.First, p.Last, Number(p.Lines), Number(p.In), Number(p.Out)}
	}
	table, err := Table([]Column{
		Numbers("page"), Numbers("forme"), Words("begins"), Words("ends"), Numbers("lines"), Numbers("in"), Numbers("out"),
	}, rows)
	if err != nil {
		return "", err
	}
	b.WriteString("\n" + table + Wrap(givesKey, width))
	return b.String(), nil
}

// moved says what the reports have changed.
func moved(e *demand.PageEnds) string {
	switch {
	case len(e.Reported) == 0:
		return "Mark the copy where each begins and ends."
	case len(e.Moved) == 0 && e.Before == len(e.Pages):
		return "No page begins elsewhere than cast off before."
	}
	text := "Cast off again; it was as many before."
	if e.Before != len(e.Pages) {
		text = fmt.Sprintf("Cast off again; it was %s before.", pages(e.Before))
	}
	if len(e.Moved) == 0 {
		return text + " No page begins elsewhere."
	}
	n, formes := Number(len(e.Moved)), Number(len(e.MovedFormes))
	return text + fmt.Sprintf(" %s %s %s elsewhere than before, in %s %s.", plural(n, "Page", "Pages"), Pages(e.Moved), plural(n, "begins", "begin"),
		plural(formes, "forme", "formes"), Pages(e.MovedFormes))
}

// reported lists the pages whose ends were reported.
func reported(e *demand.PageEnds) (string, error) {
	rows := make([][]string, len(e.Reported))
	for i, r := range e.Reported {
		rows[i] = []string{strconv.Itoa(r.Page), r.CastOff, r.Ended, signed(r.Off)}
	}
	return Table([]Column{Numbers("page"), Words("cast off to end"), Words("ended"), Numbers("lines")}, rows)
}

// signed writes thousandths of a line to two places, rounded half away from nothing, with their sign.
func signed(n int) string {
	text := hundredths(max(n, -n))
	switch {
	case text == hundredths(0):
		return text
	case n < 0:
		return "-" + text
	}
	return "+" + text
}

func hundredths(thousandths int) string {
	n := (thousandths + 5) / 10
	return fmt.Sprintf("%s.%02d", Number(n/100), n%100)
}

// corrected says what the reports tell of the set widths.
func corrected(e *demand.PageEnds) string {
	c := e.Correction
	if c == nil {
		return "The set widths stand as entered: it takes 3 pages, ended by no form feed, to correct them."
	}
	told := fmt.Sprintf("%s tell of the set widths", pages(c.Pages))
	mean := func(m demand.MeanError) string {
		return fmt.Sprintf("%s lines a page, %s whatever the sign", signed(m.Mean), hundredths(m.Absolute))
	}
	switch {
	case c.Beyond:
		return fmt.Sprintf("%s, but they are further off than widths can be wrong (%s): the widths stand as entered. See that font and measure are those of the work.", told, mean(c.Before))
	case c.Before.Absolute == 0:
		return fmt.Sprintf("%s: they are right as entered.", told)
	case c.Widths == 10_000:
		return fmt.Sprintf("%s, and no others would bring the pages nearer: they stand as entered. The mean error is %s.", told, mean(c.Before))
	}
	off, runs := c.Widths-10_000, "wider"
	if off < 0 {
		off, runs = -off, "narrower"
	}
	text := fmt.Sprintf("%s: the type runs %s%% %s than entered, and all that comes after page %d is cast off with that. The mean error was %s; each page reckoned with what the others alone tell, it is %s.",
		told, Decimal(off, 2), runs, e.Reported[len(e.Reported)-1].Page, mean(c.Before), mean(c.After))
	if c.After.Absolute >= c.Before.Absolute {
		text += " That is no gain yet: more pages will tell."
	}
	return text
}
