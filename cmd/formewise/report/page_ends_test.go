package report

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"formewise/demand"
)

// The table stays within the width: the words that it has no room for are cut, those farthest from the mark, and only those.
func TestMarkedKeepsWithinTheWidth(t *testing.T) {
	full := strings.Repeat("a", 24)
	for _, c := range []struct {
		page        int
		first, last string
		want        string
	}{
		{1, full, full + "-", "   1      1  " + full + "  " + full + "-     30   0    0"}, // 80
		{1, "-" + full, full + "-", "   1      1  -" + full[:22] + "…  " + full + "-     30   0    0"},
		{1, "-" + full, "of it", "   1      1  -" + full + "  of it     30   0    0"},
		{123_456, "-" + full, full + "-", "123456      1  -" + full[:21] + "…  …" + full[:22] + "-     30   0    0"},
		{1, strings.Repeat("\x1b", 24), "of it", "   1      1  <U+001B><U+001B><U+001B><U+001B><U+001B><U+…  of it     30   0    0"},
		{1, strings.Repeat("\x1b", 24), strings.Repeat("\x1b", 24), "   1      1  <U+001B><U+001B><U+001B…  …<U+001B><U+001B><U+001B>     30   0    0"},
	} {
		got, err := marked([]demand.PageEnd{{Page: c.page, Forme: 1, First: c.first, Last: c.last, Lines: 30}})
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(got, "\n"+c.want+"\n") {
			t.Errorf("page %d, %q to %q:\n%swant\n%s", c.page, c.first, c.last, got, c.want)
		}
		for line := range strings.Lines(got) {
			if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > width {
				t.Errorf("%d characters: %s", n, line)
			}
		}
	}
}

// What can hardly be is said page by page.
func TestDoubtful(t *testing.T) {
	e := &demand.PageEnds{
		Reported: []demand.Reported{
			{Report: demand.Report{Page: 2}, Off: -20_000, Far: true}, {Report: demand.Report{Page: 3}, Off: 10_125, Far: true},
			{Report: demand.Report{Page: 4}, Off: 9_000},
		},
		Pages: []demand.PageEnd{{Page: 2, In: 1}, {Page: 3, In: 2, Over: 8}, {Page: 4, Over: 1}},
	}
	got := strings.Join(doubtful(e), "")
	want := `Page 2 ended 20 lines sooner than cast off, more than a third of a page: see
that this is meant.
Page 3 ended 10.13 lines later than cast off, more than a third of a page: see
that this is meant.
Page 3 cannot come out by these set widths: 8 lines too many, with 2 got in.
Page 4 cannot come out by these set widths: 1 line too many.
`
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// The widths stand, or do not, and why.
func TestCorrectedSaysWhy(t *testing.T) {
	off := demand.MeanError{Mean: -500, Absolute: 1000}
	less := demand.MeanError{Mean: 0, Absolute: 250}
	for _, c := range []struct {
		correction *demand.Correction
		want       string
	}{
		{nil, "stand as entered: it takes 3 pages"},
		{&demand.Correction{Pages: 4, Widths: 10_000, Best: 10_000}, "4 pages tell of the set widths: they are right as entered."},
		{&demand.Correction{Pages: 4, Widths: 10_000, Best: 10_000, Before: off, After: off}, "no others would bring the pages nearer"},
		{&demand.Correction{Pages: 4, Widths: 10_000, Best: 10_600, Beyond: true, Before: off, After: off}, "further off than widths can be wrong, 5% at the most (-0.50 lines a page, 1.00 whatever the sign): the widths stand as entered."},
		{&demand.Correction{Pages: 4, Widths: 10_000, Best: 9_930, NoGain: true, Before: less, After: off}, "the widths stand as entered. Type 0.7% narrower than entered would bring these pages nearest; but"},
		{&demand.Correction{Pages: 4, Widths: 10_250, Best: 10_250, Before: off, After: less}, "the type runs 2.5% wider than entered, and all that comes after page 7"},
	} {
		got := corrected(&demand.PageEnds{Correction: c.correction, Reported: []demand.Reported{{Report: demand.Report{Page: 7}}}})
		if !strings.Contains(got, c.want) {
			t.Errorf("%s: %s\nwant %s", fmt.Sprintf("%+v", c.correction), got, c.want)
		}
	}
}
