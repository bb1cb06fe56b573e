package demand_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"formewise/demand"
	"formewise/demand/impose"
	"formewise/demand/internal/trial"
	"formewise/texts/divide"
	"formewise/texts/read"
)

// emsStock is a font of letters an em wide, with spaces.
func emsStock() demand.Stock {
	font := demand.Font{Name: "Ems", Body: 12_000, Sorts: []demand.Sort{
		{Name: "hyphen", Text: "-", Kind: "point", Set: 333_333}, {Name: "em quad", Kind: "space", Set: 1_000_000},
		{Name: "en quad", Kind: "space", Set: 500_000}, {Name: "thick", Kind: "space", Set: 333_333},
		{Name: "middle", Kind: "space", Set: 250_000}, {Name: "thin", Kind: "space", Set: 200_000}, {Name: "hair", Kind: "space", Set: 83_333},
	}}
	for _, letter := range "abcdefgh" {
		font.Sorts = append(font.Sorts, demand.Sort{Name: string(letter), Text: string(letter), Kind: "lower", Set: 1_000_000})
	}
	return demand.Stock{font}
}

// emsPlan has lines of six ems: two words of two letters to the line, for a third does not go in.
func emsPlan(lines int) demand.Plan {
	return demand.Plan{
		Measure: 72_000, Lines: lines, FirstPage: 1, Imposing: impose.Plan{Format: "folio", In: 1}, Allowance: demand.Allowance{Num: 3, Den: 100},
	}
}

// ferryStock is the demo's roman with its spaces, every printing sort's set multiplied by hundredths.
func ferryStock(t testing.TB, hundredths float64) demand.Stock {
	t.Helper()
	var stock demand.Stock
	for _, name := range []string{"ferry-roman-12", "spacing-12"} {
		font, _ := trial.Font(t, name, 1_000_000) // so that widths are millionths of an em
		f := demand.Font{Name: name, Body: 12_000}
		for _, s := range font.Sorts {
			kind, set := "lower", s.Width
			if s.Space {
				kind = "space"
			} else {
				set = int(float64(set)*hundredths/100 + 0.5)
			}
			f.Sorts = append(f.Sorts, demand.Sort{Name: s.Name, Text: s.Text, Kind: kind, Set: set})
		}
		stock = append(stock, f)
	}
	return stock
}

func ferryPlan(t testing.TB) demand.Plan {
	t.Helper()
	english, err := divide.For("en")
	if err != nil {
		t.Fatal(err)
	}
	return demand.Plan{
		Measure: 264_000, Lines: 30, FirstPage: 1, Dividing: english, Imposing: impose.Plan{Format: "quarto", In: 1}, Allowance: demand.Allowance{Num: 3, Den: 100},
	}
}

func endPages(t testing.TB, plan demand.Plan, stock demand.Stock, copy *read.Copy, reports ...string) *demand.PageEnds {
	t.Helper()
	list := make([]demand.Report, len(reports))
	for i, text := range reports {
		var err error
		if list[i], err = demand.ParseReport(text); err != nil {
			t.Fatal(err)
		}
	}
	ends, err := demand.EndPages(t.Context(), plan, stock, copy, list)
	if err != nil {
		t.Fatal(err)
	}
	return ends
}

// Worked by hand: lines aabb ccdd eeff gghh aabb ccdd, two to a page. Folio: pages 2 and 3 are the inner forme, 1 and 4 the outer.
func TestPageEndsByHand(t *testing.T) {
	copy := trial.Copy(t, []byte("aa bb cc dd ee ff gg hh aa bb cc dd"), false)
	plan := emsPlan(2)
	plan.FirstPage = 7
	got := endPages(t, plan, emsStock(), copy)
	want := []demand.PageEnd{
		{Page: 7, Forme: 2, First: "aa bb cc dd", Last: "aa bb cc dd", Lines: 2},
		{Page: 8, Forme: 1, First: "ee ff gg hh", Last: "ee ff gg hh", Lines: 2},
		{Page: 9, Forme: 1, First: "aa bb cc dd", Last: "aa bb cc dd", Lines: 2},
	}
	if d := cmp.Diff(want, got.Pages); d != "" {
		t.Error("as cast off:", d)
	}
	if got.Before != 3 || got.Moved != nil || got.Reported != nil || got.Correction != nil {
		t.Errorf("as cast off: %d pages before, moved %v, reported %v, corrected %v", got.Before, got.Moved, got.Reported, got.Correction)
	}

	// Page 7 ended after cc: of the line “ccdd”, half is lacking. The lines are now aabb cc | ddee ffgg | hhaa bbcc | dd.
	got = endPages(t, plan, emsStock(), copy, "7: bb cc")
	want = []demand.PageEnd{
		{Page: 7, Forme: 2, First: "aa bb cc", Last: "aa bb cc", Lines: 2},
		{Page: 8, Forme: 1, First: "dd ee ff gg", Last: "dd ee ff gg", Lines: 2},
		{Page: 9, Forme: 1, First: "hh aa bb cc", Last: "hh aa bb cc", Lines: 2},
		{Page: 10, Forme: 2, First: "dd", Last: "dd", Lines: 1},
	}
	if d := cmp.Diff(want, got.Pages); d != "" {
		t.Error("page 7 ended after cc:", d)
	}
	reported := []demand.Reported{{Report: demand.Report{Page: 7, Words: "bb cc"}, CastOff: "aa bb cc dd", Ended: "aa bb cc", Off: -500, Counts: true}}
	if d := cmp.Diff(reported, got.Reported); d != "" {
		t.Error("page 7 ended after cc:", d)
	}
	if !slices.Equal(got.Moved, []int{8, 9, 10}) || !slices.Equal(got.MovedFormes, []int{1, 2}) || got.Before != 3 {
		t.Errorf("page 7 ended after cc: pages %v moved, in formes %v; %d pages before", got.Moved, got.MovedFormes, got.Before)
	}

	// Page 7 took in a line more, and page 8 a line less of what follows: aabb ccdd eeff | gghh | aabb ccdd.
	got = endPages(t, plan, emsStock(), copy, "8-1 line", "7+1 line")
	want = []demand.PageEnd{
		{Page: 7, Forme: 2, First: "aa bb cc dd ee ff", Last: "aa bb cc dd ee ff", Lines: 3, Over: 1},
		{Page: 8, Forme: 1, First: "gg hh", Last: "gg hh", Lines: 1},
		{Page: 9, Forme: 1, First: "aa bb cc dd", Last: "aa bb cc dd", Lines: 2},
	}
	if d := cmp.Diff(want, got.Pages); d != "" {
		t.Error("a line more, a line less:", d)
	}
	if off := []int{got.Reported[0].Off, got.Reported[1].Off}; !slices.Equal(off, []int{1000, -1000}) {
		t.Errorf("a line more, a line less: off by %v thousandths", off)
	}
	if !slices.Equal(got.Moved, []int{8}) || !slices.Equal(got.MovedFormes, []int{1}) {
		t.Errorf("a line more, a line less: pages %v moved, in formes %v", got.Moved, got.MovedFormes)
	}
}

// chapter is a part of an open novel (Jane Austen, Emma, 1815), from some byte on.
func chapter(t testing.TB, from, length int) *read.Copy {
	t.Helper()
	text := string(trial.Text(t, "en-prose-austen-emma")[from : from+length])
	text = strings.ToValidUTF8(text[strings.Index(text, "\n")+1:], "")
	return trial.Copy(t, []byte(text), false)
}

// Ends reported as they were cast off change nothing, with their last words and however many there are.
func TestReportsAsCastOffChangeNothing(t *testing.T) {
	plan, stock := ferryPlan(t), ferryStock(t, 100)
	rapid.Check(t, func(rt *rapid.T) {
		copy := chapter(t, rapid.IntRange(0, 800_000).Draw(rt, "from"), 9_000)
		plan := plan
		plan.Lines = rapid.IntRange(8, 30).Draw(rt, "lines")
		plan.Page.NoWidow = rapid.Bool().Draw(rt, "no widow")
		free := endPages(t, plan, stock, copy)
		var reports []string
		for _, p := range free.Pages {
			if rapid.Bool().Draw(rt, "reported") {
				reports = append(reports, fmt.Sprintf("%d: … %s", p.Page, p.Last))
			}
		}
		got := endPages(t, plan, stock, copy, reports...)
		if d := cmp.Diff(free.Pages, got.Pages); d != "" || got.Moved != nil || got.Before != len(got.Pages) {
			rt.Fatalf("%q: moved %v, %d pages before (-cast off +reported):\n%s", reports, got.Moved, got.Before, d)
		}
		for _, r := range got.Reported {
			if r.Off != 0 || r.CastOff != r.Ended {
				rt.Fatalf("%+v is off", r)
			}
		}
		if c := got.Correction; c != nil && (c.Widths != 10_000 || c.Before != demand.MeanError{} || c.After != demand.MeanError{}) {
			rt.Fatalf("corrected: %+v", c)
		}
		if d := cmp.Diff(told(free), told(got)); d != "" {
			rt.Fatalf("other lines:\n%s", d)
		}
	})
}

// told is every line of a work, by its pieces.
func told(e *demand.PageEnds) []string {
	var lines []string
	for l := range e.Setting.Lines(e.Setting.PageNumbers()) {
		var b strings.Builder
		fmt.Fprintf(&b, "%d %d", l.Page, l.Number)
		for _, p := range l.Pieces {
			b.WriteString(" " + p.Sort)
		}
		lines = append(lines, b.String())
	}
	return lines
}

// Whatever is reported of a page or two: the pages before the first stay as they are, what is reported holds, and those that moved are those
// that begin elsewhere.
func TestReportLaws(t *testing.T) {
	stock := ferryStock(t, 100)
	plan := ferryPlan(t)
	rapid.Check(t, func(rt *rapid.T) {
		copy := chapter(t, rapid.IntRange(0, 800_000).Draw(rt, "from"), 9_000)
		plan := plan
		plan.Lines = rapid.IntRange(8, 20).Draw(rt, "lines")
		free := endPages(t, plan, stock, copy)
		first := rapid.IntRange(1, len(free.Pages)-1).Draw(rt, "page")
		reports := []string{fmt.Sprintf("%d%+d lines", first, rapid.SampledFrom([]int{-3, -2, -1, 1, 2, 3}).Draw(rt, "by"))}
		if second := first + rapid.IntRange(0, 4).Draw(rt, "apart"); second > first && second < len(free.Pages)-1 {
			reports = append(reports, fmt.Sprintf("%d%+d lines", second, rapid.SampledFrom([]int{-2, -1, 1}).Draw(rt, "by")))
		}
		list := make([]demand.Report, len(reports))
		for i := range list {
			list[i], _ = demand.ParseReport(reports[i])
		}
		got, err := demand.EndPages(t.Context(), plan, stock, copy, list)
		if err != nil {
			rt.Skip("the last page has not so many lines")
		}
		if d := cmp.Diff(free.Pages[:first-1], got.Pages[:first-1]); d != "" {
			rt.Fatalf("%q: pages before have changed:\n%s", reports, d)
		}
		if want, p := plan.Lines+list[0].Lines, got.Pages[first-1]; p.Lines != want || p.First != free.Pages[first-1].First {
			rt.Fatalf("%q: page %d begins with %q and has %d lines, want %d", reports, first, p.First, p.Lines, want)
		}
		for i, p := range got.Pages {
			moved := slices.Contains(got.Moved, p.Page)
			if moved && p.Page <= first {
				rt.Fatalf("%q: page %d has moved", reports, p.Page)
			}
			if i < len(free.Pages) && !moved && p.First != free.Pages[i].First {
				rt.Fatalf("%q: page %d begins with %q now, with %q before, and has not moved", reports, p.Page, p.First, free.Pages[i].First)
			}
			if moved && !slices.Contains(got.MovedFormes, p.Forme) {
				rt.Fatalf("%q: page %d moved, and its forme %d did not (%v)", reports, p.Page, p.Forme, got.MovedFormes)
			}
		}
		if printed(got) != printed(free) {
			rt.Fatalf("%q: other letters", reports)
		}
		type sort struct {
			page       int
			font, name string
		}
		set, pages := map[sort]int{}, map[sort]bool{}
		for l := range got.Setting.Lines(got.Setting.PageNumbers()) {
			for _, p := range l.Pieces {
				if p.Missing == 0 {
					set[sort{l.Page, p.Font, p.Sort}]++
				}
			}
			for _, f := range stock {
				for _, s := range f.Sorts {
					pages[sort{l.Page, f.Name, s.Name}] = true
				}
			}
		}
		for s := range pages {
			if n := got.Setting.Took(s.page, s.font, s.name); n != set[s] {
				rt.Fatalf("%q: page %d takes %d of %q by the tally, its lines %d", reports, s.page, n, s.name, set[s])
			}
		}
	})
}

// printed is what a work prints, the hyphens of divided words left out.
func printed(e *demand.PageEnds) string {
	var b strings.Builder
	for l := range e.Setting.Lines(e.Setting.PageNumbers()) {
		for i, p := range l.Pieces {
			if !p.Space && (!l.Broken || i != lastPrinting(l)) {
				b.WriteString(p.Text)
			}
		}
	}
	return b.String()
}

func lastPrinting(l demand.Line) int {
	for i := len(l.Pieces) - 1; i >= 0; i-- {
		if !l.Pieces[i].Space {
			return i
		}
	}
	return -1
}
