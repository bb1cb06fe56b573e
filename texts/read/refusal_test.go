package read_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"formewise/texts/read"
)

func refused(t rapid.TB, files ...read.File) *read.Refusal {
	t.Helper()
	_, err := read.Plain(files, false)
	var r *read.Refusal
	if !errors.As(err, &r) {
		t.Fatalf("the error is %v, not a refusal", err)
	}
	if r.Advice() == "" || strings.Contains(r.Error(), "\n") {
		t.Errorf("%q advises %q", r.Error(), r.Advice())
	}
	return r
}

func TestRefusals(t *testing.T) {
	far := strings.Repeat("The tide was out.\n", 40_000) // 720,000 bytes: several blocks
	for _, c := range []struct{ name, text, want string }{
		{"empty", "", `manuscript "a.txt" is empty: there is nothing to set`},
		{"spaces", " \t \n\r\n \u00a0\u3000", `manuscript "a.txt" is empty: there is nothing to set`},
		{"a mark alone", bom, `manuscript "a.txt" is empty: there is nothing to set`},
		{"form feeds alone", "\f\n\f", `manuscript "a.txt" is empty: there is nothing to set`},

		{"NUL", "ab\x00c", `manuscript "a.txt" is not plain text: a NUL byte at byte offset 2, line 1`},
		{"NUL alone", "\x00", `manuscript "a.txt" is not plain text: a NUL byte at byte offset 0, line 1`},
		{"NUL after a mark", bom + "ab\x00c", `manuscript "a.txt" is not plain text: a NUL byte at byte offset 5, line 1`},
		{"NUL on line 3", "a\nb\n\x00", `manuscript "a.txt" is not plain text: a NUL byte at byte offset 4, line 3`},
		{"NUL before worse", "a\x00\xff", `manuscript "a.txt" is not plain text: a NUL byte at byte offset 1, line 1`},
		{"UTF-16", "\xff\xfea\x00", `manuscript "a.txt" is not UTF-8: byte 0xFF at byte offset 0, line 1`},
		{"NUL far on", far + "ab\x00" + far, `manuscript "a.txt" is not plain text: a NUL byte at byte offset 720002, line 40001`},

		{"Latin-1", "caf\xe9 noir", `manuscript "a.txt" is not UTF-8: byte 0xE9 at byte offset 3, line 1`},
		{"after a mark", bom + "\x80", `manuscript "a.txt" is not UTF-8: byte 0x80 at byte offset 3, line 1`},
		{"before a NUL", "\xe9\x00", `manuscript "a.txt" is not UTF-8: byte 0xE9 at byte offset 0, line 1`},
		{"cut short", "ab\xe2\x80", `manuscript "a.txt" is not UTF-8: byte 0xE2 at byte offset 2, line 1`},
		{"too long a form", "ab\xc0\xaf", `manuscript "a.txt" is not UTF-8: byte 0xC0 at byte offset 2, line 1`},
		{"half a pair", "ab\xed\xa0\x80", `manuscript "a.txt" is not UTF-8: byte 0xED at byte offset 2, line 1`},
		{"beyond the last", "ab\xf4\x90\x80\x80", `manuscript "a.txt" is not UTF-8: byte 0xF4 at byte offset 2, line 1`},
		{"among spaces alone", "  \n \xff", `manuscript "a.txt" is not UTF-8: byte 0xFF at byte offset 4, line 2`},
		{"lines of LF", "a\n\nb\xff", `manuscript "a.txt" is not UTF-8: byte 0xFF at byte offset 4, line 3`},
		{"lines of CRLF", "a\r\n\r\nb\xff", `manuscript "a.txt" is not UTF-8: byte 0xFF at byte offset 6, line 3`},
		{"lines of CR", "a\r\rb\xff", `manuscript "a.txt" is not UTF-8: byte 0xFF at byte offset 4, line 3`},
		{"right after a CR", "a\r\xff", `manuscript "a.txt" is not UTF-8: byte 0xFF at byte offset 2, line 2`},
		{"far on, the first of two", far + "\xe9" + far + "\xff", `manuscript "a.txt" is not UTF-8: byte 0xE9 at byte offset 720000, line 40001`},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := refused(t, read.File{Name: "a.txt", Data: []byte(c.text)}).Error(); got != c.want {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
		})
	}
	for _, c := range []struct {
		name  string
		texts []string
		want  string
	}{
		{"no file at all", nil, `manuscript "" is empty: there is nothing to set`},
		{"all empty", []string{"", " \n", bom}, `manuscript "a.txt, b.txt, c.txt" is empty: there is nothing to set`},
		{"the second", []string{"one", "tw\xff"}, `manuscript "b.txt" is not UTF-8: byte 0xFF at byte offset 2, line 1`},
		{"the first of two", []string{"\x00", "\xff"}, `manuscript "a.txt" is not plain text: a NUL byte at byte offset 0, line 1`},
	} {
		t.Run(c.name, func(t *testing.T) {
			var files []read.File
			for i, text := range c.texts {
				files = append(files, read.File{Name: fmt.Sprintf("%c.txt", 'a'+i), Data: []byte(text)})
			}
			if got := refused(t, files...).Error(); got != c.want {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
		})
	}
}

// U+FFFD in the text is a character like any other: only bytes that are none are refused.
func TestReplacementCharacter(t *testing.T) {
	if c := plain(t, false, "a\ufffdb"); c.Characters != 3 || c.Words != 1 {
		t.Errorf("%d characters, %d words", c.Characters, c.Words)
	}
}

func TestRefusalNamesThePlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before := strings.TrimSuffix(someText.Draw(t, "before"), "\r") + "."
		bad := rapid.SampledFrom([]string{"\x00", "\xff", "\x80", "\xe2\x80."}).Draw(t, "bad")
		lines := strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(before)
		want := fmt.Sprintf("byte offset %d, line %d", len(before), 1+strings.Count(lines, "\n"))
		r := refused(t, read.File{Name: "a", Data: []byte(before + bad + someText.Draw(t, "after"))})
		if !strings.HasSuffix(r.Error(), want) {
			t.Fatalf("%q, %q: %s; want %s", before, bad, r, want)
		}
	})
}
