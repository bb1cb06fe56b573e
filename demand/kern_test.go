package demand_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"formewise/demand"
	"formewise/demand/impose"
	"formewise/demand/internal/trial"
)

// kernedStock is a font whose f and ff are kerned, and a spacing font of the spaces given.
func kernedStock(spaces map[string]int) demand.Stock {
	letters := demand.Font{Name: "Ferry Roman 12", Body: 12_000}
	for _, text := range strings.Fields("b e f h i l o s ff fi ! ?") {
		letters.Sorts = append(letters.Sorts, demand.Sort{Name: text, Text: text, Kind: "lower", Set: 500_000, Basis: "counted", OnHand: 100, Kerned: strings.HasSuffix(text, "f")})
	}
	spacing := demand.Font{Name: "Spacing 12", Body: 12_000}
	for _, name := range []string{"em quad", "en quad", "thick", "middle", "thin", "hair"} {
		if set, has := spaces[name]; has {
			spacing.Sorts = append(spacing.Sorts, demand.Sort{Name: name, Kind: "space", Set: set, Basis: "counted", OnHand: 100})
		}
	}
	return demand.Stock{letters, spacing}
}

func kernedAnswer(t *testing.T, stock demand.Stock, text string) *demand.Answer {
	t.Helper()
	plan := demand.Plan{Measure: 120_000, Lines: 2, FirstPage: 9, Imposing: impose.Plan{Format: "folio", In: 1}, Allowance: demand.Allowance{Num: 0, Den: 1}}
	a, err := demand.Check(t.Context(), plan, stock, trial.Copy(t, []byte(text), true))
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// A worked example: eight lines of verse in ten ems, two to the page, so page 9 has the first two. Every letter is an en wide.
//
//	page 9   off!     o ff thin !         if       i f
//	page 10  is       i s                 fob      f o b
//	page 11  shelf    s h e l f           if if?   i f thick i f thin ?
//	page 12  off!     o ff thin !         fib      fi b
func TestKernedByHand(t *testing.T) {
	const text = "off!\nif\nis\nfob\nshelf\nif if?\noff!\nfib\n"
	spaces := map[string]int{"em quad": 1_000_000, "en quad": 500_000, "thick": 333_333, "middle": 250_000, "thin": 200_000, "hair": 83_333}
	a := kernedAnswer(t, kernedStock(spaces), text)
	want := []demand.Kern{
		{Font: "Ferry Roman 12", Sort: "ff", SpaceFont: "Spacing 12", Space: "thin", Count: 2, Page: 9, Line: 1},
		{Font: "Ferry Roman 12", Sort: "f", SpaceFont: "Spacing 12", Space: "thin", Count: 1, Page: 11, Line: 2},
	}
	if diff := cmp.Diff(want, a.Kerned); diff != "" {
		t.Errorf("kerned (-want +got):\n%s", diff)
	}
	if len(a.MadeUp)+len(a.Missing) > 0 {
		t.Errorf("made up %v, missing %v", a.MadeUp, a.Missing)
	}
	got := map[string]int{}
	for l := range a.Lines(9, 12) {
		for _, p := range l.Pieces {
			got[p.Sort]++
		}
	}
	for _, s := range a.Sorts {
		if s.Total != got[s.Name] {
			t.Errorf("%s: %d wanted, %d in the lines", s.Name, s.Total, got[s.Name])
		}
	}
	if got["thin"] < 3 || got["f"] != 5 || got["ff"] != 2 || got["fi"] != 1 || got["!"] != 2 {
		t.Errorf("sorts %v", got)
	}
	for l := range a.Lines(11, 11) {
		if l.Number != 2 {
			continue
		}
		var names []string
		for _, p := range l.Pieces[:7] {
			names = append(names, p.Sort)
		}
		if got := strings.Join(names, " "); got != "i f thick i f thin ?" || len(l.Gaps) != 1 {
			t.Errorf("page 11, line 2: %s, %d word spaces", got, len(l.Gaps))
		}
	}

	delete(spaces, "thin")
	for i := range want {
		want[i].Space = "hair"
	}
	if diff := cmp.Diff(want, kernedAnswer(t, kernedStock(spaces), text).Kerned); diff != "" {
		t.Errorf("with no thin space (-want +got):\n%s", diff)
	}
	delete(spaces, "hair")
	for i := range want {
		want[i].Space, want[i].SpaceFont = "", ""
	}
	if diff := cmp.Diff(want, kernedAnswer(t, kernedStock(spaces), text).Kerned); diff != "" {
		t.Errorf("with no narrow space (-want +got):\n%s", diff)
	}
}

// A novel in a font whose f and ff are kerned: the sum over its lines is what check wants of every sort, and each thin
// space beyond those of the word spaces is noted.
func TestKernedNovel(t *testing.T) {
	var stock demand.Stock
	for _, name := range []string{"ferry-roman-12", "spacing-12"} {
		f, counts := trial.Font(t, name, 12_000)
		font := demand.Font{Name: f.Name, Body: f.Body}
		for i, s := range f.Sorts {
			kind := "lower"
			switch {
			case s.Space:
				kind = "space"
			case s.SmallCapital:
				kind = "small capital"
			case len(s.Text) > 1 && s.Text[0] == 'f' && s.Text != "ff":
				continue // as a font without these ligatures
			}
			font.Sorts = append(font.Sorts, demand.Sort{Name: s.Name, Text: s.Text, Kind: kind, Set: s.Width * 1000 / 12, Basis: "counted", OnHand: counts[i], Kerned: s.Text == "f" || s.Text == "ff"})
		}
		stock = append(stock, font)
	}
	plan := demand.Plan{Measure: 264_000, Lines: 30, FirstPage: 1, Imposing: impose.Plan{Format: "octavo", In: 1}, Allowance: demand.Allowance{Num: 3, Den: 100}}
	text := trial.Text(t, "en-prose-austen-emma")
	a, err := demand.Check(t.Context(), plan, stock, trial.Copy(t, text[:len(text)/4], false))
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]int{}
	eased := 0
	for l := range a.Lines(1, a.CastOff.Pages) {
		for i, p := range l.Pieces {
			got[p.Sort]++
			// No word space is a thin by itself at this measure and follows an f too: it would be one more, never one less.
			if i > 0 && p.Sort == "thin" && strings.HasSuffix(l.Pieces[i-1].Sort, "f") {
				eased++
			}
			if i > 0 && strings.HasSuffix(l.Pieces[i-1].Sort, "f") && p.Text != "" && strings.Contains("ibhkl’)]?!", p.Text) {
				t.Fatalf("page %d, line %d: %s beside %s", l.Page, l.Number, l.Pieces[i-1].Sort, p.Sort)
			}
		}
	}
	for _, s := range a.Sorts {
		if s.Total != got[s.Name] {
			t.Errorf("%s: %d wanted, %d in the lines", s.Name, s.Total, got[s.Name])
		}
	}
	counted := 0
	for _, k := range a.Kerned {
		counted += k.Count
	}
	t.Logf("%v, of %d thin spaces", a.Kerned, got["thin"])
	if len(a.Kerned) != 2 || counted < 100 || counted > eased {
		t.Errorf("%v, and %d thin spaces follow an f", a.Kerned, eased)
	}
}
