package stick_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"formewise/demand/internal/trial"
	"formewise/demand/stick"
	"formewise/texts/read"
	"formewise/texts/sorts"

	"pgregory.net/rapid"
)

const em = 12000 // of the demo's roman, thousandths of a point

// spacings are fonts of spaces, from all that the contract knows to next to nothing.
var spacings = map[string][]string{
	"full":    {"3-em quad", "2-em quad", "em quad", "en quad", "thick", "middle", "thin", "hair"},
	"no hair": {"em quad", "en quad", "thick", "middle", "thin"},
	"poor":    {"em quad", "en quad", "thick"},
}

var setWidths = map[string]int{
	"3-em quad": 3 * em, "2-em quad": 2 * em, "em quad": em, "en quad": em / 2,
	"thick": em / 3, "middle": em / 4, "thin": em / 5, "6-to-em": em / 6, "hair": em / 12,
}

func spacing(name string) sorts.Font {
	f := sorts.Font{Name: name, Body: em}
	for _, s := range spacings[name] {
		f.Sorts = append(f.Sorts, sorts.Sort{Name: s, Space: true, Width: setWidths[s]})
	}
	return f
}

// A bench is a stick with what a test has to know of it.
type bench struct {
	*stick.Stick
	spaces string
	cutter *sorts.Cutter
	divide func([]byte) []int
}

func newBench(t testing.TB, spaces string, measure int, options ...stick.Option) *bench {
	t.Helper()
	roman, _ := trial.Font(t, "ferry-roman-12", em)
	cases, err := sorts.Lay(roman, spacing(spaces))
	if err != nil {
		t.Fatal(err)
	}
	b := &bench{spaces: spaces}
	if b.Stick, err = stick.New(cases, 0, 1, measure, options...); err != nil {
		t.Fatal(err)
	}
	if b.cutter, err = sorts.NewCutter(cases, 0); err != nil {
		t.Fatal(err)
	}
	return b
}

func (b *bench) twin(p read.Paragraph) *twin {
	return &twin{stick: b.Stick, cutter: b.cutter, text: p.Text, kind: p.Kind, measure: b.Measure(), em: em, least: b.Least(), divide: b.divide}
}

// width is how wide some pieces are.
func (b *bench) width(ids ...[]sorts.ID) int {
	width := 0
	for _, id := range slices.Concat(ids...) {
		if id == b.Cases().Missing() {
			width += em / 2
		} else {
			width += b.Cases().Sort(id).Width
		}
	}
	return width
}

// A failing is what rapid's and testing's tests have in common.
type failing interface {
	Helper()
	Fatalf(format string, args ...any)
}

// agree sets a paragraph and holds it against the twin, line by line.
func (b *bench) agree(t failing, p read.Paragraph) {
	t.Helper()
	h := b.NewHand()
	h.Arrange = true
	_, done, err := h.Paragraph(p, stick.Place{}, 0)
	want, ok := b.twin(p).lines(stick.Place{})
	if done != ok || (err == nil) != ok {
		t.Fatalf("%q\nto %d: done %t, error %v; the twin says %t after %d lines", p.Text, b.Measure(), done, err, ok, len(want))
	}
	var narrow *stick.TooNarrow
	if err != nil && !errors.As(err, &narrow) {
		t.Fatalf("%q to %d: error %v", p.Text, b.Measure(), err)
	}
	ids, spaces := 0, 0
	for i, w := range want {
		if i == len(h.Lines) {
			t.Fatalf("%q\nto %d: %d lines, the twin has %d", p.Text, b.Measure(), i, len(want))
		}
		l := h.Lines[i]
		if l.Place != w.begin || l.Broken != w.broken || l.Forced != w.forced || l.Last != w.last || l.First != (i == 0) || l.Kind != p.Kind {
			t.Fatalf("%q\nto %d, line %d: %+v\nthe twin has %+v\nand next to it %s", p.Text, b.Measure(), i+1, l, w, p.Text[w.begin.At:w.at])
		}
		if got, want := h.Galley.IDs[ids:l.IDs], b.letters(p.Text, w); !slices.Equal(got, want) {
			t.Fatalf("%q\nto %d, line %d: sorts %v, the twin has %v", p.Text, b.Measure(), i+1, got, want)
		}
		if got := len(h.Settings[i].Gaps); got != w.gaps {
			t.Fatalf("%q\nto %d, line %d: %d gaps, the twin has %d", p.Text, b.Measure(), i+1, got, w.gaps)
		}
		b.ranks(t, p.Text, l, h.Settings[i], h.Galley.IDs[ids:l.IDs], each(h.Spaces[spaces:l.Spaces]))
		ids, spaces = l.IDs, l.Spaces
	}
	if len(h.Lines) > len(want) {
		t.Fatalf("%q\nto %d: %d lines, the twin has %d", p.Text, b.Measure(), len(h.Lines), len(want))
	}
}

// letters cuts the words of a twin's line.
func (b *bench) letters(text []byte, l twinLine) []sorts.ID {
	var g sorts.Galley
	for at := b.cutter.Skip(text, l.begin.At); at < l.at; {
		at = b.cutter.Word(&g, text, at, l.at, 1<<30).Next
	}
	if l.broken {
		hyphen, _ := b.cutter.Hyphen()
		g.IDs = append(g.IDs, hyphen...)
	}
	return g.IDs
}

// ranks holds a line against what every line must be, whatever the rule chose.
func (b *bench) ranks(t failing, text []byte, l stick.Line, s stick.Setting, letters, spaces []sorts.ID) {
	t.Helper()
	at := fmt.Sprintf("%q\nto %d, the line at %d", text, b.Measure(), l.At)
	if l.Wants < 0 {
		t.Fatalf("%s: longer than the measure by %d", at, -l.Wants)
	}
	if got := b.width(letters, spaces); got != b.Measure()-int(l.Wants) {
		t.Fatalf("%s: its sorts come to %d, the line to %d", at, got, b.Measure()-int(l.Wants))
	}
	if got, want := sorted(s.Pieces), sorted(slices.Concat(letters, spaces)); !slices.Equal(got, want) {
		t.Fatalf("%s: arranged %v, counted %v", at, got, want)
	}
	if got := slices.DeleteFunc(slices.Clone(s.Pieces), func(id sorts.ID) bool {
		return id != b.Cases().Missing() && b.Cases().Sort(id).Space
	}); !slices.Equal(got, letters) {
		t.Fatalf("%s: its letters stand as %v, and were cut as %v", at, got, letters)
	}
	if len(s.Gaps) > 0 {
		if b.spaces == "full" && l.Wants > em/20 {
			t.Fatalf("%s: wants %d, more than a twentieth of an em", at, l.Wants)
		}
		if low, high := slices.Min(s.Gaps), slices.Max(s.Gaps); low < b.Least() || high-low > em/6 {
			t.Fatalf("%s: gaps from %d to %d; none may be under %d, and they may differ by %d", at, low, high, b.Least(), em/6)
		}
	}
}

func sorted(ids []sorts.ID) []sorts.ID { return slices.Sorted(slices.Values(ids)) }

// everyOther divides words of plain letters before every other one, two before and three after it at least.
type everyOther struct{}

func (everyOther) Places(word []byte, dst []int) []int {
	n := 0
	for n < len(word) && isLetter(word[n]) {
		n++
	}
	for at := 2; at+3 <= n; at += 2 {
		dst = append(dst, at)
	}
	return dst
}

// drawCopy draws a paragraph in which everything comes up that bears on where a line ends.
func drawCopy(t *rapid.T) read.Paragraph {
	letters := func(low, high int, between string) string {
		list := rapid.SliceOfN(rapid.SampledFrom([]string{"a", "e", "i", "l", "m", "n", "f", "fi", "ffi", "t", "W", "I"}), low, high).Draw(t, "letters")
		return strings.Join(list, between)
	}
	word := rapid.Custom(func(t *rapid.T) string {
		switch rapid.IntRange(0, 11).Draw(t, "sort of word") {
		case 0:
			return letters(12, 40, "") // now and then too long for the measure
		case 1:
			return letters(3, 12, "\u00ad")
		case 2:
			return letters(1, 4, "") + "\u00ad" + letters(1, 6, "") + "\u00ad" + letters(1, 4, "") + ","
		case 3:
			return letters(1, 5, "") + rapid.SampledFrom([]string{"-", "—", "--", "–"}).Draw(t, "dash") + letters(1, 8, "")
		case 4:
			return "\"" + letters(1, 5, "") + "þ" + letters(0, 3, "") + "\""
		default:
			return letters(1, 9, "") + rapid.SampledFrom([]string{"", "", "", ",", ".", "æ", "é"}).Draw(t, "end")
		}
	})
	var b strings.Builder
	for i, w := range rapid.SliceOfN(word, 1, 40).Draw(t, "words") {
		if i > 0 {
			b.WriteString(rapid.SampledFrom([]string{" ", " ", " ", " ", " ", "\n", "  ", "\u00a0"}).Draw(t, "space"))
		}
		b.WriteString(w)
	}
	return read.Paragraph{Text: []byte(b.String()), Kind: rapid.SampledFrom([]read.Kind{read.Prose, read.Verse}).Draw(t, "kind")}
}

// Prose to 8 to 40 ems and narrower, with dashes, no-break spaces, soft hyphens and words too long: the line ends are those of the twin.
func TestLineEndsAgainstTwin(t *testing.T) {
	for _, name := range []string{"full", "no hair", "poor"} {
		for _, divided := range []bool{false, true} {
			t.Run(fmt.Sprintf("%s, divided %t", name, divided), func(t *testing.T) {
				rapid.Check(t, func(rt *rapid.T) {
					measure := rapid.OneOf(rapid.IntRange(em, 8*em), rapid.IntRange(8*em, 40*em)).Draw(rt, "measure")
					var b *bench
					if divided {
						b = newBench(t, name, measure, stick.Dividing(everyOther{}))
						b.divide = func(word []byte) []int { return everyOther{}.Places(word, nil) }
					} else {
						b = newBench(t, name, measure)
					}
					b.agree(rt, drawCopy(rt))
				})
			})
		}
	}
}

// The line ends of an open text (Jane Austen, Emma, 1815), as it is and with soft hyphens in its longer words.
func TestLineEndsOfEmma(t *testing.T) {
	copy := trial.Copy(t, trial.Text(t, "en-prose-austen-emma"), false)
	for _, ems := range []int{8, 13, 22, 40} {
		b := newBench(t, "full", ems*em)
		for i := range 200 {
			p := copy.Paragraphs[i*len(copy.Paragraphs)/200]
			if i%2 == 1 {
				p.Text = softened(p.Text)
			}
			if i%10 == 0 {
				p.Kind = read.Verse
			}
			b.agree(t, p)
		}
	}
}

// softened puts a soft hyphen after every third letter of a word but the last three.
func softened(text []byte) []byte {
	var out []byte
	n := 0
	for i, c := range text {
		if isLetter(c) {
			n++
		} else {
			n = 0
		}
		out = append(out, c)
		if n > 0 && n%3 == 0 && i+3 < len(text) && isLetter(text[i+1]) && isLetter(text[i+2]) && isLetter(text[i+3]) {
			out = append(out, "\u00ad"...)
		}
	}
	return out
}

// Setting can begin again at any line, and a paragraph may be set a few lines at a time: the rest comes out the same.
func TestSettingBeginsAgain(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		options := []stick.Option{stick.Dividing(everyOther{})}
		if rapid.Bool().Draw(rt, "old spacing") {
			options = append(options, stick.OldSpacing())
		}
		b := newBench(t, "full", rapid.IntRange(6*em, 20*em).Draw(rt, "measure"), options...)
		p := drawCopy(rt)
		whole := b.NewHand()
		whole.Arrange = true
		if _, done, err := whole.Paragraph(p, stick.Place{Paragraph: 7}, 0); !done || err != nil {
			rt.Skip("too narrow for words held together by no-break spaces")
		}
		again := b.NewHand()
		again.Arrange = true
		for first := range whole.Lines {
			again.Clear()
			at, done, err := whole.Lines[first].Place, false, error(nil)
			for !done {
				some := rapid.IntRange(0, 3).Draw(rt, "lines at a time")
				if at, done, err = again.Paragraph(p, at, some); err != nil {
					rt.Fatalf("%q to %d, again from %+v: %v", p.Text, b.Measure(), at, err)
				}
			}
			same(rt, whole, again, first)
		}
	})
}

// same holds the lines of a hand from one on against those of another.
func same(t failing, whole, again *stick.Hand, first int) {
	t.Helper()
	if got, want := len(again.Lines), len(whole.Lines)-first; got != want {
		t.Fatalf("from line %d on: %d lines, want %d", first+1, got, want)
	}
	var before stick.Line // what was set before the first
	if first > 0 {
		before = whole.Lines[first-1]
	}
	for i, got := range again.Lines {
		want := whole.Lines[first+i]
		want.IDs -= before.IDs
		want.Spaces -= before.Spaces
		want.Notes -= before.Notes
		if got != want {
			t.Fatalf("from line %d on, line %d: %+v, want %+v", first+1, first+i+1, got, want)
		}
		if got, want := again.Settings[i], whole.Settings[first+i]; !slices.Equal(got.Pieces, want.Pieces) || !slices.Equal(got.Gaps, want.Gaps) {
			t.Fatalf("from line %d on, line %d: stands as %v, want %v", first+1, first+i+1, got, want)
		}
	}
	if !slices.Equal(again.Galley.IDs, whole.Galley.IDs[before.IDs:]) || !slices.Equal(again.Spaces, whole.Spaces[before.Spaces:]) {
		t.Fatalf("from line %d on: other sorts", first+1)
	}
}

// each lists spaces one by one.
func each(spaces []stick.Spaces) []sorts.ID {
	var ids []sorts.ID
	for _, like := range spaces {
		ids = append(ids, slices.Repeat([]sorts.ID{like.ID}, int(like.N))...)
	}
	return ids
}
