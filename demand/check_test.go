package demand_test

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"formewise/demand"
	"formewise/demand/impose"
	"formewise/demand/internal/trial"
	"formewise/demand/standing"
	"formewise/texts/read"
)

// few is a font of a few sorts, to reckon with by hand: ten-point, every letter an en wide.
func few(onHand map[string]int) demand.Stock {
	font := demand.Font{Name: "Few 10", Body: 10_000}
	for _, s := range []demand.Sort{
		{Name: "a", Text: "a", Kind: "lower", Set: 500_000},
		{Name: "b", Text: "b", Kind: "lower", Set: 500_000},
		{Name: "hyphen", Text: "-", Kind: "point", Set: 300_000},
		{Name: "em quad", Kind: "space", Set: 1_000_000},
		{Name: "en quad", Kind: "space", Set: 500_000},
		{Name: "thick", Kind: "space", Set: 333_333},
	} {
		s.OnHand = onHand[s.Name]
		font.Sorts = append(font.Sorts, s)
	}
	return demand.Stock{font}
}

// twoPages is a work of two quarto pages of two lines, each of 10 ems:
//
//	page 1    aab     1½ ems of letters, then an en and 8 em quads
//	          b b     1 em of letters, a thick space; 8⅔ ems are left: two thick spaces and 8 em quads
//	page 2    abþ     1½ ems, the þ an en of them; an en and 8 em quads
//	          ab      1 em, then 9 em quads
//
// Page 2 is the inner forme and is set first, page 1 the outer.
func twoPages(t testing.TB) (demand.Plan, *read.Copy) {
	t.Helper()
	return demand.Plan{
		Measure: 100_000, Lines: 2, FirstPage: 1,
		Imposing:  impose.Plan{Format: "quarto", In: 1},
		Allowance: demand.Allowance{Num: 10, Den: 100},
	}, trial.Copy(t, []byte("aab\nb b\nabþ\nab\n"), true)
}

// A failing is what rapid's and testing's tests have in common.
type failing interface {
	Helper()
	Context() context.Context
	Fatalf(format string, args ...any)
}

func check(t failing, plan demand.Plan, stock demand.Stock, copy *read.Copy) *demand.Answer {
	t.Helper()
	a, err := demand.Check(t.Context(), plan, stock, copy)
	if err != nil {
		t.Fatalf("check: %v", err)
	}
	return a
}

// place writes where a sort runs out.
func place(p *standing.Place) string {
	if p == nil {
		return ""
	}
	if p.Forme == 0 {
		return fmt.Sprintf("page %d line %d", p.Page, p.Line)
	}
	return fmt.Sprintf("forme %d page %d line %d", p.Forme, p.Page, p.Line)
}

// row is what a check finds of a sort: name; kept back, available; in all, on the page and in the forme that takes most; peak, its
// forme, short; where it runs out, and where straight on.
func row(s demand.SortDemand) string {
	return fmt.Sprintf("%s: %d %d; %d %d %d; %d %d %d; %s; %s", s.Name, s.KeptBack, s.Available, s.Total, s.PageMax, s.FormeMax, s.Peak, s.PeakForme, s.Short, place(s.RunsOut), place(s.Straight))
}

func rows(a *demand.Answer) []string {
	var list []string
	for _, s := range a.Sorts {
		list = append(list, row(s))
	}
	return list
}

// Every figure of a check of two pages, where b is too few for one of them.
func TestCheckByHand(t *testing.T) {
	plan, copy := twoPages(t)
	stock := few(map[string]int{"a": 3, "b": 3, "em quad": 40, "en quad": 2, "thick": 4})
	stock[0].Sorts[5].Standing = 1 // of the thick spaces
	a := check(t, plan, stock, copy)

	want := []string{
		"a: 1 2; 4 2 2; 2 1 0; ; page 2 line 1",
		"b: 1 2; 5 3 3; 3 2 1; forme 2 page 1 line 2; page 1 line 2",
		"hyphen: 0 0; 0 0 0; 0 0 0; ; ",
		"em quad: 4 36; 33 17 17; 17 1 0; ; ",
		"en quad: 1 1; 2 1 1; 1 1 0; ; page 2 line 1",
		"thick: 1 2; 3 3 3; 3 2 1; forme 2 page 1 line 2; page 1 line 2",
	}
	if d := cmp.Diff(want, rows(a)); d != "" {
		t.Errorf("sorts, want (-), got (+):\n%s", d)
	}
	if d := cmp.Diff([]impose.Forme{{Sheet: 1, Side: "inner", Pages: []int{2}}, {Sheet: 1, Side: "outer", Pages: []int{1}}}, a.Formes); d != "" {
		t.Errorf("formes, want (-), got (+):\n%s", d)
	}
	if d := cmp.Diff([]demand.Use{{Character: 'þ', Count: 1, Page: 2, Line: 1}}, a.Missing); d != "" {
		t.Errorf("missing, want (-), got (+):\n%s", d)
	}
	if a.CastOff != (demand.CastOff{Lines: 4, Pages: 2, HalfSheets: 2}) {
		t.Errorf("cast off: %+v", a.CastOff)
	}
	if a.AtPeak != 1 || a.Printing() != 9 || a.PagesPerForme() != 4 {
		t.Errorf("%d pages in use, %d printing sorts, %d pages to a forme", a.AtPeak, a.Printing(), a.PagesPerForme())
	}
	// Page 1 takes three b of two, and cannot stand; its first line can.
	stand := standing.CanStand{LinesFromStart: 1, LimitedBy: &standing.Limit{Font: "Few 10", Sort: "b", Short: 1}}
	if d := cmp.Diff(stand, a.Stand); d != "" {
		t.Errorf("can stand, want (-), got (+):\n%s", d)
	}
	if a.Sections != nil || a.Verdict != demand.Short || a.Holds() {
		t.Errorf("sections %+v, verdict %s, holds %t", a.Sections, a.Verdict, a.Holds())
	}
	if d := cmp.Diff([]demand.Want{{Font: "Few 10", Sort: "b", Pieces: 1}, {Font: "Few 10", Sort: "thick", Pieces: 1}}, a.Wanting()); d != "" {
		t.Errorf("wanting, want (-), got (+):\n%s", d)
	}
}

// With one b more each page can stand, but not both: of a and of b two more are wanted, and a comes first. The thick spaces are short by
// one as before, and others make them up.
func TestCheckByHandDistributing(t *testing.T) {
	plan, copy := twoPages(t)
	stock := few(map[string]int{"a": 3, "b": 4, "em quad": 40, "en quad": 2, "thick": 3})
	a := check(t, plan, stock, copy)
	limit := &standing.Limit{Font: "Few 10", Sort: "a", Short: 2}
	if d := cmp.Diff(standing.CanStand{PagesAnywhere: 1, PagesFromStart: 1, LinesFromStart: 2, Formes: 1, LimitedBy: limit}, a.Stand); d != "" {
		t.Errorf("can stand, want (-), got (+):\n%s", d)
	}
	if d := cmp.Diff(&standing.Sections{Unit: "forme", List: []standing.Section{{Pages: []int{2}, LimitedBy: limit}, {Pages: []int{1}}}}, a.Sections); d != "" {
		t.Errorf("sections, want (-), got (+):\n%s", d)
	}
	if a.Verdict != demand.Distribute || a.Sorts[5].Short != 1 {
		t.Errorf("verdict %s, thick short by %d", a.Verdict, a.Sorts[5].Short)
	}
	if a.Holds() {
		t.Error("it holds, though a character is missing")
	}
	plan.Schedule.Standing = standing.All
	if a = check(t, plan, stock, copy); a.Verdict != demand.InSections || a.AtPeak != 2 || a.Sorts[0].Peak != 4 || a.Sorts[0].PeakForme != 2 {
		t.Errorf("all left standing: verdict %s, %d pages in use, %s", a.Verdict, a.AtPeak, row(a.Sorts[0]))
	}
	stock = few(map[string]int{"a": 5, "b": 6, "em quad": 40, "en quad": 2, "thick": 3})
	if a = check(t, plan, stock, copy); a.Verdict != demand.Stands || a.Stand.LimitedBy != nil || a.Stand.PagesAnywhere != 2 || a.Stand.LinesFromStart != 4 || a.Stand.Formes != 2 {
		t.Errorf("enough of all: verdict %s, can stand %+v", a.Verdict, a.Stand)
	}
}

// The allowance is a share of the stock or of an average page, rounded up.
func TestAllowance(t *testing.T) {
	plan, copy := twoPages(t) // takes 4 a and 5 b on 2 pages, and 33 em quads
	stock := few(map[string]int{"a": 100, "b": 101, "em quad": 33})
	for _, c := range []struct {
		name      string
		allowance demand.Allowance
		a, b, em  int // kept back
	}{
		{"none", demand.Allowance{Den: 1}, 0, 0, 0},
		{"3 % of 100, 101 and 33: 3, 3.03 and 0.99", demand.Allowance{Num: 3, Den: 100}, 3, 4, 1},
		{"2.5 %: 2.5, 2.525 and 0.825", demand.Allowance{Num: 25, Den: 1000}, 3, 3, 1},
		{"99.9 %", demand.Allowance{Num: 999, Den: 1000}, 100, 101, 33},
		{"half a page: half of 2, of 2.5 and of 16.5", demand.Allowance{Num: 1, Den: 2, OfPage: true}, 1, 2, 9},
		{"two pages: all there is of two", demand.Allowance{Num: 2, Den: 1, OfPage: true}, 4, 5, 33},
		{"a third of a page: 0.67, 0.83 and 5.5", demand.Allowance{Num: 1, Den: 3, OfPage: true}, 1, 1, 6},
		{"a thousand pages", demand.Allowance{Num: 1000, Den: 1, OfPage: true}, 2000, 2500, 16500},
	} {
		plan.Allowance = c.allowance
		got := check(t, plan, stock, copy)
		for i, want := range map[int]int{0: c.a, 1: c.b, 3: c.em, 2: 0} {
			s := got.Sorts[i]
			if s.KeptBack != want || s.Available != max(0, s.OnHand-want) {
				t.Errorf("%s: %s: %d kept back and %d available, want %d and %d", c.name, s.Name, s.KeptBack, s.Available, want, max(0, s.OnHand-want))
			}
		}
	}
}

// Whatever names a page names it by the number that the plan gives it, once.
func TestFirstPage(t *testing.T) {
	plan, copy := twoPages(t)
	stock := few(map[string]int{"a": 3, "b": 4, "em quad": 40, "en quad": 2, "thick": 3})
	plan.FirstPage = 101
	a := check(t, plan, stock, copy)
	if got, want := row(a.Sorts[1]), "b: 1 3; 5 3 3; 3 2 0; ; page 102 line 1"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if got := []int{a.Formes[0].Pages[0], a.Formes[1].Pages[0], a.Sections.List[0].Pages[0], a.Sections.List[1].Pages[0], a.Missing[0].Page}; !slices.Equal(got, []int{102, 101, 102, 101, 102}) {
		t.Errorf("pages of the formes, of the sections, and of the missing character: %v", got)
	}
	if a.CastOff.Pages != 2 || a.Stand.PagesAnywhere != 1 || a.Sorts[1].PeakForme != 2 {
		t.Errorf("%d pages, %d can stand, the peak is in forme %d: a number of pages was taken for the number of a page", a.CastOff.Pages, a.Stand.PagesAnywhere, a.Sorts[1].PeakForme)
	}
	var got []string
	for l := range a.Lines(101, 102) {
		got = append(got, fmt.Sprintf("%d.%d", l.Page, l.Number))
	}
	if want := []string{"101.1", "101.2", "102.1", "102.2"}; !slices.Equal(got, want) {
		t.Errorf("lines %v, want %v", got, want)
	}
	for l := range a.Lines(101, 102) {
		if l.Page == 102 {
			t.Error("the lines went on after they had been given up")
		}
		break
	}
}

// The setting copy of the two pages, piece by piece.
func TestLinesByHand(t *testing.T) {
	plan, copy := twoPages(t)
	a := check(t, plan, few(nil), copy)
	ems := func(n int) string { return strings.Repeat(" em quad", n) }
	want := []string{
		"1.1 set 100000 wants 0 gaps []: a a b en quad" + ems(8),
		"1.2 set 99999 wants 1 gaps [3333]: b thick b thick thick" + ems(8),
		"2.1 set 100000 wants 0 gaps []: a b ?þ en quad" + ems(8),
		"2.2 set 100000 wants 0 gaps []: a b" + ems(9),
	}
	var got []string
	for l := range a.Lines(1, 2) {
		line := fmt.Sprintf("%d.%d set %d wants %d gaps %v:", l.Page, l.Number, l.Set, l.Wants, l.Gaps)
		for _, p := range l.Pieces {
			if p.Font != "Few 10" {
				t.Errorf("a piece of font %q", p.Font)
			}
			if p.Missing != 0 {
				line += fmt.Sprintf(" ?%c", p.Missing)
			} else {
				line += " " + p.Sort
			}
		}
		got = append(got, line)
		if l.Measure != 100_000 || l.Blank || l.Broken || l.Forced || !l.Last || !l.First {
			t.Errorf("line %+v", l)
		}
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("want (-), got (+):\n%s", d)
	}
}

func TestTooNarrow(t *testing.T) {
	plan, _ := twoPages(t)
	plan.Measure, plan.FirstPage = 17_900, 51
	// An em of indent and an a go in, an em, an a and a hyphen do not.
	_, err := demand.Check(t.Context(), plan, few(nil), trial.Copy(t, []byte("a\n\na\n\na\n\nab\n\na"), false))
	var narrow *demand.TooNarrow
	if !errors.As(err, &narrow) {
		t.Fatalf("error %v, want a TooNarrow", err)
	}
	if *narrow != (demand.TooNarrow{Measure: 17_900, Needs: 18_000, Indent: 10_000, Sort: "a", Place: demand.Place{Page: 52, Line: 2}}) {
		t.Errorf("%+v", *narrow)
	}
	for _, part := range []string{"17.9pt", "10pt", `"a"`, "page 52, line 2", "18pt"} {
		if !strings.Contains(err.Error(), part) {
			t.Errorf("%q does not say %q", err, part)
		}
	}
}

func TestPlansRefused(t *testing.T) {
	good, copy := twoPages(t)
	for _, c := range []struct {
		name, says string
		spoil      func(*demand.Plan)
	}{
		{"no measure", "measure", func(p *demand.Plan) { p.Measure = 0 }},
		{"less than none", "measure", func(p *demand.Plan) { p.Measure = -1 }},
		{"longer than any", "10000", func(p *demand.Plan) { p.Measure = demand.MostMeasure + 1 }},
		{"no lines", "0 lines", func(p *demand.Plan) { p.Lines = 0 }},
		{"too many lines", "1001 lines", func(p *demand.Plan) { p.Lines = demand.MostLines + 1 }},
		{"page 0", "number 0", func(p *demand.Plan) { p.FirstPage = 0 }},
		{"a page beyond all", "1000001", func(p *demand.Plan) { p.FirstPage = demand.MostPageNumber + 1 }},
		{"a format that is none", `"trio"`, func(p *demand.Plan) { p.Imposing.Format = "trio" }},
		{"no sheets", "0 sheets", func(p *demand.Plan) { p.Imposing.In = 0 }},
	} {
		plan := good
		c.spoil(&plan)
		if _, err := demand.Check(t.Context(), plan, few(nil), copy); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: error %v, want one that says %q", c.name, err, c.says)
		}
	}
	for _, plan := range []demand.Plan{
		func() demand.Plan { p := good; p.Lines = demand.MostLines; return p }(),
		func() demand.Plan { p := good; p.FirstPage = demand.MostPageNumber; return p }(),
	} {
		check(t, plan, few(nil), copy)
	}
}
