package page_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"formewise/demand/internal/trial"
	"formewise/demand/page"
	"formewise/demand/stick"
)

// Lines of 6 ems take two words of two letters each; parts of a line go by its characters.
func TestRulerByHand(t *testing.T) {
	s := ems(t, 60)
	prose := trial.Copy(t, []byte("aa bb cc dd ee ff gg hh\n\naa bb cc"), false)
	verse := trial.Copy(t, []byte("a\nb\n\n\f\n\nc\n\nd\n"), true)
	place := func(paragraph, at int) stick.Place { return stick.Place{Paragraph: paragraph, At: at} }
	for _, c := range []struct {
		name     string
		verse    bool
		from, to stick.Place
		want     page.Extent
	}{
		{"two whole lines", false, place(0, 0), place(0, 12), page.Extent{Begun: 2, Whole: 2}},
		{"one and a half: 3 characters of “cc dd ”", false, place(0, 0), place(0, 9), page.Extent{Begun: 2, Whole: 1, Part: 500}},
		{"from the second on", false, place(0, 6), place(0, 13), page.Extent{Begun: 2, Whole: 1, Part: 166}},
		{"a paragraph", false, place(0, 0), place(1, 0), page.Extent{Begun: 4, Whole: 4}},
		{"and all of the next", false, place(0, 6), place(2, 0), page.Extent{Begun: 5, Whole: 5}},
		{"nothing", false, place(1, 0), place(1, 0), page.Extent{}},
		{"blank lines do not count", true, place(0, 0), place(7, 0), page.Extent{Begun: 3, Whole: 3}},
		{"nor do they at the end", true, place(0, 0), place(5, 0), page.Extent{Begun: 2, Whole: 2}},
	} {
		copy := prose
		if c.verse {
			copy = verse
		}
		got, err := page.NewRuler(copy, s).Between(c.from, c.to)
		if got != c.want || err != nil {
			t.Errorf("%s: %+v, want %+v (error %v)", c.name, got, c.want, err)
		}
	}
	if n := (page.Extent{Begun: 3, Whole: 2, Part: 250}).Thousandths(); n != 2250 {
		t.Errorf("two lines and a quarter are %d thousandths, want 2250", n)
	}
}

// Words of one em to 9.7 ems. The first line, beside its indent, takes 7 (1.7 ems for 6 gaps), and no more closely; widely 6 (2.7 for
// 5). The next take 7 evenly (2.7 for 6 gaps, cost 1.35; 1.7 for 7 cost 1.37), closely 8, widely 7 (6 would leave 3.7 for 5).
//
//	23 words     evenly 7 7 7 2     closely 7 8 8     widely 6 7 7 3
//	22 words     evenly 7 7 8       closely 7 8 7     widely 6 7 7 2
func TestFitterByHand(t *testing.T) {
	s := ems(t, 97)
	words := func(n int) string { return strings.TrimSpace(strings.Repeat("a ", n)) }
	for _, c := range []struct {
		name, text     string
		perPage        int
		lines, in, out []int // by page
	}{
		{"23 words", words(23), 40, []int{4}, []int{1}, []int{0}},
		{"22 words", words(22), 40, []int{3}, []int{0}, []int{1}},
		{"one paragraph after another", words(23) + "\n\n" + words(22) + "\n\n" + words(23), 40, []int{11}, []int{2}, []int{1}},
		// Of 7 7 | 7 2 the first page has 14 words, which closely are 7 and most of the next line: no whole line is got in. Widely they
		// are 6, 7 and 1. The second begins inside the paragraph: 9 words are 8 and 1 closely.
		{"cut by the page", words(23), 2, []int{2, 2}, []int{0, 0}, []int{0, 0}},
	} {
		pages := compose(t, trial.Copy(t, []byte(c.text), false), s, c.perPage)
		fitter := pages.NewFitter()
		for p := 1; p <= len(c.lines); p++ {
			in, out := fitter.Page(p)
			if lines := pages.TextLines(p) - pages.TextLines(p-1); pages.Count() != len(c.lines) || lines != c.lines[p-1] || in != c.in[p-1] || out != c.out[p-1] {
				t.Errorf("%s, page %d of %d: %d lines, in %d, out %d; want %d, %d, %d", c.name, p, pages.Count(), lines, in, out, c.lines[p-1], c.in[p-1], c.out[p-1])
			}
		}
	}
}

// A page of whole paragraphs gives what setting the copy closely and widely gives.
func TestFitterAgainstComposing(t *testing.T) {
	emma := trial.Copy(t, trial.Text(t, "en-prose-austen-emma"), false)
	rapid.Check(t, func(rt *rapid.T) {
		s := newStick(t, rapid.IntRange(120, 400).Draw(rt, "measure")*1000)
		from := rapid.IntRange(0, len(emma.Paragraphs)-10).Draw(rt, "from")
		copy := *emma
		copy.Paragraphs = copy.Paragraphs[from : from+rapid.IntRange(1, 9).Draw(rt, "paragraphs")]
		pages := compose(t, &copy, s, 1000)
		in, out := pages.NewFitter().Page(1)
		close, wide := compose(t, &copy, s.Closely(), 1000), compose(t, &copy, s.Widely(), 1000)
		if want := max(0, pages.Lines-close.Lines); in != want {
			rt.Fatalf("%d lines can be got in, set closely there are %d fewer", in, want)
		}
		if want := max(0, wide.Lines-pages.Lines); out != want {
			rt.Fatalf("%d lines can be driven out, set widely there are %d more", out, want)
		}
	})
}
