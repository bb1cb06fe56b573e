package sorts_test

import (
	"testing"

	"formewise/texts/sorts"
)

func TestLongestMatch(t *testing.T) {
	const ligatures = alphabet + capitals + " ff fi fl ffi ffl ct st Qu . , - ’ ‘"
	for _, c := range []struct{ name, font, text, want string }{
		{"ffi", ligatures, "office", "o ffi c e"},
		{"ffl", ligatures, "baffle", "b a ffl e"},
		{"ff before another letter", ligatures, "offer", "o ff e r"},
		{"fi after f is no ligature", alphabet + " fi", "office", "o f fi c e"},
		{"ff and i", alphabet + " ff", "office", "o ff i c e"},
		{"ff and fi, no ffi", alphabet + " ff fi", "office", "o ff i c e"}, // the longest at its place, not the fewest sorts
		{"three f", ligatures, "ffff fffi", "ff ff _ ff fi"},
		{"at the word's end", ligatures, "off, elf fi ffi", "o ff , _ e l f _ fi _ ffi"},
		{"not over a space", ligatures, "of it", "o f _ i t"},
		{"not over a line end", ligatures, "of\nit", "o f _ i t"},
		{"capitals have none", ligatures, "OFFICE Office", "O F F I C E _ O ffi c e"},
		{"a font without ligatures", alphabet, "office", "o f f i c e"},
		{"ct and st", ligatures, "act fast", "a ct _ f a st"},
		{"Qu", ligatures, "Queen QUEEN Qatar quay", "Qu e e n _ Q U E E N _ Q a t a r _ q u a y"},
		{"a ligature alone, without its letters", "fi", "fi f i", "fi _ ?U+0066 _ ?U+0069"},
		{"a match that goes on and fails goes back", alphabet + " abcde ab", "abcdf abcde", "ab c d f _ abcde"},
		{"and back to the first letter", alphabet + " abcde", "abcdf", "a b c d f"},
		{"a logotype", alphabet + capitals + " The and", "The theory and The", "The _ t h e o r y _ and _ The"},
		{"characters of several bytes", "ſ ſi ſſ i s é e", "ſiſſé", "ſi ſſ é"},
		{"a letter with a mark that has no code point of its own", "e q q̃ t", "q̃t qt", "q̃ t _ q t"},
		{"a turned quote inside a sort", alphabet + " f’ ’", "if' 'tis", "i f’ _ ’ t i s"},
		{"and the quote as it is meant", alphabet + " f’ ’", "if’ it", "i f’ _ i t"},
		{"not the other quote", alphabet + " f’ ’ ‘", "f ‘ f‘", "f _ ‘ _ f ‘"},
		{"a turned dash inside a sort", alphabet + " —a —", "be--at b--e", "b e —a t _ b — / e"},
		{"three points as one sort", alphabet + " . …", "well... so. no.... no..", "w e l l … _ s o . _ n o … . _ n o . ."},
		{"three points as three", alphabet + " .", "well...", "w e l l . . ."},
		{"four hyphens, one sort", alphabet + " - — ⸺", "b----y", "b ⸺ / y"},
		{"four hyphens, two", alphabet + " - —", "b----y", "b — — / y"},
		{"a row of hyphens", alphabet + " - — ⸺", "b-----y b------y b-------y", "b ⸺ / y _ b ⸺ — / y _ b ⸺ — / y"},
		{"two dashes as written", alphabet + " — ⸺", "b——", "b ⸺"},
		{"a font's own two dashes come first", alphabet + " — ⸺ ——", "b---- b⸺", "b —— _ b ⸺"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := handOf(t, fontOf(c.font)).said(t, c.text); got != c.want {
				t.Errorf("%q:\ngot  %s\nwant %s", c.text, got, c.want)
			}
		})
	}
}

// Small capitals bear capitals as their text, and are set for small-capital text only; spaces print nothing, and what
// stands first in the font is set where two sorts print the same.
func TestSortsNotSet(t *testing.T) {
	f := sorts.Font{Name: "Ferry Roman 12", Body: body, Sorts: []sorts.Sort{
		{Name: "sc A", Text: "A", SmallCapital: true, Width: 5_000},
		{Name: "A", Text: "A", Width: 8_000},
		{Name: "sc B", Text: "B", SmallCapital: true, Width: 5_000},
		{Name: "swash A", Text: "A", Width: 9_000},
		{Name: "sc fi", Text: "fi", SmallCapital: true, Width: 6_000},
		{Name: "f", Text: "f", Width: 3_000},
		{Name: "i", Text: "i", Width: 2_000},
		{Name: "thick", Space: true, Width: 4_000},
		{Name: "odd space", Space: true, Text: "x", Width: 4_000},
		{Name: "ornament", Width: 12_000},
	}}
	h := handOf(t, f)
	if got, want := h.said(t, "AB fi x"), "A ?U+0042 _ f i _ ?U+0078"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

// A cutter knows the sorts of its own font among all the cases.
func TestCutterOfSecondFont(t *testing.T) {
	italic := fontOf("a b fi , -")
	italic.Name, italic.Body = "Ferry Italic 10", 10_000
	cases, err := sorts.Lay(fontOf(alphabet+" —"), italic)
	if err != nil {
		t.Fatal(err)
	}
	cutter, err := sorts.NewCutter(cases, 1)
	if err != nil {
		t.Fatal(err)
	}
	var g sorts.Galley
	w := cutter.Word(&g, []byte("afic—b"), 0, len("afic—b"), noLimit)
	want := []sorts.ID{cases.ID(1, 0), cases.ID(1, 2), cases.Missing(), cases.ID(1, 4), cases.ID(1, 4)}
	if len(g.IDs) != len(want) || w.Width != 2_000+2_034+5_000+2*2_068 || w.Join != sorts.Dash {
		t.Fatalf("%v, %+v; want %v", g.IDs, w, want)
	}
	for i, id := range want {
		if g.IDs[i] != id {
			t.Errorf("sort %d is %d, want %d", i, g.IDs[i], id)
		}
		if id != cases.Missing() && cases.Owner(id) != 1 {
			t.Errorf("sort %d is of font %d", i, cases.Owner(id))
		}
	}
	if ids, width := cutter.Hyphen(); len(ids) != 1 || ids[0] != cases.ID(1, 4) || width != 2_068 {
		t.Errorf("the hyphen is %v, %d wide", ids, width)
	}
}
