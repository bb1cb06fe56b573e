package inventory

import (
	"fmt"
	"io"
	"os"
	"strings"
	"testing"
	"unicode"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/text/unicode/norm"
	"pgregory.net/rapid"
)

func TestReadSorts(t *testing.T) {
	long := strings.Repeat("x", maxName)
	for _, c := range []struct {
		name, csv string
		want      []Sort
		warnings  []string // what each says
	}{
		{"plain", "sort,text,kind,set,count\na,a,lower,0.4444,500\nffi,ffi,,0.8,40\nthick,,space,1/3,900\n", []Sort{
			{Name: "a", Text: "a", Kind: Lower, Set: 444_400, OnHand: 500, Basis: Counted},
			{Name: "ffi", Text: "ffi", Kind: Ligature, Set: 800_000, OnHand: 40, Basis: Counted},
			{Name: "thick", Kind: Space, Set: 333_333, OnHand: 900, Basis: Counted},
		}, nil},
		{"BOM, CRLF, other order, no kind, no line end", "\ufeffcount,set,sort,text\r\n5,1,A,A\r\n0,2/3,em quad,", []Sort{
			{Name: "A", Text: "A", Kind: Capital, Set: 1_000_000, OnHand: 5, Basis: Counted},
			{Name: "em quad", Kind: Space, Set: 666_667, OnHand: 0, Basis: Counted},
		}, nil},
		{"headings in capitals, names with space round them", " Sort ,TEXT,Set,Count\n a ,a, 0.5 , 3 \n", []Sort{
			{Name: "a", Text: "a", Kind: Lower, Set: 500_000, OnHand: 3, Basis: Counted},
		}, nil},
		{"quoted", "sort,text,set,count\n\"\"\"\",\"\"\"\",0.4,1\n\",\",\",\",0.25,2\n", []Sort{
			{Name: `"`, Text: `"`, Kind: Point, Set: 400_000, OnHand: 1, Basis: Counted},
			{Name: ",", Text: ",", Kind: Point, Set: 250_000, OnHand: 2, Basis: Counted},
		}, nil},
		{"the four signs alone, and doubled", "sort,text,set,count\n=,=,1,1\n+,+,1,1\n-,-,1,1\n@,@,1,1\n--,--,1,1\n", []Sort{
			{Name: "=", Text: "=", Kind: Sign, Set: million, OnHand: 1, Basis: Counted},
			{Name: "+", Text: "+", Kind: Sign, Set: million, OnHand: 1, Basis: Counted},
			{Name: "-", Text: "-", Kind: Point, Set: million, OnHand: 1, Basis: Counted},
			{Name: "@", Text: "@", Kind: Sign, Set: million, OnHand: 1, Basis: Counted},
			{Name: "--", Text: "--", Kind: Point, Set: million, OnHand: 1, Basis: Counted},
		}, nil},
		{"one text in two kinds", "sort,text,kind,set,count\nA,A,,0.7,1\nsc A,A,small capital,0.5,1\n", []Sort{
			{Name: "A", Text: "A", Kind: Capital, Set: 700_000, OnHand: 1, Basis: Counted},
			{Name: "sc A", Text: "A", Kind: SmallCapital, Set: 500_000, OnHand: 1, Basis: Counted},
		}, nil},
		{"NFC", "sort,text,set,count\ne\u0301,e\u0301,0.4,1\n", []Sort{
			{Name: "\u00e9", Text: "\u00e9", Kind: Accent, Set: 400_000, OnHand: 1, Basis: Counted},
		}, nil},
		{"long s is no s", "sort,text,set,count\n\u017f,\u017f,0.3,1\ns,s,0.3,1\n", []Sort{
			{Name: "\u017f", Text: "\u017f", Kind: Lower, Set: 300_000, OnHand: 1, Basis: Counted},
			{Name: "s", Text: "s", Kind: Lower, Set: 300_000, OnHand: 1, Basis: Counted},
		}, nil},
		{"the ends of what is allowed", "sort,text,set,count\n" + long + ",abcdefghijklmnop,10,1000000000\nb,b,0.000001,0\n", []Sort{
			{Name: long, Text: "abcdefghijklmnop", Kind: Ligature, Set: MaxSet, OnHand: MaxCount, Basis: Counted},
			{Name: "b", Text: "b", Kind: Lower, Set: 1, OnHand: 0, Basis: Counted},
		}, []string{"wider than 4 ems of the body, which few sorts are: \"" + long + `"`}},
		{"wide sorts", "sort,text,set,count\na,a,4,1\nb,b,4.000001,1\n8-em quad,,8,1\n", []Sort{
			{Name: "a", Text: "a", Kind: Lower, Set: 4 * million, OnHand: 1, Basis: Counted},
			{Name: "b", Text: "b", Kind: Lower, Set: 4_000_001, OnHand: 1, Basis: Counted},
			{Name: "8-em quad", Kind: Space, Set: 8 * million, OnHand: 1, Basis: Counted},
		}, []string{`not used to compose with: "8-em quad" (lines are made with 3-em quad, 2-em quad, `, `wider than 4 ems of the body, which few sorts are: "b", "8-em quad"`}},
		{"columns of no use, empty columns and rows", "sort,text,set,count,box,,\na,a,1,1,C4,,\n,,,,,,\n\nb,b,1,1,,,\n", []Sort{
			{Name: "a", Text: "a", Kind: Lower, Set: million, OnHand: 1, Basis: Counted},
			{Name: "b", Text: "b", Kind: Lower, Set: million, OnHand: 1, Basis: Counted},
		}, []string{`the column "box" is not read`}},
		{"kerned", "kerned,sort,text,set,count\nyes,f,f,0.3,1\n,e,e,0.4,1\n no ,g,g,0.5,1\n,thin,,1/5,1\nno,thick,,1/3,1\n", []Sort{
			{Name: "f", Text: "f", Kind: Lower, Set: 300_000, Kerned: true, OnHand: 1, Basis: Counted},
			{Name: "e", Text: "e", Kind: Lower, Set: 400_000, OnHand: 1, Basis: Counted},
			{Name: "g", Text: "g", Kind: Lower, Set: 500_000, OnHand: 1, Basis: Counted},
			{Name: "thin", Kind: Space, Set: 200_000, OnHand: 1, Basis: Counted},
			{Name: "thick", Kind: Space, Set: 333_333, OnHand: 1, Basis: Counted},
		}, nil},
		{"spaces that are not composed with", "sort,text,kind,set,count\nhair,,,1/12,1\n3-to-em,,,1/3,1\nbrass,,space,1/24,1\na,,space,0.4,1\nfigure space,,,1/2,1\n4-em quad,,,4,1\n", []Sort{
			{Name: "hair", Kind: Space, Set: 83_333, OnHand: 1, Basis: Counted},
			{Name: "3-to-em", Kind: Space, Set: 333_333, OnHand: 1, Basis: Counted},
			{Name: "brass", Kind: Space, Set: 41_667, OnHand: 1, Basis: Counted},
			{Name: "a", Kind: Space, Set: 400_000, OnHand: 1, Basis: Counted},
			{Name: "figure space", Kind: Space, Set: 500_000, OnHand: 1, Basis: Counted},
			{Name: "4-em quad", Kind: Space, Set: 4 * million, OnHand: 1, Basis: Counted},
		}, []string{`"brass", "a", "figure space", "4-em quad" (lines are made with `}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, warnings, err := ReadSorts(strings.NewReader(c.csv))
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Errorf("sorts (-want +got):\n%s", diff)
			}
			if len(warnings) != len(c.warnings) {
				t.Fatalf("warnings %q, want %d", warnings, len(c.warnings))
			}
			for i, w := range c.warnings {
				if !strings.Contains(warnings[i], w) {
					t.Errorf("warning %q does not say %q", warnings[i], w)
				}
			}
		})
	}
}

func TestReadSortsRefuses(t *testing.T) {
	const head = "sort,text,kind,set,count\na,a,,0.4,1\n"
	many := strings.Builder{}
	many.WriteString("sort,text,set,count\n")
	for i := range MaxSorts + 1 {
		fmt.Fprintf(&many, "s%d quad,,1,1\n", i)
	}
	for _, c := range []struct {
		name, csv string
		words     []string
		hint      string // what it says; "" for no hint
	}{
		{"nothing", "", []string{"the CSV is empty"}, "sort,text,kind,set,count"},
		{"a BOM alone", "\ufeff", []string{"the CSV is empty"}, "sort"},
		{"headings alone", "sort,text,set,count\n", []string{"no sorts"}, ""},
		{"no heading row", "a,a,0.4,1\n", []string{"line 1: the heading row is missing"}, "the first row names the columns: sort,text,kind,set,count"},
		{"no heading row, and a cell twice", "a,a,,1/2,5\n", []string{"line 1: the heading row is missing"}, "sort,text,kind,set,count"},
		{"no column sort", "text,set,count\na,1,1\n", []string{"line 1", `no column "sort"`}, "sort, text, kind"},
		{"no column text", "sort,set,count\na,1,1\n", []string{"line 1", `no column "text"`}, "sort, text, kind"},
		{"no column count", "sort,text,set\na,a,1\n", []string{"line 1", `no column "count"`}, "sort, text, kind"},
		{"no column set", "sort,text,count\na,a,1\n", []string{"line 1", `no column "set"`, "not there yet"}, "1/3"},
		{"a column twice", "sort,text,set,count,Set\na,a,1,1,1\n", []string{"line 1", `"set" is there twice`}, ""},
		{"too many columns", strings.Repeat(",", maxColumns) + "\n", []string{"101 columns"}, "sort, text"},
		{"semicolons", "sort;text;set;count\na;a;0,4;1\n", []string{"line 1", "no commas", "semicolons"}, "UTF-8, with commas"},
		{"semicolons and quotes", "\"sort\";\"text\";\"set\";\"count\"\r\n", []string{"line 1", "semicolons"}, "commas"},
		{"tabs", "sort\ttext\tset\tcount\na\ta\t1\t1\n", []string{"line 1", "tabs"}, "commas"},
		{"CR alone", "sort,text,set,count\ra,a,1,1\r", []string{"CR alone"}, "CRLF"},
		{"UTF-16", "\xff\xfes\x00o\x00", []string{"line 1", "offset 0", "not UTF-8"}, "UTF-8"},
		{"not UTF-8", head + "b,\xe9,,0.4,1\n", []string{"line 3", "offset 38", "not UTF-8"}, "UTF-8"},
		{"NUL", head + "b,b,,0.4,1\x00\n", []string{"line 3", "NUL"}, "UTF-8"},
		{"too few cells", head + "b,b\n", []string{"line 3", "2 cells under 5 headings"}, "empty"},
		{"too many cells", head + "b,b,,0.4,1,,\n", []string{"line 3", "7 cells under 5 headings"}, "empty"},
		{"a cell without a heading", "sort,text,set,count,\na,a,1,1,x\n", []string{"line 2", `cell 5 holds "x"`}, ""},
		{"quotes", head + "\",\",\",\",,1,1\n\"b,b,,1,1\n", []string{"line 4", "double quote"}, `""""`},
		{"a bare quote", head + "b\",b,,1,1\n", []string{"line 3", "double quote"}, `""""`},
		{"no name", head + ",b,,0.4,1\n", []string{"line 3", `sort name ""`, "empty"}, ""},
		{"blank name", head + "  ,b,,0.4,1\n", []string{"line 3", "empty"}, ""},
		{"a name of two lines", head + "\"b\nc\",b,,0.4,1\n", []string{"line 3", "U+000A"}, ""},
		{"a name with an escape", head + "\x1b[31m,b,,0.4,1\n", []string{"line 3", "U+001B"}, ""},
		{"a name with a no-break space", head + "em\u00a0quad,,,1,1\n", []string{"line 3", "U+00A0"}, ""},
		{"a name with a mark of direction", head + "b\u202ec,b,,0.4,1\n", []string{"line 3", "U+202E"}, ""},
		{"a long name", head + strings.Repeat("x", maxName+1) + ",b,,0.4,1\n", []string{"line 3", "longer than 100"}, ""},
		{"the mark of the missing", head + "?U+0041,b,,0.4,1\n", []string{"line 3", "?U+"}, ""},
		{"a formula", head + "=SUM(A1:A9),b,,0.4,1\n", []string{"line 3", "formula"}, ""},
		{"a formula with +", head + "+1,b,,0.4,1\n", []string{"line 3", "formula"}, ""},
		{"a formula with -", head + "-(1),b,,0.4,1\n", []string{"line 3", "formula"}, ""},
		{"a formula with @", head + "@é,b,,0.4,1\n", []string{"line 3", "formula"}, ""},
		{"a formula as text", head + "b,=A1,,0.4,1\n", []string{"line 3", `text "=A1"`, "formula"}, ""},
		{"a name twice", head + "b,b,,0.4,1\na,c,,0.4,1\n", []string{"line 4", `sort "a" is there already (line 2)`}, ""},
		{"a name twice but for NFC", head + "é,b,,0.4,1\ne\u0301,c,,0.4,1\n", []string{"line 4", "already (line 3)"}, ""},
		{"a text twice", head + "b,a,,0.4,1\n", []string{"line 3", `"a" is printed by "a" already (line 2)`, "lower"}, ""},
		{"a text of space", head + "b, ,,0.4,1\n", []string{"line 3", "a space", "white space"}, ""},
		{"a text with a tab", head + "b,a\tb,,0.4,1\n", []string{"line 3", "U+0009"}, ""},
		{"a text with a soft hyphen", head + "b,a\u00ad,,0.4,1\n", []string{"line 3", "U+00AD"}, ""},
		{"a long text", head + "b,abcdefghijklmnopq,,0.4,1\n", []string{"line 3", "longer than 16"}, ""},
		{"unknown kind", head + "b,b,minuscule,0.4,1\n", []string{"line 3", `sort "b"`, `"minuscule"`, "small capital, figure"}, ""},
		{"a letter without text", head + "b,,lower,0.4,1\n", []string{"line 3", `sort "b"`, "text is empty"}, ""},
		{"neither text nor kind", head + "b,,,0.4,1\n", []string{`line 3: sort "b" has no text; give it one, or the kind space`}, ""},
		{"neither text nor kind column", "sort,text,set,count\nQuad,,0.4,1\n", []string{`line 2: sort "Quad" has no text`}, ""},
		{"a space with text", head + "b,b,space,0.4,1\n", []string{"line 3", `sort "b"`, "prints nothing"}, ""},
		{"a small capital of a small letter", head + "b,b,small capital,0.4,1\n", []string{"line 3", "has the capital as its text"}, ""},
		{"no set", head + "b,b,,,1\n", []string{"line 3", `sort "b"`, "not there yet"}, "1/3"},
		{"set 0", head + "b,b,,0,1\n", []string{"line 3", `sort "b"`, `set "0"`, "more than 0"}, ""},
		{"set under a millionth", head + "b,b,,0.0000004,1\n", []string{"line 3", "more than 0"}, ""},
		{"set over 10", head + "b,b,,10.0000001,1\n", []string{"line 3", "at most 10 ems"}, "ems of the body"},
		{"set without its point", head + "b,b,,43,1\n", []string{`line 3: sort "b": set "43": at most 10 ems can be`}, "an en is 0.5"},
		{"set below 0", head + "b,b,,-0.4,1\n", []string{"line 3", `set "-0.4"`, "decimal or a fraction"}, ""},
		{"set with a comma", head + "b,b,,\"0,4\",1\n", []string{"line 3", `set "0,4"`}, "point"},
		{"set over nothing", head + "b,b,,1/0,1\n", []string{"line 3", `set "1/0"`}, ""},
		{"set with an exponent", head + "b,b,,1e-1,1\n", []string{"line 3", `set "1e-1"`}, ""},
		{"set with no end", head + "b,b,,0." + strings.Repeat("3", 5000) + ",1\n", []string{"line 3", "…"}, ""},
		{"no count", head + "b,b,,0.4,\n", []string{"line 3", `count ""`, "whole number"}, ""},
		{"count below 0", head + "b,b,,0.4,-1\n", []string{"line 3", `count "-1"`, "0 or more"}, ""},
		{"a broken count", head + "b,b,,0.4,1.5\n", []string{"line 3", `count "1.5"`, "whole number"}, "without points"},
		{"a count in groups", head + "b,b,,0.4,\"1,500\"\n", []string{"line 3", `count "1,500"`}, "without points"},
		{"a huge count", head + "b,b,,0.4,1000000001\n", []string{"line 3", "at most 1,000,000,000"}, ""},
		{"a count beyond all numbers", head + "b,b,,0.4," + strings.Repeat("9", 400) + "\n", []string{"line 3", "at most 1,000,000,000", "…"}, ""},
		{"kerned, in other words", "sort,text,set,count,kerned\na,a,1,1,\nf,f,1,1,true\n", []string{"line 3", `sort "f"`, `kerned "true"`, "yes or no"}, ""},
		{"kerned, in capitals", "sort,text,set,count,kerned\nf,f,1,1,Yes\n", []string{"line 2", `kerned "Yes"`}, ""},
		{"a kerned space", "sort,text,set,count,kerned\nthin,,1/5,1,yes\n", []string{"line 2", `sort "thin"`, "a space prints nothing", "kerned"}, ""},
		{"too many sorts", many.String(), []string{"line 4002", "more than 4000"}, ""},
		{"too big", head + strings.Repeat(",,,,\n", maxSheet/5), []string{"over 16 MB"}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			sorts, warnings, err := ReadSorts(strings.NewReader(c.csv))
			refused(t, err, c.hint != "", c.words...)
			if e, _ := err.(*Error); e != nil && !strings.Contains(e.Hint, c.hint) {
				t.Errorf("hint %q does not say %q", e.Hint, c.hint)
			}
			if sorts != nil || warnings != nil {
				t.Errorf("sorts %v and warnings %q came with the error", sorts, warnings)
			}
			if n := len(err.Error()); n > 400 {
				t.Errorf("the sentence is %d bytes long", n)
			}
		})
	}
}

func TestReadSortsPassesOnErrors(t *testing.T) {
	if _, _, err := ReadSorts(io.MultiReader(strings.NewReader("sort,"), failing{})); err != os.ErrClosed {
		t.Errorf("error %v, want that of the reader", err)
	}
}

type failing struct{}

func (failing) Read([]byte) (int, error) { return 0, os.ErrClosed }

func TestParseSet(t *testing.T) {
	for text, want := range map[string]int{
		"1": million, "0.4444": 444_400, "1/3": 333_333, "2/3": 666_667, "1/1": million, "3/2": 1_500_000,
		"0.5": 500_000, "00.50": 500_000, ".5": 500_000, "1/12": 83_333, "10": MaxSet, "100/10": MaxSet,
		// Half a millionth goes up, less than that down.
		"0.0000005": 1, "0.0000014999": 1, "0.0000015": 2, "1/2000000": 1, "3/2000000": 2,
	} {
		if got, err := ParseSet(text); err != nil || got != want {
			t.Errorf("ParseSet(%q) = %d, %v; want %d", text, got, err, want)
		}
	}
	for _, text := range []string{"", ".", "5.", "1.", ".1.", "1/", "/3", "1/2/3", "0/3", "1/000", "+1", "-1", "1.5/2", "0x1", "1_0", "½", "１", "1 /3", "NaN", "Inf", "10.1", "31/3", "1/2000001"} {
		if got, err := ParseSet(text); err == nil {
			t.Errorf("ParseSet(%q) = %d, want an error", text, got)
		}
	}
}

// A set width that is written out exactly is read back as it was, and a fraction
// is within half a millionth, found here by whole numbers alone.
func TestParseSetLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		set := rapid.IntRange(1, MaxSet).Draw(t, "set")
		if got, err := ParseSet(Ems(set)); err != nil || got != set {
			t.Fatalf("ParseSet(%q) = %d, %v", Ems(set), got, err)
		}
		above, below := rapid.IntRange(1, 10_000).Draw(t, "above"), rapid.IntRange(1, 10_000).Draw(t, "below")
		got, err := ParseSet(fmt.Sprintf("%d/%d", above, below))
		if above > 10*below {
			if err == nil {
				t.Fatal("over 10 ems and read")
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		// -1/2 <= x - got < 1/2, halves going up, times 2*below.
		if d := 2*above*million - 2*below*got; d < -below || d >= below {
			t.Fatalf("%d/%d em is not %d millionths", above, below, got)
		}
	})
}

func TestKindOf(t *testing.T) {
	for _, c := range []struct {
		kind  Kind
		texts string // with a space between
	}{
		{Lower, "a z ſ ß þ ð ø ı α ж א"},
		{Capital, "A Z Þ Ø Ω Ж"},
		{Figure, "0 9 10 ½ ² ١"},
		{Point, `. , ; : ! ? ’ ‘ “ ” " ' - – — ( ) [ ] … ... -- * † ‡ § ¶ ‖ « »`},
		{Ligature, "fi ffl ct st Qu æ œ Æ Œ ﬁ ﬆ ĳ f’ th̄ ée"},
		{Accent, "é É à ŵ ç ñ ô Å m̃ q̄ ̈ "},
		{Sign, "& @ # % / = + £ $ ° © 1/2 %."},
	} {
		for _, text := range strings.Fields(c.texts) {
			if got := KindOf(text); got != c.kind {
				t.Errorf("KindOf(%q) = %q, want %q", text, got, c.kind)
			}
		}
	}
	if got := KindOf(""); got != Space {
		t.Errorf(`KindOf("") = %q, want %q`, got, Space)
	}
	for _, k := range Kinds() {
		if got, err := ParseKind(string(k)); err != nil || got != k {
			t.Errorf("ParseKind(%q) = %q, %v", k, got, err)
		}
	}
}

// What comes out of ReadSorts, whatever went in.
func sortsLaw(sorts []Sort) error {
	if len(sorts) == 0 || len(sorts) > MaxSorts {
		return fmt.Errorf("%d sorts", len(sorts))
	}
	names, texts := map[string]bool{}, map[string]bool{}
	for _, s := range sorts {
		key := string(s.Kind) + "\x00" + s.Text
		switch _, err := ParseKind(string(s.Kind)); {
		case err != nil:
			return err
		case names[s.Name], s.Text != "" && texts[key]:
			return fmt.Errorf("%+v is there twice", s)
		case (s.Text == "") != (s.Kind == Space), s.Kerned && s.Kind == Space:
			return fmt.Errorf("%+v: text and kind do not agree", s)
		case s.Set < 1 || s.Set > MaxSet || s.OnHand < 0 || s.OnHand > MaxCount || s.Standing != 0 || s.Basis != Counted:
			return fmt.Errorf("%+v is out of bounds", s)
		case s.Name == "" || s.Name != strings.TrimSpace(s.Name) || !norm.NFC.IsNormalString(s.Name) || strings.HasPrefix(s.Name, "?U+"):
			return fmt.Errorf("%+v: the name is not tidy", s)
		case !norm.NFC.IsNormalString(s.Text) || strings.ContainsFunc(s.Text, unicode.IsSpace) || strings.ContainsFunc(s.Text+s.Name, unicode.IsControl):
			return fmt.Errorf("%+v: the text is not tidy", s)
		}
		names[s.Name], texts[key] = true, true
	}
	return nil
}

// writeSheet writes sorts as a CSV, every cell in quotes.
func writeSheet(sorts []Sort) string {
	var b strings.Builder
	b.WriteString("count,kind,kerned,sort,set,text\n")
	quote := func(s string) string { return `"` + strings.ReplaceAll(s, `"`, `""`) + `"` }
	for _, s := range sorts {
		kerned := "no"
		if s.Kerned {
			kerned = "yes"
		}
		fmt.Fprintf(&b, "%d,%s,%s,%s,%s,%s\n", s.OnHand, s.Kind, kerned, quote(s.Name), Ems(s.Set), quote(s.Text))
	}
	return b.String()
}

func FuzzReadSorts(f *testing.F) {
	for _, seed := range []string{
		"sort,text,kind,set,count\na,a,lower,0.4444,500\nthick,,,1/3,9\n",
		"\ufeffcount,set,sort,text,box\r\n5,1,\"\"\"\",\"\"\"\",x\r\n",
		"sort;text;set;count\na;a;0,4;1\n",
		"sort,text,set,count\ne\u0301,e\u0301,0.4,1\nsc A,A,1/2,1\n",
		"sort,text,set,kerned,count\nf,f,1/3,yes,1\nb,b,1,no,1\nthin,,1/5,,2\n",
		"sort,text,set,count\n=SUM(A1),b,1,1\n", "\xff\xfe", "a,\"b\nc\",d\n",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		sorts, warnings, err := ReadSorts(strings.NewReader(string(data)))
		if err != nil {
			if sorts != nil || warnings != nil {
				t.Fatalf("sorts and an error: %v", err)
			}
			return
		}
		if err := sortsLaw(sorts); err != nil {
			t.Fatal(err)
		}
		again, _, err := ReadSorts(strings.NewReader(writeSheet(sorts)))
		if err != nil {
			t.Fatalf("written out and refused: %v", err)
		}
		if diff := cmp.Diff(sorts, again); diff != "" {
			t.Fatalf("written out and read again (-first +second):\n%s", diff)
		}
		if _, err := (Font{Name: "F", Body: 1, Sorts: sorts}).Tidy(); err != nil {
			t.Fatalf("read and then refused for a font: %v", err)
		}
	})
}
