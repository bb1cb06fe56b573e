package read_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"formewise/texts/read"
)

// FuzzPlain: reading never panics, refuses with a sentence or keeps every character that is not a space, in order, and
// agrees with the slow reader.
func FuzzPlain(f *testing.F) {
	for _, text := range []string{
		"The tide was out,\nand so was the ferryman.\n\n\"Then we walk,\" she said.\n",
		bom + "one\r\n\r\ntwo\rthree\f\f\nfour",
		"e\u0301\u0323 \u1100\u1161\u11a8\n\u0301 \u212b\u2126",
		"\x00", "\xff", "caf\xe9", "\xe2\x80", "", " \f\n", "a\u00a0\u2003\u3000b\u00ad", "\n\r\n\r",
		strings.Repeat("a\u0301", 20) + strings.Repeat("\u0323", 40),
	} {
		f.Add([]byte(text), false)
		f.Add([]byte(text), true)
	}
	f.Fuzz(func(t *testing.T, data []byte, verse bool) {
		before := bytes.Clone(data)
		c, err := read.Plain([]read.File{{Name: "a", Data: data}}, verse)
		if !bytes.Equal(data, before) {
			t.Fatalf("%q was made %q", before, data)
		}
		var r *read.Refusal
		switch {
		case errors.As(err, &r):
			if r.Error() == "" || r.Advice() == "" {
				t.Fatalf("%q: an empty refusal", data)
			}
			if strings.Contains(r.Error(), "is empty") {
				compare(t, string(data), verse)
			} else if bytes.IndexByte(data, 0) < 0 && bytes.Equal(bytes.ToValidUTF8(data, nil), data) {
				t.Fatalf("%q: %v", data, r)
			}
			return
		case err != nil:
			t.Fatalf("%q: %v is no refusal", data, err)
		}
		var joined []byte
		for _, p := range c.Paragraphs {
			joined = append(joined, p.Text...)
		}
		want := norm.NFC.String(strings.TrimPrefix(string(data), bom))
		if got := printed(string(joined)); got != printed(want) {
			t.Fatalf("%q: %q, want %q", data, got, printed(want))
		}
		compare(t, string(data), verse)
	})
}

// printed is a text without its spaces.
func printed(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return -1
		}
		return r
	}, text)
}
