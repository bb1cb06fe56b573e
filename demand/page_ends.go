package demand

import (
	"context"
	"fmt"
	"runtime"
	"slices"
	"sync"

	"formewise/demand/impose"
	"formewise/demand/page"
	"formewise/texts/read"
)

// PageEnds are where the pages of a work begin and end in its copy: what has to be marked in it before pages are set out of
// their order, forme by forme. Where pages that are set have ended otherwise than cast off, the rest is cast off again from
// there:
//
//	cast off      page 2 ends “… the old sands”       page 3 begins “He came”
//	reported      page 2 ended “… He came back”       page 3 begins “alone”, and so all that follow begin later
//
// Pages and formes are numbered as in an Answer.
type PageEnds struct {
	Plan        Plan
	Copy        *read.Copy
	Pages       []PageEnd
	Formes      []impose.Forme // in by-formes order
	Before      int            // how many pages were cast off before any end was reported
	Reported    []Reported     // in the order of the pages
	Moved       []int          // pages that begin elsewhere than cast off before, those that were not there among them
	MovedFormes []int          // the formes that hold them
	Correction  *Correction    // nil: too few pages to tell
	Setting     *Setting       // the work as it is cast off now
}

// A PageEnd is a page of the marked copy.
type PageEnd struct {
	Page, Forme int
	First, Last string // its first and its last words in the copy; the parts of a divided word have a hyphen
	Lines       int    // of text
	In          int    // of those, how many could be got in, with word spaces down to the thin
	Out         int    // how many more it could be driven out to, with word spaces up to two thirds of an em
	Over        int    // how many whole lines too many it has, those got in that can be: by these set widths it cannot come out; 0: it can
}

// Reported is a page whose end was reported.
type Reported struct {
	Report
	CastOff string // the words it was cast off to end with
	Ended   string // the words it ended with
	Off     int    // how much more of the copy it took in than cast off, in thousandths of a line of text as the set widths have it; negative: less
	Far     bool   // that is more than a third of a full page
	Counts  bool   // it tells something of the set widths: no form feed ends it, nor the work
}

// EndPages casts off a manuscript and marks its copy. Reports may come in any order. The error is one of Set's or a *BadReport.
func EndPages(ctx context.Context, plan Plan, stock Stock, copy *read.Copy, reports []Report) (*PageEnds, error) {
	first, err := Set(ctx, plan, stock, copy)
	if err != nil {
		return nil, err
	}
	reports = slices.Clone(reports)
	slices.SortStableFunc(reports, func(a, b Report) int { return a.Page - b.Page })
	out := &PageEnds{Plan: plan, Copy: copy, Before: first.Pages()}
	s := first
	var told []measured
	for i, r := range reports {
		if i > 0 && r.Page == reports[i-1].Page {
			return nil, &BadReport{fmt.Sprintf("page %d is reported twice", r.Page), ""}
		}
		next, m, err := s.again(ctx, r)
		if err != nil {
			return nil, err
		}
		out.Reported = append(out.Reported, m.Reported)
		if s = next; m.Counts {
			told = append(told, m)
		}
	}
	if len(told) >= enough {
		if out.Correction, err = correct(ctx, first, told); err != nil {
			return nil, err
		}
		if f := out.Correction.Widths; f != unchanged {
			set := page.Ending(s.pages.Ends(reports[len(reports)-1].Page - plan.FirstPage + 1))
			if s, err = composed(ctx, plan, stock.scaled(f), copy, set); err != nil {
				return nil, err
			}
		}
	}
	out.Setting = s
	ended := 0
	if n := len(reports); n > 0 {
		ended = reports[n-1].Page - plan.FirstPage + 1
	}
	if err := out.mark(ctx, s, ended); err != nil {
		return nil, err
	}
	out.move(first, s)
	return out, nil
}

// again casts off again from where a page really ended. All pages up to it stay where they are.
func (s *Setting) again(ctx context.Context, r Report) (*Setting, measured, error) {
	number := r.Page - s.plan.FirstPage + 1
	if number < 1 || number > s.Pages() {
		return nil, measured{}, &BadReport{fmt.Sprintf("there is no page %d (there are pages %d to %d)", r.Page, s.plan.FirstPage, s.plan.FirstPage+s.Pages()-1), ""}
	}
	next, err := s.ending(r, number)
	if err != nil {
		return nil, measured{}, err
	}
	ends := s.pages.Ends(number)
	foretold := ends[number-1].Next
	m := measured{Reported: Reported{Report: r, CastOff: s.lastWords(number)}, from: s.pages.Start(number), to: next}
	made := s
	if isBefore(foretold, next) || isBefore(next, foretold) {
		ends[number-1].Next = next
		if made, err = composed(ctx, s.plan, s.stock, s.copy, page.Ending(ends)); err != nil {
			return nil, m, err
		}
	}
	m.Ended = made.lastWords(number)
	m.Counts = number < s.Pages() && number < made.Pages() && !s.pages.Opens(number+1) && !made.pages.Opens(number+1)
	ruler := page.NewRuler(s.copy, s.pages.Stick())
	cast, err := ruler.Between(m.from, foretold)
	if err != nil {
		return nil, m, err
	}
	took, err := ruler.Between(m.from, next)
	if err != nil {
		return nil, m, err
	}
	m.lines = cast.Thousandths()
	m.Off = took.Thousandths() - m.lines
	m.Far = 3*abs(m.Off) > 1000*s.plan.Lines
	return made, m, nil
}

// mark fills in the pages and formes, of which the first so many ended where it was said. Each page is set closely and widely to see
// what it gives, on every core.
func (e *PageEnds) mark(ctx context.Context, s *Setting, ended int) error {
	e.Formes = s.Formes()
	e.Pages = make([]PageEnd, s.Pages())
	for f, forme := range e.Formes {
		for _, p := range forme.Pages {
			e.Pages[p-s.plan.FirstPage] = PageEnd{Page: p, Forme: f + 1}
		}
	}
	hands := runtime.GOMAXPROCS(0)
	var wait sync.WaitGroup
	for hand := range hands {
		wait.Go(func() {
			fitter, ruler := s.pages.NewFitter(), page.NewRuler(s.copy, s.pages.Stick())
			for i := hand; i < len(e.Pages) && ctx.Err() == nil; i += hands {
				p, number := &e.Pages[i], i+1
				p.First, p.Last = s.firstWords(number), s.lastWords(number)
				p.Lines = s.pages.TextLines(number) - s.pages.TextLines(number-1)
				p.In, p.Out = fitter.Page(number)
				if number <= ended {
					p.Over = max(0, s.over(number, ruler)-p.In)
				}
			}
		})
	}
	wait.Wait()
	return ctx.Err()
}

// over is how many lines more a page has than a full one, blank lines between others too. A line of which only a part went on the page
// is left out: so much, set widths and spacing may well have made up.
func (s *Setting) over(number int, ruler *page.Ruler) int {
	text := s.textOf(number)
	if len(text) == 0 {
		return 0
	}
	depth := text[len(text)-1].Number
	if e, err := ruler.Between(s.pages.Start(number), s.pages.Start(number+1)); err == nil && e.Whole < e.Begun {
		depth--
	}
	return max(0, depth-s.pages.Ends(number)[number-1].Lines)
}

// move finds the pages that begin elsewhere than before, and their formes.
func (e *PageEnds) move(before, after *Setting) {
	for i := range e.Pages {
		a, b := before.pages.Start(min(i, before.Pages())+1), after.pages.Start(i+1)
		if isBefore(a, b) || isBefore(b, a) {
			e.Moved = append(e.Moved, e.Pages[i].Page)
			e.MovedFormes = append(e.MovedFormes, e.Pages[i].Forme)
		}
	}
	slices.Sort(e.MovedFormes)
	e.MovedFormes = slices.Compact(e.MovedFormes)
}
