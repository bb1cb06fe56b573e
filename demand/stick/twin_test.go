package stick_test

import (
	"math"
	"math/big"
	"slices"
	"unicode"
	"unicode/utf8"

	"formewise/demand/stick"
	"formewise/texts/read"
	"formewise/texts/sorts"
)

// A twin is the slow twin of the choice of line ends, written from the rule as the package comment has it and not from the
// code: it looks at every place where a line may end, weighs them with exact fractions, and keeps nothing from line to line.
// What widths words have, and where they end, it asks the cutter, which has tests of its own.
type twin struct {
	stick   *stick.Stick
	cutter  *sorts.Cutter
	text    []byte
	kind    read.Kind
	measure int
	em      int
	least   int // the narrowest word space there may be
	divide  func(word []byte) []int
}

// An end is a place where a line may end.
type end struct {
	at, next int  // in the text: what the line ends before, and where the next begins
	widths   int  // of the words up to there, with the hyphen of a divided one
	gaps     int  // before it
	last     bool // the paragraph ends here
	broken   bool // inside a word
	forced   bool // where that may not be divided
	long     bool // of a word that is too long for the measure
}

// A twinLine is a line by where it begins and ends.
type twinLine struct {
	begin stick.Place
	room  int // for the words and their gaps
	end
}

// lines sets the paragraph; false where not even part of a word goes in, after the lines before it.
func (t *twin) lines(begin stick.Place) ([]twinLine, bool) {
	var lines []twinLine
	for {
		from, room := begin.At, t.measure
		switch {
		case t.kind == read.Prose && begin.At == 0:
			room -= t.em
		case t.kind == read.Verse && begin.At > 0:
			room -= 2 * t.em
		}
		if from == 0 {
			from = t.cutter.Skip(t.text, 0)
		}
		e, ok := t.choose(from, room, begin.Divisions)
		if !ok {
			return lines, false
		}
		lines = append(lines, twinLine{begin, room, e})
		if e.last {
			return lines, true
		}
		begin.At = e.next
		if e.broken {
			begin.Divisions = min(begin.Divisions+1, 2)
		} else {
			begin.Divisions = 0
		}
	}
}

// choose takes the end of the line that begins at a place.
func (t *twin) choose(from, room int, divided int8) (end, bool) {
	ends := slices.DeleteFunc(t.ends(from, room, false), func(e end) bool {
		return e.broken && !e.long && divided == 2 // a third division on end
	})
	goesIn := func(e end) bool { return room-e.widths >= e.gaps*t.least }
	for _, e := range ends {
		if e.last && goesIn(e) {
			return e, true
		}
	}
	// The cheapest, and the later of equals; before all others those that can be filled.
	for _, filled := range []bool{true, false} {
		var best end
		var least *big.Rat
		for _, e := range ends {
			if e.gaps == 0 || !goesIn(e) || filled && !t.stick.Fills(e.gaps, room-e.widths) {
				continue
			}
			if c := t.cost(e, room); least == nil || c.Cmp(least) <= 0 {
				best, least = e, c
			}
		}
		if least != nil {
			return best, true
		}
	}
	// Nothing else will go: a line without a word space, as long as can be; sooner where its end can be filled, and sooner after
	// a word than inside one.
	fills := func(e end) bool { return t.stick.Fills(0, room-e.widths) }
	for _, ok := range []func(end) bool{
		func(e end) bool { return !e.broken && fills(e) },
		fills,
		func(e end) bool { return !e.broken },
		func(e end) bool { return true },
	} {
		for _, e := range slices.Backward(ends) {
			if e.gaps == 0 && goesIn(e) && ok(e) {
				return e, true
			}
		}
	}
	// Not even that: a word divided wherever it goes.
	for _, e := range slices.Backward(t.ends(from, room, true)) {
		if e.broken && goesIn(e) {
			return e, true
		}
	}
	return end{}, false
}

// cost is max(s/t, t/s) with s = room/gaps and t = em/3, and 0.15 more for a divided word.
func (t *twin) cost(e end, room int) *big.Rat {
	ratio := big.NewRat(int64(3*(room-e.widths)), int64(e.gaps*t.em))
	if inverse := new(big.Rat).Inv(ratio); inverse.Cmp(ratio) > 0 {
		ratio = inverse
	}
	if e.broken {
		ratio.Add(ratio, big.NewRat(15, 100))
	}
	return ratio
}

// ends lists, in the order of the text, where a line from a place on may end: after words, and inside words that may be divided
// there or are too long for the measure; anywhere says that all words may be divided between any two sorts.
func (t *twin) ends(from, room int, anywhere bool) []end {
	var ends []end
	_, hyphen := t.cutter.Hyphen()
	widths, gaps := 0, 0
	for at := from; widths <= room; {
		w, whole := t.cut(at, len(t.text))
		long := w.Width > t.measure
		may := t.mayDivide(at, w.End, long)
		torn := long // none of its places goes in a line
		if long && len(may) > 0 {
			first, _ := t.cut(at, may[0])
			torn = first.Width+hyphen > t.measure
		}
		for p := at + 1; p < w.End; p++ {
			if torn || anywhere {
				if p-2 >= at && isSoft(t.text[p-2:]) {
					continue // a soft hyphen belongs to what is before it
				}
				first, a := t.cut(at, p)
				if _, b := t.cut(p, w.End); first.End != p || !slices.Equal(slices.Concat(a, b), whole) {
					continue // inside a sort
				}
				ends = append(ends, end{p, t.after(p), widths + first.Width + hyphen, gaps, false, true, true, long})
			} else if slices.Contains(may, p) {
				first, _ := t.cut(at, p)
				if first.Width+hyphen >= w.Width {
					continue // the hyphen takes more room than the rest of the word: no gain
				}
				ends = append(ends, end{p, t.after(p), widths + first.Width + hyphen, gaps, false, true, false, long})
			}
		}
		widths += w.Width
		if w.Join != sorts.NoBreak {
			ends = append(ends, end{at: w.End, next: w.Next, widths: widths, gaps: gaps, last: w.Join == sorts.End})
		}
		if w.Join == sorts.End {
			break
		}
		if w.Join != sorts.Dash {
			gaps++
		}
		at = w.Next
	}
	return ends
}

// mayDivide lists where a word may be divided: at its soft hyphens, or where it has none, where the divider says. Of a word
// divided before, the divider is asked about the whole. Of a word too long for the measure only the soft hyphens in what goes in a
// line say anything, and the divider is asked about the letters before the first of the others.
func (t *twin) mayDivide(begin, stop int, long bool) []int {
	var list []int
	for p := begin + 1; p+2 < stop; p++ {
		if !isSoft(t.text[p:]) {
			continue
		}
		if first, _ := t.cut(begin, p); long && first.Width > t.measure {
			stop = p
			break
		}
		list = append(list, p)
	}
	if list != nil || t.divide == nil {
		return list
	}
	hyphen := func(p int) bool { return p >= 0 && t.text[p] == '-' && (p == 0 || t.text[p-1] != '-') }
	if hyphen(stop-1) || hyphen(begin-1) {
		return nil // beside a hyphen of its own
	}
	first := begin
	for first > 0 {
		r, n := utf8.DecodeLastRune(t.text[:first])
		if !unicode.IsLetter(r) {
			break
		}
		first -= n
	}
	for _, at := range t.divide(t.text[first:stop]) {
		if first+at > begin {
			list = append(list, first+at)
		}
	}
	return list
}

// isLetter knows the letters of the words that these tests divide.
func isLetter(b byte) bool { return 'a' <= b|0x20 && b|0x20 <= 'z' }

// cut cuts part of a word.
func (t *twin) cut(at, stop int) (sorts.Word, []sorts.ID) {
	var g sorts.Galley
	w := t.cutter.Word(&g, t.text, at, stop, math.MaxInt)
	return w, g.IDs
}

// after is where the text goes on after a division: a soft hyphen has done its service.
func (t *twin) after(p int) int {
	if isSoft(t.text[p:]) {
		return p + 2
	}
	return p
}

func isSoft(text []byte) bool { return len(text) > 1 && text[0] == 0xC2 && text[1] == 0xAD }
