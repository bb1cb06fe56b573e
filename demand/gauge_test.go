package demand

import (
	"testing"

	"pgregory.net/rapid"
)

// gaugeOf gives pages that come out right with widths of their own, and are off by so many thousandths of a line for every
// ten-thousandth beside that.
func gaugeOf(slope int, right ...int) *gauge {
	g := &gauge{pages: make([]measured, len(right)), known: map[int][]int{}}
	for times := unchanged - furthest - beyond; times <= unchanged+furthest+beyond; times++ {
		list := make([]int, len(right))
		for i, r := range right {
			list[i] = slope * (times - r)
		}
		g.known[times] = list
	}
	return g
}

// By hand: pages that want 0.99, 1 and 1.01 of the widths, 3 thousandths of a line to the ten-thousandth. Together they want no change. By the
// other two alone the first would be set with 1.005, and be off by 150 ten-thousandths; the second with 1, and right; the third
// with 0.995.
func TestErrorOfEachPageByTheOthers(t *testing.T) {
	got, err := gaugeOf(3, 9_900, 10_000, 10_100).correct()
	want := Correction{Pages: 3, Widths: 10_000, Best: 10_000, Before: MeanError{0, 200}, After: MeanError{0, 300}}
	if err != nil || *got != want {
		t.Errorf("%+v, want %+v (error %v)", *got, want, err)
	}
	// And 0.97, 0.98, 0.99: together 0.98, by the others 0.985, 0.98 and 0.975.
	got, err = gaugeOf(3, 9_700, 9_800, 9_900).correct()
	want = Correction{Pages: 3, Widths: 9_800, Best: 9_800, Before: MeanError{600, 600}, After: MeanError{0, 300}}
	if err != nil || *got != want {
		t.Errorf("%+v, want %+v (error %v)", *got, want, err)
	}
	// 0.99, 1.02, 1.02: together 1.01, by the others 1.02, 1.005 and 1.005. As entered they are off by 100, 200 and 200 ten-thousandths;
	// by the others by 300, 150 and 150, which is no gain.
	got, err = gaugeOf(3, 9_900, 10_200, 10_200).correct()
	want = Correction{Pages: 3, Widths: 10_000, Best: 10_100, NoGain: true, Before: MeanError{-300, 500}, After: MeanError{0, 600}}
	if err != nil || *got != want {
		t.Errorf("%+v, want %+v (error %v)", *got, want, err)
	}
	// More than a twentieth is not believed, though a twentieth is.
	for right, beyond := range map[int]bool{9_500: false, 9_480: true, 10_500: false, 10_520: true} {
		got, err = gaugeOf(2, right, right, right).correct()
		if err != nil || got.Beyond != beyond || (got.Widths == unchanged) != beyond || beyond && got.After != got.Before {
			t.Errorf("%d: %+v (error %v)", right, *got, err)
		}
	}
	// Nor are pages that are off by more lines than a twentieth makes, and one for their ends, though widths be found that suit them: of 30
	// lines, 2.5.
	for slope, beyond := range map[int]bool{6: false, 7: true} {
		g := gaugeOf(slope, 9_600, 9_600, 9_600)
		for i := range g.pages {
			g.pages[i].lines = 30_000
		}
		if got, err = g.correct(); err != nil || got.Best != 9_600 || got.Beyond != beyond || (got.Widths == unchanged) != beyond {
			t.Errorf("%d thousandths: %+v (error %v)", slope, *got, err)
		}
	}
}

// Whatever the pages lack from step to step: none is better than the one that is taken, and of equals that lie side by side it is one,
// with as many, or one more, below it as above. No other such run lies nearer to no change.
func TestFitLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pages := rapid.IntRange(3, 5).Draw(t, "pages")
		g := &gauge{pages: make([]measured, pages), known: map[int][]int{}}
		most := rapid.IntRange(0, 3).Draw(t, "most")
		var steps []int
		for times := unchanged - furthest - beyond; times <= unchanged+furthest+beyond; times += fine {
			steps = append(steps, times)
			g.known[times] = rapid.SliceOfN(rapid.IntRange(-most, most), pages, pages).Draw(t, "errors")
		}
		but := rapid.IntRange(-1, pages-1).Draw(t, "but")
		got, err := g.fit(but)
		if err != nil {
			t.Fatal(err)
		}
		sum := func(times int) int {
			n := 0
			for i, e := range g.known[times] {
				if i != but {
					n += e * e
				}
			}
			return n
		}
		if g.known[got] == nil {
			t.Fatalf("%d is no step", got)
		}
		nearest := -1
		for _, times := range steps {
			if sum(times) < sum(got) {
				t.Fatalf("times %d is off by %d, and %d by %d", got, sum(got), times, sum(times))
			}
			if sum(times) == sum(got) && (nearest < 0 || abs(times-unchanged) < nearest) {
				nearest = abs(times - unchanged)
			}
		}
		below, above := 0, 0
		for g.known[got-(below+1)*fine] != nil && sum(got-(below+1)*fine) == sum(got) {
			below++
		}
		for g.known[got+(above+1)*fine] != nil && sum(got+(above+1)*fine) == sum(got) {
			above++
		}
		first, last := got-below*fine, got+above*fine
		switch {
		case first <= unchanged && unchanged <= last:
			if got != unchanged {
				t.Fatalf("times %d, where no change is as good", got)
			}
		case above-below != 0 && above-below != 1:
			t.Fatalf("times %d is not the middle of %d to %d", got, first, last)
		case min(abs(first-unchanged), abs(last-unchanged)) != nearest:
			t.Fatalf("times %d of %d to %d, and one as good is %d from no change", got, first, last, nearest)
		}
	})
}

func TestMeanOf(t *testing.T) {
	for _, c := range []struct {
		errors []int
		want   MeanError
	}{
		{[]int{0}, MeanError{0, 0}}, {[]int{1, 0}, MeanError{1, 1}}, {[]int{-1, 0}, MeanError{-1, 1}}, {[]int{-2, 0, 0}, MeanError{-1, 1}},
		{[]int{1, 0, 0}, MeanError{0, 0}}, {[]int{400, -500, 600}, MeanError{167, 500}},
	} {
		if got := meanOf(c.errors); got != c.want {
			t.Errorf("%v: %+v, want %+v", c.errors, got, c.want)
		}
	}
}
