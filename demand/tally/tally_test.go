package tally

import (
	"math"
	"runtime"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestWorkedExample(t *testing.T) {
	// The one of the package comment.
	table := New(3)
	table.Add([]uint32{3, 1, 0})
	table.Add([]uint32{2, 0, 4})
	table.Add([]uint32{5, 1, 1})
	for c, want := range []int{7, 1, 5} {
		if got := table.Run(2, 3, c); got != want {
			t.Errorf("pages 2 to 3, column %d: %d, want %d", c, got, want)
		}
	}
	for c, want := range []int{10, 2, 5} {
		if got := table.Total(c); got != want {
			t.Errorf("total of column %d: %d, want %d", c, got, want)
		}
	}
	for c, want := range []int{5, 1, 4} {
		if got := table.PageMax(c); got != want {
			t.Errorf("fullest page, column %d: %d, want %d", c, got, want)
		}
	}
}

func TestNothing(t *testing.T) {
	table := New(2)
	if table.Pages() != 0 || table.Columns() != 2 || table.Total(1) != 0 || table.PageMax(0) != 0 || table.Run(1, 0, 1) != 0 {
		t.Error("a tally of no pages holds something")
	}
	none := New(0)
	none.Add(nil)
	none.Add([]uint32{})
	none.AddPageTo(nil, 2)
	if none.Pages() != 2 || none.Columns() != 0 {
		t.Errorf("no columns: %d pages, %d columns", none.Pages(), none.Columns())
	}
}

func TestAgainstCountingAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		columns := rapid.IntRange(1, 6).Draw(t, "columns")
		pages := rapid.SliceOfN(rapid.SliceOfN(rapid.Uint32Range(0, 9), columns, columns), 0, 30).Draw(t, "pages")
		table := New(columns)
		for _, page := range pages {
			given := append([]uint32(nil), page...)
			table.Add(given)
			clear(given) // it is not kept
		}
		if table.Pages() != len(pages) {
			t.Fatalf("%d pages, want %d", table.Pages(), len(pages))
		}
		first := rapid.IntRange(1, len(pages)+1).Draw(t, "first")
		last := rapid.IntRange(0, len(pages)).Draw(t, "last")
		sum, back := make([]int, columns), make([]int, columns)
		for p := first; p <= last; p++ {
			table.AddPageTo(sum, p)
			table.TakePageFrom(back, p)
		}
		for c := range columns {
			run, total, most := 0, 0, 0
			for i, page := range pages {
				n := int(page[c])
				if p := i + 1; p >= first && p <= last {
					run += n
				}
				total += n
				most = max(most, n)
				if got := table.Page(i+1, c); got != n {
					t.Fatalf("page %d column %d: %d, want %d", i+1, c, got, n)
				}
			}
			if table.Run(first, last, c) != run || sum[c] != run || back[c] != -run || table.Total(c) != total || table.PageMax(c) != most {
				t.Fatalf("column %d: run %d, added %d, taken %d, total %d, fullest %d; want %d, %d, %d", c,
					table.Run(first, last, c), sum[c], back[c], table.Total(c), table.PageMax(c), run, total, most)
			}
		}
	})
}

func TestRowsWiderThanASlab(t *testing.T) {
	const columns = slabCells + 1
	table := New(columns)
	page := make([]uint32, columns)
	for p := range 3 {
		page[0], page[columns-1] = uint32(p), 2
		table.Add(page)
	}
	if table.Total(0) != 3 || table.Total(columns-1) != 6 || table.Total(1) != 0 {
		t.Errorf("totals %d, %d, %d; want 3, 6, 0", table.Total(0), table.Total(columns-1), table.Total(1))
	}
}

func TestMemoryIsWhatIsPromised(t *testing.T) {
	const pages, columns = 20_000, 200
	page := make([]uint32, columns)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	table := New(columns)
	for range pages {
		table.Add(page)
	}
	runtime.ReadMemStats(&after)
	// All that was ever asked for, so a table copied as it grows would show. Five slice headers a page: append's own growth.
	asked, promised := after.TotalAlloc-before.TotalAlloc, uint64(pages*columns*4)
	if most := promised + 5*24*pages + 2<<20; asked > most {
		t.Errorf("%d bytes asked for, want at most %d (%d for the cells)", asked, most, promised)
	}
	runtime.KeepAlive(table)
}

func TestAddRefuses(t *testing.T) {
	for _, c := range []struct {
		name  string
		pages [][]uint32
		want  string
	}{
		{"too few counts", [][]uint32{{1}}, "a page of 1 counts in a table of 2 columns"},
		{"too many counts", [][]uint32{{1, 2, 3}}, "a page of 3 counts in a table of 2 columns"},
		{"more pieces than it can count", [][]uint32{{1, math.MaxUint32}, {1, 1}}, "column 1 passes 4294967295 pieces on page 2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			defer func() {
				if said, _ := recover().(string); !strings.Contains(said, c.want) {
					t.Errorf("panic %q, want %q", said, c.want)
				}
			}()
			table := New(2)
			for _, page := range c.pages {
				table.Add(page)
			}
		})
	}
	table := New(1)
	table.Add([]uint32{math.MaxUint32 - 1})
	table.Add([]uint32{1})
	if table.Total(0) != math.MaxUint32 {
		t.Errorf("total %d, want %d", table.Total(0), uint32(math.MaxUint32))
	}
}
