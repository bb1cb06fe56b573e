package main

import (
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"math/big"
	"slices"
	"strings"

	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// A contractKey names a sort among all fonts.
type contractKey struct{ font, sort string }

// A contractPile is pieces by sort.
type contractPile map[contractKey]int

func (p contractPile) add(more contractPile, times int) {
	for k, n := range more {
		p[k] += times * n
	}
}

// A model reckons a work again from its lines, in the plainest way there is: every question goes over every page.
type model struct {
	contractAsked
	check contractAnswer
	lines []contractLine
	sorts map[contractKey]contractSort
	pages [][]contractLine // by page, from 0
	takes []contractPile   // by page, from 0
}

func newModel(t *rapid.T, a contractAsked, check contractAnswer, lines []contractLine) *model {
	m := &model{contractAsked: a, check: check, lines: lines, sorts: map[contractKey]contractSort{}}
	for _, s := range check.Sorts {
		k := contractKey{s.Font, s.Sort}
		if _, twice := m.sorts[k]; twice {
			t.Fatalf("%v is there twice", k)
		}
		m.sorts[k] = s
	}
	for _, l := range lines {
		switch at := len(m.pages) + a.firstPage; l.Page {
		case at: // a new page
			m.pages, m.takes = append(m.pages, nil), append(m.takes, contractPile{})
		case at - 1:
		default:
			t.Fatalf("page %d comes after page %d", l.Page, at-1)
		}
		last := len(m.pages) - 1
		m.pages[last] = append(m.pages[last], l)
		m.takes[last].add(m.pieces(t, l), 1)
	}
	return m
}

// pieces is what a line takes: a character without a sort is demand on none.
func (m *model) pieces(t *rapid.T, l contractLine) contractPile {
	p := contractPile{}
	for _, r := range l.Runs {
		for _, s := range r.Sorts {
			if strings.HasPrefix(s, "?U+") {
				continue
			}
			k := contractKey{r.Font, s}
			if _, known := m.sorts[k]; !known {
				t.Fatalf("page %d, line %d: no sort %v", l.Page, l.Line, k)
			}
			p[k]++
		}
	}
	return p
}

// same fails where what check says is not what the lines come to.
func same(t *rapid.T, what string, check, lines any) {
	if d := gocmp.Diff(lines, check, gocmp.AllowUnexported(contractKey{})); d != "" {
		t.Fatalf("%s (-reckoned from the lines, +check):\n%s", what, d)
	}
}

// holdsLines: kinds and numbers of lines, no line longer than the measure, none filled to less than a twentieth of an em.
func (m *model) holdsLines(t *rapid.T) {
	text := 0
	for _, page := range m.pages {
		body := 0
		for i, l := range page {
			at := fmt.Sprintf("page %d, line %d", l.Page, l.Line)
			empty := true
			for _, r := range l.Runs {
				empty = empty && len(r.Sorts) == 0
			}
			switch l.Kind {
			case "text", "blank":
				if body++; l.Line != body {
					t.Fatalf("%s: it is number %d of its page", at, body)
				}
				if l.Kind == "text" {
					text++
				} else if !empty {
					t.Fatalf("%s: a blank line with sorts", at)
				}
			case "head":
				if l.Line != 0 || i != 0 {
					t.Fatalf("%s: a head line", at)
				}
			case "direction":
				if i != len(page)-1 || l.Line <= body {
					t.Fatalf("%s: a direction line after %d lines", at, body)
				}
			default:
				t.Fatalf("%s: kind %q", at, l.Kind)
			}
			if l.Kind != "blank" {
				if empty || l.Set > l.Measure || l.Set+l.Wants != l.Measure || l.Wants < 0 {
					t.Fatalf("%s: measure %d, set %d, wants %d", at, l.Measure, l.Set, l.Wants)
				}
				// Where there is no gap to open, less than a hair cannot be made up.
				if 20*l.Wants > m.body && (m.gaps(l) || 11*l.Wants > m.body) {
					t.Fatalf("%s: wants %d of %d an em", at, l.Wants, m.body)
				}
				if width := m.width(t, l); l.Set != width {
					t.Fatalf("%s: set %d, but its sorts come to %d", at, l.Set, width)
				}
			}
			if last := m.lastPrinting(l); l.Broken && last != "hyphen" {
				t.Fatalf("%s: broken, and ends in %q", at, last)
			}
		}
		if most := m.contractAsked.lines; body > most && !m.uneven || body > most+1 {
			t.Fatalf("page %d has %d lines", page[0].Page, body)
		}
	}
	same(t, "lines of text", m.check.CastOff.Lines, text)
	same(t, "pages", m.check.CastOff.Pages, len(m.pages))
}

// holdsFullPages: prose without a form feed fills every page but the last, and leaves no line blank.
func (m *model) holdsFullPages(t *rapid.T) {
	for i, page := range m.pages {
		if n := len(page); i < len(m.pages)-1 && n != m.contractAsked.lines {
			t.Fatalf("page %d of %d has %d lines", i+1, len(m.pages), n)
		}
		for _, l := range page {
			if l.Kind != "text" {
				t.Fatalf("page %d, line %d is %s", l.Page, l.Line, l.Kind)
			}
		}
	}
}

// width adds up a line's sorts, each rounded to a thousandth of a point, half up; a missing one is an en.
func (m *model) width(t *rapid.T, l contractLine) int {
	sum := 0
	for _, r := range l.Runs {
		for _, s := range r.Sorts {
			if strings.HasPrefix(s, "?U+") {
				sum += m.body / 2
			} else {
				sum += (millionths(t, m.sorts[contractKey{r.Font, s}].Set)*m.body + 500_000) / 1_000_000
			}
		}
	}
	return sum
}

// gaps tells whether a line has a space between printing sorts.
func (m *model) gaps(l contractLine) bool {
	printed, spaced := false, false
	for _, r := range l.Runs {
		for _, s := range r.Sorts {
			switch space := m.sorts[contractKey{r.Font, s}].Kind == "space"; {
			case space:
				spaced = spaced || printed
			case spaced:
				return true
			default:
				printed = true
			}
		}
	}
	return false
}

func (m *model) lastPrinting(l contractLine) string {
	last := ""
	for _, r := range l.Runs {
		for _, s := range r.Sorts {
			if m.sorts[contractKey{r.Font, s}].Kind != "space" {
				last = s
			}
		}
	}
	return last
}

func millionths(t *rapid.T, n json.Number) int {
	r, ok := new(big.Rat).SetString(n.String())
	if !ok || !r.Mul(r, big.NewRat(1_000_000, 1)).IsInt() {
		t.Fatalf("%s is no set width", n)
	}
	return int(r.Num().Int64())
}

// ratio is a/b to two decimals, half up, as JSON has it.
func ratio(a, b int) json.Number {
	text := new(big.Rat).SetFrac64(int64(a), int64(max(b, 1))).FloatString(2)
	return json.Number(strings.TrimSuffix(strings.TrimRight(text, "0"), "."))
}

// ceiling is n·num/den, rounded up.
func ceiling(n, num, den int) int { return (n*num + den - 1) / den }

// holdsSorts: the formes have each page once, and every figure of every sort is what the lines and the schedule come to.
func (m *model) holdsSorts(t *rapid.T) {
	formeOf := map[int]int{}
	for i, f := range m.check.Formes {
		if f.Forme != i+1 || len(f.Pages) == 0 || !slices.IsSorted(f.Pages) {
			t.Fatalf("forme %d is %v", i+1, f)
		}
		for _, p := range f.Pages {
			if _, twice := formeOf[p]; twice || p < m.firstPage || p >= m.firstPage+len(m.pages) {
				t.Fatalf("forme %d: page %d", i+1, p)
			}
			formeOf[p] = i
		}
	}
	same(t, "pages in formes", len(formeOf), len(m.pages))
	same(t, "formes", m.check.CastOff.Formes, len(m.check.Formes))

	want := map[contractKey]contractSort{}
	printing := 0
	for k, s := range m.sorts {
		w := contractSort{Font: s.Font, Sort: s.Sort, Kind: s.Kind, Set: s.Set, OnHand: s.OnHand}
		for _, takes := range m.takes {
			w.Total += takes[k]
			w.PageMax = max(w.PageMax, takes[k])
		}
		for _, f := range m.check.Formes {
			w.FormeMax = max(w.FormeMax, m.sum(f.Pages)[k])
		}
		if s.Kind != "space" {
			printing += w.Total
		}
		w.FormeMean = ratio(w.Total, len(m.check.Formes))
		w.KeptBack = ceiling(w.OnHand, m.num, m.den)
		if m.ofPage {
			w.KeptBack = ceiling(w.Total, m.num, m.den*len(m.pages))
		}
		w.Available = max(0, w.OnHand-w.KeptBack)
		want[k] = w
	}
	m.play(t, formeOf, func(k contractKey, inUse, forme int, at contractLine, pageSet bool) {
		w := want[k]
		if pageSet && inUse > w.Peak {
			w.Peak, w.PeakForme = inUse, forme
		}
		if !pageSet && inUse > w.Available && w.RunsOut == nil {
			w.RunsOut = &contractPlace{forme, at.Page, at.Line}
		}
		want[k] = w
	})
	straight := contractPile{}
	for _, l := range m.lines {
		for k, n := range m.pieces(t, l) {
			if straight[k] += n; straight[k] > want[k].Available && want[k].Straight == nil {
				w := want[k]
				w.Straight = &contractPlace{0, l.Page, l.Line}
				want[k] = w
			}
		}
	}
	for k, w := range want {
		w.PerThousand = ratio(1000*w.Total, printing)
		w.Short = max(0, w.Peak-w.Available)
		want[k] = w
	}
	same(t, "sorts", m.sorts, want)
}

// sum is what some pages take together.
func (m *model) sum(pages []int) contractPile {
	p := contractPile{}
	for _, page := range pages {
		p.add(m.takes[page-m.firstPage], 1)
	}
	return p
}

// play goes through the schedule. It tells of every sort how much of it is in use after each line that takes some of it,
// and, pageSet, after each page, in which forme that is, counted from 1. What is in use at the most is the answer's business
// too: whether that can stand.
func (m *model) play(t *rapid.T, formeOf map[int]int, tell func(k contractKey, inUse, forme int, at contractLine, pageSet bool)) (holds bool) {
	var order []int
	for _, f := range m.check.Formes {
		order = append(order, f.Pages...)
	}
	if m.seriatim {
		slices.Sort(order)
	}
	left := map[int]int{} // pages of a forme yet to be set
	for _, f := range formeOf {
		left[f]++
	}
	inUse := contractPile{}
	var standing []int // formes, that which has stood longest first
	holds = true
	for _, page := range order {
		f := formeOf[page]
		for _, l := range m.pages[page-m.firstPage] {
			for k, n := range m.pieces(t, l) {
				inUse[k] += n
				tell(k, inUse[k], f+1, l, false)
			}
		}
		for k, n := range inUse {
			tell(k, n, f+1, contractLine{}, true)
		}
		holds = holds && m.canStand(inUse)
		if left[f]--; left[f] > 0 {
			continue
		}
		standing = append(standing, f)
		for m.standing >= 0 && len(standing) > m.standing {
			gone := []int{standing[0]}
			if m.bySheet {
				waits := false
				gone = nil
				for other, g := range m.check.Formes {
					if g.Sheet == m.check.Formes[standing[0]].Sheet {
						gone = append(gone, other)
						waits = waits || left[other] > 0
					}
				}
				if waits {
					break
				}
			}
			for _, f := range gone {
				inUse.add(m.sum(m.check.Formes[f].Pages), -1)
				standing = slices.DeleteFunc(standing, func(s int) bool { return s == f })
			}
		}
	}
	return holds
}

// holdsMissing: characters without a sort, by the order in which they first stand.
func (m *model) holdsMissing(t *rapid.T) {
	want := []contractMissing{}
	for _, l := range m.lines {
		for _, r := range l.Runs {
			for _, s := range r.Sorts {
				code, missing := strings.CutPrefix(s, "?")
				if !missing {
					continue
				}
				i := slices.IndexFunc(want, func(w contractMissing) bool { return w.Code == code })
				if i < 0 {
					var c rune
					if _, err := fmt.Sscanf(code, "U+%X", &c); err != nil {
						t.Fatal(err)
					}
					want = append(want, contractMissing{Character: string(c), Code: code, Page: l.Page, Line: l.Line})
					i = len(want) - 1
				}
				want[i].Count++
			}
		}
	}
	same(t, "missing", m.check.Missing, want)
}

// over is by how much a pile is more than what is available: of printing sorts piece by piece, of each font's spaces and
// quads, under the name of "spacing", in thousandths of an em.
func (m *model) over(p contractPile) map[contractKey]int {
	over, pool := map[contractKey]int{}, map[contractKey]int{}
	for k, s := range m.sorts {
		if s.Kind != "space" {
			if n := p[k] - s.Available; n > 0 {
				over[k] = n
			}
			continue
		}
		set, _ := new(big.Rat).SetString(s.Set.String())
		set.Mul(set, big.NewRat(2000, 1)).Add(set, big.NewRat(1, 1)) // half up
		width := int(new(big.Int).Div(set.Num(), new(big.Int).Lsh(set.Denom(), 1)).Int64())
		pool[contractKey{s.Font, "spacing"}] += (p[k] - s.Available) * width
	}
	for k, n := range pool {
		if n > 0 {
			over[k] = n
		}
	}
	return over
}

func (m *model) canStand(p contractPile) bool { return len(m.over(p)) == 0 }

// limit is the sort with the largest shortfall, the first of equals by font, then sort.
func (m *model) limit(p contractPile) *contractLimit {
	over := m.over(p)
	for k := range over {
		if k.sort == "spacing" {
			over[k] = ceiling(over[k], 1, 1000)
		}
	}
	keys := slices.SortedFunc(maps.Keys(over), func(a, b contractKey) int {
		return cmp.Or(cmp.Compare(over[b], over[a]), cmp.Compare(a.font, b.font), cmp.Compare(a.sort, b.sort))
	})
	if len(keys) == 0 {
		return nil
	}
	return &contractLimit{keys[0].font, keys[0].sort}
}

// longest is the greatest number of units of which every run can stand, and the first run of one more that cannot.
func (m *model) longest(units [][]int) (n int, stopped []int) {
	for n = range len(units) {
		for at := range len(units) - n {
			if run := slices.Concat(units[at : at+n+1]...); !m.canStand(m.sum(run)) {
				return n, run
			}
		}
	}
	return len(units), nil
}

func (m *model) eachPage() [][]int {
	var units [][]int
	for i := range m.pages {
		units = append(units, []int{i + m.firstPage})
	}
	return units
}

func (m *model) eachForme() [][]int {
	var units [][]int
	for _, f := range m.check.Formes {
		units = append(units, f.Pages)
	}
	return units
}

// holdsStanding: what can stand, tried run by run and line by line.
func (m *model) holdsStanding(t *rapid.T) {
	var want contractStand
	var stopped []int
	if want.PagesAnywhere, stopped = m.longest(m.eachPage()); stopped != nil {
		want.LimitedBy = m.limit(m.sum(stopped))
	}
	want.Formes, _ = m.longest(m.eachForme())
	first := slices.Concat(m.eachPage()...)
	for want.PagesFromStart < len(first) && m.canStand(m.sum(first[:want.PagesFromStart+1])) {
		want.PagesFromStart++
	}
	set := contractPile{}
	for _, l := range m.lines {
		if set.add(m.pieces(t, l), 1); !m.canStand(set) {
			break
		}
		if l.Kind == "text" {
			want.LinesFromStart++
		}
	}
	same(t, "can stand", m.check.CanStand, want)
}

// holdsSections: whole sheets or gatherings if they go, else formes, else the pages of each forme.
func (m *model) holdsSections(t *rapid.T) {
	var gatherings [][]int
	last := -1
	for _, f := range m.check.Formes {
		if g := (f.Sheet - 1) / m.in; g != last {
			gatherings, last = append(gatherings, nil), g
		}
		gatherings[len(gatherings)-1] = append(gatherings[len(gatherings)-1], f.Pages...)
	}
	var want *contractSections
	if list := m.cut(gatherings); list != nil {
		want = &contractSections{"sheet", list}
	} else if list := m.cut(m.eachForme()); list != nil {
		want = &contractSections{"forme", list}
	} else {
		want = &contractSections{Unit: "pull"}
		for _, f := range m.check.Formes {
			var pages [][]int
			for _, p := range f.Pages {
				pages = append(pages, []int{p})
			}
			list := m.cut(pages)
			if list == nil {
				want = nil
				break
			}
			want.List = append(want.List, list...)
		}
	}
	same(t, "sections", m.check.Sections, want)
}

// cut takes as many units at a time as can stand; nil where one cannot.
func (m *model) cut(units [][]int) []contractSection {
	var list []contractSection
	for len(units) > 0 {
		n := len(units)
		for n > 0 && !m.canStand(m.sum(slices.Concat(units[:n]...))) {
			n--
		}
		if n == 0 {
			return nil
		}
		s := contractSection{Pages: slices.Sorted(slices.Values(slices.Concat(units[:n]...)))}
		if n < len(units) {
			s.LimitedBy = m.limit(m.sum(slices.Concat(units[:n+1]...)))
		}
		list = append(list, s)
		units = units[n:]
	}
	return list
}

// holdsVerdict: the verdict, and that the exit code is it.
func (m *model) holdsVerdict(t *rapid.T, code int) {
	formeOf := map[int]int{}
	for i, f := range m.check.Formes {
		for _, p := range f.Pages {
			formeOf[p] = i
		}
	}
	all := slices.Concat(m.eachPage()...)
	want := "short"
	switch {
	case m.canStand(m.sum(all)):
		want = "stands"
	case m.play(t, formeOf, func(contractKey, int, int, contractLine, bool) {}):
		want = "distribute"
	case m.check.Sections != nil:
		want = "sections"
	}
	same(t, "verdict", m.check.Verdict, want)
	wantCode := codeShort
	if (want == "stands" || want == "distribute") && len(m.check.Missing) == 0 {
		wantCode = codeDone
	}
	same(t, "exit code", code, wantCode)
}
