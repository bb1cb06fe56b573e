package report

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestTable(t *testing.T) {
	tests := []struct {
		name    string
		columns []Column
		rows    [][]string
		want    string
	}{
		{
			"the example of the package",
			[]Column{Words("sort"), Numbers("wanted"), Numbers("in the case")},
			[][]string{{"e", Number(1204), Number(980)}, {"thick", "311", "2,400"}},
			"sort   wanted  in the case\n" +
				"e       1,204          980\n" +
				"thick     311        2,400\n",
		},
		{
			"heads as given, dashes and quotes one wide, rows cut short",
			[]Column{Words("ſs Ünit"), Numbers("n"), Words("note")},
			[][]string{{"“—…”", "-1", "last"}, {"æ"}, {}, {"", "", ""}},
			"ſs Ünit   n  note\n" +
				"“—…”     -1  last\n" +
				"æ\n" +
				"\n" +
				"\n",
		},
		{
			"an accent stands on a circle, spaces inside a cell stay",
			[]Column{Words("sort"), Words("name")},
			[][]string{{"\u0301", "acute  accent"}, {"e", "  e  "}},
			"sort  name\n" +
				"◌\u0301     acute  accent\n" +
				"e       e\n",
		},
		{
			"wide letters and controls",
			[]Column{Words("name"), Numbers("n")},
			[][]string{{"活字", "1"}, {"a\x1b[2J\nb", "22"}},
			"name                    n\n" +
				"活字                    1\n" +
				"a<U+001B>[2J<U+000A>b  22\n",
		},
		{"no rows", []Column{Words("sort"), Numbers("n")}, nil, "sort  n\n"},
		{"no columns", nil, nil, ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, err := Table(test.columns, test.rows)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(test.want, got); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		})
	}
}

func TestTableRefuses(t *testing.T) {
	columns := []Column{Words("sort"), Numbers("n")}
	tests := []struct {
		name string
		rows [][]string
		want string
	}{
		{"too long a row", [][]string{{"e", "1"}, {"e", "1", "2"}}, "row 2 of the table has 3 cells, and there are 2 columns"},
		{"a bare space", [][]string{{" ", "1"}}, `row 1 of the table shows a bare space under "sort"`},
		{"a bare em space", [][]string{{"\u2003", "1"}}, `row 1 of the table shows a bare space under "sort"`},
	}
	for _, test := range tests {
		if got, err := Table(columns, test.rows); err == nil || err.Error() != test.want {
			t.Errorf("%s: %q, %v, want %s", test.name, got, err, test.want)
		}
	}
}

// The locale must not move a column: some have dashes and quotes two wide.
func TestTableKnowsNoLocale(t *testing.T) {
	table := func() string {
		got, err := Table([]Column{Words("sort"), Numbers("n")}, [][]string{{"“—”…°", "1"}, {"e", "1,000"}})
		if err != nil {
			t.Fatal(err)
		}
		return got
	}
	before := table()
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		t.Setenv(name, "ja_JP.UTF-8")
	}
	if after := table(); after != before {
		t.Errorf("under another locale\n%s, want\n%s", after, before)
	}
}

func TestFold(t *testing.T) {
	tests := []struct {
		name string
		row  []string
		want [][]string
	}{
		{"nothing to fold", []string{"1", "1-16", "w"}, [][]string{{"1", "1-16", "w"}}},
		{"one cell", []string{"12", "1-2, 5-6, 9-10, 13", "w"}, [][]string{{"12", "1-2, 5-6,", "w"}, {"", "9-10, 13", ""}}},
		{"two cells, the first longer", []string{"1", "1-2, 5-6, 9-10, 13, 19-22", "w of Plain"}, [][]string{
			{"1", "1-2, 5-6,", "w of"}, {"", "9-10, 13,", "Plain"}, {"", "19-22", ""}}},
		{"the last longer, and a word that is too long", []string{"1", "5", "w of Ferryman’s own"}, [][]string{
			{"1", "5", "w of"}, {"", "", "Ferryman’s"}, {"", "", "own"}}},
		{"empty cells", []string{"", "", ""}, [][]string{{"", "", ""}}},
		{"controls, as they are shown", []string{"1", "5", "w\x1b x"}, [][]string{{"1", "5", "w<U+001B>"}, {"", "", "x"}}},
	}
	for _, test := range tests {
		if diff := cmp.Diff(test.want, fold(test.row, 0, 10, 6)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", test.name, diff)
		}
	}
}

// Read downwards again, each cell is what it was, and no line is wider than it may be but one of a single word.
func TestFoldReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		row := rapid.SliceOfN(rapid.StringMatching(`([a-zæ0-9,-]{1,9}( [a-zæ0-9,-]{1,9}){0,12})?`), 3, 3).Draw(t, "row")
		widths := rapid.SliceOfN(rapid.IntRange(0, 20), 3, 3).Draw(t, "widths")
		back := make([]string, 3)
		for _, line := range fold(row, widths...) {
			for x, part := range line {
				if widths[x] > 0 && utf8.RuneCountInString(part) > widths[x] && strings.Contains(part, " ") {
					t.Fatalf("%q is wider than %d", part, widths[x])
				}
				back[x] = strings.TrimPrefix(back[x]+" "+part, " ")
			}
		}
		for x := range back {
			if strings.TrimRight(back[x], " ") != row[x] {
				t.Fatalf("cell %q reads back as %q", row[x], back[x])
			}
		}
	})
}

// Against a slow twin that pads by hand, for cells of letters one column wide.
func TestTableAgainstPadding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cell := rapid.StringMatching(`([a-zA-Zþæß0-9,.|+*#-]([a-z |_-]*[a-z|])?)?`)
		width := rapid.IntRange(1, 5).Draw(t, "width")
		columns := make([]Column, width)
		for i := range columns {
			// An empty head above empty cells would leave nothing to see.
			head := rapid.StringMatching(`[a-zA-Z][a-z]*`).Draw(t, "head")
			columns[i] = Words(head)
			if rapid.Bool().Draw(t, "right") {
				columns[i] = Numbers(head)
			}
		}
		rows := rapid.SliceOf(rapid.SliceOfN(cell, width, width)).Draw(t, "rows")
		got, err := Table(columns, rows)
		if err != nil {
			t.Fatal(err)
		}
		if want := padded(columns, rows); got != want {
			t.Fatalf("got\n%s\nwant\n%s", got, want)
		}
	})
}

func padded(columns []Column, rows [][]string) string {
	var out strings.Builder
	heads := make([]string, len(columns))
	for i, column := range columns {
		heads[i] = column.Head
	}
	all := append([][]string{heads}, rows...)
	for _, row := range all {
		line := ""
		for i, text := range row {
			widest := 0
			for _, other := range all {
				widest = max(widest, utf8.RuneCountInString(other[i]))
			}
			pad := strings.Repeat(" ", widest-utf8.RuneCountInString(text))
			if columns[i].side == Numbers("").side {
				text = pad + text
			} else {
				text += pad
			}
			line += text + "  "
		}
		out.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	return out.String()
}
