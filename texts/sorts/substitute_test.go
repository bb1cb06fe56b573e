package sorts_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"formewise/texts/sorts"
)

// The order is that of house/substitutes.csv: common practice of the case, no source but for those its heading names.
func TestSubstitutes(t *testing.T) {
	for _, c := range []struct {
		name, font, text, want string
		notes                  []string
	}{
		{"own quotes", alphabet + " “ ” ‘ ’ \"", `"a" 'b'`, "“ a ” _ ‘ b ’", nil},
		{"from two single ones", alphabet + " ‘ ’", `"ab"`, "‘ ‘ a b ’ ’",
			[]string{"0 “: a double quote from two single ones", "4 ”: a double quote from two single ones"}},
		{"as written or as meant", alphabet + " ‘ ’", "“ab”", "‘ ‘ a b ’ ’",
			[]string{"0 “: a double quote from two single ones", "4 ”: a double quote from two single ones"}},
		{"a straight one before two single ones", alphabet + " \" ‘ ’", `"ab"`, `" a b "`,
			[]string{"0 “: the straight double quote", "3 ”: the straight double quote"}},
		{"commas turned, and apostrophes", alphabet + " , ’", `"ab", 'c'`, ", , a b ’ ’ , _ , c ’",
			[]string{"0 “: a double quote from two single ones", "4 ”: a double quote from two single ones", "7 ‘: a comma turned"}},
		{"straight ones for single quotes", alphabet + " ' ,", `'a' don't`, "' a ' _ d o n ' t",
			[]string{"0 ‘: the straight apostrophe", "2 ’: the straight apostrophe", "6 ’: the straight apostrophe"}},
		{"commas alone for all", alphabet + " ,", `'a' "b"`, ", a ?U+2019 _ , , b ?U+201D",
			[]string{"0 ‘: a comma turned", "2 ’: missing", "3 “: a double quote from two single ones", "6 ”: missing"}},
		{"low quotes", alphabet + " , ‘", "‚a‘ „b“", ", a ‘ _ , , b ‘ ‘",
			[]string{"0 ‚: a comma", "3 „: a low quote from two single ones", "6 “: a double quote from two single ones"}},
		{"a sort of two single ones", alphabet + " ‘‘ ’", `"ab'`, "‘‘ a b ’", []string{"0 “: a double quote from two single ones"}},

		{"its letters", alphabet + capitals, "æther Œuvre", "a e t h e r _ O E u v r e", []string{"0 æ: its letters", "6 Œ: its letters"}},
		{"a letter of its own", alphabet + capitals + " æ", "æther", "æ t h e r", nil},
		{"not the other way", "æ b", "aeb", "?U+0061 ?U+0065 b", []string{"0 a: missing", "1 e: missing"}},
		{"half of its letters is none", "a b", "æb", "?U+00E6 b", []string{"0 æ: missing"}},

		{"U+FB01 from letters", alphabet, "ﬁn", "f i n", []string{"0 ﬁ: its letters"}},
		{"U+FB01 from the ligature of letters", alphabet + " fi", "ﬁn", "fi n", []string{"0 ﬁ: its letters"}},
		{"U+FB01 of its own", alphabet + " ﬁ", "ﬁn fin", "ﬁ n _ f i n", nil},
		{"U+FB03 from ff and i", alphabet + " ff fi", "oﬃce", "o ff i c e", []string{"1 ﬃ: its letters"}},
		{"U+FB05 keeps its long s", alphabet + " ſ", "faﬅ", "f a ſ t", []string{"2 ﬅ: its letters"}},
		{"U+FB05 has no round s", alphabet, "faﬅ", "f a ?U+FB05", []string{"2 ﬅ: missing"}},
		{"signs of several", alphabet + capitals + " ! ?", "‼⁇⁈⁉ №x", "! ! ? ? ? ! ! ? _ N o x",
			[]string{"0 ‼: two marks", "2 ⁇: two marks", "4 ⁈: two marks", "6 ⁉: two marks", "8 №: its letters"}},

		{"an em dash of its own", alphabet + " - – —", "a--b—c", "a — / b — / c", nil},
		{"from two shorter ones", alphabet + " - –", "a--b—c", "a – – / b – – / c",
			[]string{"1 —: a dash from two shorter ones", "4 —: a dash from two shorter ones"}},
		{"from hyphens", alphabet + " -", "a--b", "a - - / b", []string{"1 —: a dash from two shorter ones"}},
		{"an en dash from a hyphen", "1 2 -", "1--2 1–2", "1 - / 2 _ 1 - / 2", []string{"1 –: a hyphen for the short dash", "4 –: a hyphen for the short dash"}},
		{"all dashes down to the hyphen", "a -", "―⸺⸻‐‑−", "- - - - - - - - - - - - - - -",
			[]string{"0 ―: the em dash", "2 ⸺: a two-em dash from two of one em", "6 ⸻: a three-em dash from three of one em",
				"12 ‐: the hyphen", "13 ‑: the hyphen", "14 −: the short dash for the minus"}},
		{"four hyphens, each dash noted", alphabet + " -", "b----", "b - - - -",
			[]string{"1 —: a dash from two shorter ones", "3 —: a dash from two shorter ones"}},
		{"four hyphens and a two-em dash", alphabet + " - ⸺", "b---- b--", "b ⸺ _ b - -", []string{"3 —: a dash from two shorter ones"}},
		{"a two-em dash from two", alphabet + " —", "b⸺ b⸻", "b — — _ b — — —",
			[]string{"1 ⸺: a two-em dash from two of one em", "4 ⸻: a three-em dash from three of one em"}},

		{"three points of one sort", "a . …", "a… a...", "a … _ a …", nil},
		{"three points from three", "a .", "a… a...", "a . . . _ a . . .", []string{"1 …: three points"}},
		{"two points", "a .", "a‥", "a . .", []string{"1 ‥: two points"}},

		{"apostrophes and primes", "a ’", "aʼ 6′", "a ’ _ ?U+0036 ’", []string{"1 ʼ: the apostrophe", "2 6: missing", "3 ′: an apostrophe for the prime"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := handOf(t, fontOf(c.font))
			if got := h.said(t, c.text); got != c.want {
				t.Errorf("%q:\ngot  %s\nwant %s", c.text, got, c.want)
			}
			if d := cmp.Diff(c.notes, noted(h.cut(t, c.text, noLimit))); d != "" {
				t.Errorf("%q (-want +got):\n%s", c.text, d)
			}
		})
	}
}

// Every use is a note of its own, in order: that is what is counted.
func TestEachUseIsNoted(t *testing.T) {
	h := handOf(t, fontOf(alphabet+" ’ ,"))
	text := ""
	for range 500 {
		text += `"Ash," says æsop--`
	}
	c := h.cut(t, text, noLimit)
	count := map[string]int{}
	last := -1
	for _, n := range c.Notes {
		if n.At < last {
			t.Fatalf("the note at %d comes after one at %d", n.At, last)
		}
		last = n.At
		if n.Rule < 0 && c.IDs[n.At] != h.cases.Missing() || n.Rule >= 0 && c.IDs[n.At] == h.cases.Missing() {
			t.Fatalf("%c is noted where %d stands", n.Character, c.IDs[n.At])
		}
		count[string(n.Character)]++
	}
	want := map[string]int{"“": 500, "”": 500, "A": 500, "æ": 500, "—": 500}
	if d := cmp.Diff(want, count); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

func TestMissing(t *testing.T) {
	for _, c := range []struct {
		name, font, text, want string
		notes                  []string
	}{
		{"a letter", alphabet, "þe", "?U+00FE e", []string{"0 þ: missing"}},
		{"one of four bytes", "a", "a𝔄a", "a ?U+1D504 a", []string{"1 𝔄: missing"}},
		{"no sort for anything", "é", "ab", "?U+0061 ?U+0062", []string{"0 a: missing", "1 b: missing"}},
		{"case is not folded", "a É", "Aé", "?U+0041 ?U+00E9", []string{"0 A: missing", "1 é: missing"}},
		{"no accent is dropped", "e", "é", "?U+00E9", []string{"0 é: missing"}},
		{"a mark with no sort", "q", "q̃q", "q ?U+0303 q", []string{"1 \u0303: missing"}},
		{"quotes as they are meant", "a", `"a' 'tis`, "?U+201C a ?U+2019 _ ?U+2019 ?U+0074 ?U+0069 ?U+0073",
			[]string{"0 “: missing", "2 ’: missing", "3 ’: missing", "4 t: missing", "5 i: missing", "6 s: missing"}},
		{"dashes as they are meant", "a 1", "a--a 1--1 a-a", "a ?U+2014 / a _ 1 ?U+2013 / 1 _ a ?U+002D / a",
			[]string{"1 —: missing", "4 –: missing", "7 -: missing"}},
		{"none of a row of dashes is lost", "a", "a----", "a ?U+2014 ?U+2014", []string{"1 —: missing", "2 —: missing"}},
		{"three points are three", "a", "a...", "a ?U+002E ?U+002E ?U+002E", []string{"1 .: missing", "2 .: missing", "3 .: missing"}},
		{"what takes no room is missing too", "a", "a\u200ba\ufeff", "a ?U+200B a ?U+FEFF", []string{"1 \u200b: missing", "3 \ufeff: missing"}},
		// What NFKC would reduce stays itself: Unicode's compatibility forms.
		{"ſ is no s, ² no 2, ½ no 1/2", alphabet + " 1 2 /", "ſ ² ½ ª ™ ℓ Ⅳ", "?U+017F _ ?U+00B2 _ ?U+00BD _ ?U+00AA _ ?U+2122 _ ?U+2113 _ ?U+2163",
			[]string{"0 ſ: missing", "1 ²: missing", "2 ½: missing", "3 ª: missing", "4 ™: missing", "5 ℓ: missing", "6 Ⅳ: missing"}},
		{"each of its own", "ſ s ² 2 ½ ﬁ f i", "ſs²2½ﬁfi", "ſ s ² 2 ½ ﬁ f i", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := handOf(t, fontOf(c.font))
			if got := h.said(t, c.text); got != c.want {
				t.Errorf("%q:\ngot  %s\nwant %s", c.text, got, c.want)
			}
			if d := cmp.Diff(c.notes, noted(h.cut(t, c.text, noLimit))); d != "" {
				t.Errorf("%q (-want +got):\n%s", c.text, d)
			}
		})
	}
}

// A missing character takes an en of its font's body, and so does the hyphen of a font without one.
func TestMissingTakesAnEn(t *testing.T) {
	f := fontOf("a")
	f.Body = 11_001 // an odd body: the en is rounded down
	h := handOf(t, f)
	var g sorts.Galley
	if w := h.cutter.Word(&g, []byte("aþ"), 0, len("aþ"), noLimit); w.Width != 2_000+5_500 {
		t.Errorf("%d wide, want 7500", w.Width)
	}
	if ids, width := h.cutter.Hyphen(); len(ids) != 1 || ids[0] != h.cases.Missing() || width != 5_500 {
		t.Errorf("the hyphen is %v, %d wide; want the missing sort, 5500", ids, width)
	}
}
