package demand_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math/big"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"unicode"
	"unicode/utf8"

	"formewise/demand"
	"formewise/demand/impose"
	"formewise/demand/internal/trial"
	"formewise/demand/stick"
	"formewise/texts/divide"
	"formewise/texts/read"
)

// cmr10 is Computer Modern Roman 10 with its spaces, at a body in thousandths of a point (testdata/fonts/README.md).
func cmr10(t testing.TB, body int) demand.Font {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(trial.Root(), "testdata", "fonts", "cmr10.csv"))
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	font := demand.Font{Name: "cmr10", Body: body}
	for _, row := range rows[1:] {
		set, ok := new(big.Rat).SetString(row[3])
		if !ok {
			t.Fatalf("cmr10.csv: set %q", row[3])
		}
		count, err := strconv.Atoi(row[4])
		if err != nil {
			t.Fatalf("cmr10.csv: %v", err)
		}
		millionths, _ := set.Mul(set, big.NewRat(1_000_000, 1)).Float64()
		font.Sorts = append(font.Sorts, demand.Sort{
			Name: row[0], Text: row[1], Kind: row[2], Set: int(millionths + 0.5), Basis: "counted", OnHand: count,
		})
	}
	return font
}

// plainText is one of the open texts without what cmr10 has no sort for, as TeX is given it (testdata/tex/castoff.go).
func plainText(t testing.TB, name string) []byte {
	t.Helper()
	printed := map[rune]bool{'"': true, '\'': true} // turned into others
	for _, s := range cmr10(t, 10_000).Sorts {
		if utf8.RuneCountInString(s.Text) == 1 {
			r, _ := utf8.DecodeRuneInString(s.Text)
			printed[r] = true
		}
	}
	return bytes.Map(func(r rune) rune {
		if printed[r] || unicode.IsSpace(r) {
			return r
		}
		return -1
	}, trial.Text(t, name))
}

// english is TeX's own patterns; nil where words are not to be divided.
func english(t testing.TB, divided bool) stick.Divider {
	t.Helper()
	if !divided {
		return nil
	}
	d, err := divide.For("en")
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func planAt(t testing.TB, picas int, divided bool) demand.Plan {
	plan := demand.Plan{
		Measure: picas * 12_000, Lines: 40, FirstPage: 1,
		Imposing: impose.Plan{Format: "octavo", In: 1}, Allowance: demand.Allowance{Num: 3, Den: 100},
	}
	if divided {
		plan.Dividing = english(t, true)
	}
	return plan
}

func TestScratch(t *testing.T) {
	rows := goldenLines(t)
	for _, g := range rows {
		copy := trial.Copy(t, plainText(t, g.Text), false)
		set, err := demand.Set(t.Context(), planAt(t, g.Picas, g.Divided), demand.Stock{cmr10(t, 10_000)}, copy)
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		for range set.Lines(1, set.Pages()) {
			n++
		}
		fmt.Printf("%-30s %2d %5v  tex %6d  kernless %6d  ours %6d  %+.2f%%  %+.2f%%\n", g.Text, g.Picas, g.Divided, g.Lines, g.Kernless, n, 100*float64(n-g.Lines)/float64(g.Lines), 100*float64(n-g.Kernless)/float64(g.Kernless))
	}
	_ = read.Prose
}
