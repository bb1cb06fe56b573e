package demand

import (
	"context"
	"errors"
	"slices"

	"formewise/demand/page"
	"formewise/demand/stick"
)

// A Correction is what pages that were really set tell of the set widths. The widths are multiplied so that the copy that went on
// those pages comes as near as can be to the lines that they have, when it is set again with them: the squares of what is lacking or
// over come to the least. That the widths are wrong all alike is a guess, but it takes in what else there is: a measure slack by a
// lead, brass between the letters, a compositor who spaces closely.
//
//	three pages of 30 lines took in copy that was cast off to make 30.4, 30.5 and 30.6 lines: the type runs narrower than
//	its widths say, by about 0.5 in 30.5; where many lines end short, by more
//
// Three pages tell little, and ten a good deal, since a page tells it only by whole words at its end. So the widths are believed only
// if they foretell pages that had no part in them: each page is reckoned with the widths that fit the others best, and unless
// that brings the pages nearer than the widths as entered, these stand.
type Correction struct {
	Pages  int  // that were measured
	Widths int  // what the set widths are multiplied by, in ten-thousandths; 10,000 leaves them as they are
	Best   int  // what would bring the pages nearest, of what was tried: Widths, unless one of the next two holds
	Beyond bool // the pages are further off than widths can be wrong, and nothing was corrected
	NoGain bool // the others foretell a page no better than the widths as entered, and nothing was corrected
	Before MeanError
	After  MeanError // of each page with widths that fit the others alone; Beyond: as Before
}

// A MeanError is how many lines more the copy of a page makes than the page has, as a mean over pages, in thousandths of a line rounded
// to the nearest.
type MeanError struct {
	Mean     int // more and less make each other up
	Absolute int // they do not
}

// enough is how many pages have to be measured before widths are corrected.
const enough = 3

// In ten-thousandths of the widths:
const (
	unchanged = 10_000
	furthest  = 500 // the most that they are believed to be wrong; common sense, no source
	beyond    = 100 // how far beyond that they are tried, to see whether the best lies there
	fine      = 10  // the step by which they are tried, every one: what the pages lack does not fall evenly towards one best
)

// endless is the error of a page that cannot be set at all.
const endless = 1 << 20

// A measured page: where it really begins and ends, and how many lines it has, in thousandths as cast off.
type measured struct {
	Reported
	from, to stick.Place
	lines    int
}

// scaled gives the stock with every printing sort's set multiplied by ten-thousandths, rounded half up. Spaces are cast to
// the em, and stay.
func (s Stock) scaled(times int) Stock {
	out := slices.Clone(s)
	for i, f := range s {
		out[i].Sorts = slices.Clone(f.Sorts)
		for n, t := range f.Sorts {
			if !t.isSpace() {
				out[i].Sorts[n].Set = (t.Set*times + unchanged/2) / unchanged
			}
		}
	}
	return out
}

// A gauge tells how many lines the copy of each measured page makes beyond those it has, with widths multiplied.
type gauge struct {
	ctx   context.Context
	as    *Setting
	pages []measured
	known map[int][]int // by multiplier
}

func (g *gauge) errors(times int) ([]int, error) {
	if list, ok := g.known[times]; ok {
		return list, nil
	}
	if err := g.ctx.Err(); err != nil {
		return nil, err
	}
	s, err := stickFor(g.as.plan, g.as.stock.scaled(times), g.as.copy)
	if err != nil {
		return nil, err
	}
	ruler := page.NewRuler(g.as.copy, s)
	list := make([]int, len(g.pages))
	for i, p := range g.pages {
		took, err := ruler.Between(p.from, p.to)
		var narrow *stick.TooNarrow
		switch {
		case errors.As(err, &narrow): // type so wide would make lines without end
			list[i] = endless
		case err != nil:
			return nil, err
		default:
			list[i] = took.Thousandths() - p.lines
		}
	}
	g.known[times] = list
	return list, nil
}

// squares is how far off the pages are together, all but one, which may be none of them (-1).
func (g *gauge) squares(times, but int) (int, error) {
	list, err := g.errors(times)
	sum := 0
	for i, e := range list {
		if i != but {
			sum += e * e
		}
	}
	return sum, err
}

// fit finds the multiplier with which the pages, all but one, are least off. Of several it is the middle of those that lie side
// by side and nearest to no change, on the step below, and no change if that is one.
func (g *gauge) fit(but int) (int, error) {
	least, first, last := -1, 0, 0
	for times := unchanged - furthest - beyond; times <= unchanged+furthest+beyond; times += fine {
		sum, err := g.squares(times, but)
		switch {
		case err != nil:
			return 0, err
		case least >= 0 && sum > least:
		case sum == least && times == last+fine:
			last = times
		case least < 0 || sum < least || abs(times-unchanged) < abs(last-unchanged):
			least, first, last = sum, times, times
		}
	}
	if first <= unchanged && unchanged <= last {
		return unchanged, nil
	}
	return (first + last) / 2 / fine * fine, nil
}

// correct reckons the correction from pages that were measured.
func correct(ctx context.Context, as *Setting, pages []measured) (*Correction, error) {
	g := &gauge{ctx: ctx, as: as, pages: pages, known: map[int][]int{}}
	return g.correct()
}

func (g *gauge) correct() (*Correction, error) {
	c := &Correction{Pages: len(g.pages)}
	before, err := g.errors(unchanged)
	if err != nil {
		return nil, err
	}
	c.Before = meanOf(before)
	if c.Best, err = g.fit(-1); err != nil {
		return nil, err
	}
	c.Widths = unchanged
	if abs(c.Best-unchanged) > furthest || c.Before.Absolute > g.believable() {
		c.Beyond, c.After = true, c.Before
		return c, nil
	}
	after := make([]int, len(g.pages))
	for i := range after {
		times, err := g.fit(i)
		if err != nil {
			return nil, err
		}
		list, err := g.errors(times)
		if err != nil {
			return nil, err
		}
		after[i] = list[i]
	}
	c.After = meanOf(after)
	if c.NoGain = c.Best != unchanged && c.After.Absolute >= c.Before.Absolute; !c.NoGain {
		c.Widths = c.Best
	}
	return c, nil
}

// believable is how far off pages can be with widths as wrong as is believed, as a mean in thousandths of a line: as much of their
// lines, and a line for where they end.
func (g *gauge) believable() int {
	lines := 0
	for _, p := range g.pages {
		lines += p.lines
	}
	return lines/len(g.pages)*furthest/unchanged + 1000
}

func meanOf(errors []int) MeanError {
	sum, size := 0, 0
	for _, e := range errors {
		sum += e
		size += abs(e)
	}
	n := len(errors)
	half := n / 2
	if sum < 0 {
		half = -half
	}
	return MeanError{Mean: (sum + half) / n, Absolute: (size + n/2) / n}
}
