package page

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"formewise/demand/stick"
	"formewise/demand/tally"
	"formewise/texts/read"
)

// A TooNarrow is a stick.TooNarrow with the page and line where it came up, pages counted from 1.
type TooNarrow struct {
	*stick.TooNarrow
	Page, Line int
}

func (e *TooNarrow) Error() string {
	return fmt.Sprintf("page %d, line %d: %v", e.Page, e.Line, e.TooNarrow)
}

func (e *TooNarrow) Unwrap() error { return e.TooNarrow }

// Compose sets a manuscript and makes it up into pages. Paragraphs are set on every core; the pages are made of them in
// order by one. The error is a *TooNarrow, a *TooLong or the context's.
func Compose(ctx context.Context, copy *read.Copy, s *stick.Stick, perPage int, ask ...Option) (*Pages, error) {
	p := &Pages{Table: tally.New(s.Cases().Len()), copy: copy, stick: s, perPage: perPage}
	for _, option := range ask {
		option(&p.options)
	}
	ends := p.options.ends
	p.cuts, p.tall = cutsOf(ends), make([]int, len(ends))
	if p.options.noWidow {
		lines, after, err := look(ctx, p)
		if err != nil {
			return nil, inPlace(err, after, lines)
		}
		p.lengths = lengthen(lines, after, p.options.recto)
	}
	b := &bench{
		pages: p, maker: maker{perPage: perPage, lengths: p.lengths, drop: p.options.drop, ends: ends},
		hand: s.NewHand(), counts: make([]uint32, s.Cases().Len()+1),
	}
	err := inOrder(ctx, copy, s, p.cuts, b.take)
	if err == nil {
		b.finish()
		err = b.err
	}
	if err != nil {
		return nil, b.place(err)
	}
	p.Notes, p.Lines = b.notes.list, b.lines
	return p, nil
}

// A bench is where pages are made up and counted.
type bench struct {
	maker
	pages  *Pages
	hand   *stick.Hand // for head and direction lines
	notes  notes
	lines  int      // of text, on this page and those before
	counts []uint32 // of the page in hand; the last is for missing sorts and counts for nothing
	err    error    // of the first head or direction line that would not go in
}

// take makes up a hand's lines.
func (b *bench) take(h *stick.Hand) {
	ids, spaces, notes := 0, 0, 0
	for i := range h.Lines {
		l := &h.Lines[i]
		switch l.Kind {
		case read.Blank:
			b.blank()
		case read.Break:
			drop := !b.dropped
			if _, begins := b.feed(); begins {
				b.begin(start{l.Place, drop})
			}
		default:
			drop := !b.dropped
			if b.text(l.Place) {
				b.begin(start{l.Place, drop})
			}
			b.lines++
			if l.Forced && len(b.pages.Forced) < MostForced {
				b.pages.Forced = append(b.pages.Forced, Spot{b.page, b.line})
			}
			for _, id := range h.Galley.IDs[ids:l.IDs] {
				b.counts[id]++
			}
			for _, like := range h.Spaces[spaces:l.Spaces] {
				b.counts[like.ID] += like.N
			}
			for _, n := range h.Galley.Notes[notes:l.Notes] {
				b.notes.add(n, b.page, b.line)
			}
		}
		if b.ended() && b.page > 0 {
			b.pages.tall[b.page-1] = b.line
		}
		ids, spaces, notes = l.IDs, l.Spaces, l.Notes
	}
}

// begin closes the page in hand and begins one at a place.
func (b *bench) begin(at start) {
	before := len(b.pages.starts)
	b.pages.starts = append(b.pages.starts, at)
	if before > 0 {
		b.close(before)
	}
}

// finish closes the last page.
func (b *bench) finish() {
	if n := len(b.pages.starts); n > 0 {
		b.close(n)
	}
}

// close adds a page's head and direction line and enters it in the tally. The page after it, if there is one, has begun.
func (b *bench) close(page int) {
	if head, err := b.pages.headLine(b.hand, page); err != nil {
		b.fail(err)
	} else if head != nil {
		b.count(head, page, headNumber)
	}
	if direction, err := b.pages.directionLine(b.hand, page); err != nil {
		b.fail(err)
	} else if direction != nil {
		b.count(direction, page, b.pages.length(page)+1)
	}
	b.pages.Table.Add(b.counts[:len(b.counts)-1])
	b.pages.upTo = append(b.pages.upTo, int32(b.lines))
	clear(b.counts)
}

func (b *bench) fail(err error) {
	if b.err == nil {
		b.err = err
	}
}

// headNumber is the number of the head line; the direction line's is one more than the page's lines.
const headNumber = 0

func (b *bench) count(line *stick.Spread, page, number int) {
	for _, id := range line.Pieces {
		b.counts[id]++
	}
	for _, n := range line.Notes {
		b.notes.add(n, page, number)
	}
}

// full is how many lines a full page has, where it stands.
func (p *Pages) full(page int) int {
	if p.lengths != nil {
		return p.lengths[page-1]
	}
	return p.perPage
}

// length is full, or more where the page took more.
func (p *Pages) length(page int) int {
	if page <= len(p.tall) {
		return max(p.full(page), p.tall[page-1])
	}
	return p.full(page)
}

// LongestPage is how many lines the longest page has.
func (p *Pages) LongestPage() int {
	longest := p.perPage
	if p.lengths != nil {
		longest = slices.Max(p.lengths)
	}
	return max(longest, slices.Max(append(p.tall, 0)))
}

// place says on which page and line something went wrong: on the next after those that were set.
func (b *bench) place(err error) error {
	var narrow *stick.TooNarrow
	if errors.As(err, &narrow) {
		b.text(narrow.Place)
		return &TooNarrow{TooNarrow: narrow, Page: b.page, Line: b.line}
	}
	return err
}
