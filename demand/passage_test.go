package demand_test

import (
	"testing"

	"formewise/demand"
	"formewise/demand/internal/trial"

	"github.com/google/go-cmp/cmp"
)

// As many whole words as 24 characters take, and of a longer one so much of it; a soft hyphen is not seen, and the copy's own lines
// do not matter. A page begins where the one before ended, in the middle of a paragraph or not.
func TestFirstAndLastWords(t *testing.T) {
	long := "abcdefghabcdefghabcdefghabcdefgh" // 32 letters
	plan := emsPlan(1000)
	plan.Measure = 600_000
	for _, c := range []struct{ text, first, last string }{
		{"aa bb", "aa bb", "aa bb"},
		{"aa\nbb   cc\tdd", "aa bb cc dd", "aa bb cc dd"},
		{"aa\n\nbb", "aa bb", "aa bb"},
		{"abcd abcd abcd abcd abcd abcd", "abcd abcd abcd abcd abcd", "abcd abcd abcd abcd abcd"}, // 24
		{"abcd abcd abcd abcd abcde abc", "abcd abcd abcd abcd", "abcd abcd abcd abcde abc"},      // 19, not 25; 24
		{long + " aa", long[:24], "aa"},
		{"aa " + long, "aa", long[8:]},
		{"ab\u00adcd", "abcd", "abcd"},
	} {
		got := endPages(t, plan, emsStock(), trial.Copy(t, []byte(c.text), false)).Pages[0]
		if got.First != c.first || got.Last != c.last {
			t.Errorf("%q begins with %q and ends with %q, want %q and %q", c.text, got.First, got.Last, c.first, c.last)
		}
	}
}

// A page run together: lines of two words to a page of three; a blank line between verses, none at the foot.
func TestPassage(t *testing.T) {
	set := func(text string, verse bool, lines int) *demand.Setting {
		s, err := demand.Set(t.Context(), emsPlan(lines), emsStock(), trial.Copy(t, []byte(text), verse))
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	prose := set("aa \"bb\ncc dd\" e--f gg\n\nhh aa", false, 3) // aa “bb / cc dd” e— / f gg // hh aa
	for number, want := range []demand.Passage{
		{Page: 1, Text: []demand.Paragraph{{Text: "aa “bb cc dd” e—f gg", Begins: true}}},
		{Page: 2, Text: []demand.Paragraph{{Text: "hh aa", Begins: true}}},
	} {
		if d := cmp.Diff(want, prose.Passage(number+1)); d != "" {
			t.Errorf("prose, page %d: %s", number+1, d)
		}
	}
	verse := set("aa\n\n\nbb\n\ncc\n", true, 5) // aa _ _ bb _ // cc
	for number, want := range []demand.Passage{
		{Page: 1, Text: []demand.Paragraph{{Text: "aa", Begins: true}, {Blank: true}, {Text: "bb", Begins: true}}},
		{Page: 2, Text: []demand.Paragraph{{Text: "cc", Begins: true}}},
	} {
		if d := cmp.Diff(want, verse.Passage(number+1)); d != "" {
			t.Errorf("verse, page %d: %s", number+1, d)
		}
	}
}
