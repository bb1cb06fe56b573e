package standing

import (
	"testing"

	"formewise/demand/impose"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestStand(t *testing.T) {
	short := func(n int) *Limit { return &Limit{"Ferry Roman 12", "e", n} }
	single := impose.Plan{Format: "single", In: 1}
	for _, c := range []struct {
		name      string
		pages     []int
		plan      impose.Plan
		available int
		want      CanStand
	}{
		{"the whole work", []int{3, 2, 4}, single, 9, CanStand{3, 3, 3, 3, nil, true}},
		{"the drawing of longestRuns", []int{3, 2, 4, 1, 5}, single, 8, CanStand{2, 2, 2, 2, short(1), false}},
		{"more from the start than anywhere", []int{1, 1, 1, 9, 9}, single, 12, CanStand{1, 4, 4, 1, short(6), false}},
		{"one page cannot stand", []int{1, 1, 9, 1}, single, 8, CanStand{0, 2, 2, 0, short(1), false}},
		{"the first page cannot", []int{9, 1}, single, 8, CanStand{0, 0, 0, 0, short(1), false}},
		{"the last page cannot", []int{1, 9}, single, 8, CanStand{0, 1, 1, 0, short(1), false}},
		{"nothing in the case", []int{1}, single, 0, CanStand{0, 0, 0, 0, short(1), false}},
		{"nothing in the case, nothing wanted", []int{0, 0}, single, 0, CanStand{2, 2, 2, 2, nil, true}},
		{"formes of quarto: 2 3 6 7, 1 4 5 8, 10, 9", times(10, 1), quarto(), 7, CanStand{7, 7, 7, 1, short(1), false}},
	} {
		if d := cmp.Diff(c.want, newWork(pagesOf(c.pages...), c.plan, Schedule{}, oneLetter(c.available)).stand()); d != "" {
			t.Errorf("%s: want (-), got (+):\n%s", c.name, d)
		}
	}
}

func TestLinesFromStart(t *testing.T) {
	// Two letters; a thick is 333 wide and an en quad 500, so the pool is 2 x 333 + 500 = 1166.
	columns := []Column{{Font: "F", Sort: "a", Available: 4}, {Font: "F", Sort: "thick", Space: true, Width: 333, Available: 2}, {Font: "F", Sort: "en quad", Space: true, Width: 500, Available: 1}}
	head := Line{Number: 0, Pieces: []uint16{0}}
	text := func(pieces ...uint16) Line { return Line{Number: 1, Text: true, Pieces: pieces} }
	for _, c := range []struct {
		name  string
		pages [][]Line
		want  int
	}{
		{"all", [][]Line{{text(0), text(0)}, {text(0)}}, 3},
		{"to the letter", [][]Line{{text(0), text(0)}, {text(0), text(0), text(0)}}, 4},
		{"head and blank lines are not counted, but take type", [][]Line{{head, text(0), {Number: 2}}, {head, text(0), text(0)}}, 2},
		{"thicks for the en quad: three are 999", [][]Line{{text(1, 1)}, {text(1)}, {text(1)}}, 2},
		{"en quads for thicks: two are 1000", [][]Line{{text(2)}, {text(2), text(), text(1)}}, 3},
	} {
		if got := newWork(c.pages, quarto(), Schedule{}, columns).stand().LinesFromStart; got != c.want {
			t.Errorf("%s: %d lines, want %d", c.name, got, c.want)
		}
	}
}

// standByTrying is the slow twin of Stand: it tries every run of every length.
func (w *work) standByTrying() CanStand {
	longest := func(units [][]int) (int, *Limit) {
		for p := len(units); p >= 0; p-- {
			all := true
			for i := 0; i+p <= len(units); i++ {
				all = all && w.canStand(join(units[i:i+p]))
			}
			if !all {
				continue
			}
			for i := 0; i+p+1 <= len(units); i++ {
				if ok, limit := w.fits(w.total(join(units[i : i+p+1]))); !ok {
					return p, limit
				}
			}
			return p, nil
		}
		panic("runs of nothing cannot stand")
	}
	var pages, formes [][]int
	for i := range w.pages {
		pages = append(pages, []int{i + 1})
	}
	for _, forme := range w.formes {
		formes = append(formes, forme.Pages)
	}
	var c CanStand
	c.PagesAnywhere, c.LimitedBy = longest(pages)
	c.Formes, _ = longest(formes)
	for c.PagesFromStart < len(pages) && w.canStand(join(pages[:c.PagesFromStart+1])) {
		c.PagesFromStart++
	}
	c.Whole = w.canStand(join(pages))
	sum := make([]int, len(w.columns))
	for _, page := range w.pages {
		for _, line := range page {
			count(sum, line)
			if ok, _ := w.fits(sum); !ok {
				return c
			}
			if line.Text {
				c.LinesFromStart++
			}
		}
	}
	return c
}

func join(units [][]int) []int {
	var pages []int
	for _, unit := range units {
		pages = append(pages, unit...)
	}
	return pages
}

func TestStandAgainstTrying(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWork(t, 24)
		if d := cmp.Diff(w.standByTrying(), w.stand()); d != "" {
			t.Fatalf("twin (-), ours (+):\n%s", d)
		}
	})
}

// By formes with F - 1 of them left standing the work runs through, where F is what can stand; with F it does not.
func TestFormesThatStandAreASchedule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWork(t, 40)
		can := w.stand()
		if can.Formes > 0 {
			w.schedule = Schedule{Standing: can.Formes - 1}
			if !w.reckon().Holds {
				t.Fatalf("%d formes can stand anywhere, and with %d left standing it does not hold", can.Formes, can.Formes-1)
			}
		}
		w.schedule = Schedule{Standing: can.Formes}
		if got := w.reckon().Holds; got != can.Whole {
			t.Fatalf("%d formes can stand anywhere: with as many left standing it holds is %t, the whole work can stand is %t", can.Formes, got, can.Whole)
		}
	})
}
