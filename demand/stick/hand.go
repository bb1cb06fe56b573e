package stick

import (
	"formewise/texts/house"
	"formewise/texts/read"
	"formewise/texts/sorts"
)

// A Hand is a compositor at work: the lines set so far, and the words taken up for the next. One hand is used by one
// goroutine at a time.
type Hand struct {
	stick    *Stick
	Galley   sorts.Galley // the printing sorts, line after line
	Spaces   []Spaces     // the spaces and quads, line after line
	Lines    []Line
	Settings []Setting // line after line, how its spaces lie; only if Arrange is set
	Arrange  bool

	words  []word
	places []int    // where a word may be divided; scratch
	bare   []ending // divisions in a line without a gap; scratch
}

// A word taken up, with sums from the first word of the paragraph (or from where its setting began again).
type word struct {
	sorts.Word
	begin int         // place in the text
	mark  sorts.Mark  // galley before it
	ids   int         // galley after it
	soft  int         // soft hyphens after it
	pause house.Pause // what its end asks of the gap after it, in old spacing
	sums
}

// sums are counted from the first word of the line up to and with a word and the gap after it.
type sums struct {
	width  int // of the words
	gaps   int // ordinary gaps
	pauses int // gaps of a width of their own, in old spacing
	fixed  int // their widths
}

func (s *sums) less(o sums) {
	s.width -= o.width
	s.gaps -= o.gaps
	s.pauses -= o.pauses
	s.fixed -= o.fixed
}

// Spaces are so many alike; where they stand is in the line's Setting.
type Spaces struct {
	ID sorts.ID
	N  uint32
}

// NewHand takes up a stick.
func (s *Stick) NewHand() *Hand { return &Hand{stick: s} }

// Clear throws off all lines and keeps the room for the next.
func (h *Hand) Clear() {
	h.Galley.Clear()
	h.Spaces, h.Lines, h.Settings, h.words = h.Spaces[:0], h.Lines[:0], h.Settings[:0], h.words[:0]
}

// Paragraph sets a paragraph from a place in it on, whole or as many lines as asked for (0 for all). It gives the place to
// go on from, and whether the paragraph is done. The error is a *TooNarrow; the lines before it are there.
func (h *Hand) Paragraph(p read.Paragraph, from Place, lines int) (next Place, done bool, err error) {
	return h.ParagraphTo(p, from, lines, len(p.Text))
}

// ParagraphTo is Paragraph up to a place inside the text where a line has to end, whatever it comes to: it is justified as if the
// paragraph went on. Its length stands for no such place.
func (h *Hand) ParagraphTo(p read.Paragraph, from Place, lines, stop int) (next Place, done bool, err error) {
	if p.Kind == read.Blank || p.Kind == read.Break {
		h.Lines = append(h.Lines, h.here(Line{Place: from, Kind: p.Kind}))
		if h.Arrange {
			h.Settings = append(h.Settings, Setting{})
		}
		return from, true, nil
	}
	h.words = h.words[:0]
	j := job{h: h, text: p.Text, kind: p.Kind, place: from, stop: stop}
	j.next = from.At
	if from.At == 0 {
		j.first = true
		j.next = h.stick.cutter.Skip(p.Text, 0)
		if j.initial = j.initialOf(); j.initial.width > 0 {
			h.Galley.IDs = append(h.Galley.IDs, j.initial.ids...)
			j.next = h.stick.cutter.Skip(p.Text, j.initial.next)
		}
	} else if from.Inset {
		j.initial = j.initialOf()
	}
	for n := 0; (lines == 0 || n < lines) && !j.done && (stop == len(p.Text) || j.place.At < stop); n++ {
		if err := j.line(); err != nil {
			return j.place, false, err
		}
	}
	if n := len(h.words); n > 0 { // words taken up for a line that is not to be set now
		h.Galley.Lift(h.words[0].mark)
	}
	h.words = h.words[:0]
	return j.place, j.done, nil
}

// here closes a line at what has been set down so far.
func (h *Hand) here(l Line) Line {
	l.IDs, l.Spaces, l.Notes = len(h.Galley.IDs), len(h.Spaces), len(h.Galley.Notes)
	return l
}

// take takes up the next word of the text.
func (j *job) take() {
	h := j.h
	n := len(h.words)
	if n == cap(h.words) {
		h.words = append(h.words, word{})
	}
	h.words = h.words[:n+1] // filled where it stands: this is done for every word
	w := &h.words[n]
	w.begin, w.mark = j.next, h.Galley.Mark()
	w.Word = h.stick.cutter.Word(&h.Galley, j.text, j.next, len(j.text), h.stick.measure)
	w.ids, w.soft, w.pause = len(h.Galley.IDs), len(h.Galley.Soft), house.NoPause
	if n > 0 {
		w.sums = h.words[n-1].sums
	} else {
		w.sums = sums{}
	}
	w.width += w.Width
	j.next = w.Next
	if w.Join != sorts.Gap && w.Join != sorts.NoBreak {
		return
	}
	if h.stick.old {
		if w.pause = house.PauseAfter(j.text, w.End, w.Next); w.pause != house.NoPause {
			w.pauses++
			w.fixed += h.stick.pauses[w.pause].width
			return
		}
	}
	w.gaps++
}
