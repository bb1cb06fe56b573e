package standing

import "cmp"

// Spacing is the name by which the pool of a font's spaces and quads is called where it is the pool that stops.
const Spacing = "spacing"

// Limit is the sort that keeps pages from standing.
type Limit struct {
	Font, Sort string
	Short      int // pieces that are wanted and not there; of Spacing, ems, rounded up
}

// stock is what is available, put so that pages can be held against it.
type stock struct {
	columns  []Column
	printing []int    // columns judged piece by piece
	spaces   []int    // columns judged by width
	poolOf   []int    // of a column: its pool; of a printing sort not used
	fonts    []string // whose pool it is
	width    []int    // available in a pool, thousandths of an em
	used     []int    // scratch: taken of a pool
}

func newStock(columns []Column) *stock {
	s := &stock{columns: columns, poolOf: make([]int, len(columns))}
	pools := map[string]int{}
	for c, col := range columns {
		if !col.Space {
			s.printing = append(s.printing, c)
			continue
		}
		pool, known := pools[col.Font]
		if !known {
			pool = len(s.fonts)
			pools[col.Font] = pool
			s.fonts = append(s.fonts, col.Font)
			s.width = append(s.width, 0)
		}
		s.spaces = append(s.spaces, c)
		s.poolOf[c] = pool
		s.width[pool] += col.Available * col.Width
	}
	s.used = make([]int, len(s.fonts))
	return s
}

// use reckons the width that sum takes of every pool. The answer is good until the next call.
func (s *stock) use(sum []int) []int {
	clear(s.used)
	for _, c := range s.spaces {
		s.used[s.poolOf[c]] += sum[c] * s.columns[c].Width
	}
	return s.used
}

// canStand says if so many pieces, column by column, can stand together.
func (s *stock) canStand(sum []int) bool {
	for _, c := range s.printing {
		if sum[c] > s.columns[c].Available {
			return false
		}
	}
	for pool, width := range s.use(sum) {
		if width > s.width[pool] {
			return false
		}
	}
	return true
}

// limit gives the sort with the largest shortfall when so many pieces are to stand together; of equals the first by font,
// then by sort, in byte order. Nil when they can stand.
func (s *stock) limit(sum []int) *Limit {
	var worst Limit
	hold := func(l Limit) {
		if l.Short > worst.Short || l.Short == worst.Short && cmp.Or(cmp.Compare(l.Font, worst.Font), cmp.Compare(l.Sort, worst.Sort)) < 0 {
			worst = l
		}
	}
	for _, c := range s.printing {
		if col := &s.columns[c]; sum[c] > col.Available {
			hold(Limit{Font: col.Font, Sort: col.Sort, Short: sum[c] - col.Available})
		}
	}
	for pool, width := range s.use(sum) {
		if over := width - s.width[pool]; over > 0 {
			hold(Limit{Font: s.fonts[pool], Sort: Spacing, Short: (over + 999) / 1000})
		}
	}
	if worst.Short == 0 {
		return nil
	}
	return &worst
}
