package demand

import (
	"testing"

	"pgregory.net/rapid"
)

// gaugeOf gives pages that come out right with widths of their own, and are off by so many thousandths of a line for every
// ten-thousandth beside that.
func gaugeOf(slope int, right ...int) *gauge {
	g := &gauge{pages: make([]measured, len(right)), known: map[int][]int{}}
	for times := unchanged - furthest - near; times <= unchanged+furthest+near; times++ {
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
	want := Correction{Pages: 3, Widths: 10_000, Before: MeanError{0, 200}, After: MeanError{0, 300}}
	if err != nil || *got != want {
		t.Errorf("%+v, want %+v (error %v)", *got, want, err)
	}
	// And 0.97, 0.98, 0.99: together 0.98, by the others 0.985, 0.98 and 0.975.
	got, err = gaugeOf(3, 9_700, 9_800, 9_900).correct()
	want = Correction{Pages: 3, Widths: 9_800, Before: MeanError{600, 600}, After: MeanError{0, 300}}
	if err != nil || *got != want {
		t.Errorf("%+v, want %+v (error %v)", *got, want, err)
	}
	// A fifth too wide is not believed.
	got, err = gaugeOf(3, 8_000, 8_100, 8_000).correct()
	if err != nil || !got.Beyond || got.Widths != unchanged || got.After != got.Before {
		t.Errorf("%+v (error %v)", *got, err)
	}
}

// Against trying every step.
func TestFitAgainstAllSteps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		right := rapid.SliceOfN(rapid.IntRange(8_300, 11_700), 3, 12).Draw(t, "right")
		g := gaugeOf(rapid.IntRange(1, 40).Draw(t, "slope"), right...)
		but := rapid.IntRange(-1, len(right)-1).Draw(t, "but")
		got, err := g.fit(but)
		if err != nil {
			t.Fatal(err)
		}
		least := -1
		for times := unchanged - furthest; times <= unchanged+furthest; times += fine {
			if sum, _ := g.squares(times, but); least < 0 || sum < least {
				least = sum
			}
		}
		if sum, _ := g.squares(got, but); sum > least {
			t.Fatalf("%v but %d: times %d is off by %d, some step by %d", right, but, got, sum, least)
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
