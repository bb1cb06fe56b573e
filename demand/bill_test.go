package demand_test

import (
	"cmp"
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"formewise/demand"
	"formewise/demand/impose"
	"formewise/demand/internal/trial"
)

// handbook reads a table of testdata/handbook, its heading left out; SOURCES.md there says what comes from where.
func handbook(t testing.TB, name string) [][]string {
	t.Helper()
	f, err := os.Open(filepath.Join(trial.Root(), "testdata", "handbook", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

// The bill's names of sorts that are not the characters they print.
var billed = map[string]string{
	"comma": ",", "semicolon": ";", "colon": ":", "full_point": ".", "hyphen": "-", "query": "?", "exclamation": "!", "apostrophe": "’",
	"parenthesis": "(", "bracket": "[", "asterisk": "*", "dagger": "†", "double_dagger": "‡", "section": "§", "parallel": "‖", "paragraph": "¶",
	"em": "—", "2em": "⸺", "3em": "⸻", "ae": "æ", "oe": "œ", "AE": "Æ", "OE": "Œ",
	"e-acute": "é", "a-grave": "à", "a-circumflex": "â", "e-circumflex": "ê",
}

// bill is the fount of pica of 800 lb as a font: T. MacKellar, The American Printer, Philadelphia 1893, pp. 57-58. It has no set widths,
// and here every letter is an en wide: what is asked of it are counts, and those hardly feel where the lines end.
func bill(t testing.TB) demand.Stock {
	t.Helper()
	spaces := map[string]demand.Sort{
		"thick_3_to_em": {Name: "thick", Set: 333_333}, "middle_4_to_em": {Name: "middle", Set: 250_000}, "thin_5_to_em": {Name: "thin", Set: 200_000},
		"hair": {Name: "hair", Set: 100_000}, "em": {Name: "em quad", Set: 1_000_000}, "en": {Name: "en quad", Set: 500_000},
	}
	kinds := map[string]string{"small_capital": "small capital", "dash": "point", "quad": "space"}
	font := demand.Font{Name: "Pica", Body: 12_000}
	for _, row := range handbook(t, "bill-of-pica-800lb.csv") {
		class, name := row[0], row[1]
		count, err := strconv.Atoi(row[2])
		if err != nil {
			t.Fatal(err)
		}
		s := demand.Sort{Name: name, Text: name, Kind: class, Set: 500_000}
		if kind, ok := kinds[class]; ok {
			s.Kind = kind
		}
		if text, ok := billed[name]; ok {
			s.Text = text
		}
		switch {
		case class == "quad_lb": // by weight
			continue
		case name == "each_other_accent":
			continue
		case s.Kind == "space":
			s = spaces[name]
			s.Kind = "space"
		case class == "small_capital":
			s.Name = "small capital " + name
		}
		s.Basis, s.OnHand = "bill", count
		font.Sorts = append(font.Sorts, s)
		// Of signs that come in pairs the bill has one count. It is taken for each of the two.
		if pair, ok := map[string]string{"(": ")", "[": "]"}[s.Text]; ok {
			s.Name, s.Text = "closing "+s.Name, pair
			font.Sorts = append(font.Sorts, s)
		}
	}
	return demand.Stock{font}
}

// onBill checks Jane Austen's Emma (1815), the whole of it, against the bill.
func onBill(t testing.TB) *demand.Answer {
	t.Helper()
	plan := demand.Plan{Measure: 24 * 12_000, Lines: 40, FirstPage: 1, Imposing: impose.Plan{Format: "octavo", In: 1}, Allowance: demand.Allowance{Den: 1}}
	a, err := demand.Check(t.Context(), plan, bill(t), trial.Copy(t, trial.Text(t, "en-prose-austen-emma"), false))
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// letters gives what of the lower-case letters, a to z, is asked, and what the bill has.
func letters(a *demand.Answer) (names string, asked, has []float64) {
	for _, s := range a.Sorts {
		if s.Kind == "lower" && len(s.Text) == 1 && s.Text != "&" {
			names += s.Text
			asked = append(asked, float64(s.Total))
			has = append(has, float64(s.OnHand))
		}
	}
	return names, asked, has
}

// The bill's own sums, as SOURCES.md has them: 26 lower-case letters 106,900; small capitals 5,331; spaces with em and en quads 48,500;
// capitals 10,660. MacKellar 1893; the second and third are also printed as totals in an early 19th-century English manual.
func TestBillsSums(t *testing.T) {
	sums := map[string]int{}
	for _, s := range bill(t)[0].Sorts {
		kind := s.Kind
		if kind == "lower" && (len(s.Text) != 1 || s.Text == "&") {
			kind = "other lower"
		}
		sums[kind] += s.OnHand
	}
	for kind, want := range map[string]int{"lower": 106_900, "small capital": 5_331, "space": 48_500, "capital": 10_660} {
		if sums[kind] != want {
			t.Errorf("%s: %d, want %d", kind, sums[kind], want)
		}
	}
}

// A founder's bill of 1893 (MacKellar) against an English novel: what the novel asks is ordered as the bill is, but g and w run short among
// the first four, and j, q, x and z last, since a fount is also to print names and other tongues.
func TestNovelAgainstBill(t *testing.T) {
	a := onBill(t)
	names, asked, has := letters(a)
	if names != "abcdefghijklmnopqrstuvwxyz" {
		t.Fatalf("the bill has the letters %q", names)
	}
	rho := spearman(asked, has)
	var short []string
	for i := range names {
		short = append(short, names[i:i+1])
	}
	slices.SortStableFunc(short, func(x, y string) int {
		i, j := strings.Index(names, x), strings.Index(names, y)
		return cmp.Compare(asked[j]/has[j], asked[i]/has[i])
	})
	t.Logf("Spearman %.4f; they run short in the order %s", rho, strings.Join(short, " "))
	if rho < 0.95 {
		t.Errorf("Spearman %.4f, want at least 0.95", rho)
	}
	for _, letter := range []string{"g", "w"} {
		if i := slices.Index(short, letter); i >= 4 {
			t.Errorf("%s is the %dth to run short, want it among the first four", letter, i+1)
		}
	}
	if last := slices.Sorted(slices.Values(short[22:])); !slices.Equal(last, []string{"j", "q", "x", "z"}) {
		t.Errorf("the last to run short are %v, want j q x z", last)
	}
}

// The letters of English text per cent, as the general encyclopaedia's article on letter frequency has them, against the novel's; ligatures
// count as their letters, capitals as small ones.
func TestNovelAgainstLetterFrequency(t *testing.T) {
	counts := map[rune]int{}
	for _, s := range onBill(t).Sorts {
		for _, r := range strings.ToLower(s.Text) {
			counts[r] += s.Total
		}
	}
	var article, novel []float64
	for _, row := range handbook(t, "letter-frequency.csv") {
		share, err := strconv.ParseFloat(row[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		article = append(article, share)
		novel = append(novel, float64(counts[rune(row[0][0])]))
	}
	if len(article) != 26 {
		t.Fatalf("the article has %d letters", len(article))
	}
	rho := spearman(article, novel)
	t.Logf("Spearman %.4f", rho)
	if rho < 0.95 {
		t.Errorf("Spearman %.4f, want at least 0.95", rho)
	}
}

// spearman is the rank correlation: Pearson's of the ranks, equals having their mean rank (C. Spearman, The Proof and Measurement of
// Association between Two Things, 1904).
func spearman(x, y []float64) float64 {
	return pearson(ranks(x), ranks(y))
}

func ranks(x []float64) []float64 {
	out := make([]float64, len(x))
	for i, v := range x {
		below, same := 0, 0
		for _, w := range x {
			if w < v {
				below++
			} else if w == v {
				same++
			}
		}
		out[i] = float64(below) + float64(same+1)/2
	}
	return out
}

func pearson(x, y []float64) float64 {
	n := float64(len(x))
	var sx, sy, sxx, syy, sxy float64
	for i := range x {
		sx, sy = sx+x[i], sy+y[i]
		sxx, syy, sxy = sxx+x[i]*x[i], syy+y[i]*y[i], sxy+x[i]*y[i]
	}
	return (n*sxy - sx*sy) / math.Sqrt((n*sxx-sx*sx)*(n*syy-sy*sy))
}

func TestSpearman(t *testing.T) {
	for _, c := range []struct {
		name string
		x, y []float64
		want float64
	}{
		{"alike", []float64{1, 2, 3}, []float64{10, 100, 1000}, 1},
		{"reversed", []float64{1, 2, 3}, []float64{9, 4, 1}, -1},
		{"one pair of five exchanged: 1 - 6·2/(5·24)", []float64{1, 2, 3, 4, 5}, []float64{1, 2, 3, 5, 4}, 0.9},
		{"equals: ranks 1½ 1½ 3 against 1 2 3", []float64{4, 4, 5}, []float64{1, 2, 3}, math.Sqrt(3) / 2},
	} {
		if got := spearman(c.x, c.y); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}
