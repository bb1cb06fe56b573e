package report

import (
	"math"
	"math/big"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestNumber(t *testing.T) {
	tests := []struct {
		n    int
		want string
	}{
		{0, "0"}, {7, "7"}, {999, "999"}, {1000, "1,000"}, {12345, "12,345"}, {123456, "123,456"},
		{1234567, "1,234,567"}, {-1, "-1"}, {-999, "-999"}, {-1000, "-1,000"},
		{math.MinInt64, "-9,223,372,036,854,775,808"},
	}
	for _, test := range tests {
		if got := Number(test.n); got != test.want {
			t.Errorf("%d: %q, want %q", test.n, got, test.want)
		}
	}
}

func TestDecimal(t *testing.T) {
	tests := []struct {
		n, places int
		want      string
	}{
		{1250, 2, "12.5"}, {1200, 2, "12"}, {5, 1, "0.5"}, {5, 3, "0.005"}, {0, 3, "0"}, {-5, 1, "-0.5"},
		{-1250, 2, "-12.5"}, {123456789, 3, "123,456.789"}, {12, 0, "12"}, {120, 0, "120"}, {math.MinInt64, 18, "-9.223372036854775808"},
	}
	for _, test := range tests {
		if got := Decimal(test.n, test.places); got != test.want {
			t.Errorf("%d, %d places: %q, want %q", test.n, test.places, got, test.want)
		}
	}
}

func TestRatio(t *testing.T) {
	tests := []struct {
		num, den, places int
		want             string
	}{
		{1, 3, 2, "0.33"}, {2, 3, 2, "0.67"}, {1, 8, 2, "0.13"}, {-1, 8, 2, "-0.13"}, {1, -8, 2, "-0.13"}, {-1, -8, 2, "0.13"},
		{5, 2, 0, "3"}, {1, 200, 2, "0.01"}, {1, 201, 2, "0"}, {-1, 1000, 2, "0"}, {3, 0, 2, "-"}, {1300, 1, 1, "1,300"},
		{math.MaxInt64, 1, 3, "9,223,372,036,854,775,807"},
	}
	for _, test := range tests {
		if got := Ratio(test.num, test.den, test.places); got != test.want {
			t.Errorf("%d/%d, %d places: %q, want %q", test.num, test.den, test.places, got, test.want)
		}
	}
}

func TestFixed(t *testing.T) {
	tests := []struct {
		num, den, places int
		want             string
	}{
		{95, 1, 1, "95.0"}, {1176, 10, 1, "117.6"}, {19, 2, 2, "9.50"}, {0, 3, 1, "0.0"}, {1, 3, 0, "0"}, {7000, 2, 1, "3,500.0"},
		{-1, 1000, 2, "0.00"}, {3, 0, 1, "-"}, {10, 1, 0, "10"},
	}
	for _, test := range tests {
		if got := Fixed(test.num, test.den, test.places); got != test.want {
			t.Errorf("%d/%d, %d places: %q, want %q", test.num, test.den, test.places, got, test.want)
		}
	}
}

// Ratio and Fixed against big.Rat's own printing, which rounds half away from zero too.
func TestRatioAgainstRat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		num, den := rapid.Int().Draw(t, "num"), rapid.Int().Draw(t, "den")
		if den == 0 {
			return
		}
		places := rapid.IntRange(1, 6).Draw(t, "places")
		want := new(big.Rat).SetFrac(big.NewInt(int64(num)), big.NewInt(int64(den))).FloatString(places)
		if want = strings.TrimPrefix(want, "-"); strings.Trim(want, "0.") != "" && (num < 0) != (den < 0) {
			want = "-" + want // there is no less than nothing
		}
		if got := strings.ReplaceAll(Fixed(num, den, places), ",", ""); got != want {
			t.Fatalf("%d/%d, %d fixed places: %s, want %s", num, den, places, got, want)
		}
		want = strings.TrimRight(strings.TrimRight(want, "0"), ".")
		if got := strings.ReplaceAll(Ratio(num, den, places), ",", ""); got != want {
			t.Fatalf("%d/%d, %d places: %s, want %s", num, den, places, got, want)
		}
	})
}

func TestCount(t *testing.T) {
	for n, want := range map[int]string{0: "0 pages", 1: "1 page", 2: "2 pages", 12345: "12,345 pages"} {
		if got := Count(n, "page", "pages"); got != want {
			t.Errorf("%d: %q, want %q", n, got, want)
		}
	}
}

func TestPages(t *testing.T) {
	tests := []struct {
		pages []int
		want  string
	}{
		{nil, "none"}, {[]int{7}, "7"}, {[]int{1, 4, 5, 6, 7, 8, 13}, "1, 4-8, 13"}, {[]int{8, 1, 5, 4}, "1, 4-5, 8"},
		{[]int{3, 3, 2, 2}, "2-3"}, {[]int{1200, 1201}, "1200-1201"},
	}
	for _, test := range tests {
		given := slices.Clone(test.pages)
		if got := Pages(test.pages); got != test.want {
			t.Errorf("%v: %q, want %q", test.pages, got, test.want)
		}
		if !slices.Equal(given, test.pages) {
			t.Errorf("%v was reordered to %v", given, test.pages)
		}
	}
}

// What Pages writes, read back number by number, is what it was given.
func TestPagesReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pages := rapid.SliceOfNDistinct(rapid.IntRange(1, 60), 1, 40, rapid.ID).Draw(t, "pages")
		var back []int
		for _, part := range strings.Split(Pages(pages), ", ") {
			first, last, isRange := strings.Cut(part, "-")
			from, _ := strconv.Atoi(first)
			to := from
			if isRange {
				to, _ = strconv.Atoi(last)
			}
			for p := from; p <= to; p++ {
				back = append(back, p)
			}
		}
		slices.Sort(pages)
		if !slices.Equal(back, pages) {
			t.Fatalf("%v reads back as %v", pages, back)
		}
	})
}
