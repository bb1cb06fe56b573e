package stick

import (
	"slices"

	"formewise/texts/sorts"
)

// A filler makes word spaces of the spaces that a font has.
//
// What is left of a line, S, is shared among its g gaps so that no two gaps differ by more than a sixth of an em (an en from a
// thick space, the handbooks' limit: MacKellar, The American Printer, 1893, pp. 130-131) and at most a twentieth of an em is
// left over, in the fewest pieces. That is how a compositor does it: most gaps get one of two mixes of spaces, k of
// them the wider one, and one odd gap takes up what is left:
//
//	S = (g-k) low + k high          or         S = (g-k-1) low + k high + odd
//
// Only what the gaps cannot take up goes to the line's end.
type filler struct {
	em    int
	least int // the narrowest gap there can be
	near  int // how much two gaps of a line may differ
	slack int // how much may be left over in a line that counts as filled
	gaps  []mix
	thick int // of gaps, the one nearest to a thick space: the ordinary word space
	ends  []mix
	quads []space // the widest first: those of an em or more, or just the widest
	menu  [][]pair
}

// A pair is two mixes for the gaps of one line, as indexes into gaps; both may be the same.
type pair struct {
	low, high int16
	from, to  int16 // the mixes that are near enough to both to be the odd gap: from the narrowest up to, and without, to
	pieces    int8  // of both
}

// A filling says what each gap of a line is made of, and what stands at its end.
type filling struct {
	wide  int // of every gap, so much in quads (very open lines)
	low   int16
	high  int16
	odd   int16 // -1: no odd gap
	k     int   // how many gaps are high
	g     int
	width int // everything, the end too
	end   quadding
}

const (
	steps   = 30 // the menu has a page for every thirtieth of an em,
	upTo    = 36 // up to 36 thirtieths: wider gaps are opened with quads first
	fewest  = 3  // pieces that a gap may be made of,
	atEnd   = 4  // and the end of a line,
	coarse  = 6  // and both where a font has few kinds of space
	noGapAt = -1
)

func newFiller(cases *sorts.Cases, font, em int) *filler {
	spaces := spacesOf(cases, font)
	if len(spaces) == 0 {
		return nil
	}
	f := &filler{em: em, near: em / 6, slack: em / 20}
	thin := thinOf(cases, font, em)
	pieces, end := fewest, atEnd
	if len(spaces) < 5 {
		pieces, end = coarse, coarse
	}
	for _, m := range mixes(spaces, pieces, em*upTo/steps+f.near) {
		if m.width >= thin {
			f.gaps = append(f.gaps, m)
		}
	}
	if len(f.gaps) == 0 { // nothing but quads wider than that: they are the gaps
		f.gaps = mixes(spaces, 1, spaces[0].width)[1:]
	}
	f.least = f.gaps[0].width
	for i, m := range f.gaps {
		if abs(3*m.width-em) < abs(3*f.gaps[f.thick].width-em) {
			f.thick = i
		}
	}
	for _, s := range spaces {
		// A font that has quads, and no em quad, goes on to its widest space under an em: wide quads alone leave too much.
		if n := len(f.quads); s.width >= em || n == 0 || f.quads[n-1].width > em {
			f.quads = append(f.quads, s)
		}
	}
	f.ends = mixes(spaces, end, 2*f.quads[len(f.quads)-1].width)
	f.write()
	return f
}

// write makes the menu: for every step of the mean gap the pairs that may serve, those of the fewest pieces first.
func (f *filler) write() {
	f.menu = make([][]pair, upTo+1)
	for page := range f.menu {
		from, to := page*f.em/steps, (page+1)*f.em/steps
		for i, low := range f.gaps {
			if low.width > to {
				break
			}
			for j := i; j < len(f.gaps); j++ {
				high := f.gaps[j]
				if high.width > low.width+f.near {
					break
				}
				// A high gap a little under the mean may still serve: the odd one or the slack makes it up.
				if high.width >= from-f.near {
					from, to := f.odd(low, high)
					f.menu[page] = append(f.menu[page], pair{int16(i), int16(j), from, to, int8(len(low.pieces) + len(high.pieces))})
				}
			}
		}
		slices.SortStableFunc(f.menu[page], func(a, b pair) int {
			if a.pieces != b.pieces {
				return int(a.pieces) - int(b.pieces)
			}
			if a.high-a.low != b.high-b.low {
				return int(a.high-a.low) - int(b.high-b.low) // alike before unlike
			}
			return f.off(a, from+to) - f.off(b, from+to)
		})
	}
}

// odd are the mixes that are near enough to two others to stand in a line with them. The two are among them.
func (f *filler) odd(low, high mix) (from, to int16) {
	for _, m := range f.gaps {
		if m.width < high.width-f.near {
			from++
		}
		if m.width <= low.width+f.near {
			to++
		}
	}
	return from, to
}

// off is how far a pair lies from twice a mean gap: the nearer pair makes the more even line of as many pieces.
func (f *filler) off(p pair, mean2 int) int {
	return abs(f.gaps[p.low].width + f.gaps[p.high].width - mean2)
}

// fill shares room among g gaps, g > 0 and room at least g times the least gap. It tells whether the line is filled.
func (f *filler) fill(g, room int) (filling, bool) {
	wide := 0
	if mean := room / g; mean*steps > f.em*upTo {
		wide = f.bulk(mean - f.least)
	}
	best := filling{odd: noGapAt, g: g, wide: wide}
	if f.share(&best, g, room-g*wide) {
		return best, true
	}
	// Not by the gaps alone: some of it goes to the end of the line.
	for _, e := range f.ends[1:] {
		left := room - e.width
		if left < g*f.least || left < g*wide+g*f.least {
			break
		}
		try := filling{odd: noGapAt, g: g, wide: wide}
		if f.share(&try, g, left-g*wide) {
			try.end = quadding{width: e.width, pieces: len(e.pieces), small: e}
			try.width += e.width
			return try, true
		}
	}
	// Not at all: every gap as wide as will go, alike, and the end filled as nearly as can be.
	low := 0
	for low+1 < len(f.gaps) && g*(wide+f.gaps[low+1].width) <= room {
		low++
	}
	best = filling{odd: noGapAt, g: g, wide: wide, low: int16(low), high: int16(low), width: g * (wide + f.gaps[low].width)}
	best.end, _ = f.quadOut(room - best.width)
	best.width += best.end.width
	return best, room-best.width <= f.slack
}

// share finds the fewest pieces that share room among g gaps, quads apart.
func (f *filler) share(best *filling, g, room int) bool {
	page := min(max(room/g, 0)*steps/f.em, upTo)
	most := 1 << 30 // pieces of the best so far
	for i := range f.menu[page] {
		p := &f.menu[page][i]
		// Where the two mixes differ in pieces, none of the dearer would be the cheaper mix by itself, which was tried before.
		dearer := g * (int(p.pieces) / 2)
		if p.pieces&1 == 1 {
			dearer++
		}
		if dearer >= most {
			break
		}
		f.try(best, p, g, room, &most)
	}
	return most < 1<<30
}

// try takes one pair, without and with an odd gap, and keeps the best.
func (f *filler) try(best *filling, p *pair, g, room int, most *int) {
	low, high := &f.gaps[p.low], &f.gaps[p.high]
	step := high.width - low.width
	cheap, dear := len(low.pieces), len(high.pieces)
	k := 0
	left := room - g*low.width
	if left < 0 || room-(g-1)*high.width-f.gaps[p.to-1].width > f.slack {
		return // too wide, or not wide enough however many are high
	}
	if step > 0 {
		k = min(left/step, g)
		left -= k * step
	}
	pieces := (g-k)*cheap + k*dear
	if left <= f.slack {
		if pieces < *most {
			*most = pieces
			best.low, best.high, best.odd, best.k, best.width = p.low, p.high, noGapAt, k, g*best.wide+room-left
		}
		return
	}
	if pieces-2*max(0, dear-cheap)-(cheap-1) >= *most {
		return
	}
	for o := p.from; o < p.to; o++ {
		odd := &f.gaps[o]
		left := room - odd.width - (g-1)*low.width
		if left < 0 {
			break
		}
		k := 0
		if step > 0 {
			k = min(left/step, g-1)
			left -= k * step
		}
		if left > f.slack {
			continue
		}
		if pieces := (g-1-k)*cheap + k*dear + len(odd.pieces); pieces < *most {
			*most = pieces
			best.low, best.high, best.odd, best.k, best.width = p.low, p.high, o, k, g*best.wide+room-left
		}
	}
}

// gaps tells how many gaps are low, high and odd.
func (fl filling) gaps() (low, high, odd int) {
	if fl.odd != noGapAt {
		odd = 1
	}
	return fl.g - fl.k - odd, fl.k, odd
}
