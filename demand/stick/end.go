package stick

import (
	"math"

	"formewise/texts/sorts"
)

const softHyphenLen = len("\u00ad")

func (w *word) softStart() int { return w.mark.Soft() }

// last sets what is left of the paragraph as its last line: with thick spaces if they go in, else as wide as will, and quadded out.
func (j *job) last(indent quadding, k, room, gaps int) {
	f := j.h.stick.fill
	fl := filling{odd: noGapAt, g: gaps}
	filled := false
	if gaps == 0 {
		fl.end, _ = f.quadOut(room)
		fl.width, filled = fl.end.width, true
	} else if thick := f.ordinary(gaps, room); thick >= 0 {
		fl.low, fl.high = int16(thick), int16(thick)
		set := gaps * f.gaps[thick].width
		fl.end, filled = f.quadOut(room - set)
		fl.width = set + fl.end.width
	}
	if !filled { // what thick spaces leave cannot be made up at the end: they take it up
		if try, ok := f.fill(gaps, room); ok || fl.width == 0 {
			fl = try
		}
	}
	j.emit(indent, k+1, fl, room-fl.width, Line{Place: j.place, Kind: j.kind, First: j.first, Last: true})
	j.h.words = j.h.words[:0]
	j.done = true
}

// ordinary is the mix of the ordinary word space. -1: it does not go in.
func (f *filler) ordinary(gaps, room int) int {
	if gaps*f.gaps[f.thick].width > room {
		return -1
	}
	return f.thick
}

func abs(n int) int { return max(n, -n) }

// end sets the line that ends at a place and gets ready for the next.
func (j *job) end(indent quadding, e ending) {
	h, s := j.h, j.h.stick
	var fl filling
	if e.gaps == 0 {
		fl = filling{odd: noGapAt}
		fl.end, _ = s.fill.quadOut(e.room)
		fl.width = fl.end.width
	} else {
		if j.madeGaps != e.gaps || j.madeRoom != e.room {
			j.fills(e)
		}
		fl = j.made
	}
	line := Line{Place: j.place, Kind: j.kind, First: j.first, Broken: e.at != whole, Forced: e.forced}
	if e.at == whole {
		w := h.words[e.word]
		next := Place{Paragraph: j.place.Paragraph, At: w.Next, Inset: j.first && j.initial.width > 0}
		j.emit(indent, e.word+1, fl, e.room-fl.width, line)
		j.place = next
		// The words beyond stay taken up.
		rest := h.words[e.word+1:]
		for i := range rest {
			rest[i].less(w.sums)
		}
		h.words = h.words[:copy(h.words, rest)]
		j.first = false
		return
	}
	// Both parts of a divided word are cut again by themselves, the second with the next line.
	w := h.words[e.word]
	h.Galley.Lift(w.mark)
	s.cutter.Word(&h.Galley, j.text, w.begin, e.at, math.MaxInt)
	hyphen, _ := s.cutter.Hyphen()
	for _, id := range hyphen {
		if id == s.cases.Missing() {
			h.Galley.Notes = append(h.Galley.Notes, sorts.Note{At: len(h.Galley.IDs), Character: '-', Rule: sorts.NoSort})
		}
		h.Galley.IDs = append(h.Galley.IDs, id)
	}
	h.words[e.word].ids = len(h.Galley.IDs)
	next := j.beyond(e.at)
	j.emit(indent, e.word+1, fl, e.room-fl.width, line)
	j.place = Place{Paragraph: j.place.Paragraph, At: next, Divisions: min(j.place.Divisions+1, thirdOnEnd), Inset: j.first && j.initial.width > 0}
	h.words = h.words[:0]
	j.next = next
	j.first = false
}

// emit sets down a line's spaces and closes it after n words.
func (j *job) emit(indent quadding, n int, fl filling, wants int, line Line) {
	h := j.h
	line.Wants = int32(wants)
	if !j.first {
		line.Beside = int32(j.inset())
	} else if j.initial.width > 0 {
		h.lay(h.stick.initial.clear)
	}
	if h.Arrange {
		h.Settings = append(h.Settings, j.arrange(indent, n, fl))
	}
	h.lay(indent)
	if fixed := j.fixed(n); fixed > 0 {
		for k := range n - 1 {
			h.lay(h.stick.pauses[h.words[k].pause])
		}
	}
	low, high, odd := fl.gaps()
	h.share(low, fl.wide, fl.low)
	h.share(high, fl.wide, fl.high)
	h.share(odd, fl.wide, fl.odd)
	h.lay(fl.end)
	// Words beyond the line may be taken up already: the line ends where its last word does.
	line.IDs, line.Spaces, line.Notes = h.words[n-1].ids, len(h.Spaces), notesUpTo(h.Galley.Notes, h.words[n-1].ids)
	h.Lines = append(h.Lines, line)
}

// share notes what so many gaps are made of.
func (h *Hand) share(gaps, wide int, m int16) {
	if gaps == 0 {
		return
	}
	f := h.stick.fill
	h.quads(wide, gaps)
	for _, id := range f.gaps[m].pieces {
		h.Spaces = append(h.Spaces, Spaces{id, uint32(gaps)})
	}
}

// lay notes what a quadding is made of.
func (h *Hand) lay(q quadding) {
	for _, id := range q.small.pieces {
		h.Spaces = append(h.Spaces, Spaces{id, 1})
	}
	h.quads(q.quads, 1)
}

// quads notes the quads that fill a width, so many times.
func (h *Hand) quads(width, times int) {
	if width == 0 {
		return
	}
	for _, s := range h.stick.fill.quads {
		if n := width / s.width; n > 0 {
			h.Spaces = append(h.Spaces, Spaces{s.id, uint32(n * times)})
			width -= n * s.width
		}
	}
}

// gap sets down what one gap is made of.
func (f *filler) gap(dst []sorts.ID, wide int, m int16) []sorts.ID {
	if wide > 0 {
		for _, s := range f.quads {
			for ; wide >= s.width; wide -= s.width {
				dst = append(dst, s.id)
			}
		}
	}
	pieces := f.gaps[m].pieces
	if len(pieces) == 1 {
		return append(dst, pieces[0])
	}
	return append(dst, pieces...)
}

func notesUpTo(notes []sorts.Note, ids int) int {
	n := len(notes)
	for n > 0 && notes[n-1].At >= ids {
		n--
	}
	return n
}

// fixed is how many gaps between the first n words have a width of their own.
func (j *job) fixed(n int) int {
	if n < 2 || j.h.words[n-2].gaps == 0 {
		return 0
	}
	return j.h.words[n-2].pauses
}
