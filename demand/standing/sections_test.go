package standing

import (
	"slices"
	"testing"

	"formewise/demand/impose"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestCut(t *testing.T) {
	e := func(n int) *Limit { return &Limit{"Ferry Roman 12", "e", n} }
	quired := impose.Plan{Format: "folio", In: 2}
	half := quarto()
	half.HalfSheet = true
	pulled := quarto()
	pulled.Pull = 1
	for _, c := range []struct {
		name      string
		pages     []int
		plan      impose.Plan
		available int
		want      *Sections
	}{
		{"the whole work", times(10, 1), quarto(), 10, &Sections{"sheet", []Section{{upTo(10), nil}}}},
		{"by sheets", times(18, 1), quarto(), 17, &Sections{"sheet", []Section{{upTo(16), e(1)}, {[]int{17, 18}, nil}}}},
		{"quired, whole gatherings", times(17, 1), quired, 15, &Sections{"sheet", []Section{{upTo(8), e(1)}, {[]int{9, 10, 11, 12, 13, 14, 15, 16, 17}, nil}}}},
		{"half sheets", times(9, 1), half, 8, &Sections{"sheet", []Section{{upTo(8), e(1)}, {[]int{9}, nil}}}},
		{"a sheet cannot stand: by formes, in their order", times(10, 1), quarto(), 7,
			&Sections{"forme", []Section{{[]int{2, 3, 6, 7}, e(1)}, {[]int{1, 4, 5, 8, 9, 10}, nil}}}},
		{"a forme cannot stand: every forme at pulls", []int{1, 2, 2, 1, 1, 1, 2, 1}, quarto(), 4,
			&Sections{"pull", []Section{{[]int{2, 3}, e(1)}, {[]int{6, 7}, nil}, {[]int{1, 4, 5, 8}, nil}}}},
		{"a page cannot stand", []int{1, 1, 9}, quarto(), 8, nil},
		{"pulls are formes of their own", times(8, 1), pulled, 3,
			&Sections{"forme", []Section{{[]int{2, 3, 6}, e(1)}, {[]int{1, 4, 7}, e(1)}, {[]int{5, 8}, nil}}}},
	} {
		if d := cmp.Diff(c.want, newWork(pagesOf(c.pages...), c.plan, Schedule{}, oneLetter(c.available)).cut()); d != "" {
			t.Errorf("%s: want (-), got (+):\n%s", c.name, d)
		}
	}
}

// fewest finds by dynamic programming how few runs of units can stand; -1 where it cannot be done.
func (w *work) fewest(units [][]int) int {
	best := make([]int, len(units)+1)
	for j := 1; j <= len(units); j++ {
		best[j] = -1
		for i := range j {
			if best[i] >= 0 && (best[j] < 0 || best[i]+1 < best[j]) && w.canStand(join(units[i:j])) {
				best[j] = best[i] + 1
			}
		}
	}
	return best[len(units)]
}

// runsOf says if the sections are consecutive runs of these units that can stand, each of as many units as it can take and
// limited by what keeps the next unit out.
func (w *work) runsOf(t *rapid.T, list []Section, units [][]int) {
	for i, s := range list {
		size, got := 0, []int(nil)
		for len(got) < len(s.Pages) && size < len(units) {
			got = append(got, units[size]...)
			size++
		}
		next := append(slices.Clone(got), join(units[size:min(size+1, len(units))])...)
		slices.Sort(got)
		if !slices.Equal(got, s.Pages) || !w.canStand(got) {
			t.Fatalf("section %d is %v, where the units have %v", i+1, s.Pages, got)
		}
		units = units[size:]
		if len(units) == 0 {
			if s.LimitedBy != nil {
				t.Fatalf("the last section is limited by %+v", s.LimitedBy)
			}
			continue
		}
		ok, limit := w.fits(w.total(next))
		if ok || s.LimitedBy == nil || *s.LimitedBy != *limit {
			t.Fatalf("section %d with the next unit can stand: %t; limited by %+v, want %+v", i+1, ok, s.LimitedBy, limit)
		}
	}
	if len(units) > 0 {
		t.Fatalf("in no section: %v", units)
	}
}

func TestSectionsAreTheFewest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWork(t, 30)
		var sheets, formes [][]int
		bySheet := map[int]int{} // gathering to its place in sheets
		for _, forme := range w.formes {
			formes = append(formes, forme.Pages)
			g := (forme.Sheet - 1) / w.plan.In
			if _, known := bySheet[g]; !known {
				bySheet[g] = len(sheets)
				sheets = append(sheets, nil)
			}
			sheets[bySheet[g]] = append(sheets[bySheet[g]], forme.Pages...)
		}
		got := w.cut()
		for _, try := range []struct {
			unit  string
			units [][]int
		}{{"sheet", sheets}, {"forme", formes}} {
			if n := w.fewest(try.units); n >= 0 {
				if got == nil || got.Unit != try.unit || len(got.List) != n {
					t.Fatalf("%+v, want %d sections by the %s", got, n, try.unit)
				}
				w.runsOf(t, got.List, try.units)
				return
			}
		}
		for i := range w.pages {
			if !w.canStand([]int{i + 1}) {
				if got != nil {
					t.Fatalf("page %d cannot stand, and yet %+v", i+1, got)
				}
				return
			}
		}
		n := 0
		for _, forme := range w.formes {
			var pages [][]int
			for _, page := range forme.Pages {
				pages = append(pages, []int{page})
			}
			fewest := w.fewest(pages)
			if got == nil || got.Unit != "pull" || len(got.List) < n+fewest {
				t.Fatalf("%+v, want sections by the pull", got)
			}
			w.runsOf(t, got.List[n:n+fewest], pages)
			n += fewest
		}
		if len(got.List) != n {
			t.Fatalf("%d sections, want %d", len(got.List), n)
		}
	})
}
