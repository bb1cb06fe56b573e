package stick_test

import (
	"testing"

	"pgregory.net/rapid"

	"formewise/demand/stick"
	"formewise/texts/read"
)

// A verse of blocks to a measure of 10: words of one m. Evenly, 8 of them leave 2 for 7 gaps, cost 7/6; 7 leave 3 for 6,
// cost 3/2. Closely, 8 again, since 9 leave 1 for 8 gaps: below the thin. Widely, 7: 3/6 is under 2/3, and 4/5 above.
func TestPitchByHand(t *testing.T) {
	s := blocks(t, 10*square)
	p := read.Paragraph{Text: []byte(m(1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1)), Kind: read.Prose}
	for _, c := range []struct {
		name  string
		stick *stick.Stick
		want  []int // where the lines begin, two bytes to a word
	}{
		{"evenly: 7 after the indent of one, S 2, g 6, cost 1; then 8", s, []int{0, 14, 30}},
		{"closely: 7, for 8 leave 1 for 7; then 8", s.Closely(), []int{0, 14, 30}},
		{"widely: 6, S 3, g 5; then 7, S 3, g 6; the last 7, though they go in with S 3, g 6", s.Widely(), []int{0, 12, 26}},
	} {
		h := c.stick.NewHand()
		if _, _, err := h.Paragraph(p, stick.Place{}, 0); err != nil {
			t.Fatal(err)
		}
		var got []int
		for _, l := range h.Lines {
			got = append(got, l.At)
		}
		if len(got) != len(c.want) {
			t.Errorf("%s: lines begin at %v, want %v", c.name, got, c.want)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%s: lines begin at %v, want %v", c.name, got, c.want)
				break
			}
		}
	}
}

// Against the twin, which lists every place where a line may end: closely takes the last that goes in and can be filled, widely the first
// whose spaces are two thirds of an em or less, and that inside a word only where no whole word will do.
func TestPitchAgainstTwin(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := newBench(t, rapid.SampledFrom([]string{"full", "no hair", "poor"}).Draw(rt, "spaces"), rapid.IntRange(8*em, 30*em).Draw(rt, "measure"), stick.Dividing(everyOther{}))
		b.divide = func(word []byte) []int { return everyOther{}.Places(word, nil) }
		p := drawCopy(rt)
		wide := rapid.Bool().Draw(rt, "wide")
		s := b.Closely()
		if wide {
			s = b.Widely()
		}
		h := s.NewHand()
		h.Arrange = true
		if _, done, err := h.Paragraph(p, stick.Place{}, 0); !done || err != nil {
			rt.Skip("too narrow for words held together by no-break spaces")
		}
		twin := b.twin(p)
		ids, spaces := 0, 0
		for i, l := range h.Lines {
			from, room := l.At, b.Measure()
			switch {
			case p.Kind == read.Prose && i == 0:
				room -= em
			case p.Kind == read.Verse && i > 0:
				room -= 2 * em
			}
			if i == 0 {
				from = b.cutter.Skip(p.Text, 0)
			}
			if want, ok := pick(twin, from, room, l.Divisions, wide); ok {
				got := len(p.Text)
				if i+1 < len(h.Lines) {
					got = h.Lines[i+1].At
				}
				if want != got && (!l.Last || want < got) {
					rt.Fatalf("%q\nto %d, wide %t, line %d: goes on at %d, the twin's at %d", p.Text, b.Measure(), wide, i+1, got, want)
				}
			}
			b.ranks(rt, p.Text, l, h.Settings[i], h.Galley.IDs[ids:l.IDs], each(h.Spaces[spaces:l.Spaces]))
			ids, spaces = l.IDs, l.Spaces
		}
	})
}

// pick is where the line after goes on; false where the pitch has no say: no place with a gap serves.
func pick(t *twin, from, room int, divided int8, wide bool) (int, bool) {
	ends := t.ends(from, room, false)
	serves := func(e end) bool {
		left := room - e.widths
		third := e.broken && !e.long && divided == 2
		return !third && e.gaps > 0 && left >= e.gaps*t.least && t.stick.Fills(e.gaps, left)
	}
	if wide {
		for _, whole := range []bool{true, false} {
			for _, e := range ends {
				if !e.last && e.broken != whole && serves(e) && 3*(room-e.widths) <= 2*e.gaps*t.em {
					return e.next, true
				}
			}
		}
		return 0, false
	}
	for _, e := range ends {
		if e.last && room-e.widths >= e.gaps*t.least {
			return len(t.text), true
		}
	}
	for i := len(ends) - 1; i >= 0; i-- {
		if serves(ends[i]) {
			return ends[i].next, true
		}
	}
	return 0, false
}
