package demand_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"unicode/utf8"

	"formewise/demand"
	"formewise/demand/internal/trial"
)

// The handbooks' rules of thumb for English prose, held against our cast-off of an English novel. They are estimates, each
// of one kind of page, and do not agree among themselves (testdata/handbook/SOURCES.md): what is bounded here is how far we are
// from them, and to which side.

const (
	inch = 72.27 // points
	pica = 12_000
)

// theNovel is what they are held against.
const theNovel = "en-prose-austen-emma"

func handbookFigures(t *testing.T, name string) []map[string]float64 {
	t.Helper()
	f, err := os.Open(filepath.Join(trial.Root(), "testdata", "handbook", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	table, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]float64
	for _, cells := range table[1:] {
		row := map[string]float64{}
		for i, cell := range cells {
			if v, err := strconv.ParseFloat(cell, 64); err == nil {
				row[table[0][i]] = v
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// wordsToLine is how many words of the novel go to a line on the average, short lines at paragraphs' ends among them.
func wordsToLine(t *testing.T, body, measure int) float64 {
	t.Helper()
	copy := trial.Copy(t, plainText(t, theNovel), false)
	a, err := demand.Check(t.Context(), planAt(t, measure, true), demand.Stock{cmr10(t, body)}, copy)
	if err != nil {
		t.Fatal(err)
	}
	return float64(copy.Words) / float64(a.CastOff.Lines)
}

// Words to the square inch, set solid: an American authors' handbook of about 1905, p. 73, seen. Words times the square of the body
// come to much the same at every body for us, since cmr10 is of the same proportions at all of them; in the table they
// go up and down by a tenth (1725, 1966, 1692, 1862, 2048), as founders cast their bodies wider or narrower.
func TestWordsToTheSquareInch(t *testing.T) {
	rows := handbookFigures(t, "words-per-square-inch.csv")
	if len(rows) != 5 {
		t.Fatalf("%d rows", len(rows))
	}
	for _, row := range rows {
		body, said := row["body_pt"], row["words_per_sq_inch_solid"]
		const measure = 24 * pica
		ours := wordsToLine(t, int(math.Round(body*1000)), measure) / (measure / 1000 / inch) / (body / inch)
		off := 100 * (ours - said) / said
		t.Logf("%4.1f points: %2.0f words to the square inch by the handbook, %4.1f by our cast-off: %+.0f %%", body, said, ours, off)
		if math.Abs(off) > 12 {
			t.Errorf("%v points: %.1f words to the square inch, and the handbook has %v", body, ours, said)
		}
	}
}

// Three ems to a word: the same handbook, p. 73, seen: four pages, 216 points wide and 360 deep. A word of the novel with its space
// takes 2.6 ems: the rule is on the safe side, and round. It is another estimator than the table above, and disagrees with
// that as well.
func TestThreeEmsToAWord(t *testing.T) {
	rows := handbookFigures(t, "three-ems-to-a-word.csv")
	if len(rows) != 4 {
		t.Fatalf("%d rows", len(rows))
	}
	for _, row := range rows {
		body, said := row["body_pt"], row["words_printed"]
		const measure = 216_000
		ours := wordsToLine(t, int(body*1000), measure) * row["lines"]
		off := 100 * (ours - said) / said
		t.Logf("%v points leaded %v: %v words to the page by the handbook, %.0f by our cast-off: %+.0f %%", body, row["leading_pt"], said, ours, off)
		if off < 5 || off > 20 {
			t.Errorf("%v points leaded %v: %.0f words to the page, and the handbook has %v", body, row["leading_pt"], ours, said)
		}
	}
}

// Characters to the pica = 342 / length of the lower-case alphabet in points: the copyfitters' rule, reported. A font with
// letters of other proportions fits it as well as cmr10 does.
func TestCharactersToThePica(t *testing.T) {
	for _, font := range []demand.Font{cmr10(t, 10_000), ferryAlone(t)} {
		alphabet := 0.0 // points
		letters := 0
		for _, s := range font.Sorts {
			if len(s.Text) == 1 && 'a' <= s.Text[0] && s.Text[0] <= 'z' {
				alphabet += float64(s.Set) / 1e6 * float64(font.Body) / 1000
				letters++
			}
		}
		if letters != 26 {
			t.Fatalf("%s: %d letters", font.Name, letters)
		}
		stock := demand.Stock{font}
		if font.Name != "cmr10" {
			stock = append(stock, spacesOf(cmr10(t, font.Body)))
		}
		set, err := demand.Set(t.Context(), planAt(t, 24*pica, true), stock, trial.Copy(t, plainText(t, theNovel), false))
		if err != nil {
			t.Fatal(err)
		}
		characters, full := 0, 0
		for l := range set.Lines(1, set.Pages()) {
			if l.Last || l.First || l.Blank {
				continue // not as long as the measure
			}
			full++
			characters += len(l.Gaps)
			for _, p := range l.Pieces {
				characters += utf8.RuneCountInString(p.Text)
			}
		}
		rule := 342 / alphabet
		ours := float64(characters) / float64(24*full)
		off := 100 * (ours - rule) / rule
		t.Logf("%s of %d points, alphabet of %.1f points: %.3f characters to the pica by the rule, %.3f in %d lines: %+.1f %%",
			font.Name, font.Body/1000, alphabet, rule, ours, full, off)
		if full < 1000 || math.Abs(off) > 5 {
			t.Errorf("%s: %.3f characters to the pica in %d lines, and the rule has %.3f", font.Name, ours, full, rule)
		}
	}
}

// ferryAlone is the demo's roman of 12 points, without spaces.
func ferryAlone(t *testing.T) demand.Font {
	t.Helper()
	cut, counts := trial.Font(t, "ferry-roman-12", 12_000)
	font := demand.Font{Name: cut.Name, Body: cut.Body}
	for i, s := range cut.Sorts {
		kind := "lower"
		if s.SmallCapital {
			kind = "small capital"
		}
		font.Sorts = append(font.Sorts, demand.Sort{Name: s.Name, Text: s.Text, Kind: kind, Set: (s.Width*1_000_000 + cut.Body/2) / cut.Body, OnHand: counts[i]})
	}
	return font
}

// spacesOf are the spaces of a font by themselves.
func spacesOf(font demand.Font) demand.Font {
	out := demand.Font{Name: "spaces", Body: font.Body}
	for _, s := range font.Sorts {
		if s.Kind == "space" {
			out.Sorts = append(out.Sorts, s)
		}
	}
	return out
}
