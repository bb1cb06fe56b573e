package sorts_test

import (
	"slices"
	"strings"
	"testing"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"formewise/texts/read"
	"formewise/texts/sorts"
)

// asRead cuts a text as it comes out of the reader.
func (h hand) asRead(t testing.TB, text string) cutting {
	t.Helper()
	copy, err := read.Plain([]read.File{{Name: "a", Data: []byte(text)}}, false)
	if err != nil {
		t.Fatal(err)
	}
	var all cutting
	for _, p := range copy.Paragraphs {
		c := h.cut(t, string(p.Text), noLimit)
		for _, n := range c.Notes {
			n.At += len(all.IDs)
			all.Notes = append(all.Notes, n)
		}
		all.IDs = append(all.IDs, c.IDs...)
	}
	return all
}

// Spellings that Unicode calls equivalent come to the same sorts. The first are examples of Unicode Standard Annex #15.
func TestEquivalentSpellings(t *testing.T) {
	const font = alphabet + " Å Ω ô ṩ ḍ̇ q̣̇ é ế 한 ; ´"
	h := handOf(t, fontOf(font))
	for _, c := range []struct {
		want      string
		spellings []string
	}{
		{"Å", []string{"\u00c5", "A\u030a", "\u212b"}},
		{"Ω", []string{"\u03a9", "\u2126"}},
		{"ô", []string{"\u00f4", "o\u0302"}},
		{"ṩ", []string{"\u1e69", "s\u0323\u0307", "s\u0307\u0323", "\u1e63\u0307", "\u1e61\u0323"}},
		{"ḍ̇", []string{"\u1e0b\u0323", "\u1e0d\u0307", "d\u0323\u0307", "d\u0307\u0323"}},
		{"q̣̇", []string{"q\u0307\u0323", "q\u0323\u0307"}},
		{"ế", []string{"\u1ebf", "\u00ea\u0301", "e\u0302\u0301"}},
		{"é", []string{"\u00e9", "e\u0301"}},
		{"한", []string{"\ud55c", "\u1112\u1161\u11ab", "\ud558\u11ab"}},
		{";", []string{";", "\u037e"}},
		{"´", []string{"\u00b4", "\u1ffd"}},
	} {
		for _, spelling := range c.spellings {
			got := h.asRead(t, "a"+spelling+"b")
			if names := h.names(got, 0, len(got.IDs)); names != "a "+c.want+" b" || got.Notes != nil {
				t.Errorf("%+q: %s, want a %s b", spelling, names, c.want)
			}
		}
	}
}

// Every letter of the European scripts that Unicode can write in two ways, by golang.org/x/text/unicode/norm.
func TestEveryCanonicalPair(t *testing.T) {
	var texts []string
	var pairs [][2]string
	for r := rune(0xa0); r < 0x2000; r++ {
		composed, parted := norm.NFC.String(string(r)), norm.NFD.String(string(r))
		if parted == string(r) || unicode.IsSpace(r) || !unicode.IsLetter(r) {
			continue
		}
		pairs = append(pairs, [2]string{composed, parted}, [2]string{composed, string(r)})
		if !slices.Contains(texts, composed) {
			texts = append(texts, composed)
		}
	}
	if len(pairs) < 1000 {
		t.Fatalf("%d pairs are too few", len(pairs))
	}
	h := handOf(t, fontOf(strings.Join(texts, " ")))
	for _, p := range pairs {
		got := h.asRead(t, p[1]+" "+p[1])
		if names := h.names(got, 0, len(got.IDs)); names != p[0]+" "+p[0] || got.Notes != nil {
			t.Errorf("%+q: %s, want %s twice", p[1], names, p[0])
		}
	}
}

// A letter and its mark are one character to the reader, and no sort of the letter alone is set for it.
func TestMissingInAnySpelling(t *testing.T) {
	h := handOf(t, fontOf(alphabet+" ́"))
	for _, spelling := range []string{"\u00e9", "e\u0301"} {
		got := h.asRead(t, spelling)
		if len(got.IDs) != 1 || len(got.Notes) != 1 || got.Notes[0] != (sorts.Note{At: 0, Character: 'é', Rule: -1}) {
			t.Errorf("%+q: %v, %v", spelling, got.IDs, got.Notes)
		}
	}
}
