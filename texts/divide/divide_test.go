package divide

import (
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

func mustFor(t testing.TB, language string) *Divider {
	t.Helper()
	d, err := For(language)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// parts are the parts that a word may be divided in.
func parts(d *Divider, word string) (parts []string) {
	begin := 0
	for _, at := range d.Places([]byte(word), nil) {
		parts = append(parts, word[begin:at])
		begin = at
	}
	return append(parts, word[begin:])
}

// divided writes a word with hyphens where it may be divided.
func divided(d *Divider, word string) string { return strings.Join(parts(d, word), "-") }

func TestWords(t *testing.T) {
	tables := []struct {
		source, language string
		words            string
	}{
		{"F. M. Liang, Word Hy-phen-a-tion by Com-put-er, 1983: the worked example", "en", "hy-phen-ation"},
		{"D. E. Knuth's list of exceptions at the end of hyphen.tex", "en",
			"as-so-ciate as-so-ciates dec-li-na-tion oblig-a-tory phil-an-thropic present presents project projects " +
				"reci-procity re-cog-ni-zance ref-or-ma-tion ret-ri-bu-tion ta-ble"},
		{"D. Wujastyk's list of exceptions at the end of hyph-en-gb.tex, less what has no three letters after it", "en-gb",
			"uni-ver-sity uni-ver-sit-ies how-ever ma-nu-script ma-nu-scripts re-ci-pro-city through-out some-thing"},
		{"German spelling of 2006: st is divided, ck and ch are not, three f stay; common practice, no page at hand", "de",
			"Sil-ben-tren-nung Buch-dru-cker-kunst Pflas-ter-stein Schiff-fahrts-weg Wör-ter-buch Stra-ßen-bahn Ab-schnitt"},
		{"French: by spoken syllables, the consonant to the next line, no mute syllable left alone; common practice, no source", "fr",
			"ty-po-gra-phique com-po-si-teur im-pri-meur ca-rac-tères l'op-ti-misme l’in-ter-ligne ré-glette"},
		{"Latin: the consonant to the next line, prefixes kept; common practice, no source", "la",
			"phi-lo-so-pho-rum vo-lup-ta-tem di-spu-tare an-te-po-nant ma-gi-stro-rum"},
	}
	for _, table := range tables {
		d := mustFor(t, table.language)
		for _, want := range strings.Fields(table.words) {
			if got := divided(d, strings.ReplaceAll(want, "-", "")); got != want {
				t.Errorf("%s: got %s, want %s (%s)", table.language, got, want, table.source)
			}
		}
	}
}

// What of a printed word is divided, the places marked by a stroke. TeX says the same where it can be asked: see TestTeX.
func TestPrintedWords(t *testing.T) {
	for _, c := range []struct{ language, want string }{
		{"en", "“un|com|fort|able,”"},
		{"en", "Hy|phen|ation;"},
		{"en", "HY|PHEN|ATION"},
		{"en", "3com|fort|able7"},
		{"en", "\xffcom|fort|able\xfe"}, // no UTF-8, and no letters
		{"en", ""},
		{"en", "—"},
		{"en", "..."},
		// The first run only.
		{"en", "com|fort|able/reading"},
		{"en", "com|fort|able’s"},
		{"en", "o'comfortable"},
		{"en", "l'optimisme"},
		// Hyphens and dashes of its own.
		{"en", "(well-comfortable)"},
		{"en", "comfort-able"},
		{"en", "-comfortable"},
		{"en", "comfortable—”"},
		{"en", "comfortable/—comfortable"},
		{"en", "—comfortable"},
		{"en", "comfortable\u2010comfortable"},
		{"en", "comfort\u00adable"},
		// Letters that are not in the patterns.
		{"en", "phænom|ena"},
		{"en", "αβγδεζηθ"},
		{"en", "Miſ|ſis|ſippi"},
		{"fr", "l’op|ti|misme"},
		{"fr", "«l'op|ti|misme»"},
		{"fr", "‘op|ti|misme’"},
		{"fr", "'op|ti|misme'"},
		{"fr", "L'OP|TI|MISME"},
		{"fr", "CA|RAC|TÈRES"},
		{"de", "„Wör|ter|buch“"},
		{"de", "STRA|ẞEN|BAHN"},
		{"la", "phæ|no|mena"},
		{"la", "PHÆ|NO|MENA"},
	} {
		word := strings.ReplaceAll(c.want, "|", "")
		if got := strings.Join(parts(mustFor(t, c.language), word), "|"); got != c.want {
			t.Errorf("%s: got %q, want %q", c.language, got, c.want)
		}
	}
}

// A combining mark is no letter, and stays with its own.
func TestMarks(t *testing.T) {
	d := mustFor(t, "en")
	for _, mark := range []string{"\u0304", "\u0304\u0323"} {
		for at := 1; at <= len("hyphenation"); at++ {
			word := "hyphenation"[:at] + mark + "hyphenation"[at:]
			for _, p := range d.Places([]byte(word), nil) {
				r, _ := utf8.DecodeRuneInString(word[p:])
				if r >= 0x300 {
					t.Errorf("%q is divided before a mark", word)
				}
				if before, after := letters(word[:p]), letters(word[p:]); before < 2 || after < 3 {
					t.Errorf("%q: %d letters before a division, %d after it", word, before, after)
				}
			}
		}
	}
	if got, want := divided(d, "hy\u0304phenation"), "hy\u0304phen-ation"; got != want {
		t.Errorf("got %q, want %q", got, want) // hy3ph is no longer there, the others are
	}
	// A pattern that ends in a figure would divide before the mark.
	ends, err := newDivider("xx", []byte(`\patterns{n1}`))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"on-okoko", "on\u0304okoko"} {
		if got := divided(ends, strings.ReplaceAll(want, "-", "")); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

func letters(s string) (n int) {
	for _, r := range s {
		if unicode.IsLetter(r) {
			n++
		}
	}
	return n
}

func TestLongWords(t *testing.T) {
	d := mustFor(t, "en")
	syllables := strings.Repeat("hyphenation", 20)
	want := d.Places([]byte(syllables[:63]), nil)
	if len(want) == 0 || want[len(want)-1] < 55 {
		t.Fatalf("63 letters that can be divided at %v: try others", want)
	}
	if got := d.Places([]byte(syllables), nil); !slices.Equal(got, want) {
		t.Errorf("of %d letters: %v, of the first 63: %v", len(syllables), got, want)
	}
	if got := d.Places([]byte(syllables+"-"), nil); len(got) > 0 {
		t.Errorf("a hyphen after %d letters, and still: %v", len(syllables), got)
	}
}

func TestPlacesAppends(t *testing.T) {
	d := mustFor(t, "en")
	if got, want := d.Places([]byte("hyphenation"), []int{7}), []int{7, 2, 6}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	if got, want := d.Places([]byte("the"), []int{7}), []int{7}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	dst, word := make([]int, 0, 63), []byte("“Circumnavigation,”")
	if n := testing.AllocsPerRun(100, func() { dst = d.Places(word, dst[:0]) }); n != 0 {
		t.Errorf("%v allocations a word", n)
	}
	if len(dst) == 0 {
		t.Error("no places: nothing was tried")
	}
}

func TestFor(t *testing.T) {
	if got, want := strings.Join(Languages(), " "), "en en-gb la fr de"; got != want {
		t.Errorf("languages: got %s, want %s", got, want)
	}
	_, err := For("EN")
	if want := `no division patterns for language "EN" (there are en, en-gb, la, fr, de)`; err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
	if first, again := mustFor(t, "en"), mustFor(t, "en"); first != again {
		t.Error("the patterns are read twice")
	}
}
