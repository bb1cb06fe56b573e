package page_test

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"formewise/demand/internal/trial"
	"formewise/demand/page"
	"formewise/demand/stick"
	"formewise/texts/read"
	"formewise/texts/sorts"
)

// wordPages tells pages by the words of their lines, lines set apart by " / ".
func wordPages(pages *page.Pages) []string {
	var list []string
	setter := pages.NewSetter()
	for p := 1; p <= pages.Count(); p++ {
		var lines []string
		for _, l := range setter.Page(p) {
			lines = append(lines, printed(pages.Stick().Cases(), l))
		}
		list = append(list, strings.Join(lines, " / "))
	}
	return list
}

// ems is a stick for letters an em wide, to a measure in tenths of an em.
func ems(t testing.TB, tenths int) *stick.Stick {
	t.Helper()
	const em = 12_000
	font := sorts.Font{Name: "Ems", Body: em, Sorts: []sorts.Sort{{Name: "-", Text: "-", Width: em / 3}}}
	for _, letter := range "abcdefgh" {
		font.Sorts = append(font.Sorts, sorts.Sort{Name: string(letter), Text: string(letter), Width: em})
	}
	for i, name := range []string{"em quad", "en quad", "thick", "middle", "thin"} {
		font.Sorts = append(font.Sorts, sorts.Sort{Name: name, Space: true, Width: em / (i + 1)})
	}
	font.Sorts = append(font.Sorts, sorts.Sort{Name: "hair", Space: true, Width: em / 12})
	cases, err := sorts.Lay(font)
	if err != nil {
		t.Fatal(err)
	}
	s, err := stick.New(cases, 0, 0, tenths*em/10)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// The example of Ending, and what else an end may fall upon, by hand: a line of 6 ems takes two words of two letters, which leave
// 2 ems, or 1 beside an indent; a third does not go in.
func TestEnding(t *testing.T) {
	s := ems(t, 60)
	at := func(paragraph, at int) page.End {
		return page.End{Next: stick.Place{Paragraph: paragraph, At: at}}
	}
	const prose = "aa bb cc dd ee ff gg hh" // freely aabb, ccdd, eeff and gghh
	for _, c := range []struct {
		name, text string
		verse      bool
		ends       []page.End
		want       []string
	}{
		{"lines of verse", "a\nb\nc\nd\ne\nf\ng\n", true, []page.End{at(2, 0)}, []string{"a / b", "c / d / e", "f / g"}},
		{"longer than a page", "a\nb\nc\nd\ne\nf\ng\n", true, []page.End{at(4, 0)}, []string{"a / b / c / d", "e / f / g"}},
		{"two ends", "a\nb\nc\nd\ne\nf\ng\n", true, []page.End{at(2, 0), at(3, 0)}, []string{"a / b", "c", "d / e / f", "g"}},
		{"the end of the copy", "a\nb\nc\nd\n", true, []page.End{at(4, 0)}, []string{"a / b / c / d"}},
		{"a form feed ends its page all the same", "a\nb\n\fc\nd\n", true, []page.End{at(3, 0)}, []string{"a / b / ", "c / d"}},
		{"sooner than a form feed", "a\nb\n\fc\nd\n", true, []page.End{at(1, 0)}, []string{"a", "b /  / ", "c / d"}},
		{"a blank line heads no page", "a\nb\n\nc\nd\n", true, []page.End{at(3, 0)}, []string{"a / b / ", "c / d"}},
		{"blank lines beyond a full page stand if text follows", "a\nb\nc\n\n\nd\n\ne\nf\n", true, []page.End{at(7, 0)}, []string{"a / b / c /  /  / d", "e / f"}},
		{"and not on the next", "a\nb\nc\n\nd\ne\n", true, []page.End{at(4, 0)}, []string{"a / b / c", "d / e"}},
		{"inside a paragraph", prose, false, []page.End{at(0, 9)}, []string{"aabb / cc", "ddee / ffgg / hh"}},
		{"where a line ends anyway", prose, false, []page.End{at(0, 12)}, []string{"aabb / ccdd", "eeff / gghh"}},
		{"inside a word", prose, false, []page.End{at(0, 10)}, []string{"aabb / ccd-", "deeff / gghh"}},
		{"twice in one paragraph", prose, false, []page.End{at(0, 3), at(0, 18)}, []string{"aa", "bbcc / ddee / ff", "gghh"}},
	} {
		copy := trial.Copy(t, []byte(c.text), c.verse)
		pages, err := page.Compose(t.Context(), copy, s, 3, page.Ending(c.ends))
		if err != nil {
			t.Fatal(err)
		}
		if got := wordPages(pages); !slices.Equal(got, c.want) {
			t.Errorf("%s:\n got %q\nwant %q", c.name, got, c.want)
		}
	}
}

// style asks for whatever a page may have.
func style(t *rapid.T, perPage int) []page.Option {
	var ask []page.Option
	if rapid.Bool().Draw(t, "head") {
		ask = append(ask, page.HeadLine("A title", func(p int) string { return fmt.Sprint(p) }, odd))
	}
	if rapid.Bool().Draw(t, "direction") {
		ask = append(ask, page.DirectionLine(true, func(p int) string { return strings.Repeat("B", p%2) }))
	}
	if perPage > 3 && rapid.Bool().Draw(t, "dropped") {
		ask = append(ask, page.Drop(rapid.IntRange(1, perPage-3).Draw(t, "drop")))
	}
	if rapid.Bool().Draw(t, "no widow") {
		ask = append(ask, page.NoWidow(odd))
	}
	return ask
}

// work draws a work with form feeds, to be set in pages.
func work(t *rapid.T, text []byte) (copy *read.Copy, perPage int) {
	from := rapid.IntRange(0, len(text)-6000).Draw(t, "from")
	data := "a\n\n" + strings.ToValidUTF8(string(text[from:from+5000]), "") + "\n\f\f\nlast words of all"
	copy, err := read.Plain([]read.File{{Name: "x", Data: []byte(data)}}, rapid.Bool().Draw(t, "verse"))
	if err != nil {
		t.Fatal(err)
	}
	return copy, rapid.IntRange(3, 40).Draw(t, "lines")
}

// all is what pages are: their lines, their rows of the tally and where they begin.
type all struct {
	Starts []stick.Place
	Lines  [][]page.Line
	Rows   [][]int
	Text   []int
}

func allOf(p *page.Pages, first, last int) all {
	var a all
	setter := p.NewSetter()
	for n := first; n <= last; n++ {
		a.Starts = append(a.Starts, p.Start(n))
		a.Lines = append(a.Lines, slices.Clone(setter.Page(n)))
		row := make([]int, p.Table.Columns())
		for c := range row {
			row[c] = p.Table.Page(n, c)
		}
		a.Rows = append(a.Rows, row)
		a.Text = append(a.Text, p.TextLines(n)-p.TextLines(n-1))
	}
	return a
}

// Ends that are given as they are cast off change nothing, in whatever style, and however many of them.
func TestEndsAsCastOffChangeNothing(t *testing.T) {
	text := chapters(t)
	sticks := []*stick.Stick{newStick(t, 150_000), newStick(t, 264_000)}
	rapid.Check(t, func(rt *rapid.T) {
		copy, perPage := work(rt, text)
		s := rapid.SampledFrom(sticks).Draw(rt, "measure")
		ask := style(rt, perPage)
		free, err := page.Compose(t.Context(), copy, s, perPage, ask...)
		if err != nil {
			rt.Fatal(err)
		}
		given := rapid.IntRange(1, free.Count()).Draw(rt, "given")
		again, err := page.Compose(t.Context(), copy, s, perPage, append(ask, page.Ending(free.Ends(given)))...)
		if err != nil {
			rt.Fatal(err)
		}
		if again.Count() != free.Count() || again.Lines != free.Lines || again.LongestPage() != free.LongestPage() {
			rt.Fatalf("%d pages, %d lines, the longest of %d; freely %d, %d, %d",
				again.Count(), again.Lines, again.LongestPage(), free.Count(), free.Lines, free.LongestPage())
		}
		if a, b := allOf(free, 1, free.Count()), allOf(again, 1, again.Count()); !reflect.DeepEqual(a, b) {
			rt.Fatalf("with the ends of %d of %d pages of %d lines given (-freely +given):\n%s", given, free.Count(), perPage, cmp.Diff(a, b))
		}
	})
}

// Wherever a page ends: those before stay as they are; it ends there, and the next begins; the lines of every page are its row of
// the tally; and every letter of the copy is set.
func TestEndingLaws(t *testing.T) {
	text := chapters(t)
	sticks := []*stick.Stick{newStick(t, 150_000), newStick(t, 264_000)}
	rapid.Check(t, func(rt *rapid.T) {
		copy, perPage := work(rt, text)
		s := rapid.SampledFrom(sticks).Draw(rt, "measure")
		ask := style(rt, perPage)
		free, err := page.Compose(t.Context(), copy, s, perPage, ask...)
		if err != nil {
			rt.Fatal(err)
		}
		number := rapid.IntRange(1, free.Count()).Draw(rt, "page")
		ends := free.Ends(number)
		end, ok := drawEnd(rt, copy, free, number)
		if !ok {
			rt.Skip("a page of one word")
		}
		ends[number-1].Next = end
		made, err := page.Compose(t.Context(), copy, s, perPage, append(ask, page.Ending(ends))...)
		if err != nil {
			rt.Fatal(err)
		}
		if a, b := allOf(free, 1, number-1), allOf(made, 1, number-1); !reflect.DeepEqual(a, b) {
			rt.Fatalf("pages before page %d have changed (-freely +ended):\n%s", number, cmp.Diff(a, b))
		}
		if got := made.Start(number + 1); got.Paragraph != end.Paragraph || got.At != end.At {
			rt.Fatalf("page %d ends before %+v, want %+v", number, got, end)
		}
		cases := s.Cases()
		missing := cases.Missing()
		setter, lines := made.NewSetter(), 0
		var set strings.Builder
		for p := 1; p <= made.Count(); p++ {
			counts := make([]int, cases.Len())
			last := 0
			for _, l := range setter.Page(p) {
				for _, id := range l.Pieces {
					if id != missing {
						counts[id]++
					}
				}
				if l.Part == page.Direction && l.Number <= last {
					rt.Fatalf("page %d: the direction line is numbered %d, after %d", p, l.Number, last)
				}
				last = l.Number
				if l.Part == page.Body && !l.Blank {
					lines++
					set.WriteString(strings.TrimSuffix(printed(cases, l), strings.Repeat("-", count(l.Broken))))
				}
			}
			for c, n := range counts {
				if got := made.Table.Page(p, c); got != n {
					rt.Fatalf("page %d: %d pieces of column %d in the tally, %d set", p, got, c, n)
				}
			}
		}
		if lines != made.Lines || made.TextLines(made.Count()) != lines {
			rt.Fatalf("%d lines set, %d counted", lines, made.Lines)
		}
		var freely strings.Builder
		setter = free.NewSetter()
		for p := 1; p <= free.Count(); p++ {
			for _, l := range setter.Page(p) {
				if l.Part == page.Body {
					freely.WriteString(strings.TrimSuffix(printed(cases, l), strings.Repeat("-", count(l.Broken))))
				}
			}
		}
		if set.String() != freely.String() {
			rt.Fatalf("other letters:\n%s", cmp.Diff(freely.String(), set.String()))
		}
	})
}

func count(is bool) int {
	if is {
		return 1
	}
	return 0
}

// drawEnd draws a place after some word of a page or the page after it, before any form feed. Not ok: there is none.
func drawEnd(t *rapid.T, copy *read.Copy, pages *page.Pages, number int) (stick.Place, bool) {
	from, to := pages.Start(number), pages.Start(min(number+2, pages.Count()+1))
	var places []stick.Place
	for i := from.Paragraph; i < len(copy.Paragraphs) && i <= to.Paragraph && copy.Paragraphs[i].Kind != read.Break; i++ {
		text := copy.Paragraphs[i].Text
		if i > from.Paragraph && len(text) > 0 {
			places = append(places, stick.Place{Paragraph: i})
		}
		for at := 1; at < len(text); at++ {
			p := stick.Place{Paragraph: i, At: at}
			if space := text[at-1] == ' ' || text[at-1] == '\n'; space && text[at] > ' ' && (i > from.Paragraph || at > from.At) && (i < to.Paragraph || at < to.At) {
				places = append(places, p)
			}
		}
	}
	if len(places) == 0 {
		return stick.Place{}, false
	}
	return rapid.SampledFrom(places).Draw(t, "end"), true
}
