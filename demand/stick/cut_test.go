package stick_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"formewise/demand/stick"
	"formewise/texts/read"
	"formewise/texts/sorts"
)

// Where a line has to end, reckoned by hand with blocks: words of so many ems to a measure of 20.
func TestCut(t *testing.T) {
	const soft = "\u00ad"
	text := m(4, 5, 3, 4, 6) // set freely: 4 5 3 4 / 6, since 4 5 3 costs 12 and 4 5 3 4 costs 4
	for _, c := range []struct {
		name, text string
		stop       int
		want       string
	}{
		{"where it ends anyway", text, len(m(4, 5, 3, 4)) + 1, "4 5 3 4 / |6|"},
		{"a word sooner", text, len(m(4, 5, 3)) + 1, "4 5 3 / |4 6|"},
		{"two words sooner: one gap of 11", text, len(m(4, 5)) + 1, "4 5 / |3 4 6|"},
		{"after the first word: quadded out, having no gap", text, len(m(4)) + 1, "4| / |5 3 4 / |6|"},
		{"in the last line", m(4, 5, 3, 4, 6, 2, 3), len(m(4, 5, 3, 4, 6)) + 1, "4 5 3 4 / |6| / |2 3|"},
		{"inside a word, where it may not be divided", text, len(m(4, 5, 3)) + 3, "4 5 3 2- / |2 6|"},
		{"after a soft hyphen", m(4, 5, 3, 2) + soft + m(2, 6), len(m(4, 5, 3, 2) + soft), "4 5 3 2- / |2 6|"},
		{"after a hyphen of its own", m(4, 5) + "-" + m(3, 4, 6), len(m(4, 5) + "-"), "4 5- / |3 4 6|"},
		{"where a no-break space stands", m(4, 5) + "\u00a0" + m(3, 4, 6), len(m(4, 5) + "\u00a0"), "4 5 / |3 4 6|"},
		{"where the hyphen takes more room than what it saves: the word is left to the next line",
			m(8) + " " + m(11) + "i i", len(m(8) + " " + m(11)), "8| / |11-| / |i i|"},
	} {
		s := blocks(t, 20*square)
		if c.want == "8| / |11-| / |i i|" { // 8, 11, an i of 1/20 and a thin of 1/5 just go in; the hyphen is 1/15
			s = blocks(t, 19*square+square/20+square/5)
		}
		h := s.NewHand()
		h.Arrange = true
		p := read.Paragraph{Text: []byte(c.text), Kind: read.Verse}
		at, done, err := h.ParagraphTo(p, stick.Place{}, 0, c.stop)
		if at.At != c.stop || done || err != nil {
			t.Errorf("%s: goes on at %d (done %t, error %v), want %d", c.name, at.At, done, err, c.stop)
			continue
		}
		for _, l := range h.Lines {
			if l.Last {
				t.Errorf("%s: the line at %d is a last one", c.name, l.At)
			}
		}
		if _, _, err := h.Paragraph(p, at, 0); err != nil {
			t.Fatal(err)
		}
		var lines []string
		for _, setting := range h.Settings {
			lines = append(lines, tell(s, setting))
		}
		if got := strings.Join(lines, " / "); got != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

// Whatever the place: the lines before the one that holds it are those that are set freely, that one ends there, and all
// are what every line must be. Setting up to a place may be begun again at any line.
func TestCutLaws(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := newBench(t, "full", rapid.IntRange(8*em, 20*em).Draw(rt, "measure"), stick.Dividing(everyOther{}))
		p := drawCopy(rt)
		free := b.NewHand()
		if _, done, err := free.Paragraph(p, stick.Place{}, 0); !done || err != nil {
			rt.Skip("too narrow for words held together by no-break spaces")
		}
		list := places(b, p.Text)
		if len(list) == 0 {
			rt.Skip("one sort")
		}
		stop := rapid.SampledFrom(list).Draw(rt, "stop")
		h := b.NewHand()
		h.Arrange = true
		var at stick.Place
		for done := false; at.At < stop && !done; {
			var err error
			if at, done, err = h.ParagraphTo(p, at, rapid.IntRange(0, 2).Draw(rt, "lines at a time"), stop); err != nil || done {
				if err == nil && noGain(b, p.Text, stop) {
					rt.Skip("a word alone on its line, and no room for its hyphen")
				}
				rt.Fatalf("%q to %d, up to %d: at %d done %t, error %v", p.Text, b.Measure(), stop, at.At, done, err)
			}
		}
		if at.At != stop {
			if at.At > stop && noGain(b, p.Text, stop) {
				rt.Skip("a word alone on its line, and no room for its hyphen")
			}
			rt.Fatalf("%q to %d, up to %d: goes on at %d", p.Text, b.Measure(), stop, at.At)
		}
		ids, spaces := 0, 0
		for i, l := range h.Lines {
			if l.Last || l.Kind != p.Kind || l.First != (i == 0) {
				rt.Fatalf("%q, up to %d: line %d is %+v", p.Text, stop, i+1, l)
			}
			if next := at.At; i+1 < len(free.Lines) && free.Lines[i+1].At <= stop {
				if i+1 < len(h.Lines) {
					next = h.Lines[i+1].At
				}
				if next != free.Lines[i+1].At {
					rt.Fatalf("%q, up to %d: line %d ends at %d, and freely at %d", p.Text, stop, i+1, next, free.Lines[i+1].At)
				}
			}
			b.ranks(rt, p.Text, l, h.Settings[i], h.Galley.IDs[ids:l.IDs], each(h.Spaces[spaces:l.Spaces]))
			ids, spaces = l.IDs, l.Spaces
		}
	})
}

// places are where a line may have to end: after words, and between the sorts of one.
func places(b *bench, text []byte) []int {
	var list []int
	var g sorts.Galley
	for at := b.cutter.Skip(text, 0); at < len(text); {
		w := b.cutter.Word(&g, text, at, len(text), 1<<30)
		b.cutter.Places(&g, text, at, w.End, 1<<30, func(p, _ int) {
			if p < w.End {
				if isSoft(text[p:]) {
					p += 2
				}
				list = append(list, p)
			}
		})
		if w.Next < len(text) {
			list = append(list, w.Next)
		}
		at = w.Next
	}
	return list
}

// noGain tells whether the rest of a word that a place divides is narrower than a hyphen.
func noGain(b *bench, text []byte, at int) bool {
	var g sorts.Galley
	_, hyphen := b.cutter.Hyphen()
	return b.cutter.Word(&g, text, at, len(text), 1<<30).Width < hyphen
}
