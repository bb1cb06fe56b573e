package demand_test

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"math/big"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"formewise/demand"
	"formewise/demand/impose"
	"formewise/demand/internal/trial"
	"formewise/demand/stick"
	"formewise/texts/divide"
	"formewise/texts/sorts"
)

// cmr10 is Computer Modern Roman with its spaces, at a body in thousandths of a point (testdata/fonts/README.md).
func cmr10(t testing.TB, body int) demand.Font {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(trial.Root(), "testdata", "fonts", "cmr10.csv"))
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	font := demand.Font{Name: "cmr10", Body: body}
	for _, row := range rows[1:] {
		set, ok := new(big.Rat).SetString(row[3])
		if !ok {
			t.Fatalf("cmr10.csv: set %q", row[3])
		}
		count, err := strconv.Atoi(row[4])
		if err != nil {
			t.Fatalf("cmr10.csv: %v", err)
		}
		millionths, _ := set.Mul(set, big.NewRat(1_000_000, 1)).Float64()
		font.Sorts = append(font.Sorts, demand.Sort{
			Name: row[0], Text: row[1], Kind: row[2], Set: int(millionths + 0.5), Basis: "counted", OnHand: count,
		})
	}
	return font
}

// plainText is one of the open texts without what cmr10 has no sort for, as TeX is given it (testdata/tex/castoff.go).
func plainText(t testing.TB, name string) []byte {
	t.Helper()
	printed := map[rune]bool{'"': true, '\'': true} // turned into others
	for _, s := range cmr10(t, 10_000).Sorts {
		if utf8.RuneCountInString(s.Text) == 1 {
			r, _ := utf8.DecodeRuneInString(s.Text)
			printed[r] = true
		}
	}
	return bytes.Map(func(r rune) rune {
		if printed[r] || unicode.IsSpace(r) {
			return r
		}
		return -1
	}, trial.Text(t, name))
}

// english divides by TeX's own patterns.
func english(t testing.TB) stick.Divider {
	t.Helper()
	d, err := divide.For("en")
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// planAt is an octavo of 40 lines to the page.
func planAt(t testing.TB, measure int, divided bool) demand.Plan {
	t.Helper()
	plan := demand.Plan{
		Measure: measure, Lines: 40, FirstPage: 1,
		Imposing: impose.Plan{Format: "octavo", In: 1}, Allowance: demand.Allowance{Num: 3, Den: 100},
	}
	if divided {
		plan.Dividing = english(t)
	}
	return plan
}

// A texSetting is one of those that testdata/tex/castoff.tex sets a text in.
type texSetting struct {
	picas   int
	divided bool
}

func (s texSetting) String() string {
	if s.divided {
		return fmt.Sprintf("%d picas, divided", s.picas)
	}
	return fmt.Sprintf("%d picas, not divided", s.picas)
}

// texSettings are in the order of its columns; the columns of the kernless font follow, in the same order.
func texSettings() []texSetting {
	var list []texSetting
	for _, picas := range []int{12, 18, 24, 30} {
		list = append(list, texSetting{picas, true}, texSetting{picas, false})
	}
	return list
}

// A texCount is how many lines TeX makes of a paragraph.
type texCount struct {
	lines    int
	overfull bool // one is longer than the measure
}

// readRows reads what castoff.sh writes: a row a paragraph.
func readRows(t *testing.T, r io.Reader) [][]texCount {
	t.Helper()
	var rows [][]texCount
	lines := bufio.NewScanner(r)
	for lines.Scan() {
		var row []texCount
		for _, field := range strings.Split(lines.Text(), "\t") {
			figure, star := strings.CutSuffix(field, "*")
			n, err := strconv.Atoi(figure)
			if err != nil {
				t.Fatalf("row %d: %v", len(rows)+1, err)
			}
			row = append(row, texCount{n, star})
		}
		if len(row) != 2*len(texSettings()) {
			t.Fatalf("row %d has %d columns", len(rows)+1, len(row))
		}
		rows = append(rows, row)
	}
	if err := lines.Err(); err != nil {
		t.Fatal(err)
	}
	return rows
}

func goldenRows(t *testing.T, name string) [][]texCount {
	t.Helper()
	f, err := os.Open(filepath.Join(trial.Root(), "testdata", "tex", "castoff-"+name+".tsv.gz"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	return readRows(t, z)
}

// sumAt adds up a column.
func sumAt(rows [][]texCount, column int) int {
	n := 0
	for _, row := range rows {
		n += row[column].lines
	}
	return n
}

// texTexts are those that castoff.sh makes golden files of.
func texTexts() []string {
	return []string{"en-prose-austen-emma", "en-science-newton-opticks", "la-prose-cicero-de-finibus", "en-bible-kjv"}
}

// TestTeXGolden: what castoff.json says of the texts is what the paragraphs come to.
func TestTeXGolden(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(trial.Root(), "testdata", "tex", "castoff.json"))
	if err != nil {
		t.Fatal(err)
	}
	type total struct {
		Text     string `json:"text"`
		Picas    int    `json:"picas"`
		Divided  bool   `json:"divided"`
		Lines    int    `json:"lines"`
		Kernless int    `json:"lines_kernless"`
	}
	var said, want []total
	if err := json.Unmarshal(data, &said); err != nil {
		t.Fatal(err)
	}
	for _, name := range texTexts() {
		rows := goldenRows(t, name)
		for i, s := range texSettings() {
			want = append(want, total{name, s.picas, s.divided, sumAt(rows, i), sumAt(rows, i+len(texSettings()))})
		}
	}
	if d := cmp.Diff(want, said); d != "" {
		t.Errorf("castoff.json (-paragraphs +json):\n%s", d)
	}
}

// TestLinesAsTeX holds the cast-off of whole texts against the lines that TeX makes of them, as golden files have them.
func TestLinesAsTeX(t *testing.T) {
	for _, name := range texTexts() {
		t.Run(name, func(t *testing.T) { linesAsTeX(t, name, goldenRows(t, name)) })
	}
}

func linesAsTeX(t *testing.T, name string, rows [][]texCount) {
	copy := trial.Copy(t, plainText(t, name), false)
	stock := demand.Stock{cmr10(t, 10_000)}
	for i, s := range texSettings() {
		a, err := demand.Check(t.Context(), planAt(t, s.picas*12_000, s.divided), stock, copy)
		if err != nil {
			t.Fatal(err)
		}
		tex := sumAt(rows, i)
		off := 100 * float64(a.CastOff.Lines-tex) / float64(tex)
		t.Logf("%-22v TeX %6d lines, we %6d: %+.2f %%", s, tex, a.CastOff.Lines, off)
		if most := farthestFromTeX(name, s); math.Abs(off) > most {
			t.Errorf("%v: %.2f %% off, at most %.2f %% allowed", s, off, most)
		}
	}
}

// farthestFromTeX is how many in a hundred our lines may be off.
func farthestFromTeX(name string, s texSetting) float64 {
	switch {
	case s.picas < 18:
		return 1.5
	case name == "la-prose-cicero-de-finibus" && s == (texSetting{18, false}):
		// Long words that are not divided leave few gaps, and a line more often wants thin spaces. We go down to 1/5 em; TeX's
		// space goes down to 2/9. Where it may shrink to a thin (\fontdimen4\roman=1.33333pt in castoff.tex), TeX makes 2937
		// lines of it instead of 2960, and we are 0.3 % off.
		return 1.1
	}
	return 1
}

// A fitter sets paragraphs by first fit, as tight as TeX's spaces go: as many words and parts of words to the line as it
// takes. No setting with the same words, spaces and places to end a line takes fewer lines.
type fitter struct {
	cutter          *sorts.Cutter
	divider         stick.Divider // nil: words are not divided
	measure, indent int
	least           int // the narrowest space
	galley          sorts.Galley
	places          []int
}

// lines is how many lines a paragraph makes.
func (f *fitter) lines(text []byte) int {
	lines, room, empty := 1, f.measure-f.indent, true
	for at := f.cutter.Skip(text, 0); ; {
		f.galley.Clear()
		w := f.cutter.Word(&f.galley, text, at, len(text), math.MaxInt)
		next := w.Next
		switch {
		case w.Width <= room:
			room -= w.Width
			empty = false
			if w.Join == sorts.Gap {
				room -= f.least
			}
		default:
			part := f.part(text, at, w.End, room)
			if part > at {
				next = part
			} else if !empty {
				next = at
			}
			lines, room, empty = lines+1, f.measure, true
		}
		if next == w.Next && w.Join == sorts.End {
			return lines
		}
		at = next
	}
}

// part is the last place where the word at text[at:end] may be divided so that its first part goes in; 0 if there is none.
func (f *fitter) part(text []byte, at, end, room int) int {
	begin := bytes.LastIndexFunc(text[:at], func(r rune) bool { return !unicode.IsLetter(r) }) + 1
	if f.divider == nil || bytes.ContainsRune(text[begin:end], '-') || begin > 0 && text[begin-1] == '-' {
		return 0
	}
	_, hyphen := f.cutter.Hyphen()
	f.places = f.divider.Places(text[begin:end], f.places[:0])
	for _, place := range slices.Backward(f.places) {
		if place += begin; place > at {
			f.galley.Clear()
			if f.cutter.Word(&f.galley, text, at, place, math.MaxInt).Width+hyphen <= room {
				return place
			}
		}
	}
	return 0
}

// TestFirstFitAgainstTeX: paragraph by paragraph, first fit down to 2/9 em never takes more lines than TeX does: our widths,
// our words and the places where they may be divided are TeX's. TeX's font is without kerns, as type is.
func TestFirstFitAgainstTeX(t *testing.T) {
	for _, name := range texTexts() {
		t.Run(name, func(t *testing.T) { firstFitAgainstTeX(t, name, goldenRows(t, name)) })
	}
}

func firstFitAgainstTeX(t *testing.T, name string, rows [][]texCount) {
	const body = 10_000
	font := sorts.Font{Name: "cmr10", Body: body}
	for _, s := range cmr10(t, body).Sorts {
		font.Sorts = append(font.Sorts, sorts.Sort{Name: s.Name, Text: s.Text, Space: s.Kind == "space", Width: (s.Set*body + 500_000) / 1_000_000})
	}
	cases, err := sorts.Lay(font)
	if err != nil {
		t.Fatal(err)
	}
	cutter, err := sorts.NewCutter(cases, 0)
	if err != nil {
		t.Fatal(err)
	}
	copy := trial.Copy(t, plainText(t, name), false)
	if len(copy.Paragraphs) != len(rows) {
		t.Fatalf("%d paragraphs, and TeX has %d", len(copy.Paragraphs), len(rows))
	}
	for i, s := range texSettings() {
		f := &fitter{
			cutter: cutter, indent: body,
			least:   2222,                        // of cmr10: 3.33334 points less a shrink of 1.11112
			measure: s.picas*12_000 + body/1_000, // our widths are rounded to a thousandth of a point, TeX's are not
		}
		if s.divided {
			f.divider = english(t)
		}
		compared, first, tex := 0, 0, 0
		for p, paragraph := range copy.Paragraphs {
			count := rows[p][i+len(texSettings())]
			// A ruled table has rows of hyphens: TeX may end a line between any two of its dashes, and we may not.
			if count.overfull || bytes.Contains(paragraph.Text, []byte("-----")) {
				continue
			}
			n := f.lines(paragraph.Text)
			if n > count.lines {
				t.Errorf("%v, paragraph %d: %d lines by first fit, %d by TeX: %.60q", s, p+1, n, count.lines, paragraph.Text)
			}
			compared, first, tex = compared+1, first+n, tex+count.lines
		}
		t.Logf("%-22v %d of %d paragraphs: %d lines by first fit, %d by TeX", s, compared, len(rows), first, tex)
		if 100*compared < 98*len(rows) {
			t.Errorf("%v: only %d of %d paragraphs could be compared", s, compared, len(rows))
		}
	}
}

// TestTeXLive asks TeX itself, where it is installed: for the widths of cmr10, and of a text with quotes and dashes, and of one with
// figures and tables, for the lines. What it says is what the golden files say.
func TestTeXLive(t *testing.T) {
	for _, tool := range []string{"sh", "go", "tex", "tftopl", "pltotf"} {
		if _, err := exec.LookPath(tool); err != nil {
			t.Skipf("no %s here: TeX is not asked (Debian has it in texlive-base and texlive-binaries)", tool)
		}
	}
	t.Run("cmr10.csv", func(t *testing.T) {
		out := runScript(t, filepath.Join("fonts", "cmr10.sh"))
		have, err := os.ReadFile(filepath.Join(trial.Root(), "testdata", "fonts", "cmr10.csv"))
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(string(have), string(out)); d != "" {
			t.Errorf("cmr10.csv is not what cmr10.tfm has (-file +TeX):\n%s", d)
		}
	})
	for _, name := range texTexts()[:2] {
		t.Run(name, func(t *testing.T) {
			rows := readRows(t, bytes.NewReader(runScript(t, filepath.Join("tex", "castoff.sh"), name)))
			if d := cmp.Diff(goldenRows(t, name), rows, cmp.AllowUnexported(texCount{})); d != "" {
				t.Errorf("the golden file is not what TeX says (-golden +TeX):\n%s", d)
			}
			linesAsTeX(t, name, rows)
			firstFitAgainstTeX(t, name, rows)
		})
	}
}

// runScript runs a script of testdata, and gives what it prints.
func runScript(t *testing.T, name string, args ...string) []byte {
	t.Helper()
	run := exec.CommandContext(t.Context(), "sh", append([]string{filepath.Join(trial.Root(), "testdata", name)}, args...)...)
	var said strings.Builder
	run.Stderr = &said
	out, err := run.Output()
	if err != nil {
		t.Fatalf("%s: %v\n%s", name, err, said.String())
	}
	return out
}
