package stick

import "formewise/texts/sorts"

// A quadding fills the empty end of a line, or its indent.
type quadding struct {
	width  int // what it fills
	pieces int
	small  mix // next to the type: justifying spaces
	quads  int // then so much of the width in quads, the largest at the end
}

// quadOut fills room with the fewest pieces to within slack of it, or as nearly as can be.
func (f *filler) quadOut(room int) (q quadding, filled bool) {
	if room <= 0 {
		return quadding{}, true
	}
	// The widest quads take up the bulk. One quad's width less for them gives the small spaces more ways to make up the rest.
	bulk := 0
	if unit := f.quads[len(f.quads)-1].width; room >= unit {
		bulk = f.bulk(room)
	}
	q, filled = f.quadded(room, bulk)
	if unit := f.quads[len(f.quads)-1].width; bulk >= unit {
		if r, ok := f.quadded(room, bulk-unit); ok && (!filled || r.pieces < q.pieces) {
			q, filled = r, ok
		}
	}
	return q, filled
}

// bulk is how much of room whole quads can take up at most, their widths being whole multiples of the smallest of them or near it.
func (f *filler) bulk(room int) int {
	left := room
	for _, s := range f.quads {
		left %= s.width
	}
	return room - left
}

// quadded fills bulk with quads and the rest of the room with small spaces.
func (f *filler) quadded(room, bulk int) (quadding, bool) {
	q := quadding{}
	left := bulk
	for _, s := range f.quads {
		q.pieces += left / s.width
		left %= s.width
	}
	q.quads = bulk - left
	small, ok := f.end(room - q.quads)
	q.small = small
	q.pieces += len(small.pieces)
	q.width = q.quads + small.width
	return q, ok
}

// end finds the fewest small spaces that fill room to within slack; failing that, those that fill the most of it.
func (f *filler) end(room int) (mix, bool) {
	lo, hi := 0, len(f.ends) // the last that is not wider than room
	for lo < hi {
		if m := (lo + hi) / 2; f.ends[m].width <= room {
			lo = m + 1
		} else {
			hi = m
		}
	}
	best := lo - 1
	if room-f.ends[best].width > f.slack {
		return f.ends[best], false
	}
	for i := best - 1; i >= 0 && room-f.ends[i].width <= f.slack; i-- {
		if len(f.ends[i].pieces) < len(f.ends[best].pieces) {
			best = i
		}
	}
	return f.ends[best], true
}

// lay sets a quadding down in order: justifying spaces next to the type, the narrowest first, the largest quad at the end.
func (f *filler) lay(dst []sorts.ID, q quadding) []sorts.ID {
	for i := len(q.small.pieces) - 1; i >= 0; i-- {
		dst = append(dst, q.small.pieces[i])
	}
	at := len(dst)
	left := q.quads
	for _, s := range f.quads {
		for ; left >= s.width; left -= s.width {
			dst = append(dst, s.id)
		}
	}
	for i, j := at, len(dst)-1; i < j; i, j = i+1, j-1 {
		dst[i], dst[j] = dst[j], dst[i]
	}
	return dst
}
