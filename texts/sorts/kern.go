package sorts

import (
	"unicode/utf8"

	"formewise/texts/house"
)

// A kerning knows the kerned sorts of a font, and what is done where their faces would strike the next sort:
//
//	f fi l       a longer sort prints both: it was found already
//	f thin b     a space parts them
//	f b          no space is narrow enough: only noted
type kerning struct {
	kerned, struck []bool // by ID
	space          *ID    // what parts them; nil: nothing does
	width          int    // of that
}

// An Option says how kerned sorts are treated.
type Option func(*kerning)

// EasedBy names the space that parts a kerned sort from what it would strike. Without it the two are left beside one
// another, and noted.
func EasedBy(space ID) Option { return func(k *kerning) { k.space = &space } }

// kern looks a font's sorts over for kerned ones, and eases what is made up of several sorts. A font that has none is
// cut as if there were no such thing.
func (c *Cutter) kern(f int, options []Option) {
	k := &kerning{kerned: make([]bool, c.cases.Len()+1), struck: make([]bool, c.cases.Len()+1)}
	for _, option := range options {
		option(k)
	}
	if k.space != nil {
		k.width = c.cases.sorts[*k.space].Width
	}
	struck := house.Struck()
	found := false
	for n, s := range c.cases.fonts[f].Sorts {
		if s.Text == "" || s.Space || s.SmallCapital {
			continue
		}
		first, _ := utf8.DecodeRuneInString(s.Text)
		id := c.cases.ID(f, n)
		k.kerned[id], k.struck[id] = s.Kerned, struck(first)
		found = found || s.Kerned
	}
	if !found {
		return
	}
	c.kerning = k
	for i := range c.entries[1:] {
		c.entries[1+i].ease(k)
	}
}

// ease eases kerned sorts inside what is made up of several.
func (e *entry) ease(k *kerning) {
	var ids []ID
	for i, id := range e.ids {
		if i > 0 && k.kerned[e.ids[i-1]] && k.struck[id] {
			var note Note
			ids, note = k.part(ids, e.ids[i-1])
			e.notes = append(e.notes, note)
			e.width += k.width
		}
		ids = append(ids, id)
	}
	e.ids = ids
}

// ease parts the sort that was set down last from the one that stands for the text at p, if it is kerned and would strike
// that. What parts them belongs to the first, so a word that is cut on from p comes out the same; but a part of a word that
// ends at p has a hyphen or nothing after it, and is not eased. It tells whether they meet, and how wide the space is.
func (c *Cutter) ease(g *Galley, text []byte, p, end int) (meet bool, width int) {
	k := c.kerning
	last := g.IDs[len(g.IDs)-1]
	if !k.kerned[last] {
		return false, 0
	}
	for p < end && isSoftHyphen(text, p) {
		p += softHyphenLen
	}
	if p >= end || !k.struck[c.first(text, p, end)] {
		return false, 0
	}
	var note Note
	g.IDs, note = k.part(g.IDs, last)
	g.Notes = append(g.Notes, note)
	return true, k.width
}

// part puts the space, if there is one, after the kerned sort that was set down last.
func (k *kerning) part(ids []ID, kerned ID) ([]ID, Note) {
	if k.space == nil {
		return ids, Note{At: len(ids), Sort: kerned, Rule: Strikes}
	}
	return append(ids, *k.space), Note{At: len(ids), Sort: kerned, By: *k.space, Rule: Eased}
}

// first is the first sort of what stands for the text at p; the missing one for a space.
func (c *Cutter) first(text []byte, p, end int) ID {
	switch d := &c.direct[text[p]]; d.class {
	case plain:
		return d.id
	case gap:
		return c.missing
	}
	if v, _ := c.longest(text, p, end); v != 0 {
		return c.entries[v].ids[0]
	}
	return c.missing
}
