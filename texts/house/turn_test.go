package house_test

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"formewise/texts/house"
)

// turned is a whole text as it is meant.
func turned(text string) string {
	var b strings.Builder
	for i := 0; i < len(text); {
		meant, n := house.Turn([]byte(text), i)
		if n == 0 {
			meant, n = text[i:i+1], 1
		}
		b.WriteString(meant)
		i += n
	}
	return b.String()
}

// Common practice, no source.
func TestQuotes(t *testing.T) {
	for _, c := range []struct{ written, meant string }{
		{`"Well," she said.`, `“Well,” she said.`},
		{`She said, "Well."`, `She said, “Well.”`},
		{`"Well?" "Well!" "Well;" "well"`, `“Well?” “Well!” “Well;” “well”`},
		{`'Well,' she said.`, `‘Well,’ she said.`},
		{`a "word" and a 'word'`, `a “word” and a ‘word’`},
		{`"élan", 'élan', "þat"`, `“élan”, ‘élan’, “þat”`},
		{`"1894" and "§ 3"`, `“1894” and “§ 3”`},
		{`"...and so"`, `“...and so”`},

		// one inside another
		{`"He said, 'Go.'"`, `“He said, ‘Go.’”`},
		{`"'Go,' he said," she said.`, `“‘Go,’ he said,” she said.`},
		{`'"Go," he said,' she said.`, `‘“Go,” he said,’ she said.`},
		{`"She said, 'He said, "Go."'"`, `“She said, ‘He said, “Go.”’”`},
		{`say "'twas" or "'tis"`, `say “’twas” or “’tis”`},
		{"“'Go,' he said,”", "“‘Go,’ he said,”"},

		// after brackets
		{`("Yes," she said)`, `(“Yes,” she said)`},
		{`["Yes"] {"yes"} ('yes')`, `[“Yes”] {“yes”} (‘yes’)`},
		{`(so "yes")`, `(so “yes”)`},
		{`«"Oui"»`, `«“Oui”»`},

		// after dashes
		{`Then--"Yes!"`, `Then—“Yes!”`},
		{`"No--"`, `“No—”`},
		{`"No--" he began.`, `“No—” he began.`},
		{`"No--," he began`, `“No—,” he began`},
		{`"I--" "You!"`, `“I—” “You!”`},
		{`"Yes"--"No"`, `“Yes”—“No”`},
		{`"Yes"--"(no)"--"[no]"`, `“Yes”—“(no)”—“[no]”`},
		{`Then--"1894" and--"«non»"`, `Then—“1894” and—“«non»”`},
		{`Then—"Yes—"`, `Then—“Yes—”`},
		{`he said--'Yes'--and`, `he said—‘Yes’—and`},
		{`"He said, 'No--'"`, `“He said, ‘No—’”`},
		{`Then--"'Yes'"`, `Then—“‘Yes’”`},
		{`-- "Yes" --`, `— “Yes” —`},
		{`a so-"called" thing`, `a so-“called” thing`},

		// apostrophes
		{`don't, o'clock, O'Malley, d'or`, `don’t, o’clock, O’Malley, d’or`},
		{`the ferryman's boat`, `the ferryman’s boat`},
		{`the ferrymen's and the boys' boats`, `the ferrymen’s and the boys’ boats`},
		{`the 1890's`, `the 1890’s`},
		{`'tis late; 'Twas so; 'TIS SO`, `’tis late; ’Twas so; ’TIS SO`},
		{`"'Tis late," she said; ('twere well)`, `“’Tis late,” she said; (’twere well)`},
		{`'tisn't so, 'twasn't, 'twouldn't`, `’tisn’t so, ’twasn’t, ’twouldn’t`},
		{`Well--'tis late`, `Well—’tis late`},
		{`"I'll tell 'em," he said`, `“I’ll tell ’em,” he said`},
		{`'Tell 'em so,' he said`, `‘Tell ’em so,’ he said`},
		{`of '88, the '45 and 1820-'25`, `of ’88, the ’45 and 1820-’25`},
		{`"'88 was dry"`, `“’88 was dry”`},
		{`rock 'n' roll, bread-'n'-butter`, `rock ’n’ roll, bread-’n’-butter`},
		{`a month 'n more`, `a month ’n more`},
		{`not 'till the spring of '88 came`, `not ’till the spring of ’88 came`},
		{`'till then 'round the bend`, `’till then ’round the bend`},
		{`'Till then, goodbye,' he said`, `‘Till then, goodbye,’ he said`},
		{`'Round and round the rugged rock' she sang`, `‘Round and round the rugged rock’ she sang`},
		{`'Round the rock'—she sang`, `‘Round the rock’—she sang`},
		{`'tistle' is no word, 'thistle' is`, `‘tistle’ is no word, ‘thistle’ is`},
		{`'Nœud' and 'noon'`, `‘Nœud’ and ‘noon’`},

		// inches, feet and what else is no quotation stays closing
		{`6' 2" tall and 12" wide`, `6’ 2” tall and 12” wide`},
		{`a 3"x4" card`, `a 3”x4” card`},

		// ends and beginnings of lines
		{"\"Well,\"\nshe said,\n\"yes.\"\n", "“Well,”\nshe said,\n“yes.”\n"},
		{"he said\r\n'so'\r\nand 'so'\r", "he said\r\n‘so’\r\nand ‘so’\r"},
		{"word--\n\"Yes\"--\nno", "word—\n“Yes”—\nno"},
		{"the boys'\nboats, '\ttis", "the boys’\nboats, ‘\ttis"},
		{"'Round and round\nthe rugged rock' she sang", "‘Round and round\nthe rugged rock’ she sang"},
		{"a\u00a0\"word\"\u2003'word'", "a\u00a0“word”\u2003‘word’"},
		{`"`, `“`}, {`'`, `‘`}, {`a"`, `a”`}, {`a'`, `a’`},

		// what is set as it is meant already stands
		{`“Well—’tis late,” ‘she’ „said“ …`, `“Well—’tis late,” ‘she’ „said“ …`},
		{"`` ´ ′ ″ ʼ", "`` ´ ′ ″ ʼ"},
	} {
		if got := turned(c.written); got != c.meant {
			t.Errorf("%q:\ngot  %q\nwant %q", c.written, got, c.meant)
		}
	}
}

// Common practice, no source.
func TestDashes(t *testing.T) {
	for _, c := range []struct{ written, meant string }{
		{"a well-known man", "a well-known man"},
		{"-", "-"}, {"--", "—"}, {"---", "—"},
		{"word--word", "word—word"},
		{"word -- word", "word — word"},
		{"word---word", "word—word"},
		{"word--\nword", "word—\nword"},
		{"--word", "—word"},
		{"1914--18", "1914–18"},
		{"pp. 3--5, 7--11", "pp. 3–5, 7–11"},
		{"1914-18", "1914-18"},
		{"1914---18", "1914—18"},
		{"1914----18", "1914——18"},
		{"1914--\n18", "1914—\n18"},
		{"1914-- 18", "1914— 18"},
		{"a1--b1, 1--b", "a1—b1, 1—b"},
		{"v--vii", "v—vii"},
		{"²--³", "²—³"}, // signs, not figures of a date or page
		{"Mr. B----", "Mr. B——"},
		{"B----y", "B——y"},
		{"B-----", "B——"},
		{"B------", "B———"},
		{"B-------", "B———"},
		{"B--------", "B————"},
		{"B---------", "B————"},
		{"- - -", "- - -"},
		{"—--", "——"},
		{"-—-", "-—-"},
		{"-\u00ad-", "-\u00ad-"},
	} {
		if got := turned(c.written); got != c.meant {
			t.Errorf("%q: %q, want %q", c.written, got, c.meant)
		}
	}
	for n := 2; n < 100; n++ {
		if got, want := turned(strings.Repeat("-", n)), strings.Repeat("—", n/2); got != want {
			t.Errorf("%d hyphens: %q, want %q", n, got, want)
		}
	}
}

// someText is text of such pieces as the rules look for, and of single signs.
var someText = rapid.Custom(func(t *rapid.T) string {
	signs := rapid.StringOfN(rapid.SampledFrom([]rune("antilrTéœ09   \n\u00a0\u00ad'\"-.,!?()[«»“”‘’—–\u0301")), 0, 4, -1)
	pieces := rapid.SampledFrom([]string{" ", "word", "'tis", " 'n' ", " 'Round", "'till ", "'88", "' ", ",' ", "\"", "'", "", "--", "----", "-----", "18--19", "'em", " (", "boys' "})
	return strings.Join(rapid.SliceOf(rapid.OneOf(signs, pieces)).Draw(t, "pieces"), "")
})

// One character is meant by what is replaced, and only the three signs are ever turned.
func TestTurnIsOneCharacter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := []byte(someText.Draw(t, "text"))
		before := slices.Clone(text)
		for i := range text {
			meant, n := house.Turn(text, i)
			switch {
			case n == 0 && (meant != "" || text[i] == '"' || text[i] == '\''):
				t.Fatalf("%q at %d is not turned, to %q", text, i, meant)
			case n == 0:
			case utf8.RuneCountInString(meant) != 1:
				t.Fatalf("%q at %d is turned to %q", text, i, meant)
			case n > 1 && strings.Trim(string(text[i:i+n]), "-") != "" || n == 1 && text[i] != '"' && text[i] != '\'':
				t.Fatalf("%q at %d: %q is turned to %q", text, i, text[i:i+n], meant)
			case !strings.Contains(map[byte]string{'"': "“”", '\'': "‘’", '-': "–—"}[text[i]], meant):
				t.Fatalf("%q at %d: %q is turned to %q", text, i, text[i:i+n], meant)
			}
		}
		if !slices.Equal(before, text) {
			t.Fatalf("%q was made %q", before, text)
		}
	})
}

// A line end inside a paragraph is a space and no more: where a line of the manuscript ends changes nothing.
func TestLineEndIsSpace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := someText.Draw(t, "text")
		got := strings.ReplaceAll(turned(strings.ReplaceAll(text, " ", "\n")), "\n", " ")
		if want := strings.ReplaceAll(turned(text), "\n", " "); got != want {
			t.Fatalf("%q: %q with line ends, %q with spaces", text, got, want)
		}
	})
}

// within is how far to either side of a sign a rule may look, in bytes.
const within = 128

// near turns the sign at i of a text that has been cut off not far from it on both sides.
func near(text []byte, i int) (string, int) {
	from, to := max(i-within, 0), min(i+within, len(text))
	for !utf8.RuneStart(text[from]) {
		from--
	}
	return house.Turn(text[from:to], i-from)
}

// Far neighbours have no say, so a text of nothing but signs takes as long as one of letters.
func TestTurnLooksNoFurther(t *testing.T) {
	check := func(t rapid.TB, text []byte, i int) {
		meant, n := house.Turn(text, i)
		if m, k := near(text, i); m != meant || k != n {
			t.Fatalf("%.80q… at %d: %q, %d; cut off around it %q, %d", text, i, meant, n, m, k)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		unit := someText.Draw(t, "unit")
		text := []byte(someText.Draw(t, "before") + strings.Repeat(unit, rapid.IntRange(1, 400).Draw(t, "times")) + someText.Draw(t, "after"))
		for range min(len(text), 40) {
			check(t, text, rapid.IntRange(0, len(text)-1).Draw(t, "at"))
		}
	})
	for _, unit := range []string{`"`, `'`, `-`, `"'`, `'n`, `-"`, ` '`, `'round `, "\u0301\"", "'\n"} {
		text := []byte("word" + strings.Repeat(unit, (1<<20)/len(unit)) + "word'")
		for i := 0; i < len(text); i += 997 {
			check(t, text, i)
		}
		check(t, text, len(text)-1)
	}
}

// A megabyte of signs is turned whole. What takes a look at all of it for each sign does not come to an end here.
func TestMegabyteOfSigns(t *testing.T) {
	const n = 1 << 20
	if got := turned(strings.Repeat("-", n)); got != strings.Repeat("—", n/2) {
		t.Error("hyphens: not an em dash for each two")
	}
	for sign, pair := range map[string]string{`"`: "“”", `'`: "‘’"} {
		got := turned(strings.Repeat(sign, n))
		opening, closing, _ := strings.Cut(got, pair[len("“"):])
		if utf8.RuneCountInString(got) != n || strings.Trim(opening, pair[:len("“")]) != "" || strings.Trim(closing, pair[len("“"):]) != "" {
			t.Errorf("%s: first those that open, then those that close, and none lost; got %.60s…", sign, got)
		}
	}
}
