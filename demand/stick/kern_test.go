package stick

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"formewise/texts/read"
	"formewise/texts/sorts"
)

func TestPartingOf(t *testing.T) {
	for _, c := range []struct {
		spaces string // name and width in thousandths of an em
		want   string // "" for none
	}{
		{"thick 333,middle 250,thin 200,hair 83", "thin"},
		{"thick 333,5-to-em 200,hair 83", "5-to-em"},
		{"thick 333,thin 270", "thin"}, // odd, but the shop calls it so
		{"thick 333,6-to-em 167,hair 83", "hair"},
		{"thick 333,hair 200", "hair"},
		{"thick 333,hair 201", ""},
		{"em quad 1000,en quad 500,thick 333,middle 250", ""},
		{"thick 333,brass 50", ""}, // not used in composing
		{"thick 333,thin 0", ""},
	} {
		f := sorts.Font{Name: "Spacing 12", Body: 12_000}
		for _, row := range strings.Split(c.spaces, ",") {
			at := strings.LastIndex(row, " ")
			width := 0
			for _, r := range row[at+1:] {
				width = 10*width + int(r-'0')
			}
			f.Sorts = append(f.Sorts, sorts.Sort{Name: row[:at], Space: true, Width: 12 * width})
		}
		cases, err := sorts.Lay(sorts.Font{Name: "a", Body: 12_000, Sorts: []sorts.Sort{{Name: "a", Text: "a", Width: 1}}}, f)
		if err != nil {
			t.Fatal(err)
		}
		id, ok := partingOf(cases, 1, 12_000)
		if ok != (c.want != "") || ok && cases.Sort(id).Name != c.want {
			t.Errorf("of %s: %v, %v; want %q", c.spaces, id, ok, c.want)
		}
	}
}

// kernedCases are a small font whose f and ff are kerned, and its spaces, with a thin one or without.
func kernedCases(t rapid.TB, thin bool) *sorts.Cases {
	t.Helper()
	letters := sorts.Font{Name: "Ferry Roman 12", Body: 12_000}
	for i, text := range strings.Fields("a b e f h i k l o s ff fi - ’ ) ? ! .") {
		letters.Sorts = append(letters.Sorts, sorts.Sort{Name: text, Text: text, Width: 3000 + 211*i%2500, Kerned: text == "f" || text == "ff"})
	}
	spaces := sorts.Font{Name: "Spacing 12", Body: 12_000}
	for _, s := range []sorts.Sort{{Name: "2-em quad", Width: 24_000}, {Name: "em quad", Width: 12_000}, {Name: "en quad", Width: 6000}, {Name: "thick", Width: 4000}, {Name: "middle", Width: 3000}, {Name: "thin", Width: 2400}} {
		if s.Space = true; thin || s.Name != "thin" {
			spaces.Sorts = append(spaces.Sorts, s)
		}
	}
	cases, err := sorts.Lay(letters, spaces)
	if err != nil {
		t.Fatal(err)
	}
	return cases
}

// everyLetter divides wherever there are two letters before and three after, soft hyphens and points included.
type everyLetter struct{}

func (everyLetter) Places(word []byte, dst []int) []int {
	for at := 2; at+3 <= len(word); at++ {
		if word[at]&0xC0 != 0x80 {
			dst = append(dst, at)
		}
	}
	return dst
}

// Whatever the measure, and wherever lines end: no kerned sort stands beside what it strikes, each that would have is noted once,
// lines are as wide as their pieces, and the spaces that ease are neither word spaces nor at a line's end.
func TestLinesOfKernedSorts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		thin := rapid.IntRange(0, 3).Draw(t, "thin") > 0
		cases := kernedCases(t, thin)
		var options []Option
		if rapid.Bool().Draw(t, "divide") {
			options = append(options, Dividing(everyLetter{}))
		}
		s, err := New(cases, 0, 1, rapid.IntRange(4, 40).Draw(t, "ems")*12_000, options...)
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Join(rapid.SliceOfN(rapid.SampledFrom(strings.Split("f|f|f|i|i|b|l|k|h|a|s|ff|fi|off|shelf|’|)|?|!|-|\u00ad| | |. |\u00a0|þ", "|")), 1, 120).Draw(t, "text"), "")
		h := s.NewHand()
		h.Arrange = true
		if _, _, err := h.Paragraph(read.Paragraph{Kind: read.Prose, Text: []byte(text)}, Place{}, 0); err != nil {
			t.Fatal(err)
		}
		width := func(id sorts.ID) int {
			if id == cases.Missing() {
				return 6000
			}
			return cases.Sort(id).Width
		}
		ids, spaces, notes := 0, 0, 0
		for i, l := range h.Lines {
			pieces, set := h.Settings[i].Pieces, 0
			for n, id := range pieces {
				set += width(id)
				if n == 0 || id == cases.Missing() || pieces[n-1] == cases.Missing() {
					continue
				}
				if thin && cases.Sort(pieces[n-1]).Kerned && strings.Contains("ibhklfi’)?!", cases.Sort(id).Text) && !strings.HasPrefix(cases.Sort(id).Text, "f") && !cases.Sort(id).Space {
					t.Fatalf("%q, line %d: %s stands beside %s", text, i+1, cases.Sort(pieces[n-1]).Name, cases.Sort(id).Name)
				}
			}
			if set != s.Measure()-int(l.Wants) {
				t.Fatalf("%q, line %d: its pieces come to %d, it is %d less %d", text, i+1, set, s.Measure(), l.Wants)
			}
			all := slices.Clone(h.Galley.IDs[ids:l.IDs])
			for _, like := range h.Spaces[spaces:l.Spaces] {
				all = append(all, slices.Repeat([]sorts.ID{like.ID}, int(like.N))...)
			}
			slices.Sort(all)
			if !slices.Equal(all, slices.Sorted(slices.Values(pieces))) {
				t.Fatalf("%q, line %d: set down are %v, arranged %v", text, i+1, all, pieces)
			}
			eases := 0
			for n := ids; n < l.IDs; n++ {
				if id := h.Galley.IDs[n]; id != cases.Missing() && cases.Sort(id).Space {
					eases++
					if n == ids || n == l.IDs-1 {
						t.Fatalf("%q, line %d begins or ends with the space that eases", text, i+1)
					}
				}
			}
			for _, note := range h.Galley.Notes[notes:l.Notes] {
				switch {
				case note.Rule == sorts.Eased:
					eases--
				case note.Rule == sorts.Strikes && thin:
					t.Fatalf("%q, line %d: there is a thin space, and %+v", text, i+1, note)
				}
			}
			if eases != 0 {
				t.Fatalf("%q, line %d: %d more spaces ease than are noted", text, i+1, eases)
			}
			ids, spaces, notes = l.IDs, l.Spaces, l.Notes
		}
		// Begun again at any line, the rest is the same.
		for i := range h.Lines {
			again := s.NewHand()
			if _, _, err := again.Paragraph(read.Paragraph{Kind: read.Prose, Text: []byte(text)}, h.Lines[i].Place, 0); err != nil {
				t.Fatal(err)
			}
			from := 0
			if i > 0 {
				from = h.Lines[i-1].IDs
			}
			if len(again.Lines) != len(h.Lines)-i || !slices.Equal(again.Galley.IDs, h.Galley.IDs[from:]) {
				t.Fatalf("%q, begun again at line %d: %v, want %v", text, i+1, again.Galley.IDs, h.Galley.IDs[from:])
			}
		}
	})
}

// In a measure in which a kerned sort and what it strikes do not go together, it is said what they need.
func TestKernedTooNarrow(t *testing.T) {
	cases := kernedCases(t, true)
	f, thin, b := cases.Sort(3).Width, 2400, cases.Sort(1).Width
	hyphen := cases.Sort(12).Width
	needs := f + thin + b + hyphen
	for measure, wants := range map[int]bool{needs: false, needs - 1: true, f + hyphen: true} {
		s, err := New(cases, 0, 1, measure)
		if err != nil {
			t.Fatal(err)
		}
		_, _, err = s.NewHand().Paragraph(read.Paragraph{Kind: read.Verse, Text: []byte("fbaaaa")}, Place{}, 1)
		narrow, is := err.(*TooNarrow)
		if is != wants || is && (narrow.Needs != needs || cases.Sort(narrow.Sort).Name != "f") {
			t.Errorf("a measure of %d: %v, want an error %v, with f and %d", measure, err, wants, needs)
		}
	}
}
