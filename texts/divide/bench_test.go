package divide

import (
	"bytes"
	"testing"
)

// Words of running text as they come to be divided: those of six characters and more.
func BenchmarkPlaces(b *testing.B) {
	var words [][]byte
	for _, word := range bytes.Fields(readText(b, "en-prose-austen-emma")) {
		if len(word) >= 6 {
			words = append(words, word)
		}
	}
	for _, language := range Languages() {
		b.Run(language, func(b *testing.B) {
			d := mustFor(b, language)
			places := make([]int, 0, 63)
			b.ReportAllocs()
			next := 0
			for b.Loop() {
				places = d.Places(words[next], places[:0])
				if next++; next == len(words) {
					next = 0
				}
			}
			b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "words/s")
		})
	}
}

// What a language costs that is asked for for the first time.
func BenchmarkOpen(b *testing.B) {
	for _, l := range slowFiles {
		b.Run(l.language, func(b *testing.B) {
			for b.Loop() {
				if _, err := open(l.language, l.file); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
