// Package tally holds how many pieces of each sort every page takes, as running sums, so that any run of pages is one
// subtraction.
//
// Sorts are columns, numbered from 0 by the caller; pages are counted from 1. Row p is what the first p pages take:
//
//	                 a    b    c                  a    b    c
//	page 1 takes     3    1    0      row 0       0    0    0
//	page 2 takes     2    0    4      row 1       3    1    0
//	page 3 takes     5    1    1      row 2       5    1    4
//	                                  row 3      10    2    5
//
// so pages 2 to 3 take row 3 - row 1 = 7, 1 and 5 pieces.
//
// Memory is pages x columns x 4 bytes. Beyond that there is a slice header for each page, and at most 1 MiB of rows got
// ready in advance. Rows are never moved, so a table that grows is at no moment held twice.
package tally

import (
	"fmt"
	"math"
)

// slabCells is the most cells that are got ready at once: 1 MiB of them.
const slabCells = 1 << 18

// Table is the tally; New makes one. It may be read by several at once, but not while pages are being added.
type Table struct {
	columns int
	rows    [][]uint32 // rows[p]: what the first p pages take
	most    []uint32   // what the fullest page takes
	slab    []uint32   // cells for the next rows
}

// New gives a tally of no pages with so many columns.
func New(columns int) *Table {
	return &Table{columns: columns, rows: [][]uint32{make([]uint32, columns)}, most: make([]uint32, columns)}
}

// Add appends a page. page holds its pieces, column by column, and is not kept. Add panics when page has not one count for
// each column, and when a column passes 4,294,967,295 pieces in all, since every answer after that would be wrong.
func (t *Table) Add(page []uint32) {
	if len(page) != t.columns {
		panic(fmt.Sprintf("tally: a page of %d counts in a table of %d columns", len(page), t.columns))
	}
	before, row := t.rows[len(t.rows)-1], t.newRow()
	for c, n := range page {
		if n > math.MaxUint32-before[c] {
			panic(fmt.Sprintf("tally: column %d passes %d pieces on page %d", c, uint32(math.MaxUint32), len(t.rows)))
		}
		row[c] = before[c] + n
		t.most[c] = max(t.most[c], n)
	}
	t.rows = append(t.rows, row)
}

// newRow cuts a row from the slab. A new slab is as large as all rows before it, up to slabCells, so that a small table
// stays small and a large one asks for memory seldom.
func (t *Table) newRow() []uint32 {
	if len(t.slab) < t.columns {
		rows := min(len(t.rows), max(1, slabCells/t.columns))
		t.slab = make([]uint32, rows*t.columns)
	}
	row := t.slab[:t.columns:t.columns]
	t.slab = t.slab[t.columns:]
	return row
}

// Pages gives the number of pages added.
func (t *Table) Pages() int { return len(t.rows) - 1 }

// Columns gives the number of columns.
func (t *Table) Columns() int { return t.columns }

// Page gives the pieces of a column on page p, from 1.
func (t *Table) Page(p, column int) int { return t.Run(p, p, column) }

// Run gives the pieces of a column on pages first to last, both counted from 1 and both included; 0 when last is before
// first.
func (t *Table) Run(first, last, column int) int {
	if last < first {
		return 0
	}
	return int(t.rows[last][column] - t.rows[first-1][column])
}

// Total gives the pieces of a column on all pages.
func (t *Table) Total(column int) int { return t.Run(1, t.Pages(), column) }

// PageMax gives the pieces of a column on the page that takes most of it; 0 where there are no pages.
func (t *Table) PageMax(column int) int { return int(t.most[column]) }

// AddPageTo adds what page p takes to sum, column by column.
func (t *Table) AddPageTo(sum []int, p int) {
	before, after := t.rows[p-1], t.rows[p]
	for c := range sum {
		sum[c] += int(after[c] - before[c])
	}
}

// TakePageFrom takes what page p takes away from sum, column by column.
func (t *Table) TakePageFrom(sum []int, p int) {
	before, after := t.rows[p-1], t.rows[p]
	for c := range sum {
		sum[c] -= int(after[c] - before[c])
	}
}
