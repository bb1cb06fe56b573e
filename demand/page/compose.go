package page

import (
	"context"
	"errors"
	"fmt"
	"runtime"

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

// A batch is a run of whole paragraphs, set by one hand: enough of them to make sharing out worth while.
type batch struct {
	first, end int // paragraphs
	hand       *stick.Hand
	done       chan error
}

const batchSize = 1 << 15 // bytes of text

// linesBetweenLooks is how many lines are set before the hand looks up to see whether it is to stop.
const linesBetweenLooks = 1 << 12

// Compose sets a manuscript and makes it up into pages. Paragraphs are set on every core; the pages are made of them in
// order by one. The error is a *TooNarrow or the context's.
func Compose(ctx context.Context, copy *read.Copy, s *stick.Stick, perPage int) (*Pages, error) {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	hands := runtime.GOMAXPROCS(0)
	work := make(chan *batch)
	inOrder := make(chan *batch, 2*hands) // no more are set ahead of the page making than this
	free := make(chan *stick.Hand, 4*hands)
	go share(ctx, copy, s, work, inOrder, free)
	for range hands {
		go func() {
			for b := range work {
				b.done <- b.set(ctx, copy)
			}
		}()
	}
	p := &Pages{Table: tally.New(s.Cases().Len()), copy: copy, stick: s, perPage: perPage}
	b := &bench{pages: p, maker: maker{perPage: perPage}, counts: make([]uint32, s.Cases().Len()+1)}
	for job := range inOrder {
		err := <-job.done
		b.take(job.hand)
		if err != nil {
			return nil, b.place(err)
		}
		job.hand.Clear()
		select {
		case free <- job.hand:
		default:
		}
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	b.finish()
	p.Notes, p.Lines = b.notes.list, b.lines
	return p, nil
}

// share cuts the copy into batches and hands them out, in order.
func share(ctx context.Context, copy *read.Copy, s *stick.Stick, work, inOrder chan<- *batch, free <-chan *stick.Hand) {
	defer close(work)
	defer close(inOrder)
	for first := 0; first < len(copy.Paragraphs); {
		size, end := 0, first
		for end < len(copy.Paragraphs) && size < batchSize {
			size += len(copy.Paragraphs[end].Text) + 1
			end++
		}
		b := &batch{first: first, end: end, done: make(chan error, 1)}
		select {
		case b.hand = <-free:
		default:
			b.hand = s.NewHand()
		}
		select {
		case inOrder <- b:
		case <-ctx.Done():
			return
		}
		select {
		case work <- b:
		case <-ctx.Done():
			b.done <- ctx.Err()
			return
		}
		first = end
	}
}

func (b *batch) set(ctx context.Context, copy *read.Copy) error {
	for i := b.first; i < b.end; i++ {
		at := stick.Place{Paragraph: i}
		for done := false; !done; {
			if err := ctx.Err(); err != nil {
				return err
			}
			var err error
			if at, done, err = b.hand.Paragraph(copy.Paragraphs[i], at, linesBetweenLooks); err != nil {
				return err
			}
		}
	}
	return nil
}

// A bench is where pages are made up and counted.
type bench struct {
	maker
	pages  *Pages
	notes  notes
	lines  int      // of text, on this page and those before
	counts []uint32 // of the page in hand; the last is for missing sorts and counts for nothing
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
			if _, begins := b.feed(); begins {
				b.begin(l.Place)
			}
		default:
			if b.text() {
				b.begin(l.Place)
			}
			b.lines++
			if l.Forced && len(b.pages.Forced) < mostForced {
				b.pages.Forced = append(b.pages.Forced, Spot{b.page, b.line})
			}
			for _, id := range h.Galley.IDs[ids:l.IDs] {
				b.counts[id]++
			}
			for _, id := range h.Spaces[spaces:l.Spaces] {
				b.counts[id]++
			}
			for _, n := range h.Galley.Notes[notes:l.Notes] {
				b.notes.add(n, b.page, b.line)
			}
		}
		ids, spaces, notes = l.IDs, l.Spaces, l.Notes
	}
}

// begin closes the page in hand and begins one at a place.
func (b *bench) begin(at stick.Place) {
	if len(b.pages.starts) > 0 {
		b.finish()
	}
	b.pages.starts = append(b.pages.starts, at)
}

// finish enters the page in hand in the tally.
func (b *bench) finish() {
	if len(b.pages.starts) == 0 {
		return
	}
	b.pages.Table.Add(b.counts[:len(b.counts)-1])
	b.pages.upTo = append(b.pages.upTo, int32(b.lines))
	clear(b.counts)
}

// place says on which page and line something went wrong: on the next after those that were set.
func (b *bench) place(err error) error {
	var narrow *stick.TooNarrow
	if errors.As(err, &narrow) {
		b.text()
		return &TooNarrow{TooNarrow: narrow, Page: b.page, Line: b.line}
	}
	return err
}
