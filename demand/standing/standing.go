// Package standing answers what a work asks of the type: how much of each sort is in use at once while it is set, printed
// and distributed forme by forme, where a sort runs out, how many pages can stand, and into which sections the work is cut.
//
// Two things meet here: the tally (what each page takes of each sort, a column a sort) and the formes (which pages are
// printed together). A work of eight pages in quarto has two formes, inner 2 3 6 7 and outer 1 4 5 8. Set by formes, with no
// finished forme left standing, four pages are in use at the most:
//
//	set 2  3  6  7   inner printed, distributed   set 1  4  5  8   outer printed, distributed
//	in use 1  2  3  4                           0     1  2  3  4                            0
//
// Set seriatim, in reading order, the inner forme is full only with page 7, so seven pages are in use; and where the formes
// of a sheet are released together, even by formes all eight are.
//
// Pages can stand together when of every printing sort they take no more than is available, and when of each font's spaces
// and quads they take no more width than is available: spaces make one another up, so they are judged as one pool.
//
// Part of what can stand can stand. Because of that, windows only move forward, sections taken as long as they go are the
// fewest, and everything here is linear in pages x columns.
package standing

// Column says what a column of the tally is.
type Column struct {
	Font, Sort string
	Space      bool // a space or quad: judged by width, in the pool of its font
	Width      int  // of a space: thousandths of an em, rounded by the caller; else not looked at
	Available  int  // pieces; never below 0
}

// Line is one line of a page, with the sorts that stand in it.
type Line struct {
	Number int      // as the setting copy numbers it
	Text   bool     // a line of the text, which lines that can stand are counted in; not a head, direction or blank line
	Pieces []uint16 // the columns of its pieces, one entry a piece
}

// Lines gives the lines of a page, from 1, in the order in which they are set. Their pieces are the page's row of the
// tally, no more and no less. It is asked for few pages: those where something runs out.
type Lines func(page int) []Line
