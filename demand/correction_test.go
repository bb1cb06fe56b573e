package demand_test

import (
	"fmt"
	"slices"
	"testing"

	"formewise/demand"
)

// Pages are composed with the right widths: the truth. Cast off with widths that are wrong by some per cent, and corrected after
// eight such pages, the error all but goes, and what follows ends where it truly does, or near it.
func TestCorrectionFindsTheTruth(t *testing.T) {
	plan := ferryPlan(t)
	for _, c := range []struct {
		from  int
		wrong float64 // what the set widths are entered as, in hundredths of the truth
	}{
		{100_000, 96}, {200_000, 98}, {300_000, 99}, {400_000, 101}, {500_000, 102}, {600_000, 105},
	} {
		t.Run(fmt.Sprintf("%g %%", c.wrong), func(t *testing.T) {
			copy := chapter(t, c.from, 60_000)
			truth := endPages(t, plan, ferryStock(t, 100), copy)
			wrong := ferryStock(t, c.wrong)
			free := endPages(t, plan, wrong, copy)
			var reports []string
			for _, p := range truth.Pages[:8] {
				reports = append(reports, fmt.Sprintf("%d: %s", p.Page, p.Last))
			}
			got := endPages(t, plan, wrong, copy, reports...)
			for i := range 8 {
				if got.Pages[i].First != truth.Pages[i].First || got.Pages[i].Last != truth.Pages[i].Last {
					t.Errorf("page %d is %q to %q, in truth %q to %q", i+1, got.Pages[i].First, got.Pages[i].Last, truth.Pages[i].First, truth.Pages[i].Last)
				}
			}
			fix := got.Correction
			if fix == nil || fix.Pages != 8 || fix.Beyond {
				t.Fatalf("corrected: %+v", fix)
			}
			t.Logf("times %d: error %+v, then %+v", fix.Widths, fix.Before, fix.After)
			if want := 1_000_000 / c.wrong; float64(fix.Widths) < want-40 || float64(fix.Widths) > want+40 {
				t.Errorf("widths times %d ten-thousandths, want %.0f to within 40", fix.Widths, want)
			}
			// Eight pages of 30 lines: each per cent is about 0.3 lines of text a page, somewhat less where lines end short.
			if off := (100 - c.wrong) * 300; abs(fix.Before.Mean) < abs(int(off))/2 || fix.Before.Mean > 0 != (off < 0) {
				t.Errorf("the error before was %d thousandths of a line a page, with widths off by about %.0f", fix.Before.Mean, off)
			}
			if abs(fix.After.Mean) > 150 || fix.After.Absolute > 500 {
				t.Errorf("the error after is %+v", fix.After)
			}
			// Where page 38 begins, after thirty pages cast off: each per cent is 9 lines of some 50 letters by then.
			to := 38
			where, was, is := lettersBefore(truth, to), lettersBefore(free, to), lettersBefore(got, to)
			if abs(is-where) > 250 || abs(is-where) > abs(was-where)/2 {
				t.Errorf("page %d begins after %d letters in truth, cast off after %d, corrected after %d", to, where, was, is)
			}
		})
	}
}

func abs(n int) int { return max(n, -n) }

// lettersBefore is how many letters go before a page.
func lettersBefore(e *demand.PageEnds, page int) int {
	n := 0
	for l := range e.Setting.Lines(1, page-1) {
		for _, p := range l.Pieces {
			if !p.Space {
				n += len([]rune(p.Text))
			}
		}
	}
	return n
}

// The type is as entered: a correction of pages that were truly set stays within what their line ends leave open.
func TestCorrectionOfTheTruthIsNone(t *testing.T) {
	plan := ferryPlan(t)
	copy := chapter(t, 250_000, 30_000)
	truth := endPages(t, plan, ferryStock(t, 100), copy)
	var reports []string
	for _, p := range truth.Pages[:5] {
		reports = append(reports, fmt.Sprintf("%d: %s", p.Page, p.Last))
	}
	if fix := endPages(t, plan, ferryStock(t, 100), copy, reports...).Correction; fix == nil || fix.Widths != 10_000 || fix.Before.Absolute != 0 {
		t.Errorf("corrected: %+v", fix)
	}
}

// Two pages are too few, a page that a form feed ends does not count, and pages that are off by a third are not believed.
func TestWhatIsNotCorrected(t *testing.T) {
	plan := ferryPlan(t)
	copy := chapter(t, 250_000, 30_000)
	stock := ferryStock(t, 100)
	if got := endPages(t, plan, stock, copy, "1+1 line", "2+1 line"); got.Correction != nil {
		t.Errorf("two pages: %+v", got.Correction)
	}
	if got := endPages(t, plan, stock, copy, "1+12 lines", "2+12 lines", "3+12 lines"); got.Correction == nil || !got.Correction.Beyond || got.Correction.Widths != 10_000 {
		t.Errorf("pages off by twelve lines: %+v", got.Correction)
	}
	// With type a fifth wider these would be somewhat less off, but that is absurd.
	if got := endPages(t, plan, stock, copy, "1-20 lines", "2-20 lines", "4-20 lines"); got.Correction == nil || !got.Correction.Beyond || got.Correction.Widths != 10_000 {
		t.Errorf("pages off by twenty lines: %+v", got.Correction)
	}
	// A line less here and a line more there tell nothing of the widths.
	if fix := endPages(t, plan, stock, copy, "1-1 line", "2+1 line", "4-1 line", "5+1 line").Correction; fix == nil || fix.Beyond || fix.Widths != 10_000 || fix.Best != 10_000 != fix.NoGain {
		t.Errorf("pages off by a line this way and that: %+v", fix)
	}
	if got := endPages(t, plan, stock, copy, "1-10 lines", "2-10 lines", "3-10 lines"); got.Correction == nil || !got.Correction.Beyond || got.Correction.Widths != 10_000 {
		t.Errorf("pages off by ten lines: %+v", got.Correction)
	}
	last := len(endPages(t, plan, stock, copy).Pages)
	got := endPages(t, plan, stock, copy, "1+1 line", "2+1 line", fmt.Sprintf("%d-1 line", last))
	if counts := []bool{got.Reported[0].Counts, got.Reported[1].Counts, got.Reported[2].Counts}; !slices.Equal(counts, []bool{true, true, false}) || got.Correction != nil {
		t.Errorf("the last page counts: %v, %+v", counts, got.Correction)
	}
}

// One page of five is off by a line, and the others are right to the word: that is the page's own affair, and the widths stand.
func TestOnePageOffIsNotBelieved(t *testing.T) {
	plan := ferryPlan(t)
	copy := chapter(t, 250_000, 40_000)
	stock := ferryStock(t, 100)
	var reports []string
	for _, p := range endPages(t, plan, stock, copy).Pages[:4] {
		reports = append(reports, fmt.Sprintf("%d: %s", p.Page, p.Last))
	}
	fix := endPages(t, plan, stock, copy, append(reports, "5+1 line")...).Correction
	fifth := demand.MeanError{Mean: 200, Absolute: 200}
	if fix == nil || fix.Widths != 10_000 || fix.Before != fifth || fix.After != fifth {
		t.Errorf("corrected: %+v", fix)
	}
}
