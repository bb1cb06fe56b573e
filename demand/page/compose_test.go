package page_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"runtime"
	"slices"
	"strings"
	"testing"
	"testing/synctest"
	"unicode"

	"pgregory.net/rapid"

	"formewise/demand/internal/trial"
	"formewise/demand/page"
	"formewise/demand/stick"
	"formewise/texts/read"
	"formewise/texts/sorts"
)

// A twinLine is a line of a page as the twin makes it up.
type twinLine struct {
	blank  bool
	at     stick.Place
	pieces []sorts.ID
}

// twin is the slow twin of Compose: one hand sets paragraph after paragraph, and all lines are kept. Pages are made of them as
// the package comment has it.
func twin(t failing, copy *read.Copy, s *stick.Stick, perPage int) [][]twinLine {
	t.Helper()
	var pages [][]twinLine
	open := false
	begin := func() { pages, open = append(pages, nil), true }
	put := func(l twinLine) { pages[len(pages)-1] = append(pages[len(pages)-1], l) }
	full := func() bool { return len(pages[len(pages)-1]) == perPage }
	for i, p := range copy.Paragraphs {
		at := stick.Place{Paragraph: i}
		switch p.Kind {
		case read.Blank:
			if open && !full() {
				put(twinLine{blank: true})
			}
			continue
		case read.Break:
			if !open {
				begin()
			}
			for !full() {
				put(twinLine{blank: true})
			}
			open = false
			continue
		}
		h := s.NewHand()
		h.Arrange = true
		if _, done, err := h.Paragraph(p, at, 0); !done || err != nil {
			t.Fatalf("paragraph %d: done %t, error %v", i, done, err)
		}
		for n, l := range h.Lines {
			if !open || full() {
				begin()
			}
			put(twinLine{at: l.Place, pieces: h.Settings[n].Pieces})
		}
	}
	return pages
}

// A failing is what rapid's and testing's tests have in common.
type failing interface {
	Helper()
	Fatalf(format string, args ...any)
}

// agree holds pages against the twin's: their lines, their rows of the tally, and how many lines of text there are.
func agree(t failing, pages *page.Pages, want [][]twinLine, perPage int) {
	t.Helper()
	missing := pages.Stick().Cases().Missing()
	if pages.Count() != len(want) || pages.Table.Pages() != len(want) {
		t.Fatalf("%d pages, %d in the tally; the twin has %d", pages.Count(), pages.Table.Pages(), len(want))
	}
	setter, text := pages.NewSetter(), 0
	for p := 1; p <= len(want); p++ {
		lines := setter.Page(p)
		if len(lines) != len(want[p-1]) || p < len(want) && len(lines) != perPage {
			t.Fatalf("page %d of %d has %d lines of %d; the twin's has %d", p, len(want), len(lines), perPage, len(want[p-1]))
		}
		counts := make([]int, pages.Table.Columns())
		for i, l := range lines {
			w := want[p-1][i]
			if l.Number != i+1 || l.Blank != w.blank || !w.blank && l.At != w.at || !slices.Equal(l.Pieces, w.pieces) || l.Part != page.Body {
				t.Fatalf("page %d, line %d: %+v; the twin has %+v", p, i+1, l, w)
			}
			for _, id := range l.Pieces {
				if id != missing {
					counts[id]++
				}
			}
			if !l.Blank {
				text++
			}
		}
		for c, n := range counts {
			if got := pages.Table.Page(p, c); got != n {
				t.Fatalf("page %d: %d pieces of column %d in the tally, %d set", p, got, c, n)
			}
		}
		if got := pages.TextLines(p); got != text {
			t.Fatalf("%d lines of text up to page %d, %d set", got, p, text)
		}
	}
	if pages.Lines != text || pages.TextLines(0) != 0 {
		t.Fatalf("%d lines of text, and %d on no page; %d set", pages.Lines, pages.TextLines(0), text)
	}
}

func newStick(t testing.TB, measure int) *stick.Stick {
	t.Helper()
	s, err := stick.New(trial.Roman12(t), 0, 1, measure)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func compose(t testing.TB, copy *read.Copy, s *stick.Stick, perPage int) *page.Pages {
	t.Helper()
	pages, err := page.Compose(t.Context(), copy, s, perPage)
	if err != nil {
		t.Fatal(err)
	}
	return pages
}

// Prose and verse, blank lines and form feeds in any order, characters that are made up and that are missing.
func TestPagesAgainstTwin(t *testing.T) {
	words := []string{"tide", "ferryman", "æther", "“No,”", "þing", "well—spoken", "soft\u00adly", "a", "I", "1832", strings.Repeat("long", 20)}
	rapid.Check(t, func(rt *rapid.T) {
		var copy read.Copy
		for range rapid.IntRange(0, 40).Draw(rt, "paragraphs") {
			p := read.Paragraph{Kind: rapid.SampledFrom([]read.Kind{read.Prose, read.Prose, read.Verse, read.Verse, read.Blank, read.Break}).Draw(rt, "kind")}
			if p.Kind == read.Prose || p.Kind == read.Verse {
				p.Text = []byte(strings.Join(rapid.SliceOfN(rapid.SampledFrom(words), 1, 60).Draw(rt, "words"), " "))
			}
			copy.Paragraphs = append(copy.Paragraphs, p)
		}
		s := newStick(t, rapid.IntRange(90, 400).Draw(rt, "measure")*1000)
		perPage := rapid.IntRange(1, 12).Draw(rt, "lines")
		agree(rt, compose(t, &copy, s, perPage), twin(rt, &copy, s, perPage), perPage)
	})
}

// However many hands there are, and wherever their batches end, pages come out as one hand would make them: 100 paragraphs of
// no length to speak of, others of several batches' length, and one after another until the batches' ends have met everything.
func TestPagesAreTheSameForAnyNumberOfHands(t *testing.T) {
	emma := trial.Copy(t, trial.Text(t, "en-prose-austen-emma")[:150_000], false)
	verse := trial.Copy(t, trial.Text(t, "en-prose-austen-emma")[150_000:300_000], true)
	whole := bytes.ReplaceAll(trial.Text(t, "en-prose-austen-emma")[300_000:400_000], []byte("\n\n"), []byte("\n"))
	copy := &read.Copy{Paragraphs: slices.Concat(
		emma.Paragraphs, []read.Paragraph{{Kind: read.Break}, {Kind: read.Break}}, verse.Paragraphs, trial.Copy(t, whole, false).Paragraphs, emma.Paragraphs[:9],
	)}
	s := newStick(t, 264_000)
	want := twin(t, copy, s, 17)
	for _, hands := range []int{1, 2, 8} {
		t.Run(fmt.Sprint(hands), func(t *testing.T) {
			defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(hands))
			agree(t, compose(t, copy, s, 17), want, 17)
		})
	}
}

func TestBlankLinesAndFeeds(t *testing.T) {
	for _, c := range []struct {
		copy, want string // a letter: a line of text; _ a blank line; / a form feed. Pages in brackets
	}{
		{"ab_c_d/e", "[ab_][c_d][e]"}, // the package comment's
		{"", ""},
		{"_", ""},
		{"a", "[a]"},
		{"abc", "[abc]"},
		{"abcd", "[abc][d]"},
		{"abc_d", "[abc][d]"},
		{"abc__", "[abc]"},
		{"_a", "[a]"},
		{"a__", "[a__]"},
		{"a___b", "[a__][b]"},
		{"/", "[___]"},
		{"//", "[___][___]"},
		{"/a", "[___][a]"},
		{"a/", "[a__]"},
		{"a/b", "[a__][b]"},
		{"a/_b", "[a__][b]"},
		{"a_/b", "[a__][b]"},
		{"a//b", "[a__][___][b]"},
		{"a/_/b", "[a__][___][b]"},
		{"abc/d", "[abc][d]"},
		{"abc_/d", "[abc][d]"},
		{"abc//d", "[abc][___][d]"},
		{"_/a", "[___][a]"},
	} {
		var copy read.Copy
		for _, r := range c.copy {
			p := read.Paragraph{Kind: read.Verse, Text: []byte(string(r))}
			switch r {
			case '_':
				p = read.Paragraph{Kind: read.Blank}
			case '/':
				p = read.Paragraph{Kind: read.Break}
			}
			copy.Paragraphs = append(copy.Paragraphs, p)
		}
		pages := compose(t, &copy, newStick(t, 264_000), 3)
		var got strings.Builder
		setter := pages.NewSetter()
		for p := 1; p <= pages.Count(); p++ {
			got.WriteByte('[')
			for _, l := range setter.Page(p) {
				if l.Blank {
					got.WriteByte('_')
				} else {
					got.WriteString(printed(pages.Stick().Cases(), l))
				}
			}
			got.WriteByte(']')
		}
		if got.String() != c.want {
			t.Errorf("%q: %s, want %s", c.copy, got.String(), c.want)
		}
	}
}

// Of the open texts every letter and figure is set, in order: as itself, as what the house makes it up from, or as a missing one.
func TestEveryLetterIsSet(t *testing.T) {
	madeUp := map[rune]string{'æ': "ae", 'œ': "oe", 'Æ': "AE", 'Œ': "OE"} // of letters with no sort in the font
	for _, c := range []struct {
		name    string
		verse   bool
		measure int
	}{
		{"en-prose-austen-emma", false, 264_000},
		{"en-science-newton-opticks", false, 168_000},
		{"fr-prose-voltaire-candide", false, 90_000},
		{"fr-prose-voltaire-candide", true, 400_000},
		{"la-prose-cicero-de-finibus", true, 120_000},
		{"en-bible-kjv", false, 264_000},
	} {
		text := trial.Text(t, c.name)
		text = text[:min(len(text), 600_000)]
		text = text[:bytes.LastIndexByte(text, '\n')+1]
		var want []rune
		for _, r := range string(text) {
			if made, ok := madeUp[r]; ok {
				want = append(want, []rune(made)...)
			} else if unicode.IsLetter(r) || unicode.IsDigit(r) {
				want = append(want, r)
			}
		}
		pages := compose(t, trial.Copy(t, text, c.verse), newStick(t, c.measure), 30)
		cases := pages.Stick().Cases()
		var got []rune
		setter := pages.NewSetter()
		missing := 0
		for p := 1; p <= pages.Count(); p++ {
			counts := make([]int, cases.Len()+1)
			for _, l := range setter.Page(p) {
				notes := slices.DeleteFunc(slices.Clone(l.Notes), func(n sorts.Note) bool { return n.Rule != sorts.NoSort })
				for _, id := range l.Pieces {
					counts[id]++
					set := ""
					if id == cases.Missing() {
						set, notes = string(notes[0].Character), notes[1:]
						missing++
					} else {
						set = cases.Sort(id).Text
					}
					for _, r := range set {
						if unicode.IsLetter(r) || unicode.IsDigit(r) {
							got = append(got, r)
						}
					}
				}
				if len(notes) > 0 {
					t.Errorf("%s: page %d, line %d: notes of missing characters that are not in the line: %+v", c.name, p, l.Number, notes)
				}
			}
			for id := range cases.Len() {
				if counts[id] != pages.Table.Page(p, id) {
					t.Fatalf("%s: page %d: %d of %q set, %d in the tally", c.name, p, counts[id], cases.Sort(sorts.ID(id)).Name, pages.Table.Page(p, id))
				}
			}
		}
		noted := 0
		for _, n := range pages.Notes {
			if n.Rule == sorts.NoSort {
				noted += n.Count
			}
		}
		if noted != missing {
			t.Errorf("%s: %d missing characters noted, %d in the lines", c.name, noted, missing)
		}
		if !slices.Equal(got, want) {
			i := 0
			for i < min(len(got), len(want)) && got[i] == want[i] {
				i++
			}
			t.Errorf("%s: %d letters of %d set; after %q comes %q and not %q", c.name, len(got), len(want),
				string(want[max(0, i-20):i]), string(got[i:min(len(got), i+20)]), string(want[i:min(len(want), i+20)]))
		}
	}
}

// The notes name page and line of the first of each, and count all.
func TestNotesByPlace(t *testing.T) {
	copy := trial.Copy(t, []byte("a\nb þ\n\næ c\nþ\n\fd þ æ þ\n"), true)
	pages := compose(t, copy, newStick(t, 264_000), 3)
	var got []string
	for _, n := range pages.Notes {
		got = append(got, fmt.Sprintf("%c %t ×%d page %d line %d", n.Character, n.Rule == sorts.NoSort, n.Count, n.Page, n.Line))
	}
	want := []string{"þ true ×4 page 1 line 2", "æ false ×2 page 2 line 1"}
	if !slices.Equal(got, want) {
		t.Errorf("notes %q, want %q", got, want)
	}
}

// A word too long for the measure is divided anywhere, and said: by page and line, up to a hundred times.
func TestForcedDivisionsByPlace(t *testing.T) {
	long := strings.Repeat("m", 60) // 590 points
	pages := compose(t, trial.Copy(t, []byte("a\n\nb\n\n"+long+"\n\nc"), false), newStick(t, 264_000), 3)
	// An em of indent, and lines of 25, 26 and 9.
	if want := []page.Spot{{Page: 1, Line: 3}, {Page: 2, Line: 1}}; !slices.Equal(pages.Forced, want) {
		t.Errorf("forced divisions %v, want %v", pages.Forced, want)
	}
	pages = compose(t, trial.Copy(t, []byte(strings.Repeat(long+" ", 300)), false), newStick(t, 264_000), 3)
	if len(pages.Forced) != 100 {
		t.Errorf("%d forced divisions by place, want 100", len(pages.Forced))
	}
}

// blocks is a font of letters as wide as they are tall, to be wider than a measure.
func blocks(t testing.TB, measure int) *stick.Stick {
	t.Helper()
	cases, err := sorts.Lay(sorts.Font{Name: "Blocks", Body: 10_000, Sorts: []sorts.Sort{
		{Name: "i", Text: "i", Width: 3000}, {Name: "W", Text: "W", Width: 40_000}, {Name: "hyphen", Text: "-", Width: 3000}, {Name: "thick", Space: true, Width: 3333},
	}})
	if err != nil {
		t.Fatal(err)
	}
	s, err := stick.New(cases, 0, 0, measure)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestTooNarrowNamesPageAndLine(t *testing.T) {
	many := strings.Repeat("i i i i\n", 20_000) // of several batches
	for _, c := range []struct {
		name, text string
		page, line int
	}{
		{"the first line", "W", 1, 1},
		{"of three lines to the page, the seventh", "i\ni\ni\ni\ni\ni\nW\ni", 3, 1},
		{"the next", "i\ni\ni\ni\ni\ni\ni\nW\ni", 3, 2},
		{"after a blank line", "i\n\nW", 1, 3},
		{"after a blank line that is left out", "i\ni\ni\n\nW", 2, 1},
		{"after a form feed", "i\n\fW", 2, 1},
		{"nine letters of 3 go in 30", "i\niiiiiiiii\nW", 1, 3},
		{"of a line turned over: 9 with a hyphen, 2 with a hyphen, 2", "i\niiiiiiiiiiiii W", 2, 2},
		{"far on", many + "W\n" + many, 20_000/3 + 1, 20_000%3 + 1},
		{"the first of two", "W\n" + many + "W", 1, 1},
	} {
		_, err := page.Compose(t.Context(), trial.Copy(t, []byte(c.text), true), blocks(t, 30_000), 3)
		var narrow *page.TooNarrow
		if !errors.As(err, &narrow) {
			t.Errorf("%s: error %v, want a TooNarrow", c.name, err)
			continue
		}
		if narrow.Page != c.page || narrow.Line != c.line {
			t.Errorf("%s: page %d, line %d, want page %d, line %d", c.name, narrow.Page, narrow.Line, c.page, c.line)
		}
		if want := fmt.Sprintf("page %d, line %d: ", c.page, c.line); !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%s: %q, want %q at its head", c.name, err, want)
		}
	}
}

// When the question is given up, or a line does not go in, nobody goes on working: the bubble of a synctest ends only when all that
// was begun in it has ended, and fails where it never will.
func TestNobodyGoesOn(t *testing.T) {
	emma := trial.Text(t, "en-prose-austen-emma")
	s := newStick(t, 264_000)
	for _, hands := range []int{1, 2, 8} {
		for _, c := range []struct {
			name string
			copy *read.Copy
		}{
			{"many paragraphs", trial.Copy(t, emma, false)},
			{"one paragraph", trial.Copy(t, bytes.ReplaceAll(emma, []byte("\n\n"), []byte("\n")), false)},
		} {
			t.Run(fmt.Sprintf("%s, %d hands", c.name, hands), func(t *testing.T) {
				defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(hands))
				synctest.Test(t, func(t *testing.T) {
					ctx, cancel := context.WithCancel(t.Context())
					cancel()
					if pages, err := page.Compose(ctx, c.copy, s, 30); pages != nil || !errors.Is(err, context.Canceled) {
						t.Errorf("given up before it began: pages %v, error %v", pages != nil, err)
					}
				})
				synctest.Test(t, func(t *testing.T) {
					ctx, cancel := context.WithCancel(t.Context())
					go cancel() // at any moment: all is there, or there is an error
					pages, err := page.Compose(ctx, c.copy, s, 30)
					if (pages == nil) != errors.Is(err, context.Canceled) {
						t.Errorf("given up: pages %t, error %v", pages != nil, err)
					}
				})
			})
		}
		t.Run(fmt.Sprintf("a line does not go in, %d hands", hands), func(t *testing.T) {
			defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(hands))
			copy := trial.Copy(t, []byte(strings.Repeat("i i i i\n", 20_000)+"W\n"+strings.Repeat("i i i i\n", 60_000)), true)
			synctest.Test(t, func(t *testing.T) {
				// Not the test's own context: that one is given up at the end.
				if _, err := page.Compose(context.Background(), copy, blocks(t, 30_000), 3); err == nil {
					t.Error("no error")
				}
			})
		})
	}
}
