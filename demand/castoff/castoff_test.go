package castoff

import (
	"encoding/csv"
	"math/big"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"formewise/demand/impose"
)

func whole(n int) Rate { return Rate{n, 1} }

func octavo() impose.Plan { return impose.Plan{Format: "octavo", In: 1} }

func TestWorkedExamples(t *testing.T) {
	for _, c := range []struct {
		name string
		plan Plan
		want Answer
	}{
		{"by words: MacKellar 1893, pp. 223-226",
			Plan{Copy: Copy{Folios: 422, ToFolio: Lines(50, whole(20))}, ToPage: Lines(40, whole(10)), Imposing: octavo()},
			Answer{Words: 422_000, Pages: 1055, ToUnit: 16, Units: 65, Over: 15, Formes: 132, HalfSheets: 132}},
		{"the same from the number of words",
			Plan{Copy: Copy{Words: 422_000}, ToPage: whole(400), Imposing: octavo()},
			Answer{Words: 422_000, Pages: 1055, ToUnit: 16, Units: 65, Over: 15, Formes: 132, HalfSheets: 132}},
		// 330 words to the page of copy, 44 added for breaks; 312 pages, 20 sheets: a 19th-century receipt book.
		{"from a sample of 12 pages",
			Plan{Copy: Copy{Folios: 400, ToFolio: Rate{12 * 330, 12}, Added: 44}, ToPage: whole(480), Imposing: octavo()},
			Answer{Words: 149_600, Pages: 312, ToUnit: 16, Units: 19, Over: 8, Formes: 40, HalfSheets: 40}},
		// 34 formes; 22 quires a forme are 37 reams 8 quires: MacKellar 1893, p. 299. The copy is ours: 408 pages of 300 words.
		{"formes and paper of 12mo, half-sheetwise",
			Plan{Copy: Copy{Words: 408 * 300}, ToPage: whole(300), Imposing: impose.Plan{Format: "duodecimo", In: 1, HalfSheet: true}, Copies: 1000, Overs: 56},
			Answer{Words: 122_400, Pages: 408, ToUnit: 12, Units: 34, Over: 0, Formes: 34, HalfSheets: 34, Paper: &Paper{ToUnit: 22 * 24, Sheets: (37*20 + 8) * 24}}},
		// From here on common practice, no source: reckoned by hand.
		{"a word over the page is a page",
			Plan{Copy: Copy{Words: 6401}, ToPage: whole(400), Imposing: octavo()},
			Answer{Words: 6401, Pages: 17, ToUnit: 16, Units: 1, Over: 1, Formes: 3, HalfSheets: 4}},
		{"averages are rounded once, at the end",
			// 100/3 words a folio, 3 folios: 100 words, and not 3 x 34; 25/2 words a line, 2 lines: 25 words, and not 2 x 12.
			Plan{Copy: Copy{Folios: 3, ToFolio: Rate{100, 3}}, ToPage: Lines(2, Rate{25, 2}), Imposing: octavo()},
			Answer{Words: 100, Pages: 4, ToUnit: 16, Units: 0, Over: 4, Formes: 2, HalfSheets: 2}},
		{"a part of a word is a word",
			Plan{Copy: Copy{Folios: 7, ToFolio: Rate{100, 3}}, ToPage: whole(1000), Imposing: octavo()},
			Answer{Words: 234, Pages: 1, ToUnit: 16, Units: 0, Over: 1, Formes: 1, HalfSheets: 2}},
		{"quired, the last gathering folded whole",
			Plan{Copy: Copy{Words: 37}, ToPage: whole(1), Imposing: impose.Plan{Format: "folio", In: 9}, Copies: 10, Overs: 1},
			Answer{Words: 37, Pages: 37, ToUnit: 4, Units: 9, Over: 1, Formes: 19, HalfSheets: 36, Paper: &Paper{ToUnit: 11, Sheets: 198}}},
		{"leaves",
			Plan{Copy: Copy{Words: 5}, ToPage: whole(1), Imposing: impose.Plan{Format: "single", In: 1}, Copies: 24},
			Answer{Words: 5, Pages: 5, ToUnit: 2, Units: 2, Over: 1, Formes: 5, HalfSheets: 6, Paper: &Paper{ToUnit: 24, Sheets: 72}}},
		{"an odd copy of a half sheet takes a sheet",
			Plan{Copy: Copy{Words: 8}, ToPage: whole(1), Imposing: impose.Plan{Format: "quarto", In: 1, HalfSheet: true}, Copies: 25},
			Answer{Words: 8, Pages: 8, ToUnit: 4, Units: 2, Over: 0, Formes: 2, HalfSheets: 2, Paper: &Paper{ToUnit: 13, Sheets: 26}}},
		{"the pull does not divide the forme",
			Plan{Copy: Copy{Words: 16}, ToPage: whole(1), Imposing: impose.Plan{Format: "octavo", In: 1, Pull: 1}},
			Answer{Words: 16, Pages: 16, ToUnit: 16, Units: 1, Over: 0, Formes: 2, HalfSheets: 2}},
	} {
		got, err := Reckon(c.plan)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s: want (-), got (+):\n%s", c.name, d)
		}
	}
}

// handbook reads the rows of a table below its heading.
func handbook(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("../../testdata/handbook/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) < 2 {
		t.Fatalf("%s has no rows", name)
	}
	return rows[1:]
}

func TestThreeEmsToAWord(t *testing.T) {
	// Four pages of 216 by 360 points, worked in an American authors' handbook of about 1905, p. 73. It prints whole words: of
	// 259.2 it leaves the part out.
	for _, row := range handbook(t, "three-ems-to-a-word.csv") {
		body, leading, lines, words := number(t, row[0]), number(t, row[1]), number(t, row[3]), number(t, row[4])
		if lines*(body+leading) != 360 {
			t.Errorf("%v: the page is %d points deep, not 360", row, lines*(body+leading))
		}
		line, err := LineOfEms(216_000, body*1000)
		if err != nil {
			t.Fatal(err)
		}
		if got := Lines(lines, line); got.Num/got.Den != words {
			t.Errorf("%v: %d/%d words to the page", row, got.Num, got.Den)
		}
		// The book has the line in ems too, and thousandths of an em give the same.
		ems, ok := new(big.Rat).SetString(row[2])
		if !ok {
			t.Fatalf("%q is no number of ems", row[2])
		}
		thousandths := ems.Mul(ems, big.NewRat(1000, 1))
		inEms, err := LineOfEms(int(thousandths.Num().Int64()), 1000)
		if err != nil || !thousandths.IsInt() || inEms.Num*line.Den != line.Num*inEms.Den {
			t.Errorf("%v: %v words to the line by its ems, %v by its points (%v)", row, inEms, line, err)
		}
	}
}

func number(t *testing.T, text string) int {
	t.Helper()
	n, err := strconv.Atoi(text)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func TestCastUp(t *testing.T) {
	// 55 lines of 60 ens, 24 pages of twelves, 79,200 ens: Cowie's Printer's Pocket-book, p. 21. The body does not matter.
	for _, body := range []int{8_000, 12_000} {
		if got := CastUp(24, 55, 30*body, body); got.Num != 79_200*got.Den {
			t.Errorf("%d/%d ens, want 79,200", got.Num, got.Den)
		}
	}
}

func TestQuires(t *testing.T) {
	// 1,000 copies half-sheetwise are 500 sheets, and with 56 over the 22 quires of MacKellar 1893, p. 299.
	for _, c := range []struct{ sheets, quires, left int }{{500, 20, 20}, {528, 22, 0}, {0, 0, 0}, {23, 0, 23}} {
		if quires, left := Quires(c.sheets); quires != c.quires || left != c.left {
			t.Errorf("%d sheets: %d quires %d sheets", c.sheets, quires, left)
		}
	}
}

func TestReams(t *testing.T) {
	// 22 quires a forme, 34 formes: MacKellar 1893, p. 299.
	for _, c := range []struct{ sheets, reams, quires, left int }{
		{34 * 22 * 24, 37, 8, 0}, {0, 0, 0, 0}, {23, 0, 0, 23}, {24, 0, 1, 0}, {479, 0, 19, 23}, {480, 1, 0, 0}, {500, 1, 0, 20},
	} {
		if reams, quires, left := Reams(c.sheets); reams != c.reams || quires != c.quires || left != c.left {
			t.Errorf("%d sheets: %d reams %d quires %d sheets", c.sheets, reams, quires, left)
		}
	}
}

func TestRefused(t *testing.T) {
	good := func() Plan { return Plan{Copy: Copy{Words: 1000}, ToPage: whole(100), Imposing: octavo()} }
	byFolios := func() Plan {
		p := good()
		p.Copy = Copy{Folios: 10, ToFolio: whole(100)}
		return p
	}
	for _, c := range []struct {
		plan  func() Plan
		spoil func(*Plan)
		want  string // "" where it is not refused
	}{
		{good, func(*Plan) {}, ""},
		{byFolios, func(*Plan) {}, ""},
		{good, func(p *Plan) { p.Copy.Words = 0 }, "a copy of 0 words: it takes 1 to 100000000"},
		{good, func(p *Plan) { p.Copy.Words = -5 }, "a copy of -5 words"},
		{good, func(p *Plan) { p.Copy.Words, p.ToPage = MostWords, whole(MostToPage) }, ""},
		{good, func(p *Plan) { p.Copy.Words, p.ToPage = MostWords+1, whole(MostToPage) }, "a copy of 100000001 words"},
		{good, func(p *Plan) { p.Copy.Folios = 3 }, "by its words or by its folios, not by both"},
		{byFolios, func(p *Plan) { p.Copy.Folios = -1 }, "-1 folios of copy: it takes 1 to 1000000"},
		{byFolios, func(p *Plan) { p.Copy.Folios = MostFolios + 1 }, "1000001 folios of copy"},
		{byFolios, func(p *Plan) { p.Copy.Folios = MostFolios; p.Copy.ToFolio = whole(101) }, "a copy of 101000000 words"},
		{byFolios, func(p *Plan) { p.Copy.Added = -1 }, "-1 words added to a folio: it takes 0 to 100000"},
		{byFolios, func(p *Plan) { p.Copy.Added = MostToPage + 1 }, "100001 words added to a folio"},
		{byFolios, func(p *Plan) { p.Copy.ToFolio = Rate{} }, "no words to the folio: it takes more than nothing, and at most 100000"},
		{byFolios, func(p *Plan) { p.Copy.ToFolio = whole(MostToPage + 1) }, "100001 words to the folio: it takes at most 100000"},
		{byFolios, func(p *Plan) { p.Copy.ToFolio = Rate{1, mostDen + 1} }, "the words to the folio are counted in 30000001"},
		{good, func(p *Plan) { p.ToPage = Rate{0, 1} }, "no words to the page"},
		{good, func(p *Plan) { p.ToPage = Rate{10, -1} }, "no words to the page"},
		{good, func(p *Plan) { p.ToPage = Rate{1, 1000} }, ""},
		{good, func(p *Plan) { p.ToPage = Rate{1, 1001} }, "the copy makes 1001000 pages, more than any work has (at most 1000000)"},
		{good, func(p *Plan) { p.Copies = MostCopies; p.Overs = MostCopies }, ""},
		{good, func(p *Plan) { p.Copies = -1 }, "-1 copies: it takes 1 to 1000000"},
		{good, func(p *Plan) { p.Copies = MostCopies + 1 }, "1000001 copies"},
		{good, func(p *Plan) { p.Copies = 1; p.Overs = -1 }, "-1 copies over: it takes 0 to 1000000"},
		{good, func(p *Plan) { p.Copies = 1; p.Overs = MostCopies + 1 }, "1000001 copies over"},
		{good, func(p *Plan) { p.Overs = 1 }, "overs are of no use without copies"},
		{good, func(p *Plan) { p.Imposing.Format = "elephant" }, `format "elephant": not known`},
		{good, func(p *Plan) { p.Imposing.In = 0 }, "0 sheets to a gathering"},
	} {
		p := c.plan()
		c.spoil(&p)
		_, err := Reckon(p)
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%+v: error %v, want %q", p, err, c.want)
		}
	}
}

func TestLineOfEmsRefused(t *testing.T) {
	for _, c := range []struct {
		measure, body int
		want          string
	}{
		{1, 1, ""},
		{36_000_000, 12_000, ""},
		{36_000_001, 12_000, "a line of 3001 ems is longer than any (at most 3000)"},
		{0, 12_000, "a line of 0 thousandths of a point has no length"},
		{-1, 12_000, "a line of -1 thousandths"},
		{264_000, 0, "a body of 0 thousandths of a point"},
		{264_000, mostBody, "a body of 10000000 thousandths of a point: it takes more than 0 and less than 10000 points"},
	} {
		_, err := LineOfEms(c.measure, c.body)
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%d, %d: error %v, want %q", c.measure, c.body, err, c.want)
		}
	}
}

// drawImposing draws a way to impose that can be worked.
func drawImposing(t *rapid.T) impose.Plan {
	p := impose.Plan{Format: rapid.SampledFrom(impose.Formats()).Draw(t, "format"), In: rapid.IntRange(1, 4).Draw(t, "in"), HalfSheet: rapid.Bool().Draw(t, "half sheet")}
	if p.Check() != nil {
		p.In = 1
	}
	if p.Check() != nil {
		p.HalfSheet = false
	}
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	return p
}

// TestByHand sets the copy word by word and folds the paper leaf by leaf, where Reckon divides.
func TestByHand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rate := func(name string, most int) Rate {
			return Rate{rapid.IntRange(1, most).Draw(t, name), rapid.IntRange(1, 9).Draw(t, name+" in")}
		}
		p := Plan{ToPage: rate("words to pages", 60), Imposing: drawImposing(t), Copies: rapid.IntRange(1, 60).Draw(t, "copies"), Overs: rapid.IntRange(0, 9).Draw(t, "overs")}
		if rapid.Bool().Draw(t, "by folios") {
			p.Copy = Copy{Folios: rapid.IntRange(1, 20).Draw(t, "folios"), ToFolio: rate("words to folios", 40), Added: rapid.IntRange(0, 5).Draw(t, "added")}
		} else {
			p.Copy.Words = rapid.IntRange(1, 600).Draw(t, "words")
		}
		got, err := Reckon(p)
		if err != nil {
			t.Fatal(err)
		}

		want := Answer{Words: p.Copy.Words}
		toCome := new(big.Rat) // words of the folios not counted yet
		for range p.Copy.Folios {
			toCome.Add(toCome, big.NewRat(int64(p.Copy.ToFolio.Num), int64(p.Copy.ToFolio.Den)))
			toCome.Add(toCome, big.NewRat(int64(p.Copy.Added), 1))
		}
		for ; toCome.Sign() > 0; want.Words++ {
			toCome.Sub(toCome, big.NewRat(1, 1))
		}
		room := new(big.Rat) // words that the pages hold
		for ; room.Cmp(big.NewRat(int64(want.Words), 1)) < 0; want.Pages++ {
			room.Add(room, big.NewRat(int64(p.ToPage.Num), int64(p.ToPage.Den)))
		}
		// Leaves to the sheet: common knowledge of the formats; the half sheet has half of them.
		leaves := map[string]int{"single": 1, "folio": 2, "quarto": 4, "octavo": 8, "duodecimo": 12, "16mo": 16, "24mo": 24, "32mo": 32}[p.Imposing.Format]
		if p.Imposing.HalfSheet {
			leaves /= 2
		}
		want.ToUnit = 2 * leaves
		folded := 0
		for page := 1; page <= want.Pages; page++ {
			if want.Over++; want.Over == want.ToUnit {
				want.Units, want.Over = want.Units+1, 0
			}
			if page > folded*want.ToUnit { // another gathering is begun
				folded += p.Imposing.In
			}
		}
		want.HalfSheets = 2 * folded
		if p.Imposing.HalfSheet {
			want.HalfSheets = folded
		}
		for range impose.Formes(want.Pages, p.Imposing) {
			want.Formes++
		}
		want.Paper = &Paper{}
		gives := 1 // copies from a sheet of paper
		if p.Imposing.HalfSheet {
			gives = 2
		}
		for made := 0; made < p.Copies+p.Overs; made += gives {
			want.Paper.ToUnit++
		}
		for range folded {
			want.Paper.Sheets += want.Paper.ToUnit
		}
		if d := cmp.Diff(want, got); d != "" {
			t.Fatalf("by hand (-), ours (+):\n%s", d)
		}
		if reams, quires, left := Reams(got.Paper.Sheets); (reams*20+quires)*24+left != got.Paper.Sheets || quires >= 20 || left >= 24 {
			t.Fatalf("%d sheets: %d reams %d quires %d sheets", got.Paper.Sheets, reams, quires, left)
		}
	})
}

// TestNothingOverflows holds the words and pages of plans at the edge of what is believed against numbers without a bound.
func TestNothingOverflows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		edge := func(name string, most int) int {
			return rapid.OneOf(rapid.IntRange(1, most), rapid.SampledFrom([]int{1, most - 1, most})).Draw(t, name)
		}
		c := Copy{Folios: edge("folios", MostFolios), Added: edge("added", MostToPage), ToFolio: Rate{edge("words", MostWords), edge("in", mostDen)}}
		p := Plan{Copy: c, ToPage: Lines(edge("lines", MostLines), Rate{edge("words in the specimen", MostToPage), edge("lines of it", MostLines)}), Imposing: octavo(), Copies: edge("copies", MostCopies), Overs: edge("overs", MostCopies)}
		ceil := func(x *big.Rat) *big.Int {
			n := new(big.Int).Add(x.Num(), x.Denom())
			n.Sub(n, big.NewInt(1))
			return n.Div(n, x.Denom())
		}
		words := big.NewRat(int64(c.ToFolio.Num), int64(c.ToFolio.Den))
		words.Add(words, big.NewRat(int64(c.Added), 1)).Mul(words, big.NewRat(int64(c.Folios), 1))
		pages := new(big.Rat).SetInt(ceil(words))
		pages.Quo(pages, big.NewRat(int64(p.ToPage.Num), int64(p.ToPage.Den)))
		believed := ceil(words).Cmp(big.NewInt(MostWords)) <= 0 && ceil(pages).Cmp(big.NewInt(MostPages)) <= 0 &&
			up(c.ToFolio.Num, c.ToFolio.Den) <= MostToPage && up(p.ToPage.Num, p.ToPage.Den) <= MostToPage
		got, err := Reckon(p)
		if believed != (err == nil) {
			t.Fatalf("%+v: %v words, %v pages, error %v", p, ceil(words), ceil(pages), err)
		}
		if err != nil {
			return
		}
		if want := ceil(words); want.Cmp(big.NewInt(int64(got.Words))) != 0 {
			t.Fatalf("%+v: %d words, want %v", p, got.Words, want)
		}
		if want := ceil(pages); want.Cmp(big.NewInt(int64(got.Pages))) != 0 {
			t.Fatalf("%+v: %d pages, want %v", p, got.Pages, want)
		}
		if want := (p.Copies + p.Overs) * (got.HalfSheets / 2); got.Paper.Sheets != want || want < 0 {
			t.Fatalf("%+v: %d sheets of paper, want %d", p, got.Paper.Sheets, want)
		}
	})
}
