package impose

import (
	"encoding/csv"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// figure is one forme of the book: its rows from the top.
type figure struct {
	title, forme string
	rows         []Row
}

// readFigures reads testdata/handbook/imposition.csv, every figure of T. MacKellar, The American Printer, 1893,
// pp. 150-199, by title and forme.
func readFigures(t *testing.T) map[string]figure {
	t.Helper()
	f, err := os.Open("../../testdata/handbook/imposition.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	table, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	figures := map[string]figure{}
	for _, cells := range table[1:] {
		key := cells[0] + "/" + cells[2]
		fig := figures[key]
		fig.title, fig.forme = cells[0], cells[2]
		if cells[3] != strconv.Itoa(len(fig.rows)+1) {
			t.Fatalf("%s: row %s out of order", key, cells[3])
		}
		rotation, err := strconv.Atoi(cells[4])
		if err != nil {
			t.Fatal(err)
		}
		fig.rows = append(fig.rows, Row{rotation, numbers(t, cells[5])})
		figures[key] = fig
	}
	return figures
}

func numbers(t *testing.T, words string) []int {
	t.Helper()
	var list []int
	for word := range strings.FieldsSeq(words) {
		n, err := strconv.Atoi(word)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, n)
	}
	return list
}

func pagesOf(rows []Row) []int {
	var list []int
	for _, row := range rows {
		list = append(list, row.Pages...)
	}
	slices.Sort(list)
	return list
}

func upTo(n int) []int {
	var list []int
	for i := range n {
		list = append(list, i+1)
	}
	return list
}

// book names the book's figures of every scheme that is offered: the one that our table took, then others of the same
// format that share the pages out alike.
var book = []struct {
	plan   Plan
	titles []string
}{
	{Plan{Format: "folio", In: 1}, []string{"folio"}},
	{Plan{Format: "quarto", In: 1}, []string{"quarto"}},
	{Plan{Format: "octavo", In: 1}, []string{"octavo"}},
	{Plan{Format: "duodecimo", In: 1}, []string{"twelves (12mo)", "twelves without cutting", "long twelves (columns)"}},
	{Plan{Format: "16mo", In: 1}, []string{"sixteens (16mo) one signature"}},
	{Plan{Format: "24mo", In: 1}, []string{"twenty-fours (24mo) two signatures"}},
	{Plan{Format: "32mo", In: 1}, []string{"thirty-twos (32mo)"}},
	{Plan{Format: "quarto", In: 1, HalfSheet: true}, []string{"half-sheet quarto (broad way)"}},
	{Plan{Format: "octavo", In: 1, HalfSheet: true}, []string{"half-sheet octavo"}},
	{Plan{Format: "duodecimo", In: 1, HalfSheet: true}, []string{"half-sheet twelves", "half-sheet twelves without cutting"}},
	{Plan{Format: "16mo", In: 1, HalfSheet: true}, []string{"half-sheet sixteens"}},
	{Plan{Format: "24mo", In: 1, HalfSheet: true}, []string{"half-sheet twenty-fours", "half-sheet twenty-fours without cutting", "half-sheet twenty-fours the sixteen-way"}},
	{Plan{Format: "32mo", In: 1, HalfSheet: true}, []string{"half-sheet thirty-twos"}},
}

func TestEverySchemeIsAsTheBookHasIt(t *testing.T) {
	figures := readFigures(t)
	for _, b := range book {
		sides := []string{"inner", "outer"}
		if b.plan.HalfSheet {
			sides = []string{"work-and-turn"}
		}
		var all []int
		for _, side := range sides {
			laid := Layout(b.plan, 1, side)
			if d := cmp.Diff(figures[b.titles[0]+"/"+side].rows, laid); d != "" {
				t.Errorf("%+v %s: book (-), ours (+):\n%s", b.plan, side, d)
			}
			all = append(all, pagesOf(laid)...)
			for _, title := range b.titles[1:] {
				if d := cmp.Diff(pagesOf(figures[title+"/"+side].rows), pagesOf(laid)); d != "" {
					t.Errorf("%s shares its pages out otherwise than %+v %s:\n%s", title, b.plan, side, d)
				}
			}
		}
		slices.Sort(all)
		if d := cmp.Diff(upTo(len(all)), all); d != "" {
			t.Errorf("%+v: each page once:\n%s", b.plan, d)
		}
		want := []Forme{}
		for _, side := range sides {
			want = append(want, Forme{1, side, pagesOf(figures[b.titles[0]+"/"+side].rows)})
		}
		if d := cmp.Diff(want, Formes(len(all), b.plan)); d != "" {
			t.Errorf("%+v: formes of one sheet, book (-), ours (+):\n%s", b.plan, d)
		}
	}
	if offered, tested := len(schemes()), len(book)+1; offered != tested {
		t.Errorf("%d schemes are offered, and %d held against the book (the single leaf is not in it)", offered, tested)
	}
}

// lie gives every page of a forme its place: row, column and rotation. A forme turned half round is the same forme seen
// from the other side of the stone.
type spot struct{ row, col, rotation int }

func lie(rows []Row, halfRound bool) map[int]spot {
	at := map[int]spot{}
	for r, row := range rows {
		for c, page := range row.Pages {
			s := spot{r, c, row.Rotation}
			if halfRound {
				s = spot{len(rows) - 1 - r, len(row.Pages) - 1 - c, (row.Rotation + 180) % 360}
			}
			at[page] = s
		}
	}
	return at
}

// leafForLeaf says if the pages at other lie behind those at one, every page behind its fellow on the leaf and upright when
// that is, the sheet being turned over sideways or, tumbled, from bottom to top.
func leafForLeaf(one, other map[int]spot, rows, cols int, tumbled bool) bool {
	for page, s := range one {
		back, ok := other[(page-1)^1+1] // 1 and 2 are a leaf, 3 and 4, ...
		want := spot{s.row, cols - 1 - s.col, s.rotation}
		if tumbled {
			want = spot{rows - 1 - s.row, s.col, (s.rotation + 180) % 360}
		}
		if !ok || back != want {
			return false
		}
	}
	return true
}

func TestInnerBacksOuterLeafForLeaf(t *testing.T) {
	for _, b := range book {
		first, second := "outer", "inner"
		if b.plan.HalfSheet {
			first, second = "work-and-turn", "work-and-turn" // turned, it is printed on its own back
		}
		for sheet := range 3 {
			front, back := Layout(b.plan, sheet+1, first), Layout(b.plan, sheet+1, second)
			rows, cols := len(front), len(front[0].Pages)
			backs := false
			for _, halfRound := range []bool{false, true} {
				for _, tumbled := range []bool{false, true} {
					backs = backs || leafForLeaf(lie(front, false), lie(back, halfRound), rows, cols, tumbled)
				}
			}
			if !backs {
				t.Errorf("%+v sheet %d: %v does not back %v", b.plan, sheet+1, back, front)
			}
		}
	}
}

func TestLayoutOfQuiredFolio(t *testing.T) {
	// MacKellar 1893, pp. 151-152, two folio sheets quired. The book draws the inner formes from the other side.
	figures := readFigures(t)
	p := Plan{Format: "folio", In: 2}
	for _, c := range []struct {
		sheet int
		title string
	}{{1, "folio quired in twos: outer sheet"}, {2, "folio quired in twos: inner sheet"}} {
		for _, side := range []string{"outer", "inner"} {
			got := lie(Layout(p, c.sheet, side), side == "inner")
			if d := cmp.Diff(lie(figures[c.title+"/"+side].rows, false), got, cmp.AllowUnexported(spot{})); d != "" {
				t.Errorf("sheet %d %s: book (-), ours (+):\n%s", c.sheet, side, d)
			}
		}
	}
}

func TestLayoutBeyondTheFirstSheet(t *testing.T) {
	want := []Row{{180, []int{12, 13}}, {0, []int{9, 16}}}
	if d := cmp.Diff(want, Layout(Plan{Format: "quarto", In: 1}, 2, "outer")); d != "" {
		t.Error(d)
	}
	for _, c := range []struct {
		sheet int
		side  string
	}{{0, "outer"}, {1, "recto"}, {1, ""}} {
		if got := Layout(Plan{Format: "quarto", In: 1}, c.sheet, c.side); got != nil {
			t.Errorf("sheet %d side %q of a quarto: %v, want none", c.sheet, c.side, got)
		}
	}
}

func TestReadSchemesRefuses(t *testing.T) {
	const head = "format,paper,book_page,forme,row,rotation_deg,pages\n"
	for _, c := range []struct{ file, want string }{
		{"", "no heading"},
		{head + "x,sheet,,a,1,0", "wrong number of fields"},
		{head + "x,quire,,a,1,0,1", `line 2: paper "quire": it is sheet or half sheet`},
		{head + "x,sheet,,a,1,90,1", `line 2: rotation "90": it is 0 or 180`},
		{head + "x,sheet,,a,1,0,1\nx,sheet,,a,3,0,2", `line 3: row "3": row 2 comes next`},
		{head + "x,sheet,,a,1,0,1 b", `line 2: page "b": not a number`},
		{head + "x,sheet,,a,1,0,1 3", "x: page 2 is not there just once"},
		{head + "x,sheet,,a,1,0,1 1", "x: page 2 is not there just once"},
		{head + "x,sheet,,a,1,0,", "x: no pages"},
	} {
		if _, err := readSchemes(strings.NewReader(c.file)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: error %v, want %q", c.file, err, c.want)
		}
	}
}

func FuzzReadSchemes(f *testing.F) {
	f.Add(schemesFile)
	f.Add("format,paper,book_page,forme,row,rotation_deg,pages\nx,half sheet,,a,1,180,2 1\n")
	f.Fuzz(func(t *testing.T, file string) {
		list, err := readSchemes(strings.NewReader(file))
		if err != nil {
			return
		}
		for _, s := range list {
			var all []int
			for _, forme := range s.sides {
				if !slices.Equal(forme.pages, pagesOf(forme.rows)) {
					t.Errorf("%s %s: pages %v lie as %v", s.format, forme.name, forme.pages, forme.rows)
				}
				all = append(all, forme.pages...)
			}
			slices.Sort(all)
			if len(all) == 0 || !slices.Equal(all, upTo(s.pages)) {
				t.Errorf("%s: %d pages, but %v", s.format, s.pages, all)
			}
		}
	})
}
