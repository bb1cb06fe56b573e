package demand

import (
	"context"
	"errors"
	"fmt"
	"iter"

	"formewise/demand/page"
	"formewise/demand/standing"
	"formewise/demand/stick"
	"formewise/texts/read"
	"formewise/texts/sorts"
)

// A Setting is a manuscript set in lines and made up in pages: the work as it will stand.
type Setting struct {
	plan  Plan
	stock Stock
	copy  *read.Copy
	cases *sorts.Cases
	pages *page.Pages
}

// A TooNarrow is the error of a measure in which some sort does not go. Lengths in thousandths of a point.
type TooNarrow struct {
	Measure, Needs, Indent int    // the indent, or the initial
	Sort                   string // its name; "" for a character with no sort
	Place                  Place
}

func (e *TooNarrow) Error() string {
	if e.Needs <= e.Measure { // part of it would go in by itself
		return fmt.Sprintf("a measure of %spt is too narrow: on page %d, line %d stands what no-break spaces or fixed ones keep from being divided",
			points(e.Measure), e.Place.Page, e.Place.Line)
	}
	what := "a character with no sort"
	if e.Sort != "" {
		what = fmt.Sprintf("the sort %q", e.Sort)
	}
	indent := ""
	if e.Indent > 0 {
		indent = fmt.Sprintf("an indent of %spt, ", points(e.Indent))
	}
	return fmt.Sprintf("a measure of %spt is too narrow: with %s%s and a hyphen, page %d, line %d needs %spt",
		points(e.Measure), indent, what, e.Place.Page, e.Place.Line, points(e.Needs))
}

// Advice is the way out.
func (e *TooNarrow) Advice() string {
	return "give a longer measure; twenty ems and more read well"
}

func points(mpt int) string {
	if mpt%1000 == 0 {
		return fmt.Sprint(mpt / 1000)
	}
	return fmt.Sprintf("%.1f", float64(mpt)/1000)
}

// Set sets a manuscript in the first font of the stock. The error is a *TooNarrow, a plan's
// refusal, or the context's.
func Set(ctx context.Context, plan Plan, stock Stock, copy *read.Copy) (*Setting, error) {
	return composed(ctx, plan, stock, copy)
}

// stickFor is the stick for a work.
func stickFor(plan Plan, stock Stock, copy *read.Copy) (*stick.Stick, error) {
	cases, err := stock.cases()
	if err != nil {
		return nil, err
	}
	var spacing []stick.Option
	if plan.Dividing != nil {
		spacing = append(spacing, stick.Dividing(plan.Dividing))
	}
	if plan.Old {
		spacing = append(spacing, stick.OldSpacing())
	}
	s, err := stick.New(cases, 0, plan.spacing(stock), plan.Measure, spacing...)
	if err != nil || plan.Initials == 0 {
		return s, err
	}
	return stick.New(cases, 0, plan.spacing(stock), plan.Measure, append(spacing, stick.Initials(plan.Initials, page.Openings(copy, s)))...)
}

// composed is Set, with more asked for on its pages.
func composed(ctx context.Context, plan Plan, stock Stock, copy *read.Copy, more ...page.Option) (*Setting, error) {
	if err := plan.check(stock); err != nil {
		return nil, err
	}
	s, err := stickFor(plan, stock, copy)
	if err != nil {
		return nil, err
	}
	style, err := plan.pageOptions()
	if err != nil {
		return nil, err
	}
	cases := s.Cases()
	pages, err := page.Compose(ctx, copy, s, plan.Lines, append(style, more...)...)
	var long *page.TooLong
	if errors.As(err, &long) {
		return nil, fmt.Errorf("the %s line of page %d is longer than the measure: %q", long.Line, long.Page+plan.FirstPage-1, long.Text)
	}
	var narrow *page.TooNarrow
	if errors.As(err, &narrow) {
		e := &TooNarrow{Measure: plan.Measure, Needs: narrow.Needs, Indent: narrow.Indent, Place: Place{narrow.Page + plan.FirstPage - 1, narrow.Line}}
		if narrow.Sort != cases.Missing() {
			e.Sort = cases.Sort(narrow.Sort).Name
		}
		return nil, e
	}
	if err != nil {
		return nil, err
	}
	return &Setting{plan: plan, stock: stock, copy: copy, cases: cases, pages: pages}, nil
}

// Asked is the plan, and the font of the text.
func (s *Setting) Asked() (Plan, Font) { return s.plan, s.stock[0] }

// Pages is how many there are.
func (s *Setting) Pages() int { return s.pages.Count() }

// A Piece is a sort in a line.
type Piece struct {
	Font, Sort string
	Text       string // what it prints
	Space      bool
	Missing    rune // not 0: no sort, but a place held for this character
}

// A Line is a line of the setting copy.
type Line struct {
	Page, Number int
	Part         page.Part
	Blank        bool // leads and furniture, no sorts
	Measure      int  // thousandths of a point, as are the next two
	Set          int  // the width of its pieces
	Beside       int  // of a full measure, what an initial begun on the line before takes up
	Wants        int  // what is left for brass, copper and paper
	Pieces       []Piece
	Gaps         []int // the width of every word space
	Broken       bool  // it ends in a divided word
	Forced       bool  // divided where only the measure asks for it
	First, Last  bool  // of its paragraph
}

// PageNumbers are the first page's and the last's, as the plan numbers them.
func (s *Setting) PageNumbers() (first, last int) {
	return s.plan.FirstPage, s.plan.FirstPage + s.Pages() - 1
}

// Lines gives the setting copy of some pages, in order, line by line; pages are numbered as the plan numbers them.
func (s *Setting) Lines(from, to int) iter.Seq[Line] {
	return s.LinesOf(func(yield func(int) bool) {
		for p := from; p <= to && yield(p); p++ {
		}
	})
}

// LinesOf gives the setting copy of pages in any order.
func (s *Setting) LinesOf(pages iter.Seq[int]) iter.Seq[Line] {
	return func(yield func(Line) bool) {
		setter := s.pages.NewSetter()
		for p := range pages {
			for _, l := range setter.Page(p - s.plan.FirstPage + 1) {
				if !yield(s.line(p, l)) {
					return
				}
			}
		}
	}
}

func (s *Setting) line(number int, l page.Line) Line {
	out := Line{
		Page: number, Number: l.Number, Part: l.Part, Blank: l.Blank, Measure: s.plan.Measure - l.Beside, Beside: l.Beside, Wants: l.Wants, Gaps: l.Gaps,
		Broken: l.Broken, Forced: l.Forced, First: l.First, Last: l.Last, Pieces: make([]Piece, 0, len(l.Pieces)),
	}
	if !l.Blank {
		out.Set = out.Measure - out.Wants
	}
	var missing []rune
	for _, n := range l.Notes {
		if n.Rule == sorts.NoSort {
			missing = append(missing, n.Character)
		}
	}
	for _, id := range l.Pieces {
		if id == s.cases.Missing() {
			out.Pieces = append(out.Pieces, Piece{Font: s.cases.Font(0).Name, Missing: missing[0]})
			missing = missing[1:]
			continue
		}
		t := s.cases.Sort(id)
		out.Pieces = append(out.Pieces, Piece{Font: s.cases.Font(s.cases.Owner(id)).Name, Sort: t.Name, Text: t.Text, Space: t.Space})
	}
	return out
}

// standingLines gives the lines of a page, from 1, as the schedule asks for them.
func (s *Setting) standingLines() standing.Lines {
	setter := s.pages.NewSetter()
	return func(p int) []standing.Line {
		set := setter.Page(p)
		lines := make([]standing.Line, len(set))
		for i, l := range set {
			lines[i] = standing.Line{Number: l.Number, Text: l.Part == page.Body && !l.Blank, Pieces: make([]uint16, 0, len(l.Pieces))}
			for _, id := range l.Pieces {
				if id != s.cases.Missing() {
					lines[i].Pieces = append(lines[i].Pieces, uint16(id))
				}
			}
		}
		return lines
	}
}
