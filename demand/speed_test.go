package demand_test

import (
	"bytes"
	"math"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"

	"formewise/demand"
	"formewise/demand/internal/trial"
	"formewise/texts/read"
)

// bookOf is the open English texts, one after another and over again, as many whole paragraphs as make up so many bytes.
func bookOf(b *testing.B, size int) []byte {
	b.Helper()
	var all []byte
	for _, name := range []string{"en-prose-austen-emma", "en-science-newton-opticks", "en-bible-kjv"} {
		all = append(append(all, plainText(b, name)...), "\n\n"...)
	}
	all = bytes.Repeat(all, size/len(all)+1)
	return all[:bytes.LastIndex(all[:size], []byte("\n\n"))+2]
}

// countPlainly is what a check is measured by: a loop that decodes a text and counts its words, and does nothing else.
func countPlainly(text []byte) (characters, words int) {
	inWord := false
	for at := 0; at < len(text); {
		r, n := rune(text[at]), 1
		if r >= utf8.RuneSelf {
			r, n = utf8.DecodeRune(text[at:])
		}
		at += n
		characters++
		if unicode.IsSpace(r) {
			inWord = false
		} else if !inWord {
			inWord = true
			words++
		}
	}
	return characters, words
}

// checkWhole is a whole check from the bytes on: at 24 picas, 40 lines to the page, words divided.
func checkWhole(b *testing.B, stock demand.Stock, text []byte) *demand.Answer {
	b.Helper()
	copy, err := read.Plain([]read.File{{Name: "book", Data: text}}, false)
	if err != nil {
		b.Fatal(err)
	}
	a, err := demand.Check(b.Context(), planAt(b, 24*12_000, true), stock, copy)
	if err != nil {
		b.Fatal(err)
	}
	return a
}

// BenchmarkCheck is a whole check of a text of 20 MB, in MB of manuscript a second.
func BenchmarkCheck(b *testing.B) {
	text, stock := bookOf(b, 20_000_000), demand.Stock{cmr10(b, 10_000)}
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		checkWhole(b, stock, text)
	}
}

// BenchmarkRatios compares, in one run, a whole check with the plain loop, and with a check of twice the text. The ratios are of the
// best times, each taken in turn, so that a busy machine spoils none alone. The marks are 2 and 2.2.
func BenchmarkRatios(b *testing.B) {
	once, stock := bookOf(b, 20_000_000), demand.Stock{cmr10(b, 10_000)}
	twice := bytes.Repeat(once, 2)
	best := func(have *time.Duration, run func()) {
		start := time.Now()
		run()
		*have = min(*have, time.Since(start))
	}
	plain, check, double := time.Duration(math.MaxInt64), time.Duration(math.MaxInt64), time.Duration(math.MaxInt64)
	lines := 0
	for b.Loop() {
		words := 0
		best(&plain, func() { _, words = countPlainly(once) })
		best(&check, func() {
			a := checkWhole(b, stock, once)
			if a.Copy.Words != words {
				b.Fatalf("%d words read, %d counted", a.Copy.Words, words)
			}
			lines = a.CastOff.Lines
		})
		best(&double, func() {
			if a := checkWhole(b, stock, twice); a.CastOff.Lines != 2*lines {
				b.Fatalf("%d lines of the text, %d of twice the text", lines, a.CastOff.Lines)
			}
		})
	}
	b.ReportMetric(0, "ns/op")
	b.ReportMetric(float64(len(once))/1e6/plain.Seconds(), "MB/s-plain")
	b.ReportMetric(float64(len(once))/1e6/check.Seconds(), "MB/s-check")
	b.ReportMetric(check.Seconds()/plain.Seconds(), "check/plain")
	b.ReportMetric(double.Seconds()/check.Seconds(), "2×text/text")
}

// The plain loop counts as package read does.
func TestCountPlainly(t *testing.T) {
	for _, text := range []string{"The tide was out,\nand so was the ferryman.", "a\u00a0b\u2003c  d", "“Well—’tis late,” she said.", "x"} {
		copy := trial.Copy(t, []byte(text), false)
		characters, words := countPlainly([]byte(text))
		if ends := bytes.Count([]byte(text), []byte("\n")); characters-ends != copy.Characters || words != copy.Words {
			t.Errorf("%q: %d characters and %d words, read as %d and %d", text, characters-ends, words, copy.Characters, copy.Words)
		}
	}
}
