package divide

import (
	"bytes"
	"compress/gzip"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"
)

// slow divides by the rules as they are told in the package comment, in the plainest way: it reads the pattern file by
// itself, and looks every part of a word up in a table of patterns.
type slow struct {
	patterns map[string][]int // by letters: the figures, one more than letters
	words    map[string][]int // divided by hand: places
	french   bool
}

func newSlow(t testing.TB, language, file string) *slow {
	t.Helper()
	source, err := os.ReadFile(filepath.Join("patterns", file))
	if err != nil {
		t.Fatal(err)
	}
	text := regexp.MustCompile(`%[^\n]*`).ReplaceAllString(string(source), "")
	s := &slow{patterns: map[string][]int{}, words: map[string][]int{}, french: language == "fr"}
	for _, group := range regexp.MustCompile(`\\patterns\s*\{([^}]*)\}`).FindAllStringSubmatch(text, -1) {
		for _, pattern := range strings.Fields(group[1]) {
			letters, figures := "", []int{0}
			for _, r := range pattern {
				if unicode.IsDigit(r) {
					figures[len(figures)-1] = int(r - '0')
				} else {
					letters += string(r)
					figures = append(figures, 0)
				}
			}
			s.patterns[letters] = figures
		}
	}
	for _, group := range regexp.MustCompile(`\\hyphenation\s*\{([^}]*)\}`).FindAllStringSubmatch(text, -1) {
		for _, word := range strings.Fields(group[1]) {
			s.enter(word)
		}
	}
	if len(s.patterns) < 300 {
		t.Fatalf("%s: %d patterns", file, len(s.patterns))
	}
	return s
}

func (s *slow) enter(divided string) {
	places, n := []int{}, 0
	for _, r := range divided {
		if r == '-' {
			places = append(places, n)
		} else {
			n++
		}
	}
	s.words[strings.ReplaceAll(divided, "-", "")] = places
}

func (s *slow) places(word string) (offsets []int) {
	characters := []rune(word)
	for _, r := range characters {
		if unicode.Is(unicode.Pd, r) || r == '\u00ad' {
			return nil
		}
	}
	begin := slices.IndexFunc(characters, unicode.IsLetter)
	if begin < 0 {
		return nil
	}
	end := begin
	for end < len(characters) && end-begin < 63 {
		r := characters[end]
		apostrophe := s.french && (r == '\'' || r == '’') && end+1 < len(characters) && unicode.IsLetter(characters[end+1])
		if !unicode.IsLetter(r) && !unicode.IsMark(r) && !apostrophe {
			break
		}
		end++
	}
	run := characters[begin:end]
	plain := []string{"."}
	for _, r := range run {
		switch r = unicode.ToLower(r); r {
		case 'ſ':
			r = 's'
		case '’':
			r = '\''
		}
		plain = append(plain, string(r))
	}
	plain = append(plain, ".")
	for n := 1; n < len(run); n++ {
		if count(run[:n]) >= 2 && count(run[n:]) >= 3 && !unicode.IsMark(run[n]) && s.allows(plain, n) {
			offsets = append(offsets, len(string(characters[:begin+n])))
		}
	}
	return offsets
}

// allows tells whether a word, which has a point before and after it, may be divided after n letters.
func (s *slow) allows(plain []string, n int) bool {
	if places, ok := s.words[strings.Join(plain[1:len(plain)-1], "")]; ok {
		return slices.Contains(places, n)
	}
	figure := 0
	for from := range plain {
		for to := from + 1; to <= len(plain); to++ {
			figures, ok := s.patterns[strings.Join(plain[from:to], "")]
			if ok && from <= n+1 && n+1 <= to {
				figure = max(figure, figures[n+1-from])
			}
		}
	}
	return figure%2 == 1
}

func count(run []rune) (n int) {
	for _, r := range run {
		if unicode.IsLetter(r) {
			n++
		}
	}
	return n
}

var slowFiles = []struct{ language, file string }{
	{"en", "hyphen.tex"}, {"en-gb", "hyph-en-gb.tex"}, {"la", "hyph-la.tex"}, {"fr", "hyph-fr.tex"}, {"de", "hyph-de-1996.tex"},
}

func eachLanguage(t *testing.T, f func(t *testing.T, language string, d *Divider, s *slow)) {
	if len(slowFiles) != len(Languages()) {
		t.Errorf("%d languages are tried of %d", len(slowFiles), len(Languages()))
	}
	for _, l := range slowFiles {
		t.Run(l.language, func(t *testing.T) { f(t, l.language, mustFor(t, l.language), newSlow(t, l.language, l.file)) })
	}
}

func agree(t interface{ Errorf(string, ...any) }, d *Divider, s *slow, word string) {
	if got, want := d.Places([]byte(word), nil), s.places(word); !slices.Equal(got, want) {
		t.Errorf("%q: places %v, the slow way %v", word, got, want)
	}
}

// Words made of the letters of patterns, so that long patterns meet, and of all else that may stand in a printed word.
func TestSlowTwin(t *testing.T) {
	eachLanguage(t, func(t *testing.T, _ string, d *Divider, s *slow) {
		var letters []string
		for l := range s.patterns {
			letters = append(letters, strings.Trim(l, "."))
		}
		slices.Sort(letters)
		pieces := rapid.OneOf(
			rapid.SampledFrom(letters),
			rapid.SampledFrom(letters),
			rapid.Map(rapid.SampledFrom(letters), strings.ToUpper),
			rapid.StringOfN(rapid.RuneFrom([]rune("abcdefghijklmnopqrstuvwxyzäöüßſéèâæœçABCÉŒÆẞİK")), 1, 4, -1),
			rapid.SampledFrom([]string{"'", "’", "\u0304", "\u00ad", "-", "—", "“", ")", ".", "7", "α", "ﬁ", "ь", "\u0301\u0302"}),
		)
		rapid.Check(t, func(t *rapid.T) {
			word := strings.Join(rapid.SliceOfN(pieces, 1, 8).Draw(t, "word"), "")
			agree(t, d, s, word)
		})
	})
}

func TestSlowTwinOnTexts(t *testing.T) {
	texts := map[string][]string{
		"en":    {"en-prose-austen-emma", "en-science-newton-opticks"},
		"en-gb": {"en-prose-austen-emma"},
		"la":    {"la-prose-cicero-de-finibus"},
		"fr":    {"fr-prose-voltaire-candide", "la-prose-cicero-de-finibus"},
		"de":    {"la-prose-cicero-de-finibus"},
	}
	eachLanguage(t, func(t *testing.T, language string, d *Divider, s *slow) {
		seen := map[string]bool{}
		for _, name := range texts[language] {
			for _, word := range bytes.Fields(readText(t, name)) {
				if !seen[string(word)] {
					seen[string(word)] = true
					agree(t, d, s, string(word))
				}
			}
		}
		if len(seen) < 5000 {
			t.Errorf("only %d words", len(seen))
		}
	})
}

// readText gives one of the texts of testdata.
func readText(t testing.TB, name string) []byte {
	t.Helper()
	return unpack(t, filepath.Join("..", "..", "testdata", "texts", name+".txt.gz"))
}

func unpack(t testing.TB, file string) []byte {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return text
}
