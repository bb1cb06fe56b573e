// Package demand reckons what a work asks of the type in the cases.
//
// It is arithmetic on values: it knows no shop, no file and no screen. One function is the whole walk,
//
//	Check(plan, stock, copy)  =  cut → set in lines → made up in pages → imposed in formes → tallied → asked
//
// and its rooms are the steps: stick (lines), page (pages), impose (formes), tally (pages by sorts) and standing (what is in
// use when, what is short, what can stand). A check of eight pages of quarto by formes, say, finds e wanted 412 times at the
// most in one forme, 400 of them available, and so e short by 12 and running out on page 6, line 21 of the inner forme.
package demand

import (
	"errors"
	"fmt"
	"math/bits"

	"formewise/demand/impose"
	"formewise/demand/standing"
)

// A Plan is how a work is to be set, worked and printed.
type Plan struct {
	Measure   int               // length of the line, thousandths of a point
	Lines     int               // in a full page
	Imposing  impose.Plan       // format, gathering, pull, and which forme is first
	Schedule  standing.Schedule // setting, standing, release
	Allowance Allowance         // what is never counted on
	FirstPage int               // the number of the first page
}

// An Allowance is what of a sort is never counted on, because it is foul, battered or held for corrections: a share of the
// stock, or of what an average page takes.
type Allowance struct {
	Num, Den int // the share as a fraction; 3 % is 3/100
	OfPage   bool
}

// keptBack is the allowance in pieces, rounded up.
func (a Allowance) keptBack(onHand, total, pages int) int {
	if !a.OfPage {
		return ceil(onHand, a.Num, a.Den)
	}
	return ceil(total, a.Num, a.Den*max(pages, 1))
}

// ceil is n·num/den rounded up; den is at least 1, num and n at least 0, and num/den at most a thousand.
func ceil(n, num, den int) int {
	whole, part := n/den, n%den
	high, low := bits.Mul64(uint64(part), uint64(num)) // may be more than 64 bits hold
	share, rest := bits.Div64(high, low, uint64(den))
	if rest > 0 {
		share++
	}
	return whole*num + int(share)
}

// Most lines to a page, and the longest measure: what no page has, and a slip of the keyboard may.
const (
	MostLines   = 1000
	MostMeasure = 10_000_000 // thousandths of a point: about 3.5 metres
)

// check says why a plan cannot be reckoned with.
func (p Plan) check() error {
	switch {
	case p.Measure <= 0:
		return errors.New("the measure must be more than nothing")
	case p.Measure > MostMeasure:
		return fmt.Errorf("a measure of %d points is longer than any line (at most %d)", p.Measure/1000, MostMeasure/1000)
	case p.Lines < 1 || p.Lines > MostLines:
		return fmt.Errorf("%d lines to a page: it takes 1 to %d", p.Lines, MostLines)
	case p.FirstPage < 1 || p.FirstPage > MostPageNumber:
		return fmt.Errorf("the first page cannot be number %d: it takes 1 to %d", p.FirstPage, MostPageNumber)
	}
	return p.Imposing.Check()
}

// MostPageNumber bounds the number of the first page.
const MostPageNumber = 1_000_000
