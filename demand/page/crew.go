package page

import (
	"context"
	"runtime"

	"formewise/demand/stick"
	"formewise/texts/read"
)

// A batch is a run of whole paragraphs, set by one worker: enough of them to make sharing out worth while.
type batch struct {
	first, end int // paragraphs
	parts      chan part
}

// A part of a batch is what was set between two looks up. Most batches are of one part; a paragraph that goes on for many pages is
// of many, so that its lines are not all held at once.
type part struct {
	hand *stick.Hand
	err  error
	last bool
}

const batchSize = 1 << 15 // bytes of text

// linesBetweenLooks is how many lines are set before the hand looks up to see whether it is to stop.
const linesBetweenLooks = 1 << 12

// inOrder sets a manuscript on every core, and gives what each hand has set to take, in the order of the copy. After an error
// of a hand, take has had the lines that it set before.
func inOrder(ctx context.Context, copy *read.Copy, s *stick.Stick, cuts cuts, take func(*stick.Hand)) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	workers := runtime.GOMAXPROCS(0)
	work := make(chan *batch)
	order := make(chan *batch, 2*workers) // no more are set ahead of take than this
	hands := &hands{stick: s, free: make(chan *stick.Hand, 4*workers)}
	go share(ctx, copy, work, order)
	for range workers {
		go func() {
			for b := range work {
				b.set(ctx, copy, cuts, hands)
			}
		}()
	}
	for b := range order {
		for last := false; !last; {
			var p part
			select {
			case p = <-b.parts:
			case <-ctx.Done():
				return ctx.Err()
			}
			take(p.hand)
			if p.err != nil {
				return p.err
			}
			last = p.last
			hands.give(p.hand)
		}
	}
	return ctx.Err()
}

// hands are those that have nothing to set just now.
type hands struct {
	stick *stick.Stick
	free  chan *stick.Hand
}

func (h *hands) take() *stick.Hand {
	select {
	case hand := <-h.free:
		return hand
	default:
		return h.stick.NewHand()
	}
}

func (h *hands) give(hand *stick.Hand) {
	hand.Clear()
	select {
	case h.free <- hand:
	default:
	}
}

// share cuts the copy into batches and hands them out, in order.
func share(ctx context.Context, copy *read.Copy, work, order chan<- *batch) {
	defer close(work)
	defer close(order)
	for first := 0; first < len(copy.Paragraphs); {
		size, end := 0, first
		for end < len(copy.Paragraphs) && size < batchSize {
			size += len(copy.Paragraphs[end].Text) + 1
			end++
		}
		b := &batch{first: first, end: end, parts: make(chan part, 1)}
		for _, to := range []chan<- *batch{order, work} {
			select {
			case to <- b:
			case <-ctx.Done():
				return
			}
		}
		first = end
	}
}

// set sets a batch, and hands on what is set part by part.
func (b *batch) set(ctx context.Context, copy *read.Copy, cuts cuts, hands *hands) {
	hand := hands.take()
	send := func(p part) bool {
		select {
		case b.parts <- p:
			return true
		case <-ctx.Done():
			return false
		}
	}
	for i := b.first; i < b.end; i++ {
		at := stick.Place{Paragraph: i}
		for done := false; !done; {
			if ctx.Err() != nil {
				return
			}
			var err error
			if at, done, err = hand.ParagraphTo(copy.Paragraphs[i], at, linesBetweenLooks, cuts.after(at, copy)); err != nil {
				send(part{hand: hand, err: err, last: true})
				return
			}
			if len(hand.Lines) >= linesBetweenLooks {
				if !send(part{hand: hand}) {
					return
				}
				hand = hands.take()
			}
		}
	}
	send(part{hand: hand, last: true})
}
