package units

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestShares(t *testing.T) {
	tests := []struct {
		text string
		want Share
	}{
		{"3%", Share{"3%", false, 3, 100}},
		{"5%", Share{"5%", false, 1, 20}},
		{"0%", Share{"0%", false, 0, 1}},
		{"2.5%", Share{"2.5%", false, 1, 40}},
		{"1/3 %", Share{"1/3 %", false, 1, 300}},
		{"99.999999%", Share{"99.999999%", false, 99_999_999, 100_000_000}},
		{" 0.5page ", Share{"0.5page", true, 1, 2}},
		{"0page", Share{"0page", true, 0, 1}},
		{"1/3page", Share{"1/3page", true, 1, 3}},
		{"1000page", Share{"1000page", true, 1000, 1}},
		{"0.000001page", Share{"0.000001page", true, 1, 1_000_000}},
	}
	for _, test := range tests {
		if got, err := ParseShare(test.text); err != nil || got != test.want {
			t.Errorf("%q: %+v, %v, want %+v", test.text, got, err, test.want)
		}
	}
}

func TestSharesRefused(t *testing.T) {
	tests := []struct{ text, want string }{
		{"", `"" is no allowance (a share of the stock such as 5%, or of a page such as 0.5page)`},
		{"%", `"%" is no allowance (a share of the stock such as 5%, or of a page such as 0.5page)`},
		{"5", `"5" says no share of what (% of the stock, or page)`},
		{"0,5page", `"0,5page": unknown share ",5page" (% of the stock, or page)`},
		{"2 pages", `"2 pages": unknown share "pages" (% of the stock, or page)`},
		{"-1%", `"-1%" is less than nothing`},
		{"100%", `"100%" would keep back the whole stock (a share is below 100%)`},
		{"1000.5page", `"1000.5page" is more than an allowance can be (1000page)`},
		{"0.0000001%", `"0.0000001%" is finer than an allowance can be (six decimals)`},
		{"1/1000001page", `"1/1000001page" is finer than an allowance can be (six decimals)`},
		{strings.Repeat("1", 41) + "%", `"11111111111111111111"… is too long to be an allowance (such as 5% or 0.5page)`},
	}
	for _, test := range tests {
		if _, err := ParseShare(test.text); err == nil || err.Error() != test.want {
			t.Errorf("%q: %v, want %s", test.text, err, test.want)
		}
	}
}

// What the bounds of Share promise: the greatest stock, and the pieces of a
// million pages, are multiplied without overflow.
func TestShareFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[0-9]{1,4}(\.[0-9]{1,6}|/[0-9]{1,9})?(%|page)`).Draw(t, "text")
		share, err := ParseShare(text)
		if err != nil {
			return
		}
		const pieces = 1_000_000_000
		if share.Num*pieces/pieces != share.Num || share.Den*pieces/pieces != share.Den {
			t.Fatalf("%q is %d/%d", text, share.Num, share.Den)
		}
		if !share.OfPage && share.Num >= share.Den {
			t.Fatalf("%q is %d/%d", text, share.Num, share.Den)
		}
	})
}

func FuzzParseShare(f *testing.F) {
	for _, seed := range []string{"5%", "0.5page", "1/3%", "100%", "-1%", "5", "1/0page", "\x9b%"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		share, err := ParseShare(text)
		if err != nil {
			return
		}
		if share.Num < 0 || share.Den < 1 {
			t.Fatalf("%q: %d/%d", text, share.Num, share.Den)
		}
		if again, err := ParseShare(share.Text); err != nil || again != share {
			t.Fatalf("%q: %+v, then %+v (%v)", text, share, again, err)
		}
	})
}
