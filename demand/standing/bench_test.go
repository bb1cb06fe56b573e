package standing

import (
	"testing"

	"formewise/demand/impose"
	"formewise/demand/tally"
)

// BenchmarkQuestions asks everything of a work of 1,000 pages and 200 sorts, where sorts run out all over and the work is
// cut into many sections.
func BenchmarkQuestions(b *testing.B) {
	const pages, sorts = 1000, 200
	columns := make([]Column, sorts)
	for c := range columns {
		columns[c] = Column{Font: "Ferry Roman 12", Sort: string(rune('a' + c)), Available: 17 * (10 + c%20)}
		if c >= sorts-8 {
			columns[c].Space, columns[c].Width = true, 100*(c-sorts+9)
		}
	}
	table := tally.New(sorts)
	pieces := make([][]uint16, pages)
	counts := make([]uint32, sorts)
	for p := range pages {
		for c := range counts {
			counts[c] = uint32((p*7+c*13)%(10+c%20) + c%3)
			for range counts[c] {
				pieces[p] = append(pieces[p], uint16(c))
			}
		}
		table.Add(counts)
	}
	lines := func(page int) []Line { return []Line{{Number: 1, Text: true, Pieces: pieces[page-1]}} }
	plan := impose.Plan{Format: "octavo", In: 1}
	formes := impose.Formes(pages, plan)
	b.ReportAllocs()
	for b.Loop() {
		Reckon(table, formes, Schedule{Standing: 1}, columns, lines)
		Stand(table, formes, columns, func(pages int) int { return pages }, lines)
		if s := Cut(table, formes, plan, columns); s == nil || len(s.List) < 2 {
			b.Fatalf("the work was to be cut into sections: %+v", s)
		}
	}
}
