package demand

import (
	"iter"

	"formewise/demand/impose"
	"formewise/demand/standing"
	"formewise/texts/read"
)

// An Answer is everything a check finds. Pages are numbered as the plan numbers them, formes from 1 in by-formes order.
type Answer struct {
	Copy     *read.Copy
	Plan     Plan
	Stock    Stock
	CastOff  CastOff
	Formes   []impose.Forme
	Sorts    []SortDemand // every sort of every font, font by font in the stock's order
	Missing  []Use        // characters with no sort, by first appearance
	MadeUp   []Use        // characters made up from other sorts, by first appearance
	Kerned   []Kern       // kerned sorts that met what they would strike, by first appearance
	Stand    standing.CanStand
	Sections *standing.Sections // nil where some page cannot stand
	Verdict  Verdict
	Forced   []Place // words longer than the measure, divided where it had to be
	AtPeak   int     // pages in use at the most

	setting  *Setting
	numbered []impose.Forme // the formes with pages counted from 1, as the tally has them
	columns  []standing.Column
}

// CastOff is the extent of the work.
type CastOff struct {
	Lines      int // of text
	Pages      int
	HalfSheets int // of paper for one copy; a leaf of format single is a sheet
	LeadsPage  int // leads to a full page, of the plan's leading; 0 where it is set solid
	LeadsPeak  int // leads in use at the most
}

// A Verdict is a check's answer in a word.
type Verdict string

// The verdicts, from the best.
const (
	Stands     Verdict = "stands"     // the whole work can stand
	Distribute Verdict = "distribute" // at every moment of the schedule the pages in use can stand
	InSections Verdict = "sections"   // in sections, set and distributed one after another
	Short      Verdict = "short"      // not even a page at a time
)

// A SortDemand is one sort, what there is of it and what is asked of it.
type SortDemand struct {
	Font string
	Sort
	KeptBack  int // by the allowance
	Available int // on hand, less what stands in other works and what is kept back; never below 0
	Total     int // in the whole work
	PageMax   int // on the page that takes most
	FormeMax  int // in the forme that takes most
	Peak      int // most in use at once
	PeakForme int // the forme then being set, 0 if the sort is not used
	Short     int // by which the peak is more than what is available
	RunsOut   *standing.Place
	Straight  *standing.Place // set straight on from page 1, distributing nothing; no forme
}

// A Use is a character that has no sort of its own.
type Use struct {
	Character rune
	Set       string // what is set instead; empty where it is missing
	Note      string // what that is
	Count     int
	Page      int // where it stands first
	Line      int
}

// A Kern is a kerned sort that stands beside sorts which its face would strike.
type Kern struct {
	Font, Sort string
	SpaceFont  string // the font of the space that parts them
	Space      string // that space; empty: there is none narrow enough, and they are left as they are
	Count      int
	Page, Line int // where it happens first
}

// A Place is a line of the work.
type Place struct{ Page, Line int }

// Printing is how many printing sorts the work takes.
func (a *Answer) Printing() int {
	n := 0
	for _, s := range a.Sorts {
		if !s.isSpace() {
			n += s.Total
		}
	}
	return n
}

// Holds tells whether the type carries the work under the schedule asked for, and no character is missing.
func (a *Answer) Holds() bool {
	return len(a.Missing) == 0 && (a.Verdict == Stands || a.Verdict == Distribute)
}

// PagesPerForme is how many pages a full forme of the work has; a pull's, where the press takes part of a forme.
func (a *Answer) PagesPerForme() int { return impose.PagesPerForme(a.Plan.Imposing) }

// Lines gives the setting copy of some pages.
func (a *Answer) Lines(from, to int) iter.Seq[Line] { return a.setting.Lines(from, to) }
