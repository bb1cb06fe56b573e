package divide

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

// Whatever the word: the places ascend, none is inside a character, before a mark, or with fewer letters of the same run
// than two before it and three after it; and what was in dst stays.
func FuzzPlaces(f *testing.F) {
	for language := range languages {
		for _, word := range []string{
			"hyphenation", "“Uncomfortable,”", "well-known", "l’optimisme", "STRAẞENBAHN", "phænomena", "hy\u0304phenation",
			"d'\u0301été", "comfort\u00adable", "\xffcomfortable\xc3", strings.Repeat("abcde", 20), "ſſſſſſ", "…—", "'''''", "a'b'c'd'e'f'g",
		} {
			f.Add(uint8(language), word)
		}
	}
	var slows []*slow
	for _, l := range slowFiles {
		slows = append(slows, newSlow(f, l.language, l.file))
	}
	f.Fuzz(func(t *testing.T, number uint8, word string) {
		language := int(number) % len(languages)
		d := mustFor(t, languages[language].name)
		places := d.Places([]byte(word), []int{-1})
		if len(places) == 0 || places[0] != -1 {
			t.Fatalf("%q: what was in dst is gone: %v", word, places)
		}
		for i, at := range places[1:] {
			if at <= places[i] || at >= len(word) {
				t.Fatalf("%q: places %v", word, places[1:])
			}
			if !utf8.ValidString(word) {
				continue
			}
			if r, _ := utf8.DecodeRuneInString(word[at:]); !utf8.RuneStart(word[at]) || unicode.IsMark(r) {
				t.Errorf("%q: place %d is inside a character", word, at)
			}
			outside := func(r rune) bool {
				return !unicode.IsLetter(r) && !unicode.IsMark(r) && (d.language != "fr" || r != '\'' && r != '’')
			}
			first, last := word[:at], word[at:]
			first = first[strings.LastIndexFunc(first, outside)+1:]
			if n := strings.IndexFunc(last, outside); n >= 0 {
				last = last[:n]
			}
			if letters(first) < 2 || letters(last) < 3 {
				t.Errorf("%q: place %d has %d letters before it and %d after it", word, at, letters(first), letters(last))
			}
		}
		if utf8.ValidString(word) {
			agree(t, d, slows[language], word)
		}
	})
}

// Whatever the file: it is refused with the number of a line, or its last word is divided nowhere but where it says.
func FuzzWithExceptions(f *testing.F) {
	for _, file := range []string{"man-u-script\n", "# none\n\n\ufeff", "Tá-ble # x", "a--b", "-", "aujour-d'hui\r\n", "\xff", "x\u0304\u0304-yz"} {
		f.Add(uint8(0), file)
		f.Add(uint8(3), file)
	}
	f.Fuzz(func(t *testing.T, number uint8, file string) {
		d := mustFor(t, languages[int(number)%len(languages)].name)
		with, err := d.WithExceptions(strings.NewReader(file))
		if err != nil {
			if !strings.HasPrefix(err.Error(), "line ") {
				t.Errorf("%q: error %v", file, err)
			}
			return
		}
		lines := strings.Split(strings.TrimSuffix(file, "\n"), "\n")
		line := lines[len(lines)-1]
		if strings.ContainsAny(line, "#\ufeff") || !isPlain(line) {
			return
		}
		line = strings.TrimSpace(line)
		word := strings.ReplaceAll(line, "-", "")
		if len(word) < before+after {
			return
		}
		want := strings.Split(line, "-") // less what would be too near to the ends
		for len(want[0]) < before {
			want = append([]string{want[0] + want[1]}, want[2:]...)
		}
		for n := len(want); n > 1 && len(want[n-1]) < after; n-- {
			want = append(want[:n-2], want[n-2]+want[n-1])
		}
		if got := divided(with, word); got != strings.Join(want, "-") {
			t.Errorf("%q: divided %s, want %s", line, got, strings.Join(want, "-"))
		}
	})
}

// isPlain tells whether a line is small ASCII letters, hyphens and space.
func isPlain(line string) bool {
	return strings.TrimLeft(line, "abcdefghijklmnopqrstuvwxyz- \t\r") == ""
}

// Whatever the pattern file: it is refused, or its divider divides.
func FuzzNewDivider(f *testing.F) {
	for _, source := range []string{
		`\patterns{.a1b 1cd d2e3}\hyphenation{q-rs}`, "\\patterns{%\na1b}", `\patterns{x`, `{}`, `\patterns{é1'a œ7}`, `\hyphenation{a}\patterns{a}`,
	} {
		f.Add(source, "abcdefgh")
	}
	f.Fuzz(func(t *testing.T, source, word string) {
		if d, err := newDivider("xx", []byte(source)); err == nil {
			last := 0
			for _, at := range d.Places([]byte(word), nil) {
				if at <= last || at >= len(word) {
					t.Errorf("%q: place %d after %d", word, at, last)
				}
				last = at
			}
		}
	})
}
