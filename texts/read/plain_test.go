package read_test

import (
	"crypto/sha256"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"golang.org/x/text/unicode/norm"
	"pgregory.net/rapid"

	"formewise/texts/read"
)

const bom = "\ufeff"

func plain(t testing.TB, verse bool, texts ...string) *read.Copy {
	t.Helper()
	var files []read.File
	for i, text := range texts {
		files = append(files, read.File{Name: fmt.Sprintf("%c.txt", 'a'+i), Data: []byte(text)})
	}
	c, err := read.Plain(files, verse)
	if err != nil {
		t.Fatalf("%.60q: %v", texts, err)
	}
	return c
}

// said writes each paragraph as a word for its kind and its text.
func said(paragraphs []read.Paragraph) []string {
	kinds := map[read.Kind]string{read.Prose: "prose ", read.Verse: "verse ", read.Blank: "blank", read.Break: "break"}
	var list []string
	for _, p := range paragraphs {
		list = append(list, kinds[p.Kind]+string(p.Text))
	}
	return list
}

func TestProse(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []string
		count      int // of paragraphs
	}{
		{"one line", "The tide was out", []string{"prose The tide was out"}, 1},
		{"a line end at the end", "The tide was out\n", []string{"prose The tide was out"}, 1},
		{"lines stay as they are", "The tide\nwas out\n", []string{"prose The tide\nwas out"}, 1},
		{"spaces at line ends stay", "  The tide \n was out  \n", []string{"prose   The tide \n was out  "}, 1},
		{"paragraphs", "one\n\ntwo\n\n\n\nthree", []string{"prose one", "prose two", "prose three"}, 3},
		{"empty lines before and after", "\n\n\none\n\n\n", []string{"prose one"}, 1},
		{"lines of nothing but space", "one\n \t \ntwo\n\u00a0\u2003\u3000\nthree\n\v\u0085\u2028\nfour", []string{"prose one", "prose two", "prose three", "prose four"}, 4},
		{"CRLF", "one\r\nmore\r\n\r\ntwo\r\n", []string{"prose one\r\nmore\r", "prose two\r"}, 2},
		{"CRLF and blank lines of spaces", "one\r\n  \r\ntwo", []string{"prose one\r", "prose two"}, 2},
		{"CR alone", "one\rmore\r\rtwo\r", []string{"prose one\nmore", "prose two"}, 2},
		{"all three", "one\r\nmore\nyet more\rand more\r\n\rtwo", []string{"prose one\nmore\nyet more\nand more", "prose two"}, 2},
		{"LF, then CR", "one\n\rtwo", []string{"prose one", "prose two"}, 2},
		{"BOM", bom + "one", []string{"prose one"}, 1},
		{"a second BOM is text", bom + bom + "one", []string{"prose " + bom + "one"}, 1},
		{"form feed at the start", "\fone", []string{"break", "prose one"}, 1},
		{"form feed after a BOM", bom + "\fone", []string{"break", "prose one"}, 1},
		{"form feed at the end", "one\f", []string{"prose one", "break"}, 1},
		{"form feed and line end at the end", "one\f\n", []string{"prose one", "break"}, 1},
		{"form feed in a line", "one\ftwo", []string{"prose one", "break", "prose two"}, 2},
		{"form feed in a line among spaces", "one \f two", []string{"prose one ", "break", "prose  two"}, 2},
		{"form feed after a line", "one\n\ftwo", []string{"prose one", "break", "prose two"}, 2},
		{"form feed before a line end", "one\f\ntwo", []string{"prose one", "break", "prose two"}, 2},
		{"form feed alone on its line", "one\n\f\ntwo", []string{"prose one", "break", "prose two"}, 2},
		{"form feed between spaces on its line", "one\n \f \ntwo", []string{"prose one", "break", "prose two"}, 2},
		{"form feed among empty lines", "one\n\n\f\n\ntwo", []string{"prose one", "break", "prose two"}, 2},
		{"form feed and CRLF", "one\r\n\f\r\ntwo", []string{"prose one\r", "break", "prose two"}, 2},
		{"form feed and CR", "one\r\f\rtwo", []string{"prose one", "break", "prose two"}, 2},
		{"doubled", "one\f\ftwo", []string{"prose one", "break", "break", "prose two"}, 2},
		{"doubled over lines", "one\f\n\ftwo", []string{"prose one", "break", "break", "prose two"}, 2},
		{"a line of three pieces", "one\ftwo\fthree\nmore", []string{"prose one", "break", "prose two", "break", "prose three\nmore"}, 3},
		{"decomposed letters are composed", "cafe\u0301 A\u030a", []string{"prose café Å"}, 1},
		{"compatibility forms stay", "ſ ﬁ ² ½ ™ Ⅳ", []string{"prose ſ ﬁ ² ½ ™ Ⅳ"}, 1},
		{"a mark does not reach over a line end", "e\n\u0301a", []string{"prose e\n\u0301a"}, 1},
		{"no-break space and soft hyphen stay", "Mr.\u00a0Po\u00adlly", []string{"prose Mr.\u00a0Po\u00adlly"}, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := plain(t, false, c.text)
			if d := cmp.Diff(c.want, said(got.Paragraphs)); d != "" {
				t.Errorf("%q (-want +got):\n%s", c.text, d)
			}
			if got.Count != c.count {
				t.Errorf("%q: %d paragraphs, want %d", c.text, got.Count, c.count)
			}
		})
	}
}

func TestVerse(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []string
		count      int // of stanzas
	}{
		{"lines", "one\ntwo\n", []string{"verse one", "verse two"}, 1},
		{"stanzas", "one\ntwo\n\nthree", []string{"verse one", "verse two", "blank", "verse three"}, 2},
		{"every empty line is one", "one\n\n \n\u00a0\ntwo", []string{"verse one", "blank", "blank", "blank", "verse two"}, 2},
		{"empty lines first and last", "\none\n\n", []string{"blank", "verse one", "blank"}, 1},
		{"CRLF", "one\r\n\r\ntwo\r\n", []string{"verse one\r", "blank", "verse two\r"}, 2},
		{"CR", "one\r\rtwo", []string{"verse one", "blank", "verse two"}, 2},
		{"indented lines keep their space", "one\n  two", []string{"verse one", "verse   two"}, 1},
		{"form feed alone on its line is no blank line", "one\n\f\ntwo", []string{"verse one", "break", "verse two"}, 2},
		{"nor between spaces", "one\n \f \ntwo", []string{"verse one", "break", "verse two"}, 2},
		{"an empty line after it is one", "one\n\f\n\ntwo", []string{"verse one", "break", "blank", "verse two"}, 2},
		{"and one before it", "one\n\n\f\ntwo", []string{"verse one", "blank", "break", "verse two"}, 2},
		{"form feed in a line", "one\ftwo\nthree", []string{"verse one", "break", "verse two", "verse three"}, 2},
		{"form feed at the start", "\fone", []string{"break", "verse one"}, 1},
		{"form feed at the end", "one\n\f", []string{"verse one", "break"}, 1},
		{"doubled", "one\n\f\f\ntwo", []string{"verse one", "break", "break", "verse two"}, 2},
		{"decomposed letters are composed", "cafe\u0301\ne\u0323\u0301", []string{"verse café", "verse ẹ́"}, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := plain(t, true, c.text)
			if d := cmp.Diff(c.want, said(got.Paragraphs)); d != "" {
				t.Errorf("%q (-want +got):\n%s", c.text, d)
			}
			if got.Count != c.count {
				t.Errorf("%q: %d stanzas, want %d", c.text, got.Count, c.count)
			}
		})
	}
}

func TestSeveralFiles(t *testing.T) {
	texts := []string{bom + "one\nmore", "", "two\n\nthree", bom + " \r\n", "\ffour\r"}
	got := plain(t, false, texts...)
	want := &read.Copy{
		Name:       "a.txt, b.txt, c.txt, d.txt, e.txt",
		Paragraphs: got.Paragraphs,
		Characters: 7 + 8 + 1 + 5,
		Words:      5,
		Count:      4,
	}
	if d := cmp.Diff(want, got, cmpopts.IgnoreUnexported(read.Copy{})); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	if sum := fmt.Sprintf("%x", sha256.Sum256([]byte(strings.Join(texts, "")))); got.SHA256() != sum { // marks, line ends and all
		t.Errorf("SHA-256 %s, want %s", got.SHA256(), sum)
	}
	if d := cmp.Diff([]string{"prose one\nmore", "prose two", "prose three", "break", "prose four"}, said(got.Paragraphs)); d != "" {
		t.Errorf("prose (-want +got):\n%s", d)
	}

	// The stanza of one file does not go on in the next, and their border is no empty line.
	verse := plain(t, true, "one\ntwo", "three\n")
	if d := cmp.Diff([]string{"verse one", "verse two", "verse three"}, said(verse.Paragraphs)); d != "" {
		t.Errorf("verse (-want +got):\n%s", d)
	}
	if verse.Count != 2 {
		t.Errorf("%d stanzas, want 2", verse.Count)
	}
}

// The figures are those of the bytes "abc", FIPS 180-4's own first example.
func TestSHA256(t *testing.T) {
	const abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
	for _, texts := range [][]string{{"abc"}, {"a", "bc"}, {"ab", "", "c"}} {
		if got := plain(t, false, texts...).SHA256(); got != abc {
			t.Errorf("%q: %s, want %s", texts, got, abc)
		}
	}
}

// What has not to be changed is not copied, and the caller's bytes are never written to.
func TestPlainLeavesTheFile(t *testing.T) {
	for _, text := range []string{"one\r\ntwo", "one\rtwo", "e\u0301\n\ntwo", bom + "one"} {
		data := []byte(text)
		if _, err := read.Plain([]read.File{{Name: "a", Data: data}}, false); err != nil {
			t.Fatal(err)
		}
		if string(data) != text {
			t.Errorf("%q was made %q", text, data)
		}
	}
	data := []byte(bom + "one — “two”\r\n\r\nthree")
	c, err := read.Plain([]read.File{{Name: "a", Data: data}}, false)
	if err != nil {
		t.Fatal(err)
	}
	if &c.Paragraphs[0].Text[0] != &data[len(bom)] || &c.Paragraphs[1].Text[0] != &data[len(data)-5] {
		t.Error("a text in NFC was copied")
	}
}

// slow reads line by line what is normal and has no CR, and gives each paragraph's words.
func slow(text string, verse bool) (list []string) {
	var words []string
	finish := func() {
		if len(words) > 0 {
			list = append(list, "prose "+strings.Join(words, " "))
			words = nil
		}
	}
	for line := range strings.Lines(text) {
		pieces := strings.Split(strings.TrimSuffix(line, "\n"), "\f")
		for i, piece := range pieces {
			found := strings.Fields(piece)
			if i > 0 {
				finish()
				list = append(list, "break")
			}
			switch {
			case len(found) > 0 && verse:
				list = append(list, "verse "+strings.Join(found, " "))
			case len(found) > 0:
				words = append(words, found...)
			case len(pieces) == 1 && verse:
				list = append(list, "blank")
			case len(pieces) == 1:
				finish()
			}
		}
	}
	finish()
	return list
}

func compare(t rapid.TB, text string, verse bool) {
	c, err := read.Plain([]read.File{{Name: "a", Data: []byte(text)}}, verse)
	if strings.TrimSpace(strings.TrimPrefix(text, bom)) == "" {
		if err == nil {
			t.Fatalf("%q was read, with nothing in it", text)
		}
		return
	}
	if err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	unmarked := strings.TrimPrefix(text, bom)
	lines := strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(norm.NFC.String(unmarked))
	got := said(c.Paragraphs)
	for i, p := range c.Paragraphs {
		if (p.Kind == read.Blank || p.Kind == read.Break) != (len(p.Text) == 0) || strings.Contains(string(p.Text), "\f") {
			t.Fatalf("%q: paragraph %d of kind %d is %q", text, i, p.Kind, p.Text)
		}
		got[i] = strings.Join(strings.Fields(got[i]), " ")
	}
	if d := cmp.Diff(slow(lines, verse), got); d != "" {
		t.Fatalf("%q, verse %v (-slow +fast):\n%s", text, verse, d)
	}
	if characters, words := count(text); c.Characters != characters || c.Words != words {
		t.Fatalf("%q: %d characters, %d words; want %d, %d", text, c.Characters, c.Words, characters, words)
	}
}

func TestPlainAgainstSlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { compare(t, someText.Draw(t, "text"), rapid.Bool().Draw(t, "verse")) })
}
