package page_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"formewise/demand/internal/trial"
	"formewise/demand/page"
	"formewise/demand/stick"
	"formewise/texts/read"
	"formewise/texts/sorts"
)

func odd(page int) bool { return page%2 == 1 }

func printed(cases *sorts.Cases, l page.Line) string {
	var b strings.Builder
	for _, id := range l.Pieces {
		if id != cases.Missing() {
			b.WriteString(cases.Sort(id).Text)
		}
	}
	return b.String()
}

// chapters is a text of some paragraphs with form feeds between them here and there.
func chapters(t *testing.T) []byte {
	emma := trial.Text(t, "en-prose-austen-emma")[:60000]
	return []byte(strings.ReplaceAll(string(emma), "\n\n\n", "\n\f\n"))
}

// Whatever stands on a page beside its text, the pieces of its lines are its row of the tally.
func TestLinesAndTallyAgreeInEveryStyle(t *testing.T) {
	cases := trial.Roman12(t)
	text := chapters(t)
	rapid.Check(t, func(t *rapid.T) {
		from := rapid.IntRange(0, len(text)-6000).Draw(t, "from")
		copy, err := read.Plain([]read.File{{Name: "x", Data: []byte("a\n\n" + strings.ToValidUTF8(string(text[from:from+5000]), "") + "\n\f\f\nlast words of all")}}, rapid.Bool().Draw(t, "verse"))
		if err != nil {
			t.Fatal(err)
		}
		s, err := stick.New(cases, 0, 1, rapid.SampledFrom([]int{150000, 264000, 400000}).Draw(t, "measure"))
		if err != nil {
			t.Fatal(err)
		}
		perPage := rapid.IntRange(3, 40).Draw(t, "lines")
		var ask []page.Option
		head, direction := rapid.Bool().Draw(t, "head"), rapid.Bool().Draw(t, "direction")
		if head {
			ask = append(ask, page.HeadLine("A title", func(p int) string { return fmt.Sprint(p) }, odd))
		}
		if direction {
			ask = append(ask, page.DirectionLine(true, func(p int) string { return strings.Repeat("B", p%2) }))
		}
		drop := 0
		if rapid.Bool().Draw(t, "dropped") {
			drop = rapid.IntRange(1, perPage-2).Draw(t, "drop")
			ask = append(ask, page.Drop(drop))
		}
		widows := rapid.Bool().Draw(t, "no widow")
		if widows {
			ask = append(ask, page.NoWidow(odd))
		}
		pages, err := page.Compose(t.Context(), copy, s, perPage, ask...)
		if err != nil {
			t.Fatal(err)
		}
		setter := pages.NewSetter()
		lines := 0
		for p := 1; p <= pages.Count(); p++ {
			counts := make([]int, cases.Len()+1)
			body := 0
			for _, l := range setter.Page(p) {
				switch l.Part {
				case page.Head:
					if !head || l.Number != 0 {
						t.Fatalf("page %d: a head line, number %d", p, l.Number)
					}
				case page.Direction:
					if !direction || l.Number < body+1 {
						t.Fatalf("page %d: a direction line, number %d after %d", p, l.Number, body)
					}
				default:
					body++
					if l.Number != body {
						t.Fatalf("page %d: line %d is numbered %d", p, body, l.Number)
					}
					if !l.Blank {
						lines++
					}
				}
				for _, id := range l.Pieces {
					counts[id]++
				}
			}
			if most := perPage; body > most+1 || !widows && body > most {
				t.Fatalf("page %d has %d lines of %d", p, body, most)
			}
			for c := range cases.Len() {
				if counts[c] != pages.Table.Page(p, c) {
					t.Fatalf("page %d: %d of %q set, %d in the tally", p, counts[c], cases.Sort(sorts.ID(c)).Name, pages.Table.Page(p, c))
				}
			}
		}
		if lines != pages.Lines || pages.TextLines(pages.Count()) != lines {
			t.Fatalf("%d lines set, %d counted", lines, pages.Lines)
		}
	})
}

func TestCatchwordsAreTheFirstWordsOfTheNextPage(t *testing.T) {
	cases := trial.Roman12(t)
	copy := trial.Copy(t, trial.Text(t, "en-prose-austen-emma")[:80000], false)
	s, err := stick.New(cases, 0, 1, 264000)
	if err != nil {
		t.Fatal(err)
	}
	pages, err := page.Compose(t.Context(), copy, s, 30, page.DirectionLine(true, nil))
	if err != nil {
		t.Fatal(err)
	}
	setter := pages.NewSetter()
	catchword := ""
	for p := 1; p <= pages.Count(); p++ {
		lines := setter.Page(p)
		if p > 1 && catchword == "" {
			t.Errorf("page %d has no catchword", p-1)
		}
		if got := printed(cases, lines[0]); !strings.HasPrefix(got, catchword) {
			t.Errorf("page %d ends with the catchword %q, and page %d begins %q", p-1, catchword, p, got)
		}
		catchword = ""
		if last := lines[len(lines)-1]; last.Part == page.Direction {
			catchword = printed(cases, last)
		}
	}
	if catchword != "" {
		t.Errorf("the last page has the catchword %q", catchword)
	}
}

// No page begins with the last line of a paragraph; both pages of an opening have as many lines, one more or fewer than full.
func TestNoWidow(t *testing.T) {
	cases := trial.Roman12(t)
	copy := trial.Copy(t, trial.Text(t, "en-prose-austen-emma"), false)
	s, err := stick.New(cases, 0, 1, 264000)
	if err != nil {
		t.Fatal(err)
	}
	count := func(perPage int, ask ...page.Option) (widows, unlike int) {
		pages, err := page.Compose(t.Context(), copy, s, perPage, ask...)
		if err != nil {
			t.Fatal(err)
		}
		setter := pages.NewSetter()
		before := 0
		for p := 1; p <= pages.Count(); p++ {
			lines := setter.Page(p)
			if lines[0].Last && !lines[0].First {
				widows++
			}
			if n := len(lines); p < pages.Count() && (n < perPage-1 || n > perPage+1 || p%2 == 1 && p > 1 && n != before) {
				unlike++
			}
			before = len(lines)
		}
		return widows, unlike
	}
	for _, perPage := range []int{12, 25, 30, 41} {
		plain, _ := count(perPage)
		widows, unlike := count(perPage, page.NoWidow(odd))
		t.Logf("%d lines: %d widows, %d with --no-widow", perPage, plain, widows)
		if plain < 10 {
			t.Fatalf("%d lines: only %d pages begin with a widow: nothing is shown", perPage, plain)
		}
		if widows > 0 {
			t.Errorf("%d lines: %d pages begin with a widow", perPage, widows)
		}
		if unlike > 0 {
			t.Errorf("%d lines: %d pages are not like their fellows", perPage, unlike)
		}
	}
}

func TestDropAndFeeds(t *testing.T) {
	cases := trial.Roman12(t)
	copy := trial.Copy(t, []byte("One.\n\f\nTwo.\n\f\f\nThree."), false)
	s, err := stick.New(cases, 0, 1, 264000)
	if err != nil {
		t.Fatal(err)
	}
	pages, err := page.Compose(t.Context(), copy, s, 5, page.Drop(2), page.HeadLine("T", nil, odd))
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	setter := pages.NewSetter()
	for p := 1; p <= pages.Count(); p++ {
		var lines []string
		for _, l := range setter.Page(p) {
			lines = append(lines, fmt.Sprint(l.Number, printed(cases, l)))
		}
		got = append(got, strings.Join(lines, " "))
	}
	want := "1 2 3One. 4 5|1 2 3Two. 4 5|1 2 3 4 5|1 2 3Three."
	if strings.Join(got, "|") != want {
		t.Errorf("pages %q, want %q", strings.Join(got, "|"), want)
	}
}

func TestTitleTooLong(t *testing.T) {
	cases := trial.Roman12(t)
	copy := trial.Copy(t, []byte("One."), false)
	s, err := stick.New(cases, 0, 1, 100000)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := page.Compose(t.Context(), copy, s, 5, page.HeadLine("A title that is longer than the line", nil, odd)); err == nil {
		t.Error("a title longer than the measure was set")
	}
}
