package standing

import (
	"fmt"
	"slices"
)

// crossing is a page on which a column runs out: room pieces of it can still be set there, and the page takes more.
type crossing struct {
	column, forme, page, room int
}

// findLines looks up the lines on which sorts run out and enters them in d.
func findLines(scheduled, straight []crossing, lines Lines, d *Demand) {
	byPage := map[int]*[2][]crossing{}
	var pages []int
	for kind, list := range [][]crossing{scheduled, straight} {
		for _, x := range list {
			if byPage[x.page] == nil {
				byPage[x.page] = &[2][]crossing{}
				pages = append(pages, x.page)
			}
			byPage[x.page][kind] = append(byPage[x.page][kind], x)
		}
	}
	slices.Sort(pages)
	left := make([]int, len(d.Peak))
	for c := range left {
		left[c] = notWatched
	}
	for _, page := range pages {
		read := lines(page) // once, since a caller may have to compose the page for it
		findOnPage(read, byPage[page][0], left, d.RunsOut)
		findOnPage(read, byPage[page][1], left, d.RunsOutStraight)
	}
}

const notWatched = -1

// findOnPage reads the lines of one page and enters where the columns of list run out. left is scratch, nothing watched
// before and after.
func findOnPage(lines []Line, list []crossing, left []int, out []*Place) {
	if len(list) == 0 {
		return
	}
	for _, x := range list {
		left[x.column] = x.room
	}
	for _, line := range lines {
		for _, c := range line.Pieces {
			switch left[c] {
			case notWatched:
			case 0:
				out[c] = &Place{Forme: list[0].forme, Page: list[0].page, Line: line.Number} // a page is in one forme
				left[c] = notWatched
			default:
				left[c]--
			}
		}
	}
	for _, x := range list {
		if left[x.column] != notWatched {
			panic(fmt.Sprintf("standing: the lines of page %d hold fewer pieces of column %d than the tally", x.page, x.column))
		}
	}
}
