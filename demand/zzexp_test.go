package demand

import (
	"context"
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"formewise/demand/impose"
	"formewise/demand/internal/trial"
	"formewise/demand/page"
	"formewise/demand/stick"
	"formewise/texts/divide"
)

func TestZZ(t *testing.T) {
	var stock Stock
	for _, name := range []string{"ferry-roman-12", "spacing-12"} {
		font, _ := trial.Font(t, name, 1_000_000)
		f := Font{Name: name, Body: 12_000}
		for _, s := range font.Sorts {
			kind := "lower"
			if s.Space {
				kind = "space"
			}
			f.Sorts = append(f.Sorts, Sort{Name: s.Name, Text: s.Text, Kind: kind, Set: s.Width})
		}
		stock = append(stock, f)
	}
	en, _ := divide.For("en")
	plan := Plan{Measure: 264_000, Lines: 30, FirstPage: 1, Dividing: en, Imposing: impose.Plan{Format: "quarto", In: 1}, Allowance: Allowance{Num: 3, Den: 100}}
	text := string(trial.Text(t, "en-prose-austen-emma"))
	ctx := context.Background()
	for _, noise := range []int{0, 2, 4} {
		for _, n := range []int{3, 5, 10} {
			var e [5][]float64
			rng := rand.New(rand.NewSource(1))
			for trialN := 0; trialN < 40; trialN++ {
				x := 9800 + rng.Intn(5)*100
				from := rng.Intn(700_000)
				part := strings.ToValidUTF8(text[from:from+40_000], "")
				part = part[strings.Index(part, "\n\n"):]
				copy := trial.Copy(t, []byte(part), false)
				truth := stock.scaled(x) // true widths = stock*x
				// truth pages with noise
				var ends []page.End
				at := stick.Place{}
				for p := 1; p <= n; p++ {
					s, err := composed(ctx, plan, truth, copy, page.Ending(ends))
					if err != nil {
						t.Fatal(err)
					}
					end := s.pages.Start(p + 1)
					k := rng.Intn(2*noise+1) - noise
					end = shift(s, end, k)
					ends = append(ends, page.End{Next: end, Lines: 30})
					at = end
				}
				_ = at
				// measured with entered widths = stock
				var told []measured
				var prior []page.End
				ok := true
				for p := 1; p <= n; p++ {
					s, _ := composed(ctx, plan, stock, copy, page.Ending(prior))
					a, c := s.pages.Start(p), s.pages.Start(p+1)
					r := page.NewRuler(copy, s.pages.Stick())
					cast, _ := r.Between(a, c)
					told = append(told, measured{from: a, to: ends[p-1].Next, lines: cast.Thousandths()})
					prior = append(prior, ends[p-1])
				}
				if !ok {
					continue
				}
				as, _ := composed(ctx, plan, stock, copy)
				g := &gauge{ctx: ctx, as: as, pages: told, known: map[int][]int{}}
				f, _ := g.fit(-1)
				want := float64(x)
				e[0] = append(e[0], float64(f)-want)
				list, _ := g.errors(10000)
				sumE, sumN := 0, 0
				for i, v := range list {
					sumE += v
					sumN += told[i].lines
				}
				ratio := 10000 * float64(sumN) / float64(sumN+sumE)
				e[1] = append(e[1], ratio-want)
				// two-step
				l2, _ := g.errors(int(ratio))
				s2 := 0
				for _, v := range l2 {
					s2 += v
				}
				e[2] = append(e[2], ratio*float64(sumN)/float64(sumN+s2)-want)
				// least squares over grid
				best, bf := math.MaxFloat64, 0.0
				cnt := 0.0
				lin := 0.0
				var xs, ys []float64
				for m := 9500; m <= 10500; m += 25 {
					l, _ := g.errors(m)
					q := 0.0
					s := 0.0
					for _, v := range l {
						q += float64(v) * float64(v)
						s += float64(v)
					}
					if q < best {
						best, bf, cnt = q, float64(m), 1
					} else if q == best {
						bf += float64(m)
						cnt++
					}
					xs = append(xs, float64(m))
					ys = append(ys, s)
				}
				e[3] = append(e[3], bf/cnt-want)
				// regression line of sum over grid, zero crossing
				mx, my := 0.0, 0.0
				for i := range xs {
					mx += xs[i]
					my += ys[i]
				}
				mx /= float64(len(xs))
				my /= float64(len(xs))
				sxy, sxx := 0.0, 0.0
				for i := range xs {
					sxy += (xs[i] - mx) * (ys[i] - my)
					sxx += (xs[i] - mx) * (xs[i] - mx)
				}
				lin = mx - my*sxx/sxy
				e[4] = append(e[4], lin-want)
			}
			fmt.Printf("noise %d words, %d pages:", noise, n)
			for i, name := range []string{"solve", "ratio", "two-step", "squares", "line"} {
				m, s := 0.0, 0.0
				for _, v := range e[i] {
					m += v
					s += v * v
				}
				fmt.Printf("  %s mean %.0f rms %.0f", name, m/float64(len(e[i])), math.Sqrt(s/float64(len(e[i]))))
			}
			fmt.Println()
		}
	}
}

func shift(s *Setting, at stick.Place, k int) stick.Place {
	// k words on or back within the paragraph
	if at.Paragraph >= len(s.copy.Paragraphs) {
		return at
	}
	text := s.copy.Paragraphs[at.Paragraph].Text
	p := at.At
	for ; k > 0; k-- {
		q := p
		for q < len(text) && text[q] != ' ' && text[q] != '\n' {
			q++
		}
		for q < len(text) && (text[q] == ' ' || text[q] == '\n') {
			q++
		}
		if q >= len(text) {
			break
		}
		p = q
	}
	for ; k < 0 && p > 0; k++ {
		q := p - 1
		for q > 0 && (text[q-1] == ' ' || text[q-1] == '\n') {
			q--
		}
		for q > 0 && text[q-1] != ' ' && text[q-1] != '\n' {
			q--
		}
		p = q
	}
	return stick.Place{Paragraph: at.Paragraph, At: p}
}
