// Package castoff reckons how many pages, sheets and formes a manuscript will make when it is not keyed, so that its words
// can only be counted or estimated.
//
// Two numbers are asked for: the words of the copy, and the words to a printed page. Worked through, with the figures of
// T. MacKellar, The American Printer, 1893, pp. 223-226:
//
//	422 folios of 50 lines of 20 words    422 x 1,000 = 422,000 words
//	40 lines of 10 words to the page                        400 words
//	422,000 / 400                                         1,055 pages
//	1,055 pages of octavo, 16 to the sheet                   65 sheets and 15 pages: 132 formes, 66 sheets of paper
//
// An average of a sample is a fraction (Rate), and stays one to the end. What is rounded, is rounded up, in four places: a
// part of a word of the whole copy (Answer.Words), a part of a page (Answer.Pages), a part of the gathering last folded
// (Answer.HalfSheets), and, where a half sheet is worked and turned, the odd copy (Paper.ToUnit).
package castoff

import (
	"errors"
	"fmt"

	"formewise/demand/impose"
)

// The most of each that is believed: more than any book has, and so little that no product here overflows.
const (
	MostWords  = 100_000_000 // in the whole copy, or in a sample of it
	MostFolios = 1_000_000
	MostToPage = 100_000 // words to a page or a folio, or in a specimen
	MostLines  = 1000    // to a page, to a folio, or in a specimen
	MostToLine = 1000    // words to a line
	MostPages  = 1_000_000
	MostCopies = 1_000_000
)

// A Copy is what is known of the manuscript: its words, or its folios and the words to a folio.
type Copy struct {
	Words int // 1 to MostWords; 0 where they are reckoned from the folios

	Folios  int  // 1 to MostFolios
	ToFolio Rate // words to a folio
	Added   int  // words added to each folio for its breaks: short last lines take the room of whole ones; 0 to MostToPage
}

// A Plan is what is to be cast off. The bounds of the numbers are the Most of this package.
type Plan struct {
	Copy     Copy
	ToPage   Rate        // words to a printed page
	Imposing impose.Plan // its Pull is not asked: the formes are whole
	Copies   int         // to be printed; 0 where no paper is asked for
	Overs    int         // copies more of every sheet, for proofs and spoiled ones
}

// An Answer is a copy cast off. Its unit is what a sheet of the work is cut or printed as: the sheet, the half sheet if the
// work is by half sheets, the leaf if it is in single leaves.
type Answer struct {
	Words       int    // of the copy, what was added for breaks included
	Pages       int    // the last may be short
	ToUnit      int    // pages to the unit
	Units, Over int    // whole units, and the pages over
	Formes      int    // that have a page
	HalfSheets  int    // of paper in one copy, a gathering begun counted whole; a leaf counts as two (impose.HalfSheets)
	Paper       *Paper // nil where no copies are asked for
}

// Reckon casts off. It refuses a number out of its bounds, a plan of imposing that cannot be worked, and a copy of more
// than MostWords or MostPages.
func Reckon(p Plan) (Answer, error) {
	imposing := p.Imposing
	imposing.Pull = 0
	if err := imposing.Check(); err != nil {
		return Answer{}, err
	}
	words, err := p.Copy.words()
	if err != nil {
		return Answer{}, err
	}
	if err := p.ToPage.check("page"); err != nil {
		return Answer{}, err
	}
	if p.Copies < 0 || p.Copies > MostCopies {
		return Answer{}, fmt.Errorf("%d copies: it takes 1 to %d, or 0 for no paper", p.Copies, MostCopies)
	}
	if p.Overs < 0 || p.Overs > MostCopies {
		return Answer{}, fmt.Errorf("%d copies over: it takes 0 to %d", p.Overs, MostCopies)
	}
	if p.Copies == 0 && p.Overs > 0 {
		return Answer{}, errors.New("overs are of no use without copies")
	}
	a := Answer{Words: words, Pages: up(words*p.ToPage.Den, p.ToPage.Num)}
	if a.Pages > MostPages {
		return Answer{}, fmt.Errorf("the copy makes %d pages, more than any work has (at most %d)", a.Pages, MostPages)
	}
	a.ToUnit = 2 * impose.PagesPerForme(imposing)
	if imposing.HalfSheet {
		a.ToUnit /= 2 // its one forme prints both sides
	}
	a.Units, a.Over = a.Pages/a.ToUnit, a.Pages%a.ToUnit
	a.Formes = len(impose.Formes(a.Pages, imposing))
	a.HalfSheets = impose.HalfSheets(a.Pages, imposing)
	if p.Copies > 0 {
		a.Paper = paper(p.Copies+p.Overs, a.HalfSheets, imposing.HalfSheet)
	}
	return a, nil
}

// words are those of the whole copy; part of one is rounded up, once, over all folios.
func (c Copy) words() (int, error) {
	words := c.Words
	if c.Folios != 0 {
		switch {
		case c.Words != 0:
			return 0, errors.New("the copy is given by its words or by its folios, not by both")
		case c.Folios < 0 || c.Folios > MostFolios:
			return 0, fmt.Errorf("%d folios of copy: it takes 1 to %d", c.Folios, MostFolios)
		case c.Added < 0 || c.Added > MostToPage:
			return 0, fmt.Errorf("%d words added to a folio: it takes 0 to %d", c.Added, MostToPage)
		}
		if err := c.ToFolio.check("folio"); err != nil {
			return 0, err
		}
		words = up(c.Folios*(c.ToFolio.Num+c.Added*c.ToFolio.Den), c.ToFolio.Den)
	}
	if words < 1 || words > MostWords {
		return 0, fmt.Errorf("a copy of %d words: it takes 1 to %d", words, MostWords)
	}
	return words, nil
}

// up is n/d rounded up, n and d above 0.
func up(n, d int) int { return (n-1)/d + 1 }
