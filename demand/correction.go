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
// Three pages tell little, and ten a good deal, since a page tells it only by whole words at its end.
type Correction struct {
	Pages  int  // that were measured
	Widths int  // what the set widths are multiplied by, in ten-thousandths; 10,000 leaves them as they are
	Beyond bool // the pages are further off than widths can be wrong, and nothing was corrected
	Before MeanError
	After  MeanError // of each page with widths corrected by the others alone
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
	furthest  = 2_000 // the most that they are changed,
	coarse    = 100   // the step by which that is gone through at first,
	near      = 150   // and how far about the best of those again
	fine      = 10    // by this step
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

// best finds the multiplier among some with which the pages are least off; of several, the middle of the least and the greatest,
// and no change if that is one.
func (g *gauge) best(from, to, step, but int) (int, error) {
	least, first, last, stays := -1, 0, 0, false
	for times := from; times <= to; times += step {
		sum, err := g.squares(times, but)
		if err != nil {
			return 0, err
		}
		if least < 0 || sum < least {
			least, first, stays = sum, times, false
		}
		if sum == least {
			last = times
			stays = stays || times == unchanged
		}
	}
	if stays {
		return unchanged, nil
	}
	return (first + last) / 2, nil
}

// fit is the best multiplier of all.
func (g *gauge) fit(but int) (int, error) {
	about, err := g.best(unchanged-furthest, unchanged+furthest, coarse, but)
	if err != nil {
		return 0, err
	}
	about = (about + fine/2) / fine * fine // the middle of two may be off the steps
	return g.best(about-near, about+near, fine, but)
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
	if c.Widths, err = g.fit(-1); err != nil {
		return nil, err
	}
	if abs(c.Widths-unchanged) > furthest-near {
		c.Widths, c.Beyond, c.After = unchanged, true, c.Before
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
	return c, nil
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
