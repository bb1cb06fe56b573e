// Package impose says which pages are printed together: pages into formes, formes on sheets, sheets into gatherings.
//
// A sheet has two formes, one for each side of the paper. Which pages lie in which is a table (schemes.csv, after
// T. MacKellar, The American Printer, 1893), not a rule. A quarto sheet, folded twice, has eight pages:
//
//	    outer                 inner
//	+-------+-------+     +-------+-------+
//	|   4   |   5   |     |   6   |   3   |     turned, heads to the middle
//	+-------+-------+     +-------+-------+
//	|   1   |   8   |     |   7   |   2   |
//	+-------+-------+     +-------+-------+
//
// so a work of ten pages in quarto is four formes, in the order in which they are set:
//
//	sheet 1 inner 2 3 6 7     sheet 1 outer 1 4 5 8     sheet 2 inner 10     sheet 2 outer 9
//
// The second sheet is folded whole: its pages from 11 on are blank, and no forme lists them.
//
// Sheets may be quired, one inside another. Sheet j of N then has the j-th share of the gathering's leaves from the front
// and from the back, and is imposed like a sheet by itself: three folio sheets quired are 1 2 11 12, 3 4 9 10 and 5 6 7 8.
//
// Pages and sheets are counted from 1. The package knows no type and no stock.
package impose

import (
	"errors"
	"fmt"
	"strings"
)

// MaxIn is the greatest number of sheets that may be quired to a gathering. It is far above what a fold can take: it only
// keeps a slip of the finger from asking for a gathering larger than any book.
const MaxIn = 100

// Plan says how a work is imposed. The functions of this package want a plan that Check passes.
type Plan struct {
	Format     string // one of Formats
	In         int    // sheets quired to a gathering, 1 to MaxIn
	HalfSheet  bool   // all pages of the half sheet in one forme, worked and turned
	Pull       int    // pages that the press takes at a pull; 0 for the whole forme
	OuterFirst bool   // of a sheet the outer forme is set before the inner
}

// Formats lists the formats by name, from the fewest pages to the sheet to the most.
func Formats() []string {
	var names []string
	for _, s := range schemes() {
		if !s.half {
			names = append(names, s.format)
		}
	}
	return names
}

// Check says in a sentence why a plan cannot be worked; nil when it can. A pull of more pages than the forme has is the
// whole forme.
func (p Plan) Check() error {
	if findScheme(p.Format, false) == nil {
		return fmt.Errorf("format %q: not known (it is one of %s)", p.Format, strings.Join(Formats(), ", "))
	}
	if p.In < 1 || p.In > MaxIn {
		return fmt.Errorf("%d sheets to a gathering: it takes 1 to %d", p.In, MaxIn)
	}
	if p.Pull < 0 {
		return fmt.Errorf("%d pages at a pull: it takes 1 or more, or 0 for the whole forme", p.Pull)
	}
	quired := p.Format == "folio" || p.Format == "quarto" || p.Format == "octavo"
	if p.In > 1 && !quired {
		return fmt.Errorf("format %q: only folio, quarto and octavo are quired (%d sheets to a gathering)", p.Format, p.In)
	}
	if p.HalfSheet && p.In > 1 {
		return errors.New("half sheets are not quired: either half sheets, or several sheets to a gathering")
	}
	if p.HalfSheet && findScheme(p.Format, true) == nil {
		return fmt.Errorf("format %q: not worked by half sheets (%s are)", p.Format, strings.Join(halfSheetFormats(), ", "))
	}
	return nil
}

// halfSheetFormats lists the formats that have a scheme for the half sheet.
func halfSheetFormats() []string {
	var names []string
	for _, name := range Formats() {
		if findScheme(name, true) != nil {
			names = append(names, name)
		}
	}
	return names
}
