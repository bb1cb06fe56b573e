package read_test

import (
	"bytes"
	"compress/gzip"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"formewise/texts/read"
)

// count is a second way to the figures: all code points but the line ends and the mark, and all fields.
func count(text string) (characters, words int) {
	text = strings.TrimPrefix(text, bom)
	return utf8.RuneCountInString(text) - strings.Count(text, "\n") - strings.Count(text, "\r"), len(strings.Fields(text))
}

// someText is text with all that a reader may stumble over.
var someText = rapid.Custom(func(t *rapid.T) string {
	signs := []rune("aaabcdefghiABC\u00e9\u017f\ufb01\u0301\u0323\u212b\u1100\u1161     \t\n\n\n\n\r\r\f\f\v\u0085\u00a0\u00ad\u2003\u2028\u202f\u3000'\"-.\u2014\u201c\ufeff\U0001d504")
	text := rapid.StringOf(rapid.SampledFrom(signs)).Draw(t, "signs")
	if rapid.IntRange(0, 3).Draw(t, "line ends") == 0 {
		text = strings.ReplaceAll(text, "\n", "\r\n")
	}
	return text
})

func TestFigures(t *testing.T) {
	for _, c := range []struct {
		name, text        string
		characters, words int
	}{
		{"letters and spaces", "The tide was out.", 17, 4},
		{"line ends are left out and part words", "a\nb\r\nc\rd\r\r\n", 4, 4},
		{"several spaces, tabs", "  a  b\tc ", 9, 3},
		{"a word over a hyphenated line end is two", "ferry-\nman", 9, 2},
		{"the mark is left out", bom + "a", 1, 1},
		{"a second is not", bom + bom + "a", 2, 1},
		{"a form feed is a character and a space", "a\fb", 3, 2},
		{"code points, not bytes", "é — “ſ” 𝔄", 9, 4},
		{"as read, not as composed", "e\u0301 A\u030a", 5, 2},
		{"no-break spaces part words too", "a\u00a0b\u202fc\u2007d", 7, 4},
		{"all other spaces too", "a\u0085b\u1680c\u2000d\u200ae\u2028f\u2029g\u205fh\u3000i\vj", 19, 10},
		{"what takes no room does not", "a\u00adb\u200bc\u2060d", 7, 1},
		{"words of signs alone", "— - \u00ad .", 7, 4},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := plain(t, false, c.text)
			if got.Characters != c.characters || got.Words != c.words {
				t.Errorf("%q: %d characters, %d words; want %d, %d", c.text, got.Characters, got.Words, c.characters, c.words)
			}
			if characters, words := count(c.text); characters != c.characters || words != c.words {
				t.Errorf("%q: the second way gives %d, %d; want %d, %d", c.text, characters, words, c.characters, c.words)
			}
		})
	}
}

// books are the open texts of testdata/texts.
func books(t *testing.T) map[string]string {
	t.Helper()
	names, err := filepath.Glob("../../testdata/texts/*.txt.gz")
	if err != nil || len(names) == 0 {
		t.Fatalf("no texts: %v", err)
	}
	list := map[string]string{}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		z, err := gzip.NewReader(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(z)
		if err != nil {
			t.Fatal(err)
		}
		list[filepath.Base(name)] = string(text)
	}
	return list
}

func TestFiguresOfBooks(t *testing.T) {
	big := 0
	for name, text := range books(t) {
		if len(text) > 4<<20 {
			big++
		}
		for end, text := range map[string]string{
			"LF": text, "CRLF": strings.ReplaceAll(text, "\n", "\r\n"), "CR": strings.ReplaceAll(text, "\n", "\r"),
			"one line": strings.ReplaceAll(text, "\n", " "),
		} {
			got := plain(t, false, text)
			if characters, words := count(text); got.Characters != characters || got.Words != words {
				t.Errorf("%s, %s: %d characters, %d words; want %d, %d", name, end, got.Characters, got.Words, characters, words)
			}
			held := 0
			for _, p := range got.Paragraphs {
				held += len(strings.Fields(string(p.Text)))
			}
			if held != got.Words {
				t.Errorf("%s, %s: %d words counted, and %d in its paragraphs", name, end, got.Words, held)
			}
		}
	}
	if big == 0 {
		t.Error("no text of several MB, which is read in blocks, was tried")
	}
}

// However a text is shared out among files, at line ends, it has the same figures.
func TestFiguresAdd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole, files := "x\n", []read.File{{Name: "a", Data: []byte("x\n")}}
		for range rapid.IntRange(1, 4).Draw(t, "files") {
			text := someText.Draw(t, "text") + "\n"
			if strings.HasPrefix(text, bom) {
				text = "y" + text
			}
			whole += text
			files = append(files, read.File{Name: "b", Data: []byte(text)})
		}
		got, err := read.Plain(files, false)
		if err != nil {
			t.Fatal(err)
		}
		one, err := read.Plain([]read.File{{Name: "a", Data: []byte(whole)}}, false)
		if err != nil {
			t.Fatal(err)
		}
		if got.Characters != one.Characters || got.Words != one.Words || got.SHA256() != one.SHA256() {
			t.Fatalf("%q: %d characters, %d words, %s; in one file %d, %d, %s", whole, got.Characters, got.Words, got.SHA256(), one.Characters, one.Words, one.SHA256())
		}
	})
}
