// Package sorts cuts text into the sorts of a font, longest match first.
//
// A font that has the sorts f, i, fi, c and e cuts “office” into o f fi c e, or into o ffi c e where it has an ffi too. What no
// sort prints is made up from others by the rules of package house, each use noted; what cannot be made up is noted as
// missing, and takes an en of the line.
//
// Where a kerned sort would strike the next one, as an f its i, and no longer sort prints both, a thin space parts them: shelfbook
// is s h e l f, thin, b o o k.
//
// All sorts that a work may draw on, of all its fonts, are numbered together, so that a count of sorts is an array and a
// line a row of numbers.
package sorts

import "fmt"

// An ID numbers a sort among all sorts of a work's fonts, from 0; the number after the last stands for a missing one.
type ID uint16

// A Sort is one kind of piece.
type Sort struct {
	Name         string // unique in its font
	Text         string // the characters it prints, NFC; empty for a space or quad
	Space        bool   // a space or quad
	SmallCapital bool   // set for small-capital text only
	Width        int    // its set, in thousandths of a point
	Kerned       bool   // its face overhangs the body on the right
}

// A Font is the sorts of one face and body.
type Font struct {
	Name  string
	Body  int // thousandths of a point
	Sorts []Sort
}

// Cases are all fonts that a work draws on, their sorts numbered through.
type Cases struct {
	fonts  []Font
	owners []int // font by ID
	sorts  []Sort
	first  []int // first ID by font
}

// Most is the greatest number of sorts that a work's fonts may have together.
const Most = 1<<16 - 2

// Lay puts fonts side by side and numbers their sorts in the order given.
func Lay(fonts ...Font) (*Cases, error) {
	c := &Cases{fonts: fonts}
	for i, f := range fonts {
		c.first = append(c.first, len(c.sorts))
		for range f.Sorts {
			c.owners = append(c.owners, i)
		}
		c.sorts = append(c.sorts, f.Sorts...)
	}
	if len(c.sorts) > Most {
		return nil, fmt.Errorf("the fonts of this work have %d sorts, and no more than %d can be told apart", len(c.sorts), Most)
	}
	return c, nil
}

// Len is how many sorts there are; it is also the ID of a missing one.
func (c *Cases) Len() int { return len(c.sorts) }

// Missing is the ID that stands for a character with no sort.
func (c *Cases) Missing() ID { return ID(len(c.sorts)) }

// ID numbers sort number n of a font.
func (c *Cases) ID(font, n int) ID { return ID(c.first[font] + n) }

// Sort is the sort of an ID, which is not Missing.
func (c *Cases) Sort(id ID) Sort { return c.sorts[id] }

// Owner is the number of the font that a sort belongs to.
func (c *Cases) Owner(id ID) int { return c.owners[id] }

// Font is a font by its number.
func (c *Cases) Font(n int) Font { return c.fonts[n] }
