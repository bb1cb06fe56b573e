package sorts

import (
	"fmt"
	"slices"
	"unicode"
	"unicode/utf8"

	"formewise/texts/house"
)

// A Join says what comes after a word.
type Join uint8

// What may come after a word.
const (
	End     Join = iota // the paragraph ends
	Gap                 // a word space; the line may end here
	NoBreak             // a word space that never ends a line
	Dash                // no space: the word goes on after its own hyphen or dash, and the line may end here
	More                // the word goes on: it was cut off because it is wider than asked for
)

// A Word is what stands between two places where a line may end without dividing it.
type Word struct {
	Width int  // thousandths of a point
	End   int  // place in the text after its last character
	Next  int  // place in the text where what follows begins: after the space, or the same
	Join  Join // what comes after it
}

// A Cutter cuts text into the sorts of one font. It never changes, so any number of hands may use it at once.
type Cutter struct {
	cases        *Cases
	direct       [256]direct
	fast         [256]int64 // of a plain byte, its width and its ID in one; below 0 for every other
	trie         *trie
	entries      []entry // by the trie's values, from 1
	missing      ID
	missingWidth int
	ellipsis     bool // the font has three points as one sort
	hyphen       []ID // what is set where a word is divided
	hyphenWidth  int
	kerning      *kerning // nil: no sort of the font is kerned
}

// What the first byte of a character asks for.
const (
	plain  uint8 = iota // one sort, and no longer one begins so
	gap                 // a space
	turned              // a typewritten sign, meant for another by its place
	walk                // look in the trie
)

type direct struct {
	width int32
	id    ID
	class uint8
}

// An entry is what is set for a text: one sort of its own, or several that make it up.
type entry struct {
	ids   []ID
	width int
	rule  int    // of house.Substitutes, -1 for a sort of its own
	notes []Note // of kerned sorts among them, At counted from the first
}

// NewCutter makes the cutter for a font of the cases.
func NewCutter(cases *Cases, font int, options ...Option) (*Cutter, error) {
	c := &Cutter{
		cases: cases, trie: newTrie(), entries: make([]entry, 1),
		missing: cases.Missing(), missingWidth: cases.fonts[font].Body / 2,
	}
	f := cases.fonts[font]
	for n, s := range f.Sorts {
		if s.Text == "" || s.Space || s.SmallCapital {
			continue
		}
		if !c.enter(s.Text, []ID{cases.ID(font, n)}, -1) {
			return nil, tooMany(f)
		}
	}
	c.ellipsis = c.trie.get("…") != 0
	if !c.makeUp() {
		return nil, tooMany(f)
	}
	c.kern(font, options)
	c.classify()
	c.hyphen, c.hyphenWidth = []ID{c.missing}, c.missingWidth
	if v := c.trie.get("-"); v != 0 {
		c.hyphen, c.hyphenWidth = c.entries[v].ids, c.entries[v].width
	}
	return c, nil
}

func tooMany(f Font) error {
	return fmt.Errorf("font %q: its sorts' texts are too many and too long to be told apart", f.Name)
}

func (c *Cutter) enter(text string, ids []ID, rule int) bool {
	width := 0
	for _, id := range ids {
		width += c.cases.sorts[id].Width
	}
	c.entries = append(c.entries, entry{ids: ids, width: width, rule: rule})
	return c.trie.put(text, len(c.entries)-1)
}

// makeUp enters what the house may substitute for characters that the font has no sort for. All are worked out on the
// font's own sorts before any is entered, so that none hides another's better way. It tells whether there was room.
func (c *Cutter) makeUp() bool {
	rules := house.Substitutes()
	type found struct {
		text string
		ids  []ID
		rule int
	}
	// A two-em dash is set for two dashes on end, such as four typewritten hyphens are.
	if v := c.trie.get("⸺"); v != 0 && !c.enter("——", c.entries[v].ids, -1) {
		return false
	}
	var list []found
	for n, rule := range rules {
		text := string(rule.Character)
		if c.trie.get(text) != 0 {
			continue
		}
		if ids, ok := c.spell(rule.Set, rules, 1); ok {
			list = append(list, found{text, ids, n})
		}
	}
	for _, f := range list {
		if !c.enter(f.text, f.ids, f.rule) { // for one character the first that goes stays
			return false
		}
	}
	return true
}

// spell cuts a text into the font's own sorts, making up what has none.
func (c *Cutter) spell(text string, rules []house.Substitute, depth int) ([]ID, bool) {
	var ids []ID
	for text != "" {
		if v, n := c.trie.longest(text); v != 0 {
			ids = append(ids, c.entries[v].ids...)
			text = text[n:]
			continue
		}
		r, n := utf8.DecodeRuneInString(text)
		var made []ID
		ok := false
		for _, rule := range rules {
			if rule.Character == r && depth < 4 {
				if made, ok = c.spell(rule.Set, rules, depth+1); ok {
					break
				}
			}
		}
		if !ok {
			return nil, false
		}
		ids = append(ids, made...)
		text = text[n:]
	}
	return ids, true
}

// classify notes for every byte whether it is one sort by itself, which nearly all letters are.
func (c *Cutter) classify() {
	for b := range c.direct {
		d := &c.direct[b]
		node := c.trie.arms[root][b]
		switch {
		case b == '"' || b == '\'' || b == '-' || b == '.' && c.ellipsis:
			d.class = turned
		case b < utf8.RuneSelf && unicode.IsSpace(rune(b)):
			d.class = gap
		case b >= utf8.RuneSelf || node == 0 || c.trie.arms[node] != [256]uint16{}:
			d.class = walk
		default:
			e := c.entries[c.trie.values[node]]
			d.class, d.id, d.width = plain, e.ids[0], int32(e.width)
			if len(e.ids) != 1 || e.rule >= 0 || c.kerning != nil && c.kerning.kerned[e.ids[0]] {
				d.class = walk
			}
		}
		c.fast[b] = -1
		if d.class == plain {
			c.fast[b] = int64(d.width)<<16 | int64(d.id)
		}
	}
}

// Hyphen is what is set at the end of a line where a word is divided, and its width.
func (c *Cutter) Hyphen() ([]ID, int) { return c.hyphen, c.hyphenWidth }

// Skip passes over the spaces at a place of the text.
func (c *Cutter) Skip(text []byte, p int) int {
	for p < len(text) {
		n, _ := spaceAt(text, p)
		if n == 0 {
			break
		}
		p += n
	}
	return p
}

// stretch is how many letters are set down between two looks at the width.
const stretch = 64

// Word sets down the word at text[p:end], which is not a space, and tells how wide it is and what follows. It stops early,
// with Join More, as soon as the word is wider than limit. Quotes are turned by what stands around them in the whole text.
func (c *Cutter) Word(g *Galley, text []byte, p, end, limit int) Word {
	begin, width := len(g.IDs), 0
	for p < end {
		// Nearly all letters are one sort each.
		letters := text[p:min(end, p+stretch)]
		ids := slices.Grow(g.IDs, stretch)
		room := ids[len(ids):][:len(letters)]
		n := 0
		for n < len(letters) {
			d := c.fast[letters[n]]
			if d < 0 {
				break
			}
			room[n] = ID(d)
			width += int(d >> 16)
			n++
		}
		p += n
		g.IDs = ids[:len(ids)+n]
		if p == end {
			break
		}
		class := c.direct[text[p]].class
		if class == gap && p+1 < end && text[p+1] < utf8.RuneSelf && c.direct[text[p+1]].class != gap {
			return Word{Width: width, End: p, Next: p + 1, Join: Gap} // one plain space, as nearly all are
		}
		// Beyond ASCII there are spaces, too, and soft hyphens.
		wide := text[p] >= utf8.RuneSelf
		if class == gap || wide {
			if n, _ := spaceAt(text, p); n > 0 {
				return c.gapAfter(text, p, end, width)
			}
		}
		if width > limit {
			return Word{Width: width, End: p, Next: p, Join: More}
		}
		if class == plain {
			continue
		}
		if wide && isSoftHyphen(text, p) {
			if len(g.IDs) > begin && !isSoftHyphen(text, p+softHyphenLen) {
				g.Soft = append(g.Soft, p)
			}
			p += softHyphenLen
			continue
		}
		from := p
		var w int
		w, p = c.set(g, text, p, end)
		width += w
		if (class == turned || wide) && p < end && goesOn(text, from, p) {
			return Word{Width: width, End: p, Next: p, Join: Dash}
		}
		if c.kerning != nil {
			_, w := c.ease(g, text, p, end)
			width += w
		}
	}
	return Word{Width: width, End: p, Next: p, Join: End}
}

// set puts down what stands for the character at p, or for as many as one sort prints; it gives the width and the next place.
func (c *Cutter) set(g *Galley, text []byte, p, end int) (width, next int) {
	v, next := c.longest(text, p, end)
	if v == 0 {
		r, n := utf8.DecodeRune(text[p:])
		if s, m := c.turn(text, p); m > 0 {
			r, _ = utf8.DecodeRuneInString(s)
			n = m
		}
		g.Notes = append(g.Notes, Note{At: len(g.IDs), Character: r, Rule: NoSort})
		g.IDs = append(g.IDs, c.missing)
		return c.missingWidth, min(p+n, end)
	}
	e := &c.entries[v]
	if e.rule >= 0 {
		r, _ := utf8.DecodeRune(text[p:])
		if s, m := c.turn(text, p); m > 0 {
			r, _ = utf8.DecodeRuneInString(s)
		}
		g.Notes = append(g.Notes, Note{At: len(g.IDs), Character: r, Rule: e.rule})
	}
	for i := p + 1; i+1 < next; i++ { // soft hyphens inside what one sort prints
		if isSoftHyphen(text, i) && !isSoftHyphen(text, i+softHyphenLen) {
			g.Soft = append(g.Soft, i)
		}
	}
	for _, n := range e.notes {
		n.At += len(g.IDs)
		g.Notes = append(g.Notes, n)
	}
	g.IDs = append(g.IDs, e.ids...)
	return e.width, next
}

// longest finds the longest text of the font that stands at p: its entry, 0 for none, and the place after it.
func (c *Cutter) longest(text []byte, p, end int) (found, next int) {
	found, next = c.follow(text, p, end, true)
	if found == 0 && c.direct[text[p]].class == turned {
		return c.follow(text, p, end, false) // no sort for what it is meant for: perhaps one for what is written
	}
	return found, next
}

func (c *Cutter) follow(text []byte, p, end int, turning bool) (found, next int) {
	node := uint16(root)
	for i := p; i < end; {
		if i > p && isSoftHyphen(text, i) {
			i += softHyphenLen
			continue
		}
		if turning && c.direct[text[i]].class == turned {
			if s, n := c.turn(text, i); n > 0 {
				for k := range len(s) {
					if node = c.trie.arms[node][s[k]]; node == 0 {
						return found, next
					}
				}
				i += n
				if v := c.trie.values[node]; v != 0 {
					found, next = v, i
				}
				continue
			}
		}
		if node = c.trie.arms[node][text[i]]; node == 0 {
			return found, next
		}
		i++
		if v := c.trie.values[node]; v != 0 {
			found, next = v, i
		}
	}
	return found, next
}

func (c *Cutter) turn(text []byte, i int) (string, int) {
	switch text[i] {
	case '"', '\'', '-':
		return house.Turn(text, i)
	case '.':
		if c.ellipsis && i+2 < len(text) && text[i+1] == '.' && text[i+2] == '.' {
			return "…", 3
		}
	}
	return "", 0
}

// Places gives every place inside the word at text[p:end] where one sort ends and another begins, with the width up to
// there, as long as that is not above limit: the places where a word may be divided if it has to be. A kerned sort and what it
// would strike are one.
func (c *Cutter) Places(g *Galley, text []byte, p, end, limit int, place func(at, width int)) {
	mark := g.Mark()
	defer g.Lift(mark)
	width := 0
	for p < end {
		if n, _ := spaceAt(text, p); n > 0 {
			return
		}
		if isSoftHyphen(text, p) {
			p += softHyphenLen
			continue
		}
		w, next := c.set(g, text, p, end)
		if width += w; width > limit {
			return
		}
		p = next
		if c.kerning != nil {
			if meet, w := c.ease(g, text, p, end); meet {
				width += w
				continue
			}
		}
		place(p, width)
	}
}

// gapAfter passes over the spaces that follow a word which ends at p.
func (c *Cutter) gapAfter(text []byte, p, end, width int) Word {
	w := Word{Width: width, End: p, Join: Gap}
	for p < end {
		n, fixed := spaceAt(text, p)
		if n == 0 {
			break
		}
		if fixed {
			w.Join = NoBreak
		}
		p += n
	}
	w.Next = p
	if p == len(text) || p == end {
		w.Join = End
	}
	return w
}

// spaceAt gives the length in bytes of the space at p, 0 if none stands there, and whether it is one that ends no line.
func spaceAt(text []byte, p int) (n int, fixed bool) {
	b := text[p]
	if b < utf8.RuneSelf {
		if b == ' ' || '\t' <= b && b <= '\r' {
			return 1, false
		}
		return 0, false
	}
	if b != 0xC2 && (b < 0xE1 || b > 0xE3) { // no space begins with another byte
		return 0, false
	}
	r, n := utf8.DecodeRune(text[p:])
	if !unicode.IsSpace(r) {
		return 0, false
	}
	return n, r == '\u00a0' || r == '\u2007' || r == '\u202f'
}

const softHyphenLen = len("\u00ad")

func isSoftHyphen(text []byte, p int) bool {
	return p+1 < len(text) && text[p] == 0xC2 && text[p+1] == 0xAD
}
