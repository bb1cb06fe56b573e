package units

import (
	"fmt"
	"math/big"
	"strings"
)

// mostPages is the greatest allowance by the page.
const mostPages = 1000

// The greatest denominators that a Share has: six decimals of a per cent or of
// a page. So a share of 10^9 pieces, or of the pages that hold them, is
// reckoned in an int without overflow.
const (
	finestOfStock = 100_000_000
	finestOfPage  = 1_000_000
)

// Share is an allowance: a part of the stock (`5%`), or of what an average
// page takes (`0.5page`). It is Num/Den exactly, Den above 0, in lowest terms.
// The zero Share is not valid; take ParseShare("0%"). It serves as a flag's
// value (pflag.Value).
type Share struct {
	Text     string // as given
	OfPage   bool   // of an average page, else of the stock
	Num, Den int
}

// ParseShare reads `5%`, from 0 and below 100, or `0.5page`, from 0 to 1000, to
// six decimals at most; anything else is refused in one sentence that begins
// with the text itself.
func ParseShare(text string) (Share, error) {
	trimmed := strings.TrimSpace(text)
	if len(trimmed) > longest {
		return Share{}, fmt.Errorf("%.20q… is too long to be an allowance (such as 5%% or 0.5page)", trimmed)
	}
	number, rest, ok := cutNumber(trimmed)
	unit := strings.TrimSpace(rest)
	switch {
	case !ok:
		return Share{}, fmt.Errorf("%q is no allowance (a share of the stock such as 5%%, or of a page such as 0.5page)", text)
	case unit == "":
		return Share{}, fmt.Errorf("%q says no share of what (%% of the stock, or page)", text)
	case unit != "%" && unit != "page":
		return Share{}, fmt.Errorf("%q: unknown share %q (%% of the stock, or page)", text, unit)
	case number.Sign() < 0:
		return Share{}, fmt.Errorf("%q is less than nothing", text)
	}
	share := Share{Text: trimmed, OfPage: unit == "page"}
	finest := int64(finestOfStock)
	if share.OfPage {
		finest = finestOfPage
		if number.Cmp(big.NewRat(mostPages, 1)) > 0 {
			return Share{}, fmt.Errorf("%q is more than an allowance can be (%dpage)", text, mostPages)
		}
	} else {
		number.Quo(number, big.NewRat(100, 1))
		if number.Cmp(big.NewRat(1, 1)) >= 0 {
			return Share{}, fmt.Errorf("%q would keep back the whole stock (a share is below 100%%)", text)
		}
	}
	if number.Denom().Cmp(big.NewInt(finest)) > 0 {
		return Share{}, fmt.Errorf("%q is finer than an allowance can be (six decimals)", text)
	}
	share.Num, share.Den = int(number.Num().Int64()), int(number.Denom().Int64())
	return share, nil
}

// String is the share as it was given, and Set and Type with it make Share the
// value of a flag.
func (s *Share) String() string { return s.Text }

// Set reads the flag.
func (s *Share) Set(text string) error {
	read, err := ParseShare(text)
	if err == nil {
		*s = read
	}
	return err
}

// Type names the value in help.
func (s *Share) Type() string { return "share" }
