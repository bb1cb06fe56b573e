package demand_test

import (
	"slices"
	"strings"
	"testing"

	"formewise/demand"
	"formewise/demand/internal/trial"
	"formewise/texts/divide"
)

// An evenness says how evenly the lines of a text are spaced.
type evenness struct {
	justified int // lines with word spaces that are filled to the measure: all but last ones
	open      int // of those, lines with a word space above two thirds of an em
	uneven    int // lines whose word spaces differ by more than a sixth of an em
	unfilled  int // lines with word spaces that want more than a twentieth of an em, last ones too
	bare      int // lines without a word space that are not last ones
	divided   int
	three     int // lines that are the third divided one on end, or a later one, words too long for the measure apart
	widest    int // the widest word space of a justified line, thousandths of a point
	mean      float64
}

func evennessOf(lines func(yield func(demand.Line) bool), em int) evenness {
	var e evenness
	onEnd, spaces, width := 0, 0, 0
	for l := range lines {
		if l.Broken {
			e.divided++
			if onEnd++; onEnd > 2 && !l.Forced {
				e.three++
			}
		} else {
			onEnd = 0
		}
		if len(l.Gaps) == 0 {
			if !l.Last {
				e.bare++
			}
			continue
		}
		narrowest, widest := slices.Min(l.Gaps), slices.Max(l.Gaps)
		if 6*(widest-narrowest) > em {
			e.uneven++
		}
		if 20*l.Wants > em {
			e.unfilled++
		}
		if l.Last {
			continue
		}
		e.justified++
		if 3*widest > 2*em {
			e.open++
		}
		e.widest = max(e.widest, widest)
		spaces += len(l.Gaps)
		for _, gap := range l.Gaps {
			width += gap
		}
	}
	e.mean = float64(width) / float64(max(spaces, 1)) / float64(em)
	return e
}

// TestEvenness: at 24 picas in ten-point type, with words divided, at most three justified lines of a thousand of English have a
// word space over two thirds of an em, the word spaces of a line never differ by more than a sixth of an em (Stewart 1919: an en from a
// thick), and every line that has a word space is filled to a twentieth of an em.
func TestEvenness(t *testing.T) {
	const em = 10_000
	stock := demand.Stock{cmr10(t, em)}
	for _, name := range texTexts() {
		plan := planAt(t, 24*12_000, true)
		var err error
		if plan.Dividing, err = divide.For(languageOf(name)); err != nil {
			t.Fatal(err)
		}
		set, err := demand.Set(t.Context(), plan, stock, trial.Copy(t, plainText(t, name), false))
		if err != nil {
			t.Fatal(err)
		}
		e := evennessOf(set.Lines(1, set.Pages()), em)
		open := 100 * float64(e.open) / float64(e.justified)
		t.Logf("%-28s %5d justified lines, %d (%.2f %%) with a space over 2/3 em, the widest %.2f em, the mean %.3f em; %.1f %% divided; %d without a space",
			name, e.justified, e.open, open, float64(e.widest)/em, e.mean, 100*float64(e.divided)/float64(e.justified), e.bare)
		if e.justified < 1000 {
			t.Errorf("%s: only %d justified lines", name, e.justified)
		}
		if most := mostOpen(name); open > most {
			t.Errorf("%s: %.2f %% of the justified lines have a word space over 2/3 em, at most %.1f %% may", name, open, most)
		}
		if e.uneven > 0 || e.unfilled > 0 {
			t.Errorf("%s: %d lines have uneven spaces, %d are not filled", name, e.uneven, e.unfilled)
		}
		if e.three > 0 {
			t.Errorf("%s: %d third divisions on end", name, e.three)
		}
	}
}

// mostOpen is how many lines in a hundred may have a word space over two thirds of an em.
func mostOpen(name string) float64 {
	if languageOf(name) == "la" {
		return 0.6 // of its long words so many are divided that a third division on end, which is out, would often be wanted
	}
	return 0.3
}

// languageOf is the language that an open text is divided in.
func languageOf(name string) string {
	language, _, _ := strings.Cut(name, "-")
	return language
}

// BenchmarkEvenness prints what TestEvenness bounds, of one text at several measures, divided.
func BenchmarkEvenness(b *testing.B) {
	const em = 10_000
	stock := demand.Stock{cmr10(b, em)}
	copy := trial.Copy(b, plainText(b, texTexts()[0]), false)
	for _, picas := range []int{12, 18, 24, 30} {
		b.Run(texSetting{picas, true}.String(), func(b *testing.B) {
			var e evenness
			for b.Loop() {
				set, err := demand.Set(b.Context(), planAt(b, picas*12_000, true), stock, copy)
				if err != nil {
					b.Fatal(err)
				}
				e = evennessOf(set.Lines(1, set.Pages()), em)
			}
			b.ReportMetric(1000*float64(e.open)/float64(e.justified), "over⅔em/1000")
			b.ReportMetric(float64(e.widest)/em, "widest-em")
			b.ReportMetric(e.mean, "mean-em")
			b.ReportMetric(100*float64(e.divided)/float64(e.justified), "divided-%")
			b.ReportMetric(float64(e.uneven+e.unfilled), "uneven")
		})
	}
}
