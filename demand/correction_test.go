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
		{100_000, 95}, {200_000, 98}, {300_000, 99}, {400_000, 101}, {500_000, 102}, {600_000, 105},
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
			t.Logf("entered as %g %%, times %d: error %+v, then %+v; %d pages in truth, %d cast off, %d now",
				c.wrong, fix.Widths, fix.Before, fix.After, len(truth.Pages), len(free.Pages), len(got.Pages))
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
			if now, before := abs(len(got.Pages)-len(truth.Pages)), abs(len(free.Pages)-len(truth.Pages)); now > 1 || now > before {
				t.Errorf("%d pages in truth, cast off %d, corrected %d", len(truth.Pages), len(free.Pages), len(got.Pages))
			}
		})
	}
}

func abs(n int) int { return max(n, -n) }

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
	if got := endPages(t, plan, stock, copy, "1-10 lines", "2-10 lines", "3-10 lines"); got.Correction == nil || !got.Correction.Beyond || got.Correction.Widths != 10_000 {
		t.Errorf("pages off by ten lines: %+v", got.Correction)
	}
	last := len(endPages(t, plan, stock, copy).Pages)
	got := endPages(t, plan, stock, copy, "1+1 line", "2+1 line", fmt.Sprintf("%d-1 line", last))
	if counts := []bool{got.Reported[0].Counts, got.Reported[1].Counts, got.Reported[2].Counts}; !slices.Equal(counts, []bool{true, true, false}) || got.Correction != nil {
		t.Errorf("the last page counts: %v, %+v", counts, got.Correction)
	}
}

// A page that is off by one line among four right ones is what the others do not foretell: leaving it out, they say that nothing is
// wrong, and its own error stays; with it, each of the others is misled by a quarter of a line.
func TestErrorIsReckonedWithoutThePageItself(t *testing.T) {
	plan := ferryPlan(t)
	copy := chapter(t, 250_000, 40_000)
	stock := ferryStock(t, 100)
	free := endPages(t, plan, stock, copy)
	var reports []string
	for _, p := range free.Pages[:4] {
		reports = append(reports, fmt.Sprintf("%d: %s", p.Page, p.Last))
	}
	fix := endPages(t, plan, stock, copy, append(reports, "5+1 line")...).Correction
	if fix == nil || fix.Before != (demand.MeanError{Mean: 200, Absolute: 200}) {
		t.Fatalf("corrected: %+v", fix)
	}
	// Its own error stays a fifth of the mean; the others' must be there too, and to the other side.
	if fix.After.Absolute <= 200 || fix.After.Mean >= 200 {
		t.Errorf("the error after is %+v: it cannot be better than before, with nothing wrong", fix.After)
	}
}
