package stick

import (
	"slices"

	"formewise/texts/sorts"
)

// The spaces and quads that are used in composing, by the names a font may give them; a font may have others in its
// stock, which are left in the case. Some have two names in the trade.
var composing = map[string]bool{
	"3-em quad": true, "2-em quad": true, "em quad": true, "en quad": true,
	"thick": true, "3-to-em": true, "middle": true, "4-to-em": true, "thin": true, "5-to-em": true,
	"6-to-em": true, "hair": true,
}

// A mix is one or several spaces set side by side, the widest first.
type mix struct {
	width  int // thousandths of a point
	pieces []sorts.ID
}

// A space is one kind of space, with its width.
type space struct {
	id    sorts.ID
	width int
}

// spacesOf lists the spaces of a font that are used in composing, the widest first; of two of the same width, the one
// entered first.
func spacesOf(cases *sorts.Cases, font int) []space {
	var list []space
	for n, s := range cases.Font(font).Sorts {
		if s.Space && composing[s.Name] && s.Width > 0 {
			list = append(list, space{cases.ID(font, n), s.Width})
		}
	}
	slices.SortStableFunc(list, func(a, b space) int { return b.width - a.width })
	return slices.CompactFunc(list, func(a, b space) bool { return a.width == b.width })
}

// thinOf is the narrowest word space allowed: the font's thin space, and a fifth of an em where it has none or a very odd one.
func thinOf(cases *sorts.Cases, font, em int) int {
	for _, s := range cases.Font(font).Sorts {
		if s.Space && (s.Name == "thin" || s.Name == "5-to-em") && 6*s.Width >= em && 4*s.Width <= em {
			return s.Width
		}
	}
	return (em + 4) / 5
}

// partingOf is the space that parts a kerned sort from one that it would strike: the font's thin space; where it has none, the
// narrowest of those that are no wider than a fifth of an em. It tells whether there is one.
func partingOf(cases *sorts.Cases, font, em int) (parting sorts.ID, ok bool) {
	for n, s := range cases.Font(font).Sorts {
		if s.Space && s.Width > 0 && (s.Name == "thin" || s.Name == "5-to-em") {
			return cases.ID(font, n), true
		}
	}
	spaces := spacesOf(cases, font)
	if n := len(spaces); n > 0 && 5*spaces[n-1].width <= em {
		return spaces[n-1].id, true
	}
	return 0, false
}

// mixes lists every width up to most that pieces of the given spaces make together, each once, in the fewest pieces, in
// order of width.
func mixes(spaces []space, pieces, most int) []mix {
	best := map[int][]sorts.ID{}
	var try func(from, width int, ids []sorts.ID)
	try = func(from, width int, ids []sorts.ID) {
		if have, ok := best[width]; !ok || len(ids) < len(have) {
			best[width] = slices.Clone(ids)
		}
		if len(ids) == pieces {
			return
		}
		for i := from; i < len(spaces); i++ {
			if w := width + spaces[i].width; w <= most {
				try(i, w, append(ids, spaces[i].id))
			}
		}
	}
	try(0, 0, nil)
	list := make([]mix, 0, len(best))
	for w, ids := range best {
		list = append(list, mix{w, ids})
	}
	slices.SortFunc(list, func(a, b mix) int { return a.width - b.width })
	return list
}
