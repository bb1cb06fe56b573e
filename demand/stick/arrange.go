package stick

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"formewise/texts/house"
	"formewise/texts/read"
	"formewise/texts/sorts"
)

// A Setting is a line as its pieces stand, from left to right.
type Setting struct {
	Pieces []sorts.ID
	Gaps   []int // the width of each gap, in order
}

// arrange lays a line's pieces in order: wider spaces between tall letters that meet, narrower ones after a comma and
// beside letters that slope away (MacKellar, The American Printer, 1893, pp. 130-131); of like places, spread over the line.
func (j *job) arrange(indent quadding, n int, fl filling) Setting {
	h, f := j.h, j.h.stick.fill
	var out Setting
	out.Pieces = f.lay(out.Pieces, indent)
	if j.first && j.initial.width > 0 {
		out.Pieces = f.lay(append(out.Pieces, j.initial.ids...), h.stick.initial.clear)
	}

	type place struct{ gap, wish, turn int }
	var places []place
	gaps := 0
	fixed := j.fixed(n) > 0
	ordinary := func(k int) bool {
		w := &h.words[k]
		return (w.Join == sorts.Gap || w.Join == sorts.NoBreak) && !(fixed && w.pause != house.NoPause)
	}
	for k := range n - 1 {
		if ordinary(k) {
			places = append(places, place{gaps, j.wish(k), turn(gaps)})
			gaps++
		}
	}
	slices.SortFunc(places, func(a, b place) int {
		if a.wish != b.wish {
			return a.wish - b.wish
		}
		return a.turn - b.turn
	})
	low, high, odd := fl.gaps()
	made := make([]int16, 0, gaps)
	for range low {
		made = append(made, fl.low)
	}
	for range high {
		made = append(made, fl.high)
	}
	if odd > 0 {
		made = append(made, fl.odd)
	}
	slices.Sort(made) // by width, as the mixes are
	of := make([]int16, gaps)
	for i, p := range places {
		of[p.gap] = made[i]
	}
	gaps = 0
	for k := range n {
		w := &h.words[k]
		out.Pieces = append(out.Pieces, h.Galley.IDs[w.mark.IDs():w.ids]...)
		switch {
		case k == n-1:
		case ordinary(k):
			out.Pieces = f.gap(out.Pieces, fl.wide, of[gaps])
			out.Gaps = append(out.Gaps, fl.wide+f.gaps[of[gaps]].width)
			gaps++
		case w.pause != house.NoPause:
			out.Pieces = f.lay(out.Pieces, h.stick.pauses[w.pause])
		}
	}
	out.Pieces = f.lay(out.Pieces, fl.end)
	return out
}

// wish tells how wide the gap after word k wants to be beside the others of the line.
func (j *job) wish(k int) int {
	left, _ := utf8.DecodeLastRune(j.text[j.h.words[k].begin:j.h.words[k].End])
	right, _ := utf8.DecodeRune(j.text[j.h.words[k+1].begin:])
	switch {
	case left == ',':
		return -2
	case slopes(left) || slopes(right):
		return -1
	case tall(left) && tall(right):
		return 1
	}
	return 0
}

func slopes(r rune) bool { return strings.ContainsRune("vwyVWYTA", r) }

func tall(r rune) bool { return strings.ContainsRune("bdfhkl", r) || unicode.IsUpper(r) }

// turn orders gaps of equal wishes so that any first few of them lie spread over the line: 0, 4, 2, 6, 1, 5, 3, 7 of eight.
func turn(gap int) int {
	n := 0
	for bit := range 6 {
		n = n<<1 | gap>>bit&1
	}
	return n
}

// IsText tells whether a line is one of text.
func (l *Line) IsText() bool { return l.Kind == read.Prose || l.Kind == read.Verse }
