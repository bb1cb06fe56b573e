package impose

import "slices"

// Forme is the pages that are printed at one pull: a whole forme, or the part of it that a small press takes.
type Forme struct {
	Sheet int    // from 1: sheets, half sheets or single leaves, as the plan has it
	Side  string // "inner", "outer", "work-and-turn"; of a single leaf "recto", "verso"
	Pages []int  // pages of the work, counted from 1, ascending; never empty
}

// Formes lists the formes of a work of so many pages in by-formes setting order: gathering by gathering, of each the
// innermost sheet first, of each sheet the inner forme before the outer unless the plan says otherwise. The formes of one
// sheet stand together in the list. Blank pages, and formes with nothing but blank pages, are left out; where the press
// takes less than a forme, each pull is a forme of its own. None for no pages.
func Formes(pages int, p Plan) []Forme {
	s := p.scheme()
	gathering := s.pages * p.In
	pages = max(pages, 0)
	list := make([]Forme, 0, pages/PagesPerForme(p)+1)
	all := make([]int, 0, pages) // every list of pages is a slice of this one
	for before, g := 0, 0; before < pages; before, g = before+gathering, g+1 {
		for sheet := p.In; sheet >= 1; sheet-- {
			for _, forme := range s.inOrder(p.OuterFirst) {
				start := len(all)
				for _, i := range forme.pages {
					if page := before + quire(i, sheet, s.pages, p.In); page <= pages {
						all = append(all, page)
					}
				}
				part := all[start:len(all):len(all)]
				if len(part) == 0 {
					continue
				}
				pull := len(part)
				if p.Pull > 0 {
					pull = p.Pull
				}
				for pulled := range slices.Chunk(part, pull) {
					list = append(list, Forme{Sheet: g*p.In + sheet, Side: forme.name, Pages: pulled})
				}
			}
		}
	}
	return list
}

// inOrder gives the sides of a scheme in the order in which they are set. The table has inner before outer; a leaf's recto
// comes before its verso whatever is asked.
func (s *scheme) inOrder(outerFirst bool) []side {
	if outerFirst && s.sides[0].name == "inner" {
		return []side{s.sides[1], s.sides[0]}
	}
	return s.sides
}

// quire gives the page of the gathering that page i of its sheet is, both from 1; per is pages to the sheet. The sheet's
// first half comes from the front of the gathering, its second half from the back, so pages that ascend in the sheet
// ascend in the gathering:
//
//	three folio sheets quired     1 2 | 3 4 | 5 6   7 8 | 9 10 | 11 12
//	                              sheet 1  2     3     3      2       1
func quire(i, sheet, per, in int) int {
	share := per / 2
	if i <= share {
		return (sheet-1)*share + i
	}
	return per*in - sheet*share + i - share
}

// Gathering gives the gathering, from 1, that a sheet belongs to. Without quiring every sheet is a gathering of its own;
// so is a sheet of 24mo here, though it is cut and folded as two, since its formes are printed as one.
func Gathering(p Plan, sheet int) int {
	return (sheet-1)/p.In + 1
}

// PagesPerForme gives the pages of a full forme of the list; where the press takes less than a forme, of a full pull.
func PagesPerForme(p Plan) int {
	n := len(p.scheme().sides[0].pages)
	if p.Pull > 0 {
		n = min(n, p.Pull)
	}
	return n
}

// HalfSheets gives the paper that one copy takes, in half sheets: twice the number of sheets. A short last gathering is
// folded whole. A single leaf counts as a sheet.
func HalfSheets(pages int, p Plan) int {
	if pages <= 0 {
		return 0
	}
	gathering := p.scheme().pages * p.In
	sheets := ((pages-1)/gathering + 1) * p.In
	if p.HalfSheet {
		return sheets
	}
	return 2 * sheets
}

// PagesToSignature gives the pages that are folded together under one signature: a gathering's, and of a sheet of 24mo,
// which is cut and folded as two (MacKellar pp. 183-184), half.
func PagesToSignature(p Plan) int {
	s := p.scheme()
	if p.Format == "24mo" && !s.half {
		return s.pages / 2
	}
	return s.pages * p.In
}
