package stick

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"testing"

	"formewise/demand/internal/trial"
	"formewise/texts/sorts"

	"pgregory.net/rapid"
)

// A spacing is a font of spaces, with its filler.
type spacing struct {
	*filler
	spaces []space
	width  map[sorts.ID]int
}

func newSpacing(t interface{ Fatal(...any) }, em int, list []sorts.Sort) spacing {
	cases, err := sorts.Lay(sorts.Font{Name: "Spaces", Body: em, Sorts: list})
	if err != nil {
		t.Fatal(err)
	}
	s := spacing{newFiller(cases, 0, em), spacesOf(cases, 0), map[sorts.ID]int{}}
	for n, sort := range list {
		s.width[cases.ID(0, n)] = sort.Width
	}
	return s
}

// parts are the spaces of the contract, widest first, as what part of the em they are, by their names.
var parts = []struct {
	name     string
	num, den int
}{
	{"3-em quad", 3, 1}, {"2-em quad", 2, 1}, {"em quad", 1, 1}, {"en quad", 1, 2}, {"thick", 1, 3}, {"middle", 1, 4}, {"thin", 1, 5}, {"6-to-em", 1, 6}, {"hair", 1, 12},
}

// cast gives spaces of the widths that their names say.
func cast(em int, names ...string) []sorts.Sort {
	var list []sorts.Sort
	for _, p := range parts {
		if slices.Contains(names, p.name) {
			list = append(list, sorts.Sort{Name: p.name, Space: true, Width: em * p.num / p.den})
		}
	}
	return list
}

// withHair gives a hair space another width.
func withHair(list []sorts.Sort, width int) []sorts.Sort {
	list[len(list)-1].Width = width
	return list
}

var (
	workable = []string{"em quad", "en quad", "thick", "middle", "thin", "hair"} // what the contract says fills every line
	usual    = append([]string{"3-em quad", "2-em quad"}, workable...)
)

// drawSpaces draws one to nine spaces: cast true, cast badly, or of any width at all.
func drawSpaces(t *rapid.T) (em int, list []sorts.Sort) {
	em = rapid.IntRange(4000, 60000).Draw(t, "em")
	how := rapid.SampledFrom([]string{"true", "badly", "oddly"}).Draw(t, "cast")
	kinds := rapid.SliceOfNDistinct(rapid.IntRange(0, len(parts)-1), 1, len(parts), rapid.ID[int]).Draw(t, "kinds")
	for _, k := range kinds {
		width := em * parts[k].num / parts[k].den
		switch how {
		case "badly":
			width = max(1, width*rapid.IntRange(80, 120).Draw(t, "per cent")/100)
		case "oddly":
			width = rapid.IntRange(em/60, 3*em).Draw(t, "width")
		}
		list = append(list, sorts.Sort{Name: parts[k].name, Space: true, Width: width})
	}
	return em, list
}

// made gives the width of every gap of a filling, one by one as it is emitted, and its pieces.
func (s spacing) made(fl filling) (gaps []int, pieces []sorts.ID) {
	low, high, odd := fl.gaps()
	add := func(n int, m int16) {
		for range n {
			of := s.gap(nil, fl.wide, m)
			gaps = append(gaps, s.total(of))
			pieces = append(pieces, of...)
		}
	}
	add(low, fl.low)
	add(high, fl.high)
	if odd > 0 {
		add(odd, fl.odd)
	}
	return gaps, s.lay(pieces, fl.end)
}

func (s spacing) total(ids []sorts.ID) int {
	width := 0
	for _, id := range ids {
		width += s.width[id]
	}
	return width
}

// The laws that hold whatever the spaces are.
func TestFillingLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		em, list := drawSpaces(t)
		s := newSpacing(t, em, list)
		if s.filler == nil {
			t.Fatalf("no filler for %+v", list)
		}
		for range 20 {
			g := rapid.IntRange(1, 15).Draw(t, "gaps")
			room := g*s.least + rapid.IntRange(0, g*4*em).Draw(t, "room over the least")
			fl, filled := s.fill(g, room)
			gaps, pieces := s.made(fl)
			if len(gaps) != g {
				t.Fatalf("%d gaps in %d: %d were made", g, room, len(gaps))
			}
			if fl.width > room || s.total(pieces) != fl.width {
				t.Fatalf("%d gaps in %d: pieces of %d, said to be %d", g, room, s.total(pieces), fl.width)
			}
			if low, high := slices.Min(gaps), slices.Max(gaps); low < s.least || high-low > em/6 {
				t.Fatalf("%d gaps in %d: from %d to %d (least %d, em %d)", g, room, low, high, s.least, em)
			}
			if filled != (room-fl.width <= em/20) {
				t.Fatalf("%d gaps in %d: said to be filled: %t, with %d left over", g, room, filled, room-fl.width)
			}
		}
		for range 20 {
			room := rapid.IntRange(-em, 50*em).Draw(t, "end")
			q, filled := s.quadOut(room)
			pieces := s.lay(nil, q)
			if q.width > max(room, 0) || s.total(pieces) != q.width || len(pieces) != q.pieces {
				t.Fatalf("an end of %d: %d pieces of %d, said to be %d of %d", room, len(pieces), s.total(pieces), q.pieces, q.width)
			}
			if filled != (max(room, 0)-q.width <= em/20) {
				t.Fatalf("an end of %d: said to be filled: %t, with %d left over", room, filled, room-q.width)
			}
		}
	})
}

// With thick, middle, thin, a hair of a tenth of an em or less, en and em quads every line with a gap can be filled, whatever else
// there is. Hairs are tried down to a forty-eighth: brass and paper are thinner, and no font of them is cast.
func TestWorkableSpacesFillEveryLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		em := rapid.IntRange(4000, 60000).Draw(t, "em")
		names := slices.Clone(workable)
		for _, more := range []string{"3-em quad", "2-em quad", "6-to-em"} {
			if rapid.Bool().Draw(t, more) {
				names = append(names, more)
			}
		}
		s := newSpacing(t, em, withHair(cast(em, names...), rapid.IntRange(em/48, em/10).Draw(t, "hair")))
		for range 100 {
			g := rapid.IntRange(1, 20).Draw(t, "gaps")
			room := g*s.least + rapid.IntRange(0, g*5*em).Draw(t, "room over the least")
			if fl, filled := s.fill(g, room); !filled || room-fl.width > em/20 {
				t.Fatalf("%d gaps in %d: %d left over of an em of %d", g, room, room-fl.width, em)
			}
		}
	})
}

// never is the count of what cannot be done.
const never = 1 << 30

// fewestOfAll is the slow twin of share: it tries every way to share room among up to a few gaps, each of any mix, no two further
// apart than a sixth of an em, and gives the fewest pieces; never where there is no way.
func (s spacing) fewestOfAll(g, room int) int {
	best := never
	var try func(from, first, g, room, pieces int)
	try = func(from, first, g, room, pieces int) {
		if g == 0 {
			if room >= 0 && room <= s.slack {
				best = min(best, pieces)
			}
			return
		}
		for m := from; m < len(s.gaps) && s.gaps[m].width <= first+s.near && g*s.gaps[m].width <= room; m++ {
			try(m, first, g-1, room-s.gaps[m].width, pieces+len(s.gaps[m].pieces))
		}
	}
	for m := range s.gaps {
		try(m, s.gaps[m].width, g-1, room-s.gaps[m].width, len(s.gaps[m].pieces))
	}
	return best
}

// fewest is the same by dynamic programming, for any number of gaps, where all widths are whole multiples of unit.
func (s spacing) fewest(g, room, unit int) int {
	best := never
	for first := range s.gaps {
		low := s.gaps[first].width
		spare := (room - g*low) / unit // over g gaps of the lowest
		if room < g*low || room-s.slack > g*(low+s.near) {
			continue
		}
		pieces := make([][]int, g+1) // of the fewest, by gaps and spare taken up
		for n := range pieces {
			pieces[n] = slices.Repeat([]int{never}, spare+1)
		}
		pieces[0][0] = 0
		for n := range g {
			for x, p := range pieces[n] {
				for m := first; p < never && m < len(s.gaps) && s.gaps[m].width <= low+s.near; m++ {
					if y := x + (s.gaps[m].width-low)/unit; y <= spare {
						pieces[n+1][y] = min(pieces[n+1][y], p+len(s.gaps[m].pieces))
					}
				}
			}
		}
		for x, p := range pieces[g] {
			if room-g*low-x*unit <= s.slack {
				best = min(best, p)
			}
		}
	}
	return best
}

// shared is what the filler does, in pieces: never where it finds no way by the gaps alone.
func (s spacing) shared(g, room int) int {
	fl := filling{odd: noGapAt, g: g}
	if !s.share(&fl, g, room) {
		return never
	}
	_, pieces := s.made(fl)
	return len(pieces)
}

// widest is the mean gap up to which gaps are shared out by mixes alone.
func (s spacing) widest() int { return s.em * upTo / steps }

// Whatever the spaces: up to three gaps are filled by the gaps alone wherever any mixes fill them, and by fewer pieces never.
func TestSharingAmongFewAgainstAllMixes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		em, list := drawSpaces(t)
		s := newSpacing(t, em, list)
		for range 20 {
			g := rapid.IntRange(1, 3).Draw(t, "gaps")
			room := g*s.least + rapid.IntRange(0, g*em).Draw(t, "room over the least")
			if room/g > s.widest() {
				continue
			}
			got, best := s.shared(g, room), s.fewestOfAll(g, room)
			if (got == never) != (best == never) || got < best {
				t.Fatalf("%d gaps in %d: %d pieces, of all mixes %d (of 2^30: none)", g, room, got, best)
			}
		}
	})
}

// With spaces cast true, hair spaces of a tenth to a twenty-fourth among them, the pieces are the fewest there can be: for up to
// three gaps always, for any number of gaps while they are under two thirds of an em.
func TestSharingIsOfFewestPieces(t *testing.T) {
	const em, unit = 12000, 100
	for _, hair := range []int{10, 12, 24} {
		for _, names := range [][]string{workable, usual, append([]string{"6-to-em"}, usual...)} {
			s := newSpacing(t, em, withHair(cast(em, names...), em/hair))
			for g := 1; g <= 12; g++ {
				high := 2 * em / 3
				if g <= 3 {
					high = s.widest()
				}
				for room := g * s.least; room < g*high; room += 1009 {
					if got, best := s.shared(g, room), s.fewest(g, room, unit); got != best {
						t.Fatalf("hair of 1/%d, %v: %d gaps in %d: %d pieces, fewest %d", hair, names, g, room, got, best)
					}
				}
			}
		}
	}
}

// Beyond that the filler keeps to two mixes and one odd gap, and now and then sets more pieces than need be. How seldom, and how many:
func TestSharingElsewhereIsNearTheFewest(t *testing.T) {
	const em, unit = 12000, 100
	tried, more, pieces := 0, 0, 0
	for _, hair := range []int{10, 12, 24} {
		s := newSpacing(t, em, withHair(cast(em, usual...), em/hair))
		for g := 4; g <= 8; g++ {
			for room := g * 2 * em / 3; room < g*s.widest(); room += 177 {
				got, best := s.shared(g, room), s.fewest(g, room, unit)
				if got < best || got == never {
					t.Fatalf("hair of 1/%d: %d gaps in %d: %d pieces, fewest %d", hair, g, room, got, best)
				}
				tried++
				if got > best {
					more++
					pieces = max(pieces, got-best)
				}
			}
		}
	}
	t.Logf("%d of %d rooms take more pieces than need be, %d at the most", more, tried, pieces)
	if more*25 > tried || pieces > 4 {
		t.Errorf("%d of %d rooms take more pieces than need be, %d at the most; it was one in 25 and 4", more, tried, pieces)
	}
}

// A line's end takes the fewest pieces, by dynamic programming over all widths. Fonts with quads wider than an em have an em quad or en quads here.
func TestQuadsAreFewest(t *testing.T) {
	const em, unit, most = 12000, 100, 40 * 12000
	for _, names := range [][]string{
		usual, workable, append([]string{"6-to-em"}, usual...), {"em quad", "en quad", "thick", "middle", "thin"}, {"3-em quad", "em quad", "thick", "thin"},
		{"em quad", "thick", "thin"}, {"en quad", "thick"}, {"thick"}, {"em quad"}, {"3-em quad", "en quad", "thick", "middle", "thin", "hair"},
	} {
		s := newSpacing(t, em, cast(em, names...))
		fewest := slices.Repeat([]int{never}, most/unit+1) // by width
		fewest[0] = 0
		for x := range fewest {
			for _, space := range s.spaces {
				if w := space.width / unit; w <= x {
					fewest[x] = min(fewest[x], fewest[x-w]+1)
				}
			}
		}
		for room := 0; room <= most; room += 13 {
			want := never
			for x := room / unit; x >= 0 && room-x*unit <= s.slack; x-- {
				want = min(want, fewest[x])
			}
			got, filled := s.quadOut(room)
			if filled != (want < never) || filled && got.pieces != want {
				t.Fatalf("%v: an end of %d: %d pieces, filled %t; fewest %d (of 2^30: it cannot be filled)", names, room, got.pieces, filled, want)
			}
		}
	}
}

// The largest quads stand at the end, what justifies them next to the type.
func TestQuadsInOrder(t *testing.T) {
	s := newSpacing(t, 12000, cast(12000, usual...))
	for _, c := range []struct {
		room int
		want []int
	}{
		{12000, []int{12000}},
		{24000, []int{24000}},
		{60000, []int{24000, 36000}},
		{18000, []int{6000, 12000}},
		{84000 + 4000, []int{4000, 12000, 36000, 36000}},
		{36000 + 4000, []int{4000, 36000}},
		{0, nil},
	} {
		q, _ := s.quadOut(c.room)
		var got []int
		for _, id := range s.lay(nil, q) {
			got = append(got, s.width[id])
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("an end of %d: %v, want %v", c.room, got, c.want)
		}
	}
}

// What a compositor can make of thin, middle and thick spaces and an en quad under an em, in sixtieths of it, up to four pieces:
// A. A. Stewart, Typesetting, Chicago 1919; the spaces' own widths are those of spaces.csv (SOURCES.md). He has the em itself too, which
// five thin or three thick make. With three pieces, as the gaps of a line are made here, four of his widths are wanting.
func TestStewartsWidths(t *testing.T) {
	f, err := os.Open(filepath.Join(trial.Root(), "testdata", "handbook", "spaces.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var spaces []space
	for _, row := range rows[1:] {
		switch row[0] {
		case "en quad (thick space to some)", "thick / three-to-em", "middle / four-to-em", "thin / five-to-em":
			width, err := strconv.Atoi(row[2])
			if err != nil {
				t.Fatal(err)
			}
			spaces = append(spaces, space{sorts.ID(len(spaces)), width})
		}
	}
	if len(spaces) != 4 {
		t.Fatalf("spaces.csv has %d of the four spaces", len(spaces))
	}
	stewart := []int{12, 15, 20, 24, 27, 30, 32, 35, 36, 39, 40, 42, 44, 45, 47, 48, 50, 51, 52, 54, 55, 56, 57, 59, 60}
	for _, c := range []struct {
		pieces  int
		wanting []int
	}{{3, []int{48, 51, 56, 59}}, {4, nil}, {5, nil}, {9, nil}} {
		want := slices.DeleteFunc(slices.Clone(stewart), func(w int) bool { return slices.Contains(c.wanting, w) })
		var got []int
		for _, m := range mixes(spaces, c.pieces, 60) {
			if m.width > 0 {
				got = append(got, m.width)
			}
		}
		if !slices.Equal(got, want) {
			t.Errorf("%d pieces: %v, want %v", c.pieces, got, want)
		}
	}
}

// Every mix is of the fewest pieces: of all rows of up to four spaces.
func TestMixesAgainstAllRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		widths := rapid.SliceOfNDistinct(rapid.IntRange(1, 30), 1, 6, rapid.ID[int]).Draw(t, "widths")
		var spaces []space
		for i, w := range widths {
			spaces = append(spaces, space{sorts.ID(i), w})
		}
		pieces, most := rapid.IntRange(1, 4).Draw(t, "pieces"), rapid.IntRange(0, 80).Draw(t, "most")
		want := map[int]int{0: 0}
		for n, row := 1, []int{0}; n <= pieces; n++ {
			var longer []int
			for _, before := range row {
				for _, w := range widths {
					longer = append(longer, before+w)
				}
			}
			for _, w := range longer {
				if _, ok := want[w]; !ok && w <= most {
					want[w] = n
				}
			}
			row = longer
		}
		got := mixes(spaces, pieces, most)
		for i, m := range got {
			width := 0
			for _, id := range m.pieces {
				width += widths[id]
			}
			if n, ok := want[m.width]; !ok || n != len(m.pieces) || width != m.width || i > 0 && got[i-1].width >= m.width {
				t.Fatalf("%v, %d pieces up to %d: mix %+v, want one of %d pieces", widths, pieces, most, m, n)
			}
		}
		if len(got) != len(want) {
			t.Fatalf("%v, %d pieces up to %d: %d mixes, want %d", widths, pieces, most, len(got), len(want))
		}
	})
}
