package read

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// Texts of several blocks, with lines of many lengths, so that blocks end where it is hardest.
func longTexts() map[string]string {
	var lines, dashes strings.Builder
	for i := range 12_000 {
		lines.WriteString(strings.Repeat("w", i%13) + " " + strings.Repeat("é", i%7) + "\u2003“" + strings.Repeat("x ", i%31) + "\n")
		dashes.WriteString(strings.Repeat("—", i%97))
		if i%41 == 0 {
			dashes.WriteString("\r\n")
		}
	}
	return map[string]string{
		"short lines":      lines.String(),
		"wide characters":  dashes.String(),
		"CRLF":             strings.ReplaceAll(lines.String(), "\n", "\r\n"),
		"CR alone":         strings.ReplaceAll(lines.String(), "\n", "\r"),
		"one line":         strings.Repeat("The tide was out, and so was the ferryman. ", 30_000),
		"one word":         strings.Repeat("é", 700_000),
		"nothing but ends": strings.Repeat("\n", 3*blockSize+1),
		"odd at the end":   lines.String() + "\r" + strings.Repeat("e\u0301 ", 40),
		"odd at the start": "e\u0301\ra" + lines.String(),
		"odd in between":   lines.String() + "e\u0301\ra" + lines.String(),
	}
}

func TestBlocksAreAsOne(t *testing.T) {
	for name, text := range longTexts() {
		if len(text) < 2*blockSize {
			t.Errorf("%s: %d bytes are too few to be shared out", name, len(text))
		}
		got, want := look([]byte(text)), lookAt([]byte(text))
		if odd := strings.HasPrefix(name, "odd"); odd && (want.normal || !want.lone) {
			t.Errorf("%s: %+v", name, want)
		}
		if got != want {
			t.Errorf("%s: in blocks %+v, whole %+v", name, got, want)
		}
	}
}

// The first NUL and the first byte that is not UTF-8 are found by the byte, about the places where blocks end above all.
func TestBlocksNameTheFirst(t *testing.T) {
	texts := longTexts()
	for _, name := range []string{"short lines", "wide characters", "one line"} {
		text := texts[name][:2*blockSize+4096]
		places := map[int]bool{0: true, len(text) - 1: true}
		for block := blockSize; block <= 2*blockSize; block += blockSize {
			end := block
			if n := strings.IndexByte(text[block:], '\n'); n >= 0 {
				end = block + n
			}
			for d := -1; d <= 1; d++ {
				places[block+d], places[end+d] = true, true
			}
		}
		for at := range places {
			for !utf8.RuneStart(text[at]) {
				at--
			}
			for _, bad := range []string{"\x00", "\xff"} {
				got := look([]byte(text[:at] + bad + "\n" + strings.ToValidUTF8(text[at:], "") + "\n\xff\x00"))
				first := min(uint(got.nul), uint(got.invalid))
				if first != uint(at) || (got.nul == at) != (bad == "\x00") || got.invalid < 0 || got.nul < 0 {
					t.Errorf("%s: byte %q at %d: %+v", name, bad, at, got)
				}
			}
		}
	}
}

// What a look takes for normal is so, for every character by itself, after a letter and before a mark: the table of
// characters that need no second look is short, and may not be too long.
func TestNormalIsNormal(t *testing.T) {
	for r := rune(1); r <= utf8.MaxRune; r++ {
		if !utf8.ValidRune(r) || r == '\n' || r == '\r' {
			continue
		}
		text := []byte("e" + string(r) + "e")
		if lookAt(text).normal && !bytes.Equal(norm.NFC.Bytes(text), text) {
			t.Fatalf("%U is taken for normal", r)
		}
		if r < 0x3000 { // a mark makes every text be looked at again
			if marked := []byte(string(r) + "\u0301"); lookAt(marked).normal && !norm.NFC.IsNormal(marked) {
				t.Fatalf("%U with an acute is taken for normal", r)
			}
		}
	}
}
