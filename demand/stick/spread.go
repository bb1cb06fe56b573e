package stick

import (
	"math"

	"formewise/texts/sorts"
)

// A Spread is a line set to the measure with something at its left end, in its middle and at its right end, such as a head line.
type Spread struct {
	Pieces []sorts.ID   // from left to right
	Notes  []sorts.Note // what was made up or is missing, At an index into the printing sorts
	Wants  int          // thousandths of a point
}

// Spread sets such a line; any part may be empty. Words have thick spaces between them. It tells whether all goes in.
func (h *Hand) Spread(left, centre, right string) (Spread, bool) {
	s, f := h.stick, h.stick.fill
	var out Spread
	var g sorts.Galley
	thick, widths := f.gaps[f.thick], [3]int{}
	var parts [3][]sorts.ID
	for i, text := range []string{left, centre, right} {
		b := []byte(text)
		for at := s.cutter.Skip(b, 0); at < len(b); {
			from := len(g.IDs)
			w := s.cutter.Word(&g, b, at, len(b), math.MaxInt)
			parts[i] = append(parts[i], g.IDs[from:]...)
			widths[i] += w.Width
			if w.Join == sorts.Gap || w.Join == sorts.NoBreak {
				parts[i] = append(parts[i], thick.pieces...)
				widths[i] += thick.width
			}
			at = w.Next
		}
	}
	out.Notes = g.Notes
	room := s.measure - widths[0] - widths[1] - widths[2]
	if room < 0 {
		return out, false
	}
	before := quadding{}
	if centre != "" {
		before, _ = f.quadOut(min(max(0, (s.measure-widths[1])/2-widths[0]), room))
	}
	after, _ := f.quadOut(room - before.width)
	out.Pieces = f.lay(append(out.Pieces, parts[0]...), before)
	out.Pieces = f.lay(append(out.Pieces, parts[1]...), after)
	out.Pieces = append(out.Pieces, parts[2]...)
	out.Wants = room - before.width - after.width
	return out, true
}

// FirstWord is the word that a line begins with, as it is printed: what a catchword repeats. Of a divided word it is the rest.
func (h *Hand) FirstWord(text []byte, at int) string {
	c := h.stick.cutter
	at = c.Skip(text, at)
	if at == len(text) {
		return ""
	}
	mark := h.Galley.Mark()
	w := c.Word(&h.Galley, text, at, len(text), h.stick.measure)
	h.Galley.Lift(mark)
	return string(text[at:w.End])
}
