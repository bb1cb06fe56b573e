package standing

import (
	"slices"
	"strings"
	"testing"

	"formewise/demand/impose"
	"formewise/demand/tally"

	"pgregory.net/rapid"
)

// work is a whole question: pages as lines, formes, schedule, stock.
type work struct {
	pages    [][]Line
	plan     impose.Plan
	formes   []impose.Forme
	schedule Schedule
	columns  []Column
	table    *tally.Table
}

func newWork(pages [][]Line, p impose.Plan, s Schedule, columns []Column) *work {
	w := &work{pages: pages, plan: p, formes: impose.Formes(len(pages), p), schedule: s, columns: columns, table: tally.New(len(columns))}
	for _, page := range pages {
		counts := make([]uint32, len(columns))
		for _, line := range page {
			for _, c := range line.Pieces {
				counts[c]++
			}
		}
		w.table.Add(counts)
	}
	return w
}

func (w *work) lines(page int) []Line { return w.pages[page-1] }

func (w *work) textLines(pages int) int {
	n := 0
	for _, page := range w.pages[:pages] {
		for _, line := range page {
			if line.Text {
				n++
			}
		}
	}
	return n
}

// total counts some pages piece by piece.
func (w *work) total(pages []int) []int {
	sum := make([]int, len(w.columns))
	for _, page := range pages {
		count(sum, w.lines(page)...)
	}
	return sum
}

func count(sum []int, lines ...Line) {
	for _, line := range lines {
		for _, c := range line.Pieces {
			sum[c]++
		}
	}
}

func (w *work) reckon() Demand { return Reckon(w.table, w.formes, w.schedule, w.columns, w.lines) }
func (w *work) stand() CanStand {
	return Stand(w.table, w.formes, w.columns, w.textLines, w.lines)
}
func (w *work) cut() *Sections { return Cut(w.table, w.formes, w.plan, w.columns) }

func quarto() impose.Plan { return impose.Plan{Format: "quarto", In: 1} }

// oneLetter gives a stock of one printing sort.
func oneLetter(available int) []Column {
	return []Column{{Font: "Ferry Roman 12", Sort: "e", Available: available}}
}

// pagesOf gives pages of one line each, with so many pieces of column 0.
func pagesOf(pieces ...int) [][]Line {
	var pages [][]Line
	for _, n := range pieces {
		pages = append(pages, []Line{{Number: 1, Text: true, Pieces: make([]uint16, n)}})
	}
	return pages
}

// times gives n times the same count.
func times(n, each int) []int { return slices.Repeat([]int{each}, n) }

// drawWork draws a work of up to so many pages, with any plan and schedule, head and blank lines among the lines, letters
// and spaces of two fonts, and stocks that are now ample and now nothing.
func drawWork(t *rapid.T, most int) *work {
	p := impose.Plan{In: 1, Pull: rapid.SampledFrom([]int{0, 0, 0, 1, 2, 3, 5}).Draw(t, "pull"), OuterFirst: rapid.Bool().Draw(t, "outer first")}
	p.Format = rapid.SampledFrom(impose.Formats()).Draw(t, "format")
	switch rapid.IntRange(0, 2).Draw(t, "paper") {
	case 1:
		p.HalfSheet = p.Format != "single" && p.Format != "folio"
	case 2:
		if p.Format == "folio" || p.Format == "quarto" || p.Format == "octavo" {
			p.In = rapid.IntRange(1, 4).Draw(t, "in")
		}
	}
	s := Schedule{
		Seriatim:     rapid.Bool().Draw(t, "seriatim"),
		Standing:     rapid.SampledFrom([]int{All, 0, 0, 1, 2, 3, 5}).Draw(t, "standing"),
		SheetRelease: rapid.Bool().Draw(t, "sheet release"),
	}
	columns := []Column{
		{Font: "Roman", Sort: "e"}, {Font: "Italic", Sort: "e"}, {Font: "Roman", Sort: "a"},
		{Font: "Roman", Sort: "thick", Space: true, Width: 333}, {Font: "Roman", Sort: "en quad", Space: true, Width: 500},
		{Font: "Italic", Sort: "hair", Space: true, Width: 83}, {Font: "Italic", Sort: "never set"},
	}
	ample := rapid.SampledFrom([]int{0, 4, 20, 100, 1000}).Draw(t, "ample")
	for c := range columns {
		columns[c].Available = rapid.IntRange(0, ample).Draw(t, "available")
	}
	line := rapid.Custom(func(t *rapid.T) Line {
		return Line{
			Text:   rapid.IntRange(0, 3).Draw(t, "text") > 0,
			Pieces: rapid.SliceOfN(rapid.Uint16Range(0, uint16(len(columns)-2)), 0, 6).Draw(t, "pieces"),
		}
	})
	pages := rapid.SliceOfN(rapid.SliceOfN(line, 0, 4), 0, most).Draw(t, "pages")
	for _, page := range pages {
		for i := range page {
			page[i].Number = i
		}
	}
	return newWork(pages, p, s, columns)
}

// fits is the slow twin of stock.canStand and stock.limit: it keeps the shortfalls by name, the pools among them.
func (w *work) fits(sum []int) (bool, *Limit) {
	type key struct{ font, sort string }
	short, wide := map[key]int{}, map[string]int{}
	for c, n := range sum {
		col := w.columns[c]
		if col.Space {
			wide[col.Font] += (n - col.Available) * col.Width
		} else if n > col.Available {
			short[key{col.Font, col.Sort}] = n - col.Available
		}
	}
	for font, over := range wide {
		ems := over / 1000
		if over > ems*1000 {
			ems++
		}
		if over > 0 {
			short[key{font, "spacing"}] = ems
		}
	}
	if len(short) == 0 {
		return true, nil
	}
	var list []Limit
	for k, n := range short {
		list = append(list, Limit{k.font, k.sort, n})
	}
	slices.SortFunc(list, func(a, b Limit) int {
		if a.Short != b.Short {
			return b.Short - a.Short
		}
		if a.Font != b.Font {
			return strings.Compare(a.Font, b.Font)
		}
		return strings.Compare(a.Sort, b.Sort)
	})
	return false, &list[0]
}

func (w *work) canStand(pages []int) bool {
	ok, _ := w.fits(w.total(pages))
	return ok
}

func TestFitAgainstShortfallsByName(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWork(t, 0)
		have := newStock(w.columns)
		for range 4 {
			sum := rapid.SliceOfN(rapid.IntRange(0, 40), len(w.columns), len(w.columns)).Draw(t, "sum")
			ok, limit := w.fits(sum)
			if got := have.canStand(sum); got != ok {
				t.Fatalf("%v of %+v: can stand %t, want %t", sum, w.columns, got, ok)
			}
			if got := have.limit(sum); got == nil != ok || got != nil && *got != *limit {
				t.Fatalf("%v of %+v: limit %+v, want %+v", sum, w.columns, got, limit)
			}
		}
	})
}

func TestLimit(t *testing.T) {
	columns := []Column{
		{Font: "B", Sort: "a", Available: 10}, {Font: "A", Sort: "z", Available: 10}, {Font: "A", Sort: "é", Available: 10},
		{Font: "A", Sort: "thick", Space: true, Width: 333, Available: 3}, {Font: "A", Sort: "em quad", Space: true, Width: 1000, Available: 1},
	}
	for _, c := range []struct {
		name string
		sum  []int
		want *Limit
	}{
		{"nothing", []int{0, 0, 0, 0, 0}, nil},
		{"to the last piece", []int{10, 10, 10, 3, 1}, nil},
		{"the largest shortfall", []int{13, 11, 12, 0, 0}, &Limit{"B", "a", 3}},
		{"of equals the first font", []int{12, 12, 10, 0, 0}, &Limit{"A", "z", 2}},
		{"of equals the first sort, in byte order", []int{12, 12, 12, 0, 0}, &Limit{"A", "z", 2}},
		{"spaces make one another up: 6 thicks are 1998, and 1999 are there", []int{0, 0, 0, 6, 0}, nil},
		{"an em quad too many", []int{0, 0, 0, 3, 2}, &Limit{"A", "spacing", 1}},
		{"two em quads too many, to the thousandth", []int{0, 0, 0, 3, 3}, &Limit{"A", "spacing", 2}},
		{"ems rounded up: 1999 + 4 thicks", []int{0, 0, 0, 10, 1}, &Limit{"A", "spacing", 3}},
		{"of equals the pool by its name", []int{0, 11, 11, 3, 2}, &Limit{"A", "spacing", 1}},
	} {
		got := newStock(columns).limit(c.sum)
		if (got == nil) != (c.want == nil) || got != nil && *got != *c.want {
			t.Errorf("%s: limit %+v, want %+v", c.name, got, c.want)
		}
	}
}
