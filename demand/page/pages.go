// Package page makes pages of lines, and counts what each page takes.
//
// Lines come from the stick paragraph by paragraph and are put one under another until a page is full; a form feed in the
// copy fills its page with blank lines, and a blank line between verses is left out where it would head a page:
//
//	lines a page: 3     copy: a b _ c _ d <feed> e      pages: (a b _) (c _ d) (e)
//
// What is kept of a page is a row of counts in the tally and the place where it begins, from which its lines can be set again
// whenever they are asked for. The lines themselves are not kept: memory does not grow with them.
package page

import (
	"formewise/demand/stick"
	"formewise/demand/tally"
	"formewise/texts/read"
	"formewise/texts/sorts"
)

// Pages are a manuscript made up into pages.
type Pages struct {
	Table  *tally.Table // pages by sorts, columns by sorts.ID
	Lines  int          // lines of text
	Notes  []Use        // what was made up or is missing, and kerned sorts, by first appearance
	Forced []Spot       // the first lines that end in a word divided where only the measure asks for it

	copy    *read.Copy
	perPage int
	stick   *stick.Stick
	options options
	lengths []int // lines to each page, where they are not all alike
	cuts    cuts  // where a line has to end, since its page does
	tall    []int // lines on each of the first pages, whose ends are given
	starts  []start
	upTo    []int32 // lines of text up to and with each page
}

// A start is where a page begins.
type start struct {
	stick.Place
	drop bool // it begins the work or follows a form feed
}

// A Spot is a line of a page, both counted from 1.
type Spot struct{ Page, Line int }

// MostForced is how many forced divisions are remembered by place.
const MostForced = 100

// A Use says how often a character of the manuscript had no sort of its own, or a kerned sort had to be parted from the
// next, and where first.
type Use struct {
	Character  rune
	Sort, By   sorts.ID // the kerned one, and the space that parts it from the next
	Rule       int      // as in sorts.Note
	Count      int
	Page, Line int // where it stands first, pages counted from 1
}

// Stick is the one they were set with.
func (p *Pages) Stick() *stick.Stick { return p.stick }

// Count is how many pages there are.
func (p *Pages) Count() int { return len(p.starts) }

// TextLines is how many lines of text stand on the first so many pages.
func (p *Pages) TextLines(pages int) int {
	if pages == 0 {
		return 0
	}
	return int(p.upTo[pages-1])
}

// notes gathers uses by character.
type notes struct {
	at   map[sorts.Note]int // position in the list, by note with At 0
	list []Use
}

func (n *notes) add(note sorts.Note, page, line int) {
	note.At = 0
	i, ok := n.at[note]
	if !ok {
		if n.at == nil {
			n.at = map[sorts.Note]int{}
		}
		i = len(n.list)
		n.at[note] = i
		n.list = append(n.list, Use{Character: note.Character, Sort: note.Sort, By: note.By, Rule: note.Rule, Page: page, Line: line})
	}
	n.list[i].Count++
}
