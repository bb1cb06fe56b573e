package impose

import (
	"encoding/csv"
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestFormes(t *testing.T) {
	for _, c := range []struct {
		name  string
		pages int
		plan  Plan
		want  []Forme
	}{
		{"no pages", 0, Plan{Format: "octavo", In: 1}, []Forme{}},
		{"fewer than none", -7, Plan{Format: "octavo", In: 1}, []Forme{}},
		{"one page", 1, Plan{Format: "octavo", In: 1}, []Forme{{1, "outer", []int{1}}}},
		{"two quarto sheets, the last short", 10, Plan{Format: "quarto", In: 1},
			[]Forme{{1, "inner", []int{2, 3, 6, 7}}, {1, "outer", []int{1, 4, 5, 8}}, {2, "inner", []int{10}}, {2, "outer", []int{9}}}},
		{"outer first", 8, Plan{Format: "quarto", In: 1, OuterFirst: true},
			[]Forme{{1, "outer", []int{1, 4, 5, 8}}, {1, "inner", []int{2, 3, 6, 7}}}},
		{"single leaves", 3, Plan{Format: "single", In: 1, OuterFirst: true},
			[]Forme{{1, "recto", []int{1}}, {1, "verso", []int{2}}, {2, "recto", []int{3}}}},
		{"half sheets", 10, Plan{Format: "octavo", In: 1, HalfSheet: true},
			[]Forme{{1, "work-and-turn", []int{1, 2, 3, 4, 5, 6, 7, 8}}, {2, "work-and-turn", []int{9, 10}}}},
		{"three folio sheets quired", 12, Plan{Format: "folio", In: 3},
			[]Forme{{3, "inner", []int{6, 7}}, {3, "outer", []int{5, 8}}, {2, "inner", []int{4, 9}}, {2, "outer", []int{3, 10}}, {1, "inner", []int{2, 11}}, {1, "outer", []int{1, 12}}}},
		{"the same, folded whole for ten pages", 10, Plan{Format: "folio", In: 3},
			[]Forme{{3, "inner", []int{6, 7}}, {3, "outer", []int{5, 8}}, {2, "inner", []int{4, 9}}, {2, "outer", []int{3, 10}}, {1, "inner", []int{2}}, {1, "outer", []int{1}}}},
		{"two quarto sheets quired, two gatherings", 18, Plan{Format: "quarto", In: 2},
			[]Forme{{2, "inner", []int{6, 7, 10, 11}}, {2, "outer", []int{5, 8, 9, 12}}, {1, "inner", []int{2, 3, 14, 15}}, {1, "outer", []int{1, 4, 13, 16}},
				{3, "inner", []int{18}}, {3, "outer", []int{17}}}},
		{"three pages at a pull", 8, Plan{Format: "quarto", In: 1, Pull: 3},
			[]Forme{{1, "inner", []int{2, 3, 6}}, {1, "inner", []int{7}}, {1, "outer", []int{1, 4, 5}}, {1, "outer", []int{8}}}},
		{"a pull larger than the forme", 4, Plan{Format: "folio", In: 1, Pull: 9},
			[]Forme{{1, "inner", []int{2, 3}}, {1, "outer", []int{1, 4}}}},
		{"half a sheet at two pulls", 4, Plan{Format: "quarto", In: 1, HalfSheet: true, Pull: 2},
			[]Forme{{1, "work-and-turn", []int{1, 2}}, {1, "work-and-turn", []int{3, 4}}}},
	} {
		if d := cmp.Diff(c.want, Formes(c.pages, c.plan)); d != "" {
			t.Errorf("%s: want (-), got (+):\n%s", c.name, d)
		}
	}
}

func TestQuiredFolioOf36Pages(t *testing.T) {
	// Nine folio sheets quired: MacKellar 1893, pp. 151-152.
	f, err := os.Open("../../testdata/handbook/quired-folio-36-pages.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	table, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	want := map[string][]int{}
	for _, cells := range table[1:] {
		for i, side := range []string{"outer", "inner"} {
			pages := numbers(t, cells[i+1])
			slices.Sort(pages)
			want[cells[0]+" "+side] = pages
		}
	}
	got := map[string][]int{}
	for _, forme := range Formes(36, Plan{Format: "folio", In: 9}) {
		got[fmt.Sprint(forme.Sheet, " ", forme.Side)] = forme.Pages
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("book (-), ours (+):\n%s", d)
	}
}

func TestFormesToTheWork(t *testing.T) {
	// Half-sheetwise, pages to the forme: MacKellar 1893, p. 299. (His eighteens are not offered. Quarto follows from the
	// figure on p. 156.)
	for format, want := range map[string]int{"quarto": 4, "octavo": 8, "duodecimo": 12, "16mo": 16, "24mo": 24, "32mo": 32} {
		for _, half := range []bool{true, false} { // a side of the whole sheet has as many
			if got := PagesPerForme(Plan{Format: format, In: 1, HalfSheet: half}); got != want {
				t.Errorf("%s, half sheet %t: %d pages to the forme, want %d", format, half, got, want)
			}
		}
	}
	if got := PagesPerForme(Plan{Format: "octavo", In: 1, Pull: 3}); got != 3 {
		t.Errorf("octavo, three pages at a pull: %d pages to the forme", got)
	}
	if got := PagesPerForme(Plan{Format: "octavo", In: 1, Pull: 30}); got != 8 {
		t.Errorf("octavo, thirty pages at a pull: %d pages to the forme", got)
	}
	if got := PagesPerForme(Plan{Format: "single", In: 1}); got != 1 {
		t.Errorf("single: %d pages to the forme", got)
	}
	// The same page: 12mo of 408 pages, 34 formes; at 22 quires a forme 37 reams 8 quires, the ream of 20 quires.
	formes := len(Formes(408, Plan{Format: "duodecimo", In: 1, HalfSheet: true}))
	if formes != 34 {
		t.Errorf("12mo of 408 pages: %d formes, want 34", formes)
	}
	if quires := 22 * formes; quires/20 != 37 || quires%20 != 8 {
		t.Errorf("%d reams %d quires, want 37 reams 8 quires", quires/20, quires%20)
	}
}

func TestHalfSheets(t *testing.T) {
	for _, c := range []struct {
		pages int
		plan  Plan
		want  int
	}{
		{0, Plan{Format: "octavo", In: 1}, 0},
		{-1, Plan{Format: "octavo", In: 1}, 0},
		{1, Plan{Format: "octavo", In: 1}, 2},
		{16, Plan{Format: "octavo", In: 1}, 2},
		{17, Plan{Format: "octavo", In: 1}, 4},
		{17, Plan{Format: "octavo", In: 1, HalfSheet: true}, 3},
		{17, Plan{Format: "octavo", In: 1, Pull: 1}, 4},
		{33, Plan{Format: "octavo", In: 2}, 8},
		{3, Plan{Format: "single", In: 1}, 4},
		// MacKellar 1893, pp. 223-226: 1,055 pages in octavo are 65 sheets and 15 pages, so 66 sheets of paper.
		{1055, Plan{Format: "octavo", In: 1}, 132},
		{36, Plan{Format: "folio", In: 9}, 18},
		{1, Plan{Format: "octavo", In: MaxIn}, 2 * MaxIn},
	} {
		if got := HalfSheets(c.pages, c.plan); got != c.want {
			t.Errorf("%d pages, %+v: %d half sheets, want %d", c.pages, c.plan, got, c.want)
		}
	}
}

func TestCheck(t *testing.T) {
	for _, name := range Formats() {
		if err := (Plan{Format: name, In: 1}).Check(); err != nil {
			t.Error(err)
		}
	}
	want := []string{"single", "folio", "quarto", "octavo", "duodecimo", "16mo", "24mo", "32mo"}
	if d := cmp.Diff(want, Formats()); d != "" {
		t.Errorf("formats:\n%s", d)
	}
	for _, c := range []struct {
		plan Plan
		want string // "" where the plan can be worked
	}{
		{Plan{Format: "folio", In: 9}, ""},
		{Plan{Format: "octavo", In: MaxIn, OuterFirst: true, Pull: 99}, ""},
		{Plan{Format: "32mo", In: 1, HalfSheet: true}, ""},
		{Plan{Format: "sixmo", In: 1}, `format "sixmo": not known (it is one of single, folio, quarto, octavo, duodecimo, 16mo, 24mo, 32mo)`},
		{Plan{Format: "", In: 1}, `format "": not known`},
		{Plan{Format: "folio"}, "0 sheets to a gathering: it takes 1 to 100"},
		{Plan{Format: "folio", In: -2}, "-2 sheets to a gathering"},
		{Plan{Format: "folio", In: MaxIn + 1}, "101 sheets to a gathering"},
		{Plan{Format: "folio", In: 1, Pull: -1}, "-1 pages at a pull"},
		{Plan{Format: "duodecimo", In: 2}, `format "duodecimo": only folio, quarto and octavo are quired (2 sheets to a gathering)`},
		{Plan{Format: "single", In: 2}, "are quired"},
		{Plan{Format: "quarto", In: 2, HalfSheet: true}, "half sheets are not quired"},
		{Plan{Format: "single", In: 1, HalfSheet: true}, `format "single": not worked by half sheets (quarto, octavo, duodecimo, 16mo, 24mo, 32mo are)`},
		{Plan{Format: "folio", In: 1, HalfSheet: true}, `format "folio": not worked by half sheets`},
	} {
		err := c.plan.Check()
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%+v: error %v, want %q", c.plan, err, c.want)
		}
	}
}

// drawPlan draws a plan that can be worked.
func drawPlan(t *rapid.T) Plan {
	p := Plan{
		Format:     rapid.SampledFrom(Formats()).Draw(t, "format"),
		In:         1,
		Pull:       rapid.IntRange(0, 9).Draw(t, "pull"),
		OuterFirst: rapid.Bool().Draw(t, "outer first"),
	}
	switch {
	case rapid.Bool().Draw(t, "by half sheets"):
		p.HalfSheet = p.Format != "single" && p.Format != "folio"
	case slices.Contains([]string{"folio", "quarto", "octavo"}, p.Format):
		p.In = rapid.IntRange(1, 5).Draw(t, "in")
	}
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	return p
}

// formesByRule is the slow twin: it asks of every place of every forme which page it is, and shares pages out by the rule
// that the schemes here happen to keep (outer: the first and last of every four), where Formes reads their lists.
func formesByRule(pages int, p Plan) []Forme {
	per := map[string]int{"single": 2, "folio": 4, "quarto": 8, "octavo": 16, "duodecimo": 24, "16mo": 32, "24mo": 48, "32mo": 64}[p.Format]
	sides := []string{"inner", "outer"}
	if p.OuterFirst {
		sides = []string{"outer", "inner"}
	}
	if p.HalfSheet {
		per, sides = per/2, []string{"work-and-turn"}
	}
	if p.Format == "single" {
		sides = []string{"recto", "verso"}
	}
	leaf := func(page int) int { return (page - 1) / 2 }
	list := []Forme{}
	for first := 1; first <= pages; first += per * p.In {
		for sheet := p.In; sheet >= 1; sheet-- {
			for _, name := range sides {
				var in []int
				nth := 0 // of the sheet's own pages
				for page := first; page < first+per*p.In; page++ {
					// Leaves are dealt from both ends of the gathering towards the middle, per/4 at a time.
					fromFront, fromBack := leaf(page)-leaf(first), leaf(first+per*p.In-1)-leaf(page)
					if p.In > 1 && min(fromFront, fromBack)/(per/4) != sheet-1 {
						continue
					}
					nth++
					ends := nth%4 == 0 || nth%4 == 1
					switch name {
					case "inner":
						ends = !ends
					case "work-and-turn":
						ends = true
					case "recto":
						ends = nth == 1
					case "verso":
						ends = nth == 2
					}
					if ends && page <= pages {
						in = append(in, page)
					}
				}
				for len(in) > 0 {
					n := len(in)
					if p.Pull > 0 {
						n = min(n, p.Pull)
					}
					list = append(list, Forme{(first-1)/per + sheet, name, in[:n]})
					in = in[n:]
				}
			}
		}
	}
	return list
}

func TestFormesAgreeWithTheRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, pages := drawPlan(t), rapid.IntRange(0, 200).Draw(t, "pages")
		if d := cmp.Diff(formesByRule(pages, p), Formes(pages, p)); d != "" {
			t.Fatalf("rule (-), ours (+):\n%s", d)
		}
	})
}

func TestEachPageStandsOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, pages := drawPlan(t), rapid.IntRange(0, 400).Draw(t, "pages")
		var all []int
		sheetOf := map[int]int{}
		lastSheet := 0
		done := map[int]bool{}
		for _, forme := range Formes(pages, p) {
			if len(forme.Pages) == 0 || len(forme.Pages) > PagesPerForme(p) || !slices.IsSorted(forme.Pages) {
				t.Fatalf("forme %+v", forme)
			}
			if done[forme.Sheet] {
				t.Fatalf("the formes of sheet %d do not stand together", forme.Sheet)
			}
			if forme.Sheet != lastSheet {
				done[lastSheet] = true
				lastSheet = forme.Sheet
			}
			if g := Gathering(p, forme.Sheet); g < 1 || (g-1)*p.In >= forme.Sheet || forme.Sheet > g*p.In {
				t.Fatalf("sheet %d is said to be in gathering %d of %d sheets each", forme.Sheet, g, p.In)
			}
			all = append(all, forme.Pages...)
			laid := pagesOf(Layout(p, forme.Sheet, forme.Side))
			for _, page := range forme.Pages {
				sheetOf[page] = forme.Sheet
				if !slices.Contains(laid, page) {
					t.Fatalf("page %d is in the forme %+v and not where it lies: %v", page, forme, laid)
				}
			}
			if 2*forme.Sheet > HalfSheets(pages, p) && !p.HalfSheet || p.HalfSheet && forme.Sheet > HalfSheets(pages, p) {
				t.Fatalf("sheet %d is more than the paper of %d half sheets", forme.Sheet, HalfSheets(pages, p))
			}
		}
		slices.Sort(all)
		if !slices.Equal(all, upTo(pages)) {
			t.Fatalf("pages in the formes: %v, want 1 to %d", all, pages)
		}
		for page := 2; page <= pages; page += 2 {
			if sheetOf[page] != sheetOf[page-1] {
				t.Fatalf("pages %d and %d are a leaf, and on sheets %d and %d", page-1, page, sheetOf[page-1], sheetOf[page])
			}
		}
	})
}

func TestAMillionPages(t *testing.T) {
	const pages = 1_000_000
	for _, p := range []Plan{{Format: "octavo", In: 1}, {Format: "octavo", In: MaxIn, Pull: 1}, {Format: "single", In: 1}} {
		seen := make([]bool, pages+1)
		count := 0
		for _, forme := range Formes(pages, p) {
			for _, page := range forme.Pages {
				if seen[page] {
					t.Fatalf("%+v: page %d twice", p, page)
				}
				seen[page] = true
				count++
			}
		}
		if count != pages {
			t.Errorf("%+v: %s pages, want %s", p, strconv.Itoa(count), strconv.Itoa(pages))
		}
	}
}
