package report

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

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
		b.WriteString("\n" + table + Wrap("Lines: how many lines of text more went on the page than were cast off for it, by the set widths as entered; with a minus, fewer.", width))
		if doubts := doubtful(e); len(doubts) > 0 {
			b.WriteString("\n" + strings.Join(doubts, ""))
		}
		b.WriteString("\n" + Wrap(corrected(e), width))
	}
	table, err := marked(e.Pages)
	if err != nil {
		return "", err
	}
	b.WriteString("\n" + table + Wrap(givesKey, width))
	return b.String(), nil
}

// marked lists the pages of the copy, within the width.
func marked(pages []demand.PageEnd) (string, error) {
	rows := make([][]string, len(pages))
	for i, p := range pages {
		rows[i] = []string{strconv.Itoa(p.Page), strconv.Itoa(p.Forme), p.First, p.Last, Number(p.Lines), Number(p.In), Number(p.Out)}
	}
	columns := []Column{
		Numbers("page"), Numbers("forme"), Words("begins"), Words("ends"), Numbers("lines"), Numbers("in"), Numbers("out"),
	}
	narrow(columns, rows)
	return Table(columns, rows)
}

// narrow cuts the columns of words to what others leave of the width: of their shares alike, or more where one takes less. What is cut
// is farthest from the mark.
func narrow(columns []Column, rows [][]string) {
	const begins, ends = 2, 3
	widest := make([]int, len(columns))
	for x, c := range columns {
		widest[x] = utf8.RuneCountInString(c.Head)
		for _, row := range rows {
			row[x] = cell(row[x])
			widest[x] = max(widest[x], utf8.RuneCountInString(row[x]))
		}
	}
	room := width - 2*(len(columns)-1)
	for x, n := range widest {
		if x != begins && x != ends {
			room -= n
		}
	}
	if widest[begins]+widest[ends] <= room {
		return
	}
	first := max(room/2, room-widest[ends])
	last := max(room-first, room-widest[begins])
	for _, row := range rows {
		if r := []rune(row[begins]); len(r) > first {
			row[begins] = string(r[:max(first-1, 0)]) + "…"
		}
		if r := []rune(row[ends]); len(r) > last {
			row[ends] = "…" + string(r[len(r)-max(last-1, 0):])
		}
	}
}

// doubtful says what of the reports can hardly be, a sentence to each page.
func doubtful(e *demand.PageEnds) []string {
	var list []string
	for _, r := range e.Reported {
		if r.Far {
			by := "sooner"
			if r.Off > 0 {
				by = "later"
			}
			lines := Decimal((max(r.Off, -r.Off)+5)/10, 2) + " lines"
			if lines == "1 lines" {
				lines = "1 line"
			}
			list = append(list, Wrap(fmt.Sprintf("Page %d ended %s %s than cast off, more than a third of a page: see that this is meant.", r.Page, lines, by), width))
		}
	}
	for _, p := range e.Pages {
		if p.Over > 0 {
			text := fmt.Sprintf("Page %d cannot come out by these set widths: %s too many", p.Page, Count(p.Over, "line", "lines"))
			if p.In > 0 {
				text += fmt.Sprintf(", with %d got in", p.In)
			}
			list = append(list, Wrap(text+".", width))
		}
	}
	return list
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
		return fmt.Sprintf("%s, but they are further off than widths can be wrong, 5%% at the most (%s): the widths stand as entered. See that font and measure are those of the work.", told, mean(c.Before))
	case c.NoGain:
		return fmt.Sprintf("%s, but not alike: the widths stand as entered. Type %s would bring these pages nearest; but each page reckoned with what the others alone tell, the mean error would be %s, and as entered it is %s. That is no gain yet: more pages will tell.",
			told, running(c.Best), mean(c.After), mean(c.Before))
	case c.Before.Absolute == 0:
		return fmt.Sprintf("%s: they are right as entered.", told)
	case c.Widths == 10_000:
		return fmt.Sprintf("%s, and no others would bring the pages nearer: they stand as entered. The mean error is %s.", told, mean(c.Before))
	}
	return fmt.Sprintf("%s: the type runs %s, and all that comes after page %d is cast off with that. The mean error was %s; each page reckoned with what the others alone tell, it is %s.",
		told, running(c.Widths), e.Reported[len(e.Reported)-1].Page, mean(c.Before), mean(c.After))
}

// running says by how much type is off that takes so many ten-thousandths of its widths.
func running(times int) string {
	off, than := times-10_000, "wider"
	if off < 0 {
		off, than = -off, "narrower"
	}
	return fmt.Sprintf("%s%% %s than entered", Decimal(off, 2), than)
}
