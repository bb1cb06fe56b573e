package order

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// available is what can be counted on of a stock: all but the share, rounded up, and but what stands elsewhere; below 0 where more is
// tied up than there is.
func available(onHand, standing, num, den int) int {
	kept := onHand * num / den
	if kept*den < onHand*num {
		kept++
	}
	return onHand - kept - standing
}

func TestLeast(t *testing.T) {
	for _, c := range []struct {
		name                               string
		onHand, standing, wanted, num, den int
		want                               int
	}{
		{"the package's example", 100, 0, 110, 3, 100, 14},
		{"no allowance: the difference", 100, 0, 110, 0, 1, 10},
		{"enough", 200, 0, 110, 3, 100, 0},
		{"just enough: of 114, 4 are kept back", 114, 0, 110, 3, 100, 0},
		{"one too few", 113, 0, 110, 3, 100, 1},
		{"with 20 standing: of 134, 5 are kept back, and 109 left; of 135, 110", 100, 20, 110, 3, 100, 35},
		{"nothing there: of 1, 1 is kept back; of 2 as well", 0, 0, 1, 3, 100, 2},
		{"nothing wanted", 0, 0, 0, 3, 100, 0},
		{"more standing than there is", 5, 10, 0, 0, 1, 5},
		{"half kept back", 0, 0, 7, 1, 2, 14},
		{"all but a hundredth kept back", 0, 0, 3, 99, 100, 300},
	} {
		if got := Least(c.onHand, c.standing, c.wanted, c.num, c.den); got != c.want {
			t.Errorf("%s: %d, want %d", c.name, got, c.want)
		}
	}
}

// Against adding piece after piece.
func TestLeastAgainstCounting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		onHand, standing, wanted := rapid.IntRange(0, 300).Draw(t, "on hand"), rapid.IntRange(0, 100).Draw(t, "standing"), rapid.IntRange(0, 300).Draw(t, "wanted")
		den := rapid.IntRange(1, 1000).Draw(t, "den")
		num := rapid.IntRange(0, min(den-1, 9*den/10)).Draw(t, "num")
		want := 0
		for available(onHand+want, standing, num, den) < wanted {
			want++
		}
		if got := Least(onHand, standing, wanted, num, den); got != want {
			t.Fatalf("%d on hand, %d standing, %d wanted, %d/%d kept back: %d, want %d", onHand, standing, wanted, num, den, got, want)
		}
	})
}

// And where the products are more than 64 bits hold: with so many it is enough, with one fewer it is not.
func TestLeastOfVeryMany(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const most = 1_000_000_000_000
		onHand, standing, wanted := rapid.IntRange(0, most).Draw(t, "on hand"), rapid.IntRange(0, most).Draw(t, "standing"), rapid.IntRange(0, most).Draw(t, "wanted")
		den := rapid.IntRange(1, 1_000_000_000).Draw(t, "den")
		num := rapid.IntRange(0, max(0, den*9/10)).Draw(t, "num")
		enough := func(more int) bool {
			have := big.NewInt(int64(onHand + more))
			kept, rest := new(big.Int).QuoRem(new(big.Int).Mul(have, big.NewInt(int64(num))), big.NewInt(int64(den)), new(big.Int))
			if rest.Sign() > 0 {
				kept.Add(kept, big.NewInt(1))
			}
			return have.Sub(have, kept).Cmp(big.NewInt(int64(standing+wanted))) >= 0
		}
		got := Least(onHand, standing, wanted, num, den)
		if got < 0 || !enough(got) || got > 0 && enough(got-1) {
			t.Fatalf("%d on hand, %d standing, %d wanted, %d/%d kept back: %d", onHand, standing, wanted, num, den, got)
		}
	})
}
