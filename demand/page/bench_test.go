package page_test

import (
	"testing"

	"formewise/demand/internal/trial"
	"formewise/demand/page"
	"formewise/demand/stick"
	"formewise/texts/read"
	"formewise/texts/sorts"
)

// The steps of a check on a real book, each by itself, in MB of manuscript a second. The book is the King James Bible, 4.3 MB.
func BenchmarkSteps(b *testing.B) {
	text := trial.Text(b, "en-bible-kjv")
	cases := trial.Roman12(b)
	b.Run("read", func(b *testing.B) {
		b.SetBytes(int64(len(text)))
		for b.Loop() {
			trial.Copy(b, text, false)
		}
	})
	copy := trial.Copy(b, text, false)
	b.Run("cut", func(b *testing.B) {
		b.SetBytes(int64(len(text)))
		cutter, err := sorts.NewCutter(cases, 0)
		if err != nil {
			b.Fatal(err)
		}
		var g sorts.Galley
		for b.Loop() {
			for _, p := range copy.Paragraphs {
				g.Clear()
				for at := cutter.Skip(p.Text, 0); at < len(p.Text); {
					at = cutter.Word(&g, p.Text, at, len(p.Text), 1<<30).Next
				}
			}
		}
	})
	s, err := stick.New(cases, 0, 1, 264000)
	if err != nil {
		b.Fatal(err)
	}
	b.Run("stick", func(b *testing.B) {
		b.SetBytes(int64(len(text)))
		h := s.NewHand()
		for b.Loop() {
			for i, p := range copy.Paragraphs {
				h.Clear()
				if _, _, err := h.Paragraph(p, stick.Place{Paragraph: i}, 0); err != nil {
					b.Fatal(err)
				}
			}
		}
	})
	b.Run("compose", func(b *testing.B) {
		b.SetBytes(int64(len(text)))
		for b.Loop() {
			if _, err := page.Compose(b.Context(), copy, s, 30); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// A plain loop that decodes the text and counts its words: what a check is to be measured by.
func BenchmarkPlainCount(b *testing.B) {
	text := trial.Text(b, "en-bible-kjv")
	b.SetBytes(int64(len(text)))
	words := 0
	for b.Loop() {
		in := false
		for _, r := range string(text) {
			space := r == ' ' || '\t' <= r && r <= '\r' || r == 0xA0
			if !space && !in {
				words++
			}
			in = !space
		}
	}
	_ = words
	_ = read.Prose
}
