package page

import (
	"context"
	"runtime"

	"formewise/demand/stick"
	"formewise/texts/read"
)

// A batch is a run of whole paragraphs, set by one hand: enough of them to make sharing out worth while.
type batch struct {
	first, end int // paragraphs
	hand       *stick.Hand
	done       chan error
}

const batchSize = 1 << 15 // bytes of text

// linesBetweenLooks is how many lines are set before the hand looks up to see whether it is to stop.
const linesBetweenLooks = 1 << 12

// inOrder sets a manuscript on every core, and gives what each hand has set to take, in the order of the copy. After an error
// of a hand, take has had the lines that it set before.
func inOrder(ctx context.Context, copy *read.Copy, s *stick.Stick, cuts cuts, take func(*stick.Hand)) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	hands := runtime.GOMAXPROCS(0)
	work := make(chan *batch)
	order := make(chan *batch, 2*hands) // no more are set ahead of take than this
	free := make(chan *stick.Hand, 4*hands)
	go share(ctx, copy, s, work, order, free)
	for range hands {
		go func() {
			for b := range work {
				b.done <- b.set(ctx, copy, cuts)
			}
		}()
	}
	for b := range order {
		err := <-b.done
		take(b.hand)
		if err != nil {
			return err
		}
		b.hand.Clear()
		select {
		case free <- b.hand:
		default:
		}
	}
	return ctx.Err()
}

// share cuts the copy into batches and hands them out, in order.
func share(ctx context.Context, copy *read.Copy, s *stick.Stick, work, order chan<- *batch, free <-chan *stick.Hand) {
	defer close(work)
	defer close(order)
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
		case order <- b:
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

func (b *batch) set(ctx context.Context, copy *read.Copy, cuts cuts) error {
	for i := b.first; i < b.end; i++ {
		at := stick.Place{Paragraph: i}
		for done := false; !done; {
			if err := ctx.Err(); err != nil {
				return err
			}
			var err error
			if at, done, err = b.hand.ParagraphTo(copy.Paragraphs[i], at, linesBetweenLooks, cuts.after(at, copy)); err != nil {
				return err
			}
		}
	}
	return nil
}
