package sorts_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"formewise/texts/sorts"
)

// kernedFont makes a font of the texts of its sorts, some of them kerned.
func kernedFont(texts, kerned string) sorts.Font {
	f := fontOf(texts)
	for i, s := range f.Sorts {
		f.Sorts[i].Kerned = slices.Contains(strings.Fields(kerned), s.Text)
	}
	return f
}

// thinFont has the one space that eases here.
var thinFont = sorts.Font{Name: "Spacing 12", Body: body, Sorts: []sorts.Sort{{Name: "thick", Space: true, Width: 4000}, {Name: "thin", Space: true, Width: 2400}}}

// easingHand cuts with a font, and eases by the thin space of thinFont if it is to.
func easingHand(t rapid.TB, f sorts.Font, eases bool) hand {
	t.Helper()
	cases, err := sorts.Lay(f, thinFont)
	if err != nil {
		t.Fatal(err)
	}
	var options []sorts.Option
	if eases {
		options = append(options, sorts.EasedBy(cases.ID(1, 1)))
	}
	cutter, err := sorts.NewCutter(cases, 0, options...)
	if err != nil {
		t.Fatal(err)
	}
	return hand{cases, cutter}
}

const ligatures = " ff fi fl ffi ffl "

// What a good compositor does with an f: common practice, no source.
func TestKernedSorts(t *testing.T) {
	full := alphabet + ligatures + "é ï ‘ ’ ( ) [ ] ? ! , . - —"
	for _, c := range []struct {
		texts, text, want string
	}{
		{full, "if of", "i f _ o f"},
		{full, "if?", "i f thin ?"},
		{full, "off! deaf. chef,", "o ff thin ! _ d e a f . _ c h e f ,"},
		{full, "(of) [of]", "( o f thin ) _ [ o f thin ]"},
		{full, "office, fig, flag, baffle", "o ffi c e , _ fi g , _ fl a g , _ b a ffl e"},
		{full, "shelfbook halfhour offkey", "s h e l f thin b o o k _ h a l f thin h o u r _ o ff thin k e y"},
		{full, "fête naïf fïx", "f ?U+00EA t e _ n a ï f _ f thin ï x"},
		{full, "cliff’s chief's", "c l i ff thin ’ s _ c h i e f thin ’ s"},
		{full + " f’ ff’", "cliff’s chief's", "c l i ff’ s _ c h i e f’ s"},
		{full, `"off" he said, 'if'`, "‘ ‘ o ff thin ’ ’ _ h e _ s a i d , _ ‘ i f thin ’"},
		{full, "if if\u00a0if", "i f _ i f ~ i f"}, // a space is enough
		{full, "half-built off—key", "h a l f - / b u i l t _ o ff — / k e y"},
		{full, "half\u00adbaked of\u00adten", "h a l f thin b a k e d _ o f t e n"},
		{full, "of\u00ad", "o f"},
		{full, "if\u00fe", "i f ?U+00FE"},
		{alphabet, "office flag", "o f f thin i c e _ f thin l a g"},
		{alphabet + " ff fi", "office", "o ff thin i c e"}, // the longest match comes first
		{alphabet, "\ufb01g \ufb03", "f thin i g _ f f thin i"},
		{alphabet + ` " '`, `"of" 'if'`, `" o f thin " _ ' i f thin '`},
	} {
		h := easingHand(t, kernedFont(c.texts, "f ff"), true)
		if got := h.said(t, c.text); got != c.want {
			t.Errorf("%q is cut into\n%s, want\n%s", c.text, got, c.want)
		}
	}
}

// Any sort may be marked; only what is marked is eased.
func TestOnlyKernedSortsAreEased(t *testing.T) {
	for kerned, want := range map[string]string{
		"":     "f i _ j i _ f ? _ r !",
		"f":    "f thin i _ j i _ f thin ? _ r !",
		"r":    "f i _ j i _ f ? _ r thin !",
		"f j":  "f thin i _ j thin i _ f thin ? _ r !",
		"i ?":  "f i _ j i _ f ? _ r !",
		"none": "f i _ j i _ f ? _ r !",
	} {
		if got := easingHand(t, kernedFont(alphabet+" ? !", kerned), true).said(t, "fi ji f? r!"); got != want {
			t.Errorf("with %q kerned: %s, want %s", kerned, got, want)
		}
	}
	f := kernedFont("f i", "f")
	f.Sorts = append(f.Sorts, sorts.Sort{Name: "sc F", Text: "F", SmallCapital: true, Kerned: true, Width: 1})
	if got := easingHand(t, f, true).said(t, "fiFi"); got != "f thin i ?U+0046 i" {
		t.Errorf("with a kerned small capital: %s", got)
	}
}

func TestKernedSortsAreNoted(t *testing.T) {
	f := kernedFont(alphabet+" ? ’", "f")
	text := "\ufb01 if? ê f”"
	h := easingHand(t, f, true)
	thin := h.cases.ID(1, 1)
	id := func(text string) sorts.ID {
		return h.cases.ID(0, slices.IndexFunc(f.Sorts, func(s sorts.Sort) bool { return s.Text == text }))
	}
	rules := map[rune]int{}
	for _, n := range h.cut(t, "\ufb01”", noLimit).Notes {
		if n.Rule >= 0 {
			rules[n.Character] = n.Rule
		}
	}
	got := h.cut(t, text, noLimit)
	want := []sorts.Note{
		{At: 0, Character: 'ﬁ', Rule: rules['ﬁ']}, {At: 1, Sort: id("f"), By: thin, Rule: sorts.Eased},
		{At: 5, Sort: id("f"), By: thin, Rule: sorts.Eased},
		{At: 7, Character: 'ê', Rule: sorts.NoSort},
		{At: 9, Sort: id("f"), By: thin, Rule: sorts.Eased}, {At: 10, Character: '”', Rule: rules['”']},
	}
	if diff := cmp.Diff(want, got.Notes); diff != "" {
		t.Errorf("notes (-want +got):\n%s", diff)
	}
	// Without a space to ease them by, kerned sorts stay where they are.
	h = easingHand(t, f, false)
	if said := h.said(t, text); said != "f i _ i f ? _ ?U+00EA _ f ’ ’" {
		t.Errorf("with no thin space: %s", said)
	}
	want = []sorts.Note{
		{At: 0, Character: 'ﬁ', Rule: rules['ﬁ']}, {At: 1, Sort: id("f"), Rule: sorts.Strikes},
		{At: 4, Sort: id("f"), Rule: sorts.Strikes},
		{At: 5, Character: 'ê', Rule: sorts.NoSort},
		{At: 7, Sort: id("f"), Rule: sorts.Strikes}, {At: 7, Character: '”', Rule: rules['”']},
	}
	if diff := cmp.Diff(want, h.cut(t, text, noLimit).Notes); diff != "" {
		t.Errorf("notes with no thin space (-want +got):\n%s", diff)
	}
}

// A part of a word that ends in a kerned sort has a hyphen after it, which is not struck.
func TestDividedAfterKernedSort(t *testing.T) {
	h := easingHand(t, kernedFont(alphabet+" fi -", "f"), true)
	text := []byte("selfish shelfbook")
	for _, c := range []struct {
		from, to int
		want     string
	}{{0, 4, "s e l f"}, {4, 7, "i s h"}, {0, 7, "s e l fi s h"}, {8, 13, "s h e l f"}, {8, 14, "s h e l f thin b"}} {
		var cut cutting
		w := h.cutter.Word(&cut.Galley, text, c.from, c.to, noLimit)
		if got := h.names(cut, 0, len(cut.IDs)); got != c.want || w.Next != c.to {
			t.Errorf("%q is cut into %s up to %d, want %s", text[c.from:c.to], got, w.Next, c.want)
		}
	}
}

// slowEase eases what was cut without a thought of kerned sorts: it looks at each two sorts that stand side by side in a word.
func slowEase(h hand, c cutting, eases bool) (ids []sorts.ID, notes []sorts.Note) {
	char := func(id sorts.ID) string {
		if id == h.cases.Missing() {
			return "\x00"
		}
		return h.cases.Sort(id).Text
	}
	begins := map[int]bool{0: true}
	for i, w := range c.words {
		if w.Join != sorts.More {
			begins[c.ids[i]] = true
		}
	}
	more := c.Notes
	for i, id := range c.IDs {
		before := sorts.Sort{}
		if i > 0 && !begins[i] && c.IDs[i-1] != h.cases.Missing() {
			before = h.cases.Sort(c.IDs[i-1])
		}
		if before.Kerned && slices.ContainsFunc([]string{"i", "í", "ï", "b", "h", "k", "l", "’", "”", "'", `"`, ")", "]", "?", "!"}, func(s string) bool { return strings.HasPrefix(char(id), s) }) {
			note := sorts.Note{At: len(ids), Sort: c.IDs[i-1], Rule: sorts.Strikes}
			if eases {
				note.Rule, note.By = sorts.Eased, h.cases.ID(1, 1)
				ids = append(ids, note.By)
			}
			notes = append(notes, note)
		}
		for len(more) > 0 && more[0].At == i {
			note := more[0]
			note.At = len(ids)
			notes, more = append(notes, note), more[1:]
		}
		ids = append(ids, id)
	}
	return ids, notes
}

// compareKerned cuts a text with a font, and with the same font as if nothing of it were kerned.
func compareKerned(t rapid.TB, f sorts.Font, eases bool, text string) (hand, cutting) {
	t.Helper()
	h := easingHand(t, f, eases)
	got := h.cut(t, text, noLimit)
	bare := f
	bare.Sorts = slices.Clone(f.Sorts)
	for i := range bare.Sorts {
		bare.Sorts[i].Kerned = false
	}
	plain := easingHand(t, bare, eases).cut(t, text, noLimit)
	ids, notes := slowEase(h, plain, eases)
	if !slices.Equal(got.IDs, ids) {
		t.Fatalf("%q is cut into\n%s, slowly\n%s", text, h.names(got, 0, len(got.IDs)), h.names(cutting{Galley: sorts.Galley{IDs: ids, Notes: notes}}, 0, len(ids)))
	}
	// What is noted at one place comes in one order or the other, where nothing parts a kerned sort from what is made up.
	if eases && !slices.Equal(got.Notes, notes) || len(got.Notes) != len(notes) {
		t.Fatalf("%q: notes %v, slowly %v", text, got.Notes, notes)
	}
	if !slices.Equal(got.Soft, plain.Soft) || !slices.Equal(got.at, plain.at) {
		t.Fatalf("%q: soft hyphens at %v, words at %v; without kerned sorts %v and %v", text, got.Soft, got.at, plain.Soft, plain.at)
	}
	for _, end := range []int{len(text) / 3, len(text) / 2, len(text) - 1} {
		for end > 0 && !utf8.RuneStart(text[end]) {
			end--
		}
		if ids := h.to(text, 0, end); len(ids) > 0 && ids[len(ids)-1] == h.cases.ID(1, 1) {
			t.Fatalf("%q: the part %q ends in the space that eases", text, text[:end])
		}
	}
	return h, got
}

// kernedTexts draws texts in which kerned sorts often meet what they strike.
func kernedTexts(t *rapid.T) string {
	return strings.Join(rapid.SliceOfN(rapid.SampledFrom(strings.Split("f|f|f|i|i|b|l|k|h|a|t|ï|'|\"|’|”|)|]|?|!|-|—|\u00ad| |\u00a0|ﬁ|ﬀ|þ|.", "|")), 1, 24).Draw(t, "text"), "")
}

func kernedFonts(t *rapid.T) sorts.Font {
	texts := "f i b l k h a t ï ’ ) ] ? ! - ."
	for _, text := range strings.Split("ff|fi|fl|ffi|f’|f?|”|'|\"|—|f)|í|fb", "|") {
		if rapid.Bool().Draw(t, text) {
			texts += " " + text
		}
	}
	return kernedFont(texts, rapid.SampledFrom([]string{"f", "f ff", "f ff a", "ff", "f’ f", "a t", "f fb"}).Draw(t, "kerned"))
}

func TestKernedAgainstSlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		compareKerned(t, kernedFonts(t), rapid.Bool().Draw(t, "eases"), kernedTexts(t))
	})
}

// Wherever a word is cut off because it is wide, it goes on from there with the same sorts.
func TestKernedWordsGoOn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := kernedTexts(t)
		h, whole := compareKerned(t, kernedFonts(t), true, text)
		parts := h.cut(t, text, rapid.IntRange(0, 30_000).Draw(t, "limit"))
		if !slices.Equal(whole.IDs, parts.IDs) || !slices.Equal(whole.Notes, parts.Notes) {
			t.Fatalf("%q is cut into %s, in parts into %s", text, h.names(whole, 0, len(whole.IDs)), h.names(parts, 0, len(parts.IDs)))
		}
	})
}

// Of the places between sorts, those after a kerned sort that meets what it strikes are no places to divide; up to each other one
// the word is as wide as its first part, cut by itself.
func TestKernedPlaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, text := kernedFonts(t), kernedTexts(t)
		eases := rapid.Bool().Draw(t, "eases")
		h, _ := compareKerned(t, f, eases, text)
		for i := range f.Sorts {
			f.Sorts[i].Kerned = false
		}
		all := map[int]bool{}
		begin := h.cutter.Skip([]byte(text), 0)
		bare := easingHand(t, f, eases)
		bare.cutter.Places(new(sorts.Galley), []byte(text), begin, len(text), noLimit, func(at, _ int) { all[at] = true })
		h.cutter.Places(new(sorts.Galley), []byte(text), begin, len(text), noLimit, func(at, width int) {
			if !all[at] {
				t.Fatalf("%q may be divided at %d, where no sort begins", text, at)
			}
			delete(all, at)
			cut := h.to(text, begin, at)
			if got := h.widths(cut); got != width {
				t.Fatalf("%q is %d wide up to %d, its sorts come to %d", text, width, at, got)
			}
		})
		for at := range all { // where the two meet, the kerned sort and what follows belong together
			before, after := h.to(text, begin, at), h.to(text, begin, len(text))
			n := len(before)
			if n >= len(after) || before[n-1] == h.cases.Missing() || !h.cases.Sort(before[n-1]).Kerned {
				t.Fatalf("%q may not be divided at %d, after %v of %v", text, at, before, after)
			}
			if eases && after[n] != h.cases.ID(1, 1) {
				t.Fatalf("%q may not be divided at %d, and nothing eases %v", text, at, after)
			}
		}
	})
}

// to cuts part of a text word by word.
func (h hand) to(text string, begin, end int) []sorts.ID {
	var g sorts.Galley
	for begin = h.cutter.Skip([]byte(text), begin); begin < end; {
		begin = h.cutter.Word(&g, []byte(text), begin, end, noLimit).Next
	}
	return g.IDs
}

func (h hand) widths(ids []sorts.ID) (width int) {
	for _, id := range ids {
		width += h.width(id)
	}
	return width
}

// In a font with no kerned sort nothing is eased, whatever there is to ease by.
func TestNoKernedSorts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, text := kernedFonts(t), kernedTexts(t)
		for i := range f.Sorts {
			f.Sorts[i].Kerned = false
		}
		a, b := easingHand(t, f, true).cut(t, text, noLimit), easingHand(t, f, false).cut(t, text, noLimit)
		if fmt.Sprint(a) != fmt.Sprint(b) {
			t.Fatalf("%q: %v, and %v", text, a, b)
		}
	})
}

func FuzzKerned(f *testing.F) {
	for _, seed := range []string{"off! shelfbook \"if?\" half\u00adbaked", "ffi fi\u00ad\u00adf\u00adi 'tis f'", "f\u00a0i — f--i f...", "ﬁﬀ’”"} {
		f.Add(seed, uint16(0xffff))
		f.Add(seed, uint16(5))
	}
	f.Fuzz(func(t *testing.T, text string, kerned uint16) {
		if !utf8.ValidString(text) {
			t.Skip()
		}
		font := fontOf("f i b l k h a t ï ’ ) ] ? ! - . ff fi ffi f’ —")
		for i := range font.Sorts {
			font.Sorts[i].Kerned = kerned>>(i%16)&1 == 1
		}
		compareKerned(t, font, kerned&1 == 1, text)
	})
}
