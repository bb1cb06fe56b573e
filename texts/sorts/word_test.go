package sorts_test

import (
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pgregory.net/rapid"

	"formewise/texts/sorts"
)

func TestWordStopsAtLimit(t *testing.T) {
	h := handOf(t, fontOf("a é fi -")) // 2000, 2017, 2034, 2051 wide
	long := strings.Repeat("a", 1<<20)
	for _, c := range []struct {
		name, text string
		limit      int
		want       sorts.Word
	}{
		{"goes in", "éé", 4_034, sorts.Word{Width: 4_034, End: 4, Next: 4, Join: sorts.End}},
		{"goes in, with a gap", "éé  a", 4_034, sorts.Word{Width: 4_034, End: 4, Next: 6, Join: sorts.Gap}},
		{"is wider, and ends all the same", "éé", 4_033, sorts.Word{Width: 4_034, End: 4, Next: 4, Join: sorts.End}},
		{"is wider, and a space follows", "éé a", 4_033, sorts.Word{Width: 4_034, End: 4, Next: 5, Join: sorts.Gap}},
		{"is wider, and a dash ends it", "éé-a", 5_000, sorts.Word{Width: 6_085, End: 5, Next: 5, Join: sorts.Dash}},
		{"goes on", "ééé", 4_033, sorts.Word{Width: 4_034, End: 4, Next: 4, Join: sorts.More}},
		{"goes on, from nothing", "ééé", 0, sorts.Word{Width: 2_017, End: 2, Next: 2, Join: sorts.More}},
		{"ligatures are not parted", "aafifi", 5_000, sorts.Word{Width: 6_034, End: 4, Next: 4, Join: sorts.More}},
		{"plain letters go by 64", long, 0, sorts.Word{Width: 128_000, End: 64, Next: 64, Join: sorts.More}},
		{"and again", long, 128_000, sorts.Word{Width: 256_000, End: 128, Next: 128, Join: sorts.More}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var g sorts.Galley
			if got := h.cutter.Word(&g, []byte(c.text), 0, len(c.text), c.limit); got != c.want {
				t.Errorf("got %+v, want %+v", got, c.want)
			}
		})
	}
}

// However small the limit, the same sorts and notes come of the text; what was cut off goes on inside the word, was wider
// than asked for, and not by much.
func compareLimited(t rapid.TB, h hand, text string, limit int) {
	whole, parts := h.cut(t, text, noLimit), h.cut(t, text, limit)
	if !slices.Equal(whole.IDs, parts.IDs) || !slices.Equal(whole.Notes, parts.Notes) {
		t.Fatalf("%q, cut at %d: %v %v; want %v %v", text, limit, parts.IDs, parts.Notes, whole.IDs, whole.Notes)
	}
	var joined []sorts.Word // the parts of a word put together again
	width, from := 0, 0
	for i, w := range parts.words {
		if w.Join == sorts.More {
			r, _ := utf8.DecodeRuneInString(text[w.Next:])
			last := parts.IDs[from:parts.ids[i]]
			if w.Width <= limit || w.Next != w.End || w.Next >= len(text) || unicode.IsSpace(r) || w.Width-limit > 64*h.widest(last) {
				t.Fatalf("%q, cut at %d: %+v", text, limit, w)
			}
			width += w.Width
		} else {
			w.Width += width
			joined = append(joined, w)
			width = 0
		}
		from = parts.ids[i]
	}
	if !slices.Equal(joined, whole.words) {
		t.Fatalf("%q, cut at %d: %+v, want %+v", text, limit, joined, whole.words)
	}
}

func (h hand) widest(ids []sorts.ID) int {
	w := 0
	for _, id := range ids {
		w = max(w, h.width(id))
	}
	return w
}

func TestLimitChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := handOf2(t, someFont.Draw(t, "font"))
		compareLimited(t, h, someText.Draw(t, "text"), rapid.IntRange(0, 40_000).Draw(t, "limit"))
	})
}

func TestPlaces(t *testing.T) {
	h := handOf(t, fontOf(alphabet+" fi ffi ’ — -"))
	for _, c := range []struct {
		name, text string
		from, to   int
		want       []int
	}{
		{"letters", "abc", 0, 3, []int{1, 2, 3}},
		{"ligatures are not parted", "office", 0, 6, []int{1, 4, 5, 6}},
		{"up to a space", "ab cd", 0, 5, []int{1, 2}},
		{"from inside", "abcd ef", 2, 7, []int{3, 4}},
		{"bytes are not parted", "aéb", 0, 4, []int{1, 3, 4}},
		{"soft hyphens are none", "a\u00adb\u00ad c", 0, 7, []int{1, 4}},
		{"turned signs", "a--b's", 0, 6, []int{1, 3, 4, 5, 6}},
		{"over a dash", "a-b", 0, 3, []int{1, 2, 3}},
		{"to an end in between", "office", 0, 3, []int{1, 2, 3}},
		{"nothing", "", 0, 0, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			var g sorts.Galley
			var got []int
			h.cutter.Places(&g, []byte(c.text), c.from, c.to, noLimit, func(at, width int) { got = append(got, at) })
			if !slices.Equal(got, c.want) {
				t.Errorf("%q: %v, want %v", c.text, got, c.want)
			}
		})
	}
}

func TestPlacesUpToLimit(t *testing.T) {
	h := handOf(t, fontOf("a é fi -")) // 2000, 2017, 2034, 2051 wide
	for _, c := range []struct {
		limit int
		want  []int // widths
	}{
		{0, nil}, {1_999, nil}, {2_000, []int{2_000}}, {4_033, []int{2_000}}, {4_034, []int{2_000, 4_034}},
		{6_050, []int{2_000, 4_034}}, {noLimit, []int{2_000, 4_034, 6_051}},
	} {
		var g sorts.Galley
		var got []int
		h.cutter.Places(&g, []byte("afié"), 0, len("afié"), c.limit, func(at, width int) { got = append(got, width) })
		if !slices.Equal(got, c.want) {
			t.Errorf("up to %d: %v, want %v", c.limit, got, c.want)
		}
	}
}

// A place is where the text may be cut in two and the sorts stay the same; its width is that of the first part; none is
// above the limit, and the galley is left as it was.
func TestPlacesPartWords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := handOf2(t, someFont.Draw(t, "font"))
		text, limit := someText.Draw(t, "text"), rapid.IntRange(0, 40_000).Draw(t, "limit")
		whole := h.cut(t, text, noLimit)
		for i, w := range whole.words {
			g := sorts.Galley{IDs: []sorts.ID{1, 2}, Notes: []sorts.Note{{At: 1}}, Soft: []int{3}}
			begin, ids := whole.at[i], 0
			if i > 0 {
				ids = whole.ids[i-1]
			}
			last := -1
			h.cutter.Places(&g, []byte(text), begin, w.End, limit, func(at, width int) {
				if at <= last || width > limit {
					t.Fatalf("%q: place %d, %d wide, after %d", text, at, width, last)
				}
				last = at
				var one, two cutting
				first := h.cutter.Word(&one.Galley, []byte(text), begin, at, noLimit)
				h.cutter.Word(&two.Galley, []byte(text), at, w.End, noLimit)
				if first.Width != width {
					t.Fatalf("%q: %d wide up to %d, and %d cut by itself", text, width, at, first.Width)
				}
				if both := append(one.IDs, two.IDs...); !slices.Equal(both, whole.IDs[ids:whole.ids[i]]) {
					t.Fatalf("%q parted at %d: %v, whole %v", text, at, both, whole.IDs[ids:whole.ids[i]])
				}
			})
			if w.Width <= limit && w.Width > 0 && strings.Trim(text[max(last, 0):w.End], "\u00ad") != "" {
				t.Fatalf("%q: the last place of the word up to %d is %d", text, w.End, last)
			}
			if len(g.IDs) != 2 || len(g.Notes) != 1 || len(g.Soft) != 1 {
				t.Fatalf("%q: the galley holds %v", text, g)
			}
		}
	})
}

// Texts of one sign, a megabyte of them. What looks at all of the text for each sign does not come to an end here.
func TestMegabyteWords(t *testing.T) {
	h := handOf(t, fontOf(pointed+" fi ffi f’ ⸺"))
	for _, unit := range []string{"a", "f", "\"", "'", "-", "—", ".", "...", "\u00ad", "f\u00ad", "a-", "a—'", " ", "\u00a0", "þ"} {
		text := "a" + strings.Repeat(unit, (1<<20)/len(unit)) + "b"
		c := h.cut(t, text, 264_000)
		if len(c.IDs) == 0 || c.words[len(c.words)-1].Next != len(text) {
			t.Errorf("%q: the last word is %+v", unit, c.words[len(c.words)-1])
		}
		for i, w := range c.words {
			from := 0
			if i > 0 {
				from = c.ids[i-1]
			}
			if w.Width > 264_000+64*body {
				t.Errorf("%q: a word of %d sorts was cut off late", unit, c.ids[i]-from)
			}
		}
	}
}

func TestSkip(t *testing.T) {
	h := handOf(t, fontOf("a"))
	for _, c := range []struct {
		text       string
		from, want int
	}{
		{"a", 0, 0}, {" a", 0, 1}, {" \t\r\n\va", 0, 5}, {"\u00a0\u2003a", 0, 5}, {"a  b", 1, 3}, {"  ", 0, 2}, {"", 0, 0}, {"a", 1, 1}, {"\u00ada", 0, 0},
	} {
		if got := h.cutter.Skip([]byte(c.text), c.from); got != c.want {
			t.Errorf("%q from %d: %d, want %d", c.text, c.from, got, c.want)
		}
	}
}

// What is lifted off is gone, and what was there before stays.
func TestGalley(t *testing.T) {
	h := handOf(t, fontOf("a b"))
	var g sorts.Galley
	text := []byte("a\u00adbþ")
	h.cutter.Word(&g, text, 0, len(text), noLimit)
	mark := g.Mark()
	if mark.IDs() != 3 || mark.Soft() != 1 {
		t.Errorf("%d sorts, %d soft hyphens; want 3, 1", mark.IDs(), mark.Soft())
	}
	h.cutter.Word(&g, text, 0, len(text), noLimit)
	if len(g.IDs) != 6 || len(g.Notes) != 2 || len(g.Soft) != 2 || g.Notes[1].At != 5 {
		t.Errorf("set twice: %+v", g)
	}
	g.Lift(mark)
	if len(g.IDs) != 3 || len(g.Notes) != 1 || len(g.Soft) != 1 || g.Notes[0].At != 2 {
		t.Errorf("lifted: %+v", g)
	}
	if g.Clear(); len(g.IDs) != 0 || len(g.Notes) != 0 || len(g.Soft) != 0 {
		t.Errorf("cleared: %+v", g)
	}
}
