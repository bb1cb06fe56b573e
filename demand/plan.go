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
	"strconv"

	"formewise/demand/impose"
	"formewise/demand/page"
	"formewise/demand/standing"
	"formewise/demand/stick"
)

// A Plan is how a work is to be set, worked and printed.
type Plan struct {
	Measure   int               // length of the line, thousandths of a point
	Lines     int               // in a full page
	Imposing  impose.Plan       // format, gathering, pull, and which forme is first
	Schedule  standing.Schedule // setting, standing, release
	Allowance Allowance         // what is never counted on
	FirstPage int               // the number of the first page
	Dividing  stick.Divider     // where words may be divided; nil: only at soft hyphens
	Old       bool              // old spacing: an em after a sentence, an en after a colon or semicolon
	Initials  int               // which font of the stock initials come from; 0: none
	Page      PageStyle
}

// spacing is the number of the font that spaces are drawn from: the last but for that of the initials.
func (p Plan) spacing(stock Stock) int {
	last := len(stock) - 1
	if p.Initials > 0 && p.Initials == last {
		last--
	}
	return last
}

// A PageStyle is what a page has beside its lines of text; all of it may be left out.
type PageStyle struct {
	Title      string    // running title, in the middle of the head line
	Folios     bool      // page numbers, at the outer end of the head line
	Catchwords bool      // the first word of the next page, at the end of the direction line
	Signature  Signature // of the first gathering, in the middle of the direction line; 0: none
	Drop       int       // blank lines at the head of the work and after a form feed
	NoWidow    bool      // no page begins with the last line of a paragraph
	Leading    int       // thousandths of a point between two lines; 0: set solid
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
func (p Plan) check(stock Stock) error {
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
	if err := p.Imposing.Check(); err != nil {
		return err
	}
	if p.Initials < 0 || p.Initials >= len(stock) {
		return fmt.Errorf("the initials come from font %d of %d", p.Initials, len(stock))
	}
	if deep := 2*stock[0].Body + p.Page.Leading; p.Initials > 0 && stock[p.Initials].Body > deep {
		return fmt.Errorf("font %q, of %spt, is too large for initials two lines deep (at most %spt)", stock[p.Initials].Name, points(stock[p.Initials].Body), points(deep))
	}
	switch style := p.Page; {
	case style.Drop < 0 || style.Drop >= p.Lines:
		return fmt.Errorf("a drop of %d lines leaves none on a page of %d", style.Drop, p.Lines)
	case style.NoWidow && p.Lines < 3:
		return errors.New("a page of fewer than 3 lines cannot run a line short or long: without a widow it takes 3 or more")
	case style.Leading < 0 || style.Leading > MostLeading:
		return fmt.Errorf("a leading of %d points cannot be (at most %d)", style.Leading/1000, MostLeading/1000)
	}
	return nil
}

// MostLeading is the most that lines may be led apart, thousandths of a point.
const MostLeading = 100_000

// isRecto tells whether a page, from 1, stands on the right: those of odd numbers do.
func (p Plan) isRecto(page int) bool { return (page+p.FirstPage-1)%2 == 1 }

// pageOptions asks for what the plan has on its pages.
func (p Plan) pageOptions() ([]page.Option, error) {
	var list []page.Option
	style := p.Page
	if style.Title != "" || style.Folios {
		var folio func(int) string
		if style.Folios {
			folio = func(page int) string { return strconv.Itoa(page + p.FirstPage - 1) }
		}
		list = append(list, page.HeadLine(style.Title, folio, p.isRecto))
	}
	if style.Catchwords || style.Signature > 0 {
		var sign func(int) string
		if style.Signature > 0 {
			var err error
			if sign, err = signer(style.Signature, p.Imposing); err != nil {
				return nil, err
			}
		}
		list = append(list, page.DirectionLine(style.Catchwords, sign))
	}
	if style.Drop > 0 {
		list = append(list, page.Drop(style.Drop))
	}
	if style.NoWidow {
		list = append(list, page.NoWidow(p.isRecto))
	}
	return list, nil
}

// MostPageNumber bounds the number of the first page.
const MostPageNumber = 1_000_000
