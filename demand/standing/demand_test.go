package standing

import (
	"testing"

	"formewise/demand/impose"
	"formewise/demand/tally"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestPagesAtPeak(t *testing.T) {
	half := quarto()
	half.HalfSheet = true
	pulled := quarto()
	pulled.Pull = 2
	for _, c := range []struct {
		name string
		plan impose.Plan
		s    Schedule
		want int
	}{
		{"quarto by formes", quarto(), Schedule{}, 4},
		{"quarto seriatim", quarto(), Schedule{Seriatim: true}, 7},
		{"quarto by formes, released by sheets", quarto(), Schedule{SheetRelease: true}, 8},
		{"quarto seriatim, released by sheets", quarto(), Schedule{Seriatim: true, SheetRelease: true}, 8},
		{"one forme left standing", quarto(), Schedule{Standing: 1}, 8},
		{"two formes left standing", quarto(), Schedule{Standing: 2}, 12},
		{"everything left standing", quarto(), Schedule{Standing: All}, 16},
		{"half sheets", half, Schedule{}, 4},
		{"half sheets seriatim", half, Schedule{Seriatim: true}, 4},
		{"pulls of two", pulled, Schedule{}, 2},
		{"pulls of two, released by sheets", pulled, Schedule{SheetRelease: true}, 8},
		{"two sheets quired, seriatim", impose.Plan{Format: "quarto", In: 2}, Schedule{Seriatim: true}, 11}, // the first full forme is 6 7 10 11
	} {
		w := newWork(pagesOf(times(16, 1)...), c.plan, c.s, oneLetter(0))
		if got := w.reckon().PagesAtPeak; got != c.want {
			t.Errorf("%s: %d pages at the peak, want %d", c.name, got, c.want)
		}
	}
}

func TestReckon(t *testing.T) {
	// Quarto, so forme 1 is pages 2 3 6 7 and forme 2 pages 1 4 5 8.
	pages := pagesOf(9, 1, 2, 1, 1, 3, 4, 1)
	e := func(available int) []Column {
		return append(oneLetter(available), Column{Font: "Ferry Roman 12", Sort: "q", Available: 1})
	}
	for _, c := range []struct {
		name      string
		s         Schedule
		available int
		want      Demand
	}{
		{"by formes, enough", Schedule{}, 12,
			Demand{Peak: []int{12, 0}, PeakForme: []int{2, 0}, FormeMax: []int{12, 0}, RunsOut: []*Place{nil, nil},
				RunsOutStraight: []*Place{{Page: 4, Line: 1}, nil}, Holds: true, PagesAtPeak: 4}},
		{"by formes, one short", Schedule{}, 11,
			Demand{Peak: []int{12, 0}, PeakForme: []int{2, 0}, FormeMax: []int{12, 0}, RunsOut: []*Place{{2, 8, 1}, nil},
				RunsOutStraight: []*Place{{Page: 3, Line: 1}, nil}, Holds: false, PagesAtPeak: 4}},
		{"by formes, little: it runs out before the peak", Schedule{}, 2,
			Demand{Peak: []int{12, 0}, PeakForme: []int{2, 0}, FormeMax: []int{12, 0}, RunsOut: []*Place{{1, 3, 1}, nil},
				RunsOutStraight: []*Place{{Page: 1, Line: 1}, nil}, Holds: false, PagesAtPeak: 4}},
		{"seriatim: page 7 is set before its forme goes", Schedule{Seriatim: true}, 20,
			Demand{Peak: []int{21, 0}, PeakForme: []int{1, 0}, FormeMax: []int{12, 0}, RunsOut: []*Place{{1, 7, 1}, nil},
				RunsOutStraight: []*Place{{Page: 7, Line: 1}, nil}, Holds: false, PagesAtPeak: 7}},
		{"all left standing", Schedule{Standing: All}, 22,
			Demand{Peak: []int{22, 0}, PeakForme: []int{2, 0}, FormeMax: []int{12, 0}, RunsOut: []*Place{nil, nil},
				RunsOutStraight: []*Place{nil, nil}, Holds: true, PagesAtPeak: 8}},
	} {
		if d := cmp.Diff(c.want, newWork(pages, quarto(), c.s, e(c.available)).reckon()); d != "" {
			t.Errorf("%s: want (-), got (+):\n%s", c.name, d)
		}
	}
}

func TestFirstFormeOfEqualPeaks(t *testing.T) {
	w := newWork(pagesOf(times(16, 1)...), quarto(), Schedule{}, oneLetter(9))
	if got := w.reckon().PeakForme[0]; got != 1 {
		t.Errorf("four formes alike: peak in forme %d, want 1", got)
	}
}

func TestRunsOutByLine(t *testing.T) {
	// A head line is 0, a direction line comes last; spaces run out sort by sort, though as a pool they would hold.
	columns := []Column{{Font: "F", Sort: "a", Available: 3}, {Font: "F", Sort: "thick", Space: true, Width: 333, Available: 1}, {Font: "F", Sort: "em quad", Space: true, Width: 1000, Available: 9}}
	page := []Line{{Number: 0, Pieces: []uint16{0, 1}}, {Number: 1, Text: true, Pieces: []uint16{0, 0}}, {Number: 2, Text: true, Pieces: []uint16{1}}, {Number: 3, Pieces: []uint16{0}}}
	d := newWork([][]Line{page}, quarto(), Schedule{}, columns).reckon()
	want := []*Place{{1, 1, 3}, {1, 1, 2}, nil}
	if diff := cmp.Diff(want, d.RunsOut); diff != "" {
		t.Error(diff)
	}
	want = []*Place{{0, 1, 3}, {0, 1, 2}, nil}
	if diff := cmp.Diff(want, d.RunsOutStraight); diff != "" {
		t.Error(diff)
	}
}

func TestLinesAreAskedForOncePerPage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWork(t, 40)
		asked := map[int]int{}
		d := Reckon(w.table, w.formes, w.schedule, w.columns, func(page int) []Line {
			asked[page]++
			return w.lines(page)
		})
		out := map[int]bool{}
		for c := range w.columns {
			for _, place := range []*Place{d.RunsOut[c], d.RunsOutStraight[c]} {
				if place != nil {
					out[place.Page] = true
				}
			}
		}
		for page, n := range asked {
			if n != 1 || !out[page] {
				t.Fatalf("page %d asked for %d times; something runs out there: %t", page, n, out[page])
			}
		}
		unasked := Reckon(w.table, w.formes, w.schedule, w.columns, nil)
		d.RunsOut, d.RunsOutStraight = make([]*Place, len(w.columns)), make([]*Place, len(w.columns))
		if diff := cmp.Diff(d, unasked); diff != "" {
			t.Fatalf("without lines the rest is not the same:\n%s", diff)
		}
	})
}

// reckonAgain is the slow twin of Reckon: at every page it counts all that is in use afresh, line by line.
func (w *work) reckonAgain() Demand {
	n := len(w.columns)
	d := Demand{Peak: make([]int, n), PeakForme: make([]int, n), FormeMax: make([]int, n), RunsOut: make([]*Place, n), RunsOutStraight: make([]*Place, n), Holds: true}
	var inUse []int
	for _, e := range playByLooking(w.formes, w.schedule) {
		if e.Page == 0 {
			var still []int
			for _, page := range inUse {
				mine := false
				for _, p := range w.formes[e.Forme-1].Pages {
					mine = mine || p == page
				}
				if !mine {
					still = append(still, page)
				}
			}
			inUse = still
			continue
		}
		sum := w.total(inUse)
		for _, line := range w.lines(e.Page) {
			count(sum, line)
			for c := range sum {
				if sum[c] > w.columns[c].Available && d.RunsOut[c] == nil {
					d.RunsOut[c] = &Place{e.Forme, e.Page, line.Number}
				}
			}
		}
		inUse = append(inUse, e.Page)
		sum = w.total(inUse)
		for c := range sum {
			if sum[c] > d.Peak[c] {
				d.Peak[c], d.PeakForme[c] = sum[c], e.Forme
			}
		}
		ok, _ := w.fits(sum)
		d.Holds = d.Holds && ok
		d.PagesAtPeak = max(d.PagesAtPeak, len(inUse))
	}
	for _, forme := range w.formes {
		for c, k := range w.total(forme.Pages) {
			d.FormeMax[c] = max(d.FormeMax[c], k)
		}
	}
	sum := make([]int, n)
	for i, page := range w.pages {
		for _, line := range page {
			count(sum, line)
			for c := range sum {
				if sum[c] > w.columns[c].Available && d.RunsOutStraight[c] == nil {
					d.RunsOutStraight[c] = &Place{Page: i + 1, Line: line.Number}
				}
			}
		}
	}
	return d
}

func TestReckonAgainstCountingAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWork(t, 40)
		if d := cmp.Diff(w.reckonAgain(), w.reckon()); d != "" {
			t.Fatalf("twin (-), ours (+):\n%s", d)
		}
	})
}

// By formes, each released by itself, N left standing is the type of N + 1 formes on end.
func TestPeakIsTheFullestRunOfFormes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWork(t, 60)
		w.schedule.Seriatim, w.schedule.SheetRelease = false, false
		run := len(w.formes)
		if w.schedule.Standing != All {
			run = min(run, w.schedule.Standing+1)
		}
		want := make([]int, len(w.columns))
		for i := 0; i+run <= len(w.formes); i++ {
			var pages []int
			for _, forme := range w.formes[i : i+run] {
				pages = append(pages, forme.Pages...)
			}
			for c, n := range w.total(pages) {
				want[c] = max(want[c], n)
			}
		}
		if d := cmp.Diff(want, w.reckon().Peak); d != "" {
			t.Fatalf("runs of %d formes (-), peak (+):\n%s", run, d)
		}
	})
}

func TestNoPages(t *testing.T) {
	for _, columns := range [][]Column{nil, oneLetter(0)} {
		w := newWork(nil, quarto(), Schedule{}, columns)
		d := w.reckon()
		if !d.Holds || d.PagesAtPeak != 0 || len(d.Peak) != len(columns) || len(d.RunsOut) != len(columns) {
			t.Errorf("no pages: %+v", d)
		}
		if got := w.stand(); got != (CanStand{Whole: true}) {
			t.Errorf("no pages: %+v", got)
		}
		if diff := cmp.Diff(&Sections{Unit: "sheet", List: []Section{}}, w.cut()); diff != "" {
			t.Error(diff)
		}
	}
}

func TestLinesThatHoldLessThanTheTally(t *testing.T) {
	table := tally.New(1)
	table.Add([]uint32{5})
	defer func() {
		if recover() == nil {
			t.Error("the page takes 5, its lines hold 1, and nothing was said")
		}
	}()
	Reckon(table, impose.Formes(1, quarto()), Schedule{}, oneLetter(3), func(int) []Line { return pagesOf(1)[0] })
}
