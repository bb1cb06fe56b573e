package report

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"formewise/demand"
	"formewise/demand/page"
	"formewise/demand/standing"
)

// How many rows a list shows before it says how many more there are.
const (
	tightest     = 10 // sorts that hold, the tightest first
	mostShort    = 20
	mostSections = 12
	mostSigns    = 12
)

// Width is what a report is set to, in characters: the same in every window and in a pipe.
const Width = 80

const width = Width

// Text is the answer as it is read on a screen: the verdict first, then what runs short, then the rest.
func (c Check) Text() (string, error) {
	return c.say(c.shortSorts, c.missing, c.ways, c.canStand, c.sections, c.holding, c.madeUp, c.kerned, c.restsOn)
}

// say puts parts under the verdict, with an empty line between; a part that has nothing to say is left out.
func (c Check) say(parts ...func() (string, error)) (string, error) {
	var b strings.Builder
	b.WriteString(c.verdict())
	b.WriteString("\n" + c.extent())
	for _, part := range parts {
		text, err := part()
		if err != nil {
			return "", err
		}
		if text != "" {
			b.WriteString("\n" + text)
		}
	}
	return b.String(), nil
}

// Brief is the answer in a few lines: the verdict, what runs short and the ways out.
func (c Check) Brief() (string, error) { return c.say(c.shortSorts, c.missing, c.ways, c.sections) }

// verdict is the answer in a sentence or two.
func (c Check) verdict() string {
	a := c.Answer
	work := fmt.Sprintf("%s on %s", pages(a.CastOff.Pages), c.paper())
	runs := ""
	if s := firstOut(a.Sorts); s != nil {
		at := s.RunsOut
		runs = fmt.Sprintf("%s runs out in forme %d, page %d, line %d: %s wanted, %s to be counted on",
			sortName(s.Name), at.Forme, at.Page, at.Line, Number(s.Peak), Number(s.Available))
	}
	var text string
	switch a.Verdict {
	case demand.Stands:
		text = fmt.Sprintf("Yes. The work makes %s, and all of it can stand at once: no type need be distributed before the end.", work)
	case demand.Distribute:
		text = fmt.Sprintf("Yes. The work makes %s. The type carries it %s; not all of it can stand at once, so distribute as the schedule says.", work, c.schedule())
		if runs != "" { // the pool of spaces makes up for it
			text += " Of the spaces, " + runs + ": others make it up."
		}
	case demand.InSections:
		text = fmt.Sprintf("Not straight through. The work makes %s, and set %s the type gives out: %s. It can be set in %s.",
			work, c.schedule(), orPool(runs), Count(len(a.Sections.List), "section", "sections"))
	default:
		text = fmt.Sprintf("No. The work makes %s, and the type does not carry even each page by itself: %s.", work, orPool(runs))
	}
	if n := len(a.Missing); n > 0 {
		lacks := fmt.Sprintf("%s of the copy %s no sort in the font", Count(n, "character", "characters"), plural(Number(n), "has", "have"))
		if a.Verdict == demand.Stands || a.Verdict == demand.Distribute {
			text = "Not yet: " + lacks + ". For the rest: yes" + strings.TrimPrefix(text, "Yes")
		} else {
			text += " Besides, " + lacks + "."
		}
	}
	return Wrap(Clean(text), width)
}

func orPool(runs string) string {
	if runs == "" {
		return "the spaces and quads together do not fill it"
	}
	return runs
}

// firstOut is the sort that runs out first under the schedule, printing sorts before spaces; nil if none does.
func firstOut(list []demand.SortDemand) *demand.SortDemand {
	var first *demand.SortDemand
	for i := range list {
		s := &list[i]
		if s.RunsOut == nil {
			continue
		}
		if first == nil || before(s, first) {
			first = s
		}
	}
	return first
}

func before(a, b *demand.SortDemand) bool {
	if x, y := a.Kind == "space", b.Kind == "space"; x != y {
		return y
	}
	p, q := a.RunsOut, b.RunsOut
	switch {
	case p.Forme != q.Forme:
		return p.Forme < q.Forme
	case p.Page != q.Page:
		return p.Page < q.Page
	}
	return p.Line < q.Line
}

func (c Check) paper() string {
	sheets := Decimal(c.Answer.CastOff.HalfSheets*5, 1)
	switch {
	case c.Format == "single":
		return fmt.Sprintf("%s %s", sheets, plural(sheets, "leaf", "leaves"))
	case c.Answer.Plan.Imposing.HalfSheet:
		return fmt.Sprintf("%s %s in half-sheet %s", sheets, plural(sheets, "sheet", "sheets"), c.Format)
	}
	return fmt.Sprintf("%s %s in %s", sheets, plural(sheets, "sheet", "sheets"), c.Format)
}

func plural(number, one, more string) string {
	if number == "1" {
		return one
	}
	return more
}

func pages(n int) string { return Count(n, "page", "pages") }

// schedule is how the work is set, in words.
func (c Check) schedule() string { return scheduleWords(c.Answer.Plan.Schedule) }

func scheduleWords(s standing.Schedule) string {
	text := "by formes"
	if s.Seriatim {
		text = "seriatim"
	}
	switch {
	case s.Standing == standing.All:
		return text + " with all formes left standing"
	case s.Standing > 0:
		text += fmt.Sprintf(" with %s left standing", Count(s.Standing, "forme", "formes"))
	default:
		text += " with no finished forme left standing"
	}
	if s.SheetRelease {
		text += ", the formes of a sheet released together"
	}
	return text
}

// extent is the cast-off: what was read and what it makes.
func (c Check) extent() string {
	a := c.Answer
	em := a.Stock[0].Body
	leads := ""
	if a.CastOff.LeadsPage > 0 {
		leads = fmt.Sprintf(" Led with %spt: %s to the page, %s in use at once.", Decimal(a.Plan.Page.Leading, 3),
			Count(a.CastOff.LeadsPage, "lead", "leads"), Number(a.CastOff.LeadsPeak))
	}
	return Wrap(Clean(fmt.Sprintf("%s: %s in %s of %s of %s, %s to the page. %s of up to %s; at the most %s in use at once.%s",
		a.Copy.Name, Count(a.Copy.Words, "word", "words"), Count(a.CastOff.Lines, "line", "lines"), ems(a.Plan.Measure, em), a.Stock[0].Name,
		Count(a.Plan.Lines, "line", "lines"), capital(Count(len(a.Formes), "forme", "formes")), pages(a.PagesPerForme()), pages(a.AtPeak), leads)), width)
}

// ems is a length in ems of a body: "22 ems".
func ems(length, body int) string {
	text := Ratio(length, body, 2)
	return text + " " + plural(text, "em", "ems")
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// canStand says how much can stand at once, and what stops it.
func (c Check) canStand() (string, error) {
	s := c.Answer.Stand
	if s.LimitedBy == nil {
		return "", nil
	}
	if s.PagesAnywhere == 0 {
		return Wrap(fmt.Sprintf("Standing: some page cannot stand even by itself, for want of %s. From the first page, %s and %s can.",
			limitName(s.LimitedBy), pages(s.PagesFromStart), Count(s.LinesFromStart, "line", "lines")), width), nil
	}
	run := fmt.Sprintf("any %s on end can stand at once", pages(s.PagesAnywhere))
	if s.PagesAnywhere == 1 {
		run = "any page can stand by itself"
	}
	formes := "but not every forme"
	if s.Formes > 0 {
		formes = "and any " + Count(s.Formes, "forme", "formes")
	}
	return Wrap(fmt.Sprintf("Standing: %s, %s; from the first page %s, %s. One page more is stopped by %s.",
		run, formes, pages(s.PagesFromStart), Count(s.LinesFromStart, "line", "lines"), limitName(s.LimitedBy)), width), nil
}

func limitName(l *standing.Limit) string {
	if l.Sort == standing.Spacing {
		return fmt.Sprintf("the spaces and quads of %s (short by %s)", l.Font, Count(l.Short, "em", "ems"))
	}
	return fmt.Sprintf("%s of %s (short by %s)", sortName(l.Sort), l.Font, Number(l.Short))
}

// sections lists the sections the work can be set in.
func (c Check) sections() (string, error) {
	a := c.Answer
	if a.Sections == nil || a.Verdict == demand.Stands {
		return "", nil
	}
	list := a.Sections.List
	unit := map[string]string{"sheet": "whole sheets", "forme": "whole formes", "pull": "part of a forme at a pull"}[a.Sections.Unit]
	head := Wrap(fmt.Sprintf("Sections: %s, %s. Each is set, printed and distributed before the next.", Number(len(list)), unit), width)
	var whole [][]string
	endsWidth := 0
	for i, s := range list {
		if i == mostSections && len(list) > mostSections+1 {
			break
		}
		ends := "end of the work"
		switch {
		case s.LimitedBy != nil:
			ends = limitName(s.LimitedBy)
		case a.Sections.Unit == "pull":
			ends = "end of the forme"
		}
		whole = append(whole, []string{Number(i + 1), Pages(s.Pages), ends})
		endsWidth = max(endsWidth, utf8.RuneCountInString(cell(ends)))
	}
	// What stops a section is short unless the name of its font is long; the pages have the rest of the line.
	endsWidth = min(endsWidth, width/2)
	pagesWidth := width - len(Number(len(whole))) - endsWidth - 4
	var rows [][]string
	for _, row := range whole {
		rows = append(rows, fold(row, 0, pagesWidth, endsWidth)...)
	}
	text, err := Table([]Column{Numbers(""), Words("pages"), Words("ended by")}, rows)
	if more := len(list) - len(whole); more > 0 {
		text += fmt.Sprintf("and %s more; --json has them all\n", Number(more))
	}
	return head + text, err
}

// missing lists the characters that no sort prints.
func (c Check) missing() (string, error) {
	list := c.Answer.Missing
	if len(list) == 0 {
		return "", nil
	}
	var rows [][]string
	for i, u := range list {
		if i == mostSigns && len(list) > mostSigns+1 {
			break
		}
		rows = append(rows, []string{string(u.Character), code(u.Character), Number(u.Count), fmt.Sprintf("page %d, line %d", u.Page, u.Line)})
	}
	text, err := Table([]Column{Words("no sort for"), Words("code"), Numbers("times"), Words("first on")}, rows)
	if more := len(list) - len(rows); more > 0 {
		text += fmt.Sprintf("and %s more; --json has them all\n", Number(more))
	}
	text += "Each holds the place of an en."
	// No sort prints what is not seen.
	if i := slices.IndexFunc(list, func(u demand.Use) bool { return !unsafe(u.Character) }); i >= 0 {
		sign := Quoted(string(list[i].Character))
		text += fmt.Sprintf(" To enter a sort once it is bought:\n  formewise font edit %s --add %s --text %s --set 0.5 --count N",
			Clean(Quoted(c.Answer.Stock[0].Name)), sign, sign)
	}
	return text + "\n", err
}

// madeUp lists the characters that were set from other sorts.
func (c Check) madeUp() (string, error) {
	list := c.Answer.MadeUp
	if len(list) == 0 {
		return "", nil
	}
	var said []string
	for i, u := range list {
		if i == mostSigns && len(list) > mostSigns+1 {
			said = append(said, fmt.Sprintf("and %s more", Number(len(list)-i)))
			break
		}
		said = append(said, fmt.Sprintf("%c as %s (%s), %s", u.Character, u.Set, u.Note, times(u.Count)))
	}
	return Wrap(Clean("Made up from other sorts: "+strings.Join(said, "; ")+"."), width), nil
}

// kerned says what came of the kerned sorts that met what they would strike.
func (c Check) kerned() (string, error) {
	var said []string
	for _, k := range c.Answer.Kerned {
		text := fmt.Sprintf("%s eased by a %s %s, first on page %d, line %d", sortName(k.Sort), spaceName(k.Space), times(k.Count), k.Page, k.Line)
		if k.Space == "" {
			text = fmt.Sprintf("%s left beside what it strikes %s, first on page %d, line %d, for want of a thin space", sortName(k.Sort), times(k.Count), k.Page, k.Line)
		}
		said = append(said, text)
	}
	if said == nil {
		return "", nil
	}
	return Wrap(Clean("Kerned sorts: "+strings.Join(said, "; ")+"."), width), nil
}

// spaceName names a space in a sentence.
func spaceName(sort string) string { return strings.TrimSuffix(sort, " space") + " space" }

func times(n int) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return Number(n) + " times"
}

// restsOn says how far the answer can be trusted.
func (c Check) restsOn() (string, error) {
	a := c.Answer
	kept := "kept back of every sort: " + c.Allowance
	if a.Plan.Allowance.OfPage {
		kept = "kept back of every sort: what " + strings.TrimSuffix(c.Allowance, "page") + " of an average page takes"
	}
	bases := map[string]int{}
	for _, s := range a.Sorts {
		bases[s.Basis]++
	}
	var known []string
	for _, basis := range []string{"counted", "weighed", "measured", "bill"} {
		if n := bases[basis]; n > 0 {
			how := map[string]string{"counted": "counted", "weighed": "weighed", "measured": "measured in a row", "bill": "known by a founder's bill"}[basis]
			known = append(known, fmt.Sprintf("%s %s", Number(n), how))
		}
	}
	divided := "words divided by the patterns for " + c.Divide
	if c.Divide == "none" {
		divided = "words divided only at soft hyphens"
	}
	if c.Divided != "" {
		divided += Clean(fmt.Sprintf(" and by hand as in %q", c.Divided))
	}
	text := fmt.Sprintf("The answer rests on the stock book (sorts: %s), on the set widths entered with the font, and on %s; %s.",
		strings.Join(known, ", "), divided, kept)
	if n := len(a.Forced); n > 0 {
		words := Count(n, "word", "words")
		if n == page.MostForced {
			words = "At least " + words
		}
		text += fmt.Sprintf(" %s longer than the measure had to be divided where it would, first on page %d, line %d.", words, a.Forced[0].Page, a.Forced[0].Line)
	}
	if n := a.Plan.Initials; n > 0 && !slices.ContainsFunc(a.Sorts, func(s demand.SortDemand) bool { return s.Font == a.Stock[n].Name && s.Total > 0 }) {
		text += fmt.Sprintf(" No initial is set: no part of the work begins with a paragraph of three lines whose first letter %s has.", a.Stock[n].Name)
	}
	return Wrap(Clean(text), width), nil
}
