package stick

import (
	"math"
	"unicode"
	"unicode/utf8"

	"formewise/texts/read"
	"formewise/texts/sorts"
)

// A job is the setting of one paragraph.
type job struct {
	h     *Hand
	text  []byte
	kind  read.Kind
	place Place // where the line in hand begins
	next  int   // place in the text up to which words are taken up
	stop  int   // place in the text where a line has to end; its length if there is none
	first bool  // the line in hand is the paragraph's first
	done  bool

	initial initial // its width is 0 where the paragraph has none

	made               filling // what fills made last, for so many gaps and so much room: most often that of the line
	filled             bool
	madeGaps, madeRoom int
}

// An ending is a place where the line in hand may end.
type ending struct {
	word   int // the last word of the line, or the one that is divided
	at     int // place in the text where it is divided, -1 if it is not
	room   int // what is left of the line
	gaps   int
	cost   float64
	forced bool
}

const whole = -1

// thirdOnEnd is how many divided lines may stand one after another before the next division is out.
const thirdOnEnd = 2

// divisionCost is what a divided word adds to the cost of a line.
const divisionCost = 0.15

// impossible is dearer than any line that can be set.
const impossible = math.MaxFloat64

// cost is how far the spaces of a line are from the thick, as a ratio.
func (j *job) cost(room, gaps int) float64 {
	thick3, mean3 := float64(gaps*j.h.stick.em), float64(3*room)
	if room == 0 {
		return impossible
	}
	if mean3 >= thick3 {
		return mean3 / thick3
	}
	return thick3 / mean3
}

// line sets the next line.
func (j *job) line() error {
	h, s := j.h, j.h.stick
	indent := j.indent()
	measure := s.measure - indent.width - j.inset()
	least := s.fill.least

	// Words are taken up until one does not go in; endings are kept as they come. While spaces are wider than the thick,
	// each ending is cheaper than the one before, so of those only the last is kept.
	loose := ending{word: -1}
	bare := ending{word: -1} // without a gap
	var best ending
	best.cost = impossible
	over := 0
	for k := 0; ; k++ {
		if k == len(h.words) {
			j.take()
		}
		w := &h.words[k]
		room, gaps := j.room(k, measure)
		if room < 0 || room < gaps*least || w.Join == sorts.More {
			over = k
			break
		}
		switch {
		case w.Join == sorts.End:
			if e, ok := j.before(k, measure); ok {
				j.end(indent, e)
			} else {
				j.last(indent, k, room, gaps)
			}
			return nil
		case w.Join == sorts.NoBreak:
		case gaps == 0:
			bare = ending{word: k, at: whole, room: room}
		case 3*room >= gaps*s.em:
			loose = ending{word: k, at: whole, room: room, gaps: gaps}
		default:
			e := ending{word: k, at: whole, room: room, gaps: gaps}
			j.weigh(&best, e)
		}
	}
	if loose.word >= 0 {
		j.weigh(&best, loose)
	}
	bare = j.divided(&best, bare, measure, max(loose.word+1, 0), over)
	if s.pitch != evenly {
		best = j.pitched(best, measure, over)
	}
	if best.cost == impossible || !j.fills(best) {
		best = j.otherwise(best, bare, measure, over)
	}
	if best.word < 0 {
		return j.tooNarrow(indent, over)
	}
	if j.stop < len(j.text) {
		best = j.cut(best, measure)
	}
	j.end(indent, best)
	return nil
}

// room is what words 0 to k of the line leave of the measure for the gaps between them, and how many gaps that is.
func (j *job) room(k, measure int) (room, gaps int) {
	room = measure - j.h.words[k].width
	if k == 0 {
		return room, 0
	}
	before := &j.h.words[k-1]
	if before.pauses == 0 {
		return room, before.gaps
	}
	if before.gaps == 0 {
		return room, before.pauses
	}
	return room - before.fixed, before.gaps
}

// weigh keeps the cheaper of two endings, and the later of equals.
func (j *job) weigh(best *ending, e ending) {
	e.cost = j.cost(e.room, e.gaps)
	if e.at != whole {
		e.cost += divisionCost
	}
	if e.cost < best.cost || e.cost == best.cost && !best.isAfter(e) {
		*best = e
	}
}

// isAfter tells whether a line that ends there is longer than one that ends at o.
func (e ending) isAfter(o ending) bool {
	if e.word != o.word || e.at == whole || o.at == whole {
		return e.word > o.word || e.word == o.word && e.at == whole && o.at != whole
	}
	return e.at > o.at
}

// fills tells whether the spaces at hand can fill the line that ends there.
func (j *job) fills(e ending) bool {
	if e.gaps == 0 {
		_, ok := j.h.stick.fill.quadOut(e.room)
		return ok
	}
	j.made, j.filled = j.h.stick.fill.fill(e.gaps, e.room)
	j.madeGaps, j.madeRoom = e.gaps, e.room
	return j.filled
}

// divided weighs the divisions of the words from first to last, which reach from the last loose ending to the word that does
// not go in; earlier ones would be dearer. It gives the best ending without a gap.
func (j *job) divided(best *ending, bare ending, measure, first, last int) ending {
	switch w := &j.h.words[last]; {
	case w.Width > j.h.stick.measure:
	case best.cost < 1+divisionCost:
		return bare // no divided line costs less than that
	case w.soft == j.softBefore(first) && j.h.stick.divider == nil:
		return bare // nothing here can be divided
	}
	j.h.bare = j.h.bare[:0]
	for k := first; k <= last; k++ {
		j.divisions(k, measure, func(e ending) {
			switch {
			case e.gaps == 0:
				j.h.bare = append(j.h.bare, e)
			case e.room >= e.gaps*j.h.stick.fill.least:
				j.weigh(best, e)
			}
		})
	}
	if bare.word < 0 {
		return j.longest(j.h.bare)
	}
	return bare
}

// longest is the last of some endings that can be filled; failing that the last; failing that none. They come in order.
func (j *job) longest(list []ending) ending {
	for i := len(list) - 1; i >= 0; i-- {
		if j.fills(list[i]) {
			return list[i]
		}
	}
	if n := len(list); n > 0 {
		return list[n-1]
	}
	return ending{word: -1}
}

// divisions gives the places where word k may be divided, in order: at its soft hyphens, or where it has none, where the divider
// says. A word that is too long for the measure may be divided wherever one sort ends and another begins, if a line holds none
// of those places; a third division on end is not out for it.
func (j *job) divisions(k, measure int, give func(ending)) {
	h := j.h
	w := &h.words[k]
	long := w.Width > h.stick.measure
	if j.place.Divisions >= thirdOnEnd && !long {
		return
	}
	room, gaps := j.room(k, measure)
	room += w.Width
	soft := j.softBefore(k) < w.soft
	var places []int
	switch {
	case soft:
		places = h.Galley.Soft[j.softBefore(k):w.soft]
	case h.stick.divider != nil:
		places = j.places(w)
	}
	if long && (len(places) == 0 || j.widthTo(w.begin, places[0]) > h.stick.measure) {
		j.anywhere(k, room, gaps, give)
		return
	}
	for _, at := range places {
		if soft && at+softHyphenLen >= w.End {
			continue
		}
		left := room - j.widthTo(w.begin, at)
		switch {
		case left < 0, !soft && left < gaps*h.stick.fill.least:
			return
		case left > room-w.Width: // before a narrow last letter the hyphen may take more room than that: that is no gain
			give(ending{word: k, at: at, room: left, gaps: gaps})
		}
	}
}

// farthest is how far back the beginning of a word is looked for whose first part stands on the line before, and how far ahead
// its first sort.
const farthest = 64

// places lists where the patterns let a word be divided. Parts of a word with hyphens of its own are left whole, as good
// practice has it; of a word divided before, the whole is looked at, and only the places in what is left of it count.
func (j *job) places(w *word) []int {
	begin, end := w.begin, w.End
	if w.Join == sorts.More { // the rest of a word that was cut off
		for end < len(j.text) && end-w.End < farthest {
			r, n := utf8.DecodeRune(j.text[end:])
			if !unicode.IsLetter(r) {
				break
			}
			end += n
		}
		if end < len(j.text) && j.text[end] == '-' && (end+1 == len(j.text) || j.text[end+1] != '-') {
			return nil // it goes on with a hyphen
		}
	}
	if hyphened(j.text, begin, end) {
		return nil
	}
	for begin > 0 && w.begin-begin < farthest {
		r, n := utf8.DecodeLastRune(j.text[:begin])
		if !unicode.IsLetter(r) {
			break
		}
		begin -= n
	}
	for begin < end { // a dash that the word ends in is no part of it
		r, n := utf8.DecodeLastRune(j.text[begin:end])
		if !unicode.Is(unicode.Pd, r) {
			break
		}
		end -= n
	}
	h := j.h
	h.places = h.stick.divider.Places(j.text[begin:end], h.places[:0])
	list := h.places[:0]
	for _, at := range h.places {
		if at += begin; at > w.begin {
			list = append(list, at)
		}
	}
	return list
}

// hyphened tells whether a word stands beside a hyphen of the copy's own. A dash of two hyphens is none.
func hyphened(text []byte, begin, end int) bool {
	return end-begin > 1 && text[end-1] == '-' && text[end-2] != '-' ||
		begin > 1 && text[begin-1] == '-' && text[begin-2] != '-'
}

func (j *job) softBefore(k int) int {
	if k == 0 {
		return j.h.words[0].softStart()
	}
	return j.h.words[k-1].soft
}

// anywhere gives the places between sorts of word k that go in with a hyphen.
func (j *job) anywhere(k, room, gaps int, give func(ending)) {
	h := j.h
	w := &h.words[k]
	_, hyphen := h.stick.cutter.Hyphen()
	h.stick.cutter.Places(&h.Galley, j.text, w.begin, len(j.text), room-hyphen, func(at, width int) {
		if at < w.End || w.Join == sorts.More {
			give(ending{word: k, at: at, room: room - hyphen - width, gaps: gaps, forced: true})
		}
	})
}

// widthTo is the width of the first part of a word divided at a place, with its hyphen. The part is cut by itself: the
// place may lie inside a ligature.
func (j *job) widthTo(begin, at int) int {
	g := &j.h.Galley
	mark := g.Mark()
	w := j.h.stick.cutter.Word(g, j.text, begin, at, math.MaxInt)
	g.Lift(mark)
	_, hyphen := j.h.stick.cutter.Hyphen()
	return w.Width + hyphen
}

// otherwise finds an ending where the cheapest is none or cannot be filled: another that can be filled, a line without a
// gap, and in the end a word divided where it may not be.
func (j *job) otherwise(best, bare ending, measure, over int) ending {
	s := j.h.stick
	all := j.endings(measure, over)
	filled := ending{word: -1, cost: impossible}
	for _, e := range all {
		if j.fills(e) {
			j.weigh(&filled, e)
		}
	}
	switch {
	case filled.cost < impossible:
		return filled
	case best.cost < impossible:
		return best
	case bare.word >= 0:
		return j.bareThatFills(bare, measure, over)
	}
	// Nothing goes but part of a word: of the last that has a place to be divided.
	forced := ending{word: -1}
	for k := over; k >= 0 && forced.word < 0; k-- {
		room, gaps := j.room(k, measure)
		room += j.h.words[k].Width
		j.anywhere(k, room, gaps, func(e ending) {
			if e.room >= gaps*s.fill.least {
				forced = e
			}
		})
	}
	return forced
}

// bareThatFills gives the line without a gap that is taken: the longest that ends after a word and whose end can be filled, else
// the longest such that divides one, else the one that is given.
func (j *job) bareThatFills(bare ending, measure, over int) ending {
	if j.fills(bare) {
		return bare
	}
	after, inside := ending{word: -1}, ending{word: -1}
	for k := 0; k <= over; k++ {
		j.divisions(k, measure, func(e ending) {
			if e.gaps == 0 && j.fills(e) {
				inside = e
			}
		})
		room, gaps := j.room(k, measure)
		if e := (ending{word: k, at: whole, room: room}); k < over && gaps == 0 && j.h.words[k].Join != sorts.NoBreak && j.fills(e) {
			after = e
		}
	}
	switch {
	case after.word >= 0:
		return after
	case inside.word >= 0:
		return inside
	}
	return bare
}

// endings lists, in order, the places where the line may end that leave a gap and go in: after each word before the one that is
// over, and where words may be divided.
func (j *job) endings(measure, over int) []ending {
	var all []ending
	for k := 0; k <= over; k++ {
		j.divisions(k, measure, func(e ending) {
			if e.gaps > 0 && e.room >= e.gaps*j.h.stick.fill.least {
				all = append(all, e)
			}
		})
		room, gaps := j.room(k, measure)
		if k < over && j.h.words[k].Join != sorts.NoBreak && gaps > 0 {
			all = append(all, ending{word: k, at: whole, room: room, gaps: gaps})
		}
	}
	return all
}

// inset is what of the line in hand an initial takes up.
func (j *job) inset() int {
	if j.first || j.place.Inset {
		return j.initial.width
	}
	return 0
}

func (j *job) indent() quadding {
	switch {
	case j.first && j.initial.width > 0:
		return quadding{}
	case j.kind == read.Verse && !j.first:
		return j.h.stick.indent[1]
	case j.kind == read.Prose && j.first:
		return j.h.stick.indent[0]
	}
	return quadding{}
}

// tooNarrow says what does not go in.
func (j *job) tooNarrow(indent quadding, over int) error {
	h, s := j.h, j.h.stick
	e := &TooNarrow{Place: j.place, Sort: s.cases.Missing(), Indent: indent.width + j.inset()}
	begin := h.words[0].begin
	end := min(begin+farthest, len(j.text)) // the rest of a word without end need not be looked at
	for end < len(j.text) && !utf8.RuneStart(j.text[end]) {
		end--
	}
	least, to := 0, begin
	s.cutter.Places(&h.Galley, j.text, begin, end, math.MaxInt, func(at, width int) {
		if to == begin {
			least, to = width, at
		}
	})
	mark := h.Galley.Mark()
	s.cutter.Word(&h.Galley, j.text, begin, to, math.MaxInt)
	if ids := h.Galley.IDs[mark.IDs():]; len(ids) > 0 {
		e.Sort = ids[0]
	}
	h.Galley.Lift(mark)
	_, hyphen := s.cutter.Hyphen()
	e.Needs = e.Indent + least + hyphen
	return e
}
