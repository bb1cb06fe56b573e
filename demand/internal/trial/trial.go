// Package trial gives tests something to set: the demo's fonts and the open texts of testdata.
package trial

import (
	"bytes"
	"compress/gzip"
	"encoding/csv"
	"io"
	"math/big"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"formewise/texts/read"
	"formewise/texts/sorts"
)

// Root is the folder that holds go.mod.
func Root() string {
	_, file, _, _ := runtime.Caller(0)
	return filepath.Join(filepath.Dir(file), "..", "..", "..")
}

// Font reads one of the demo's fonts, such as "ferry-roman-12", at a body in thousandths of a point, and its counts.
func Font(t testing.TB, name string, body int) (sorts.Font, []int) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(Root(), "cmd", "formewise", "demo", "fonts", name+".csv"))
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	font := sorts.Font{Name: name, Body: body}
	var counts []int
	for _, row := range rows[1:] {
		set, ok := new(big.Rat).SetString(row[3])
		if !ok {
			t.Fatalf("%s: set %q", name, row[3])
		}
		width, _ := new(big.Rat).Mul(set, big.NewRat(int64(body), 1)).Float64()
		font.Sorts = append(font.Sorts, sorts.Sort{
			Name: row[0], Text: row[1], Space: row[2] == "space", SmallCapital: row[2] == "small capital", Width: int(width + 0.5),
		})
		count := 0
		for _, r := range row[4] {
			count = 10*count + int(r-'0')
		}
		counts = append(counts, count)
	}
	return font, counts
}

// Roman12 is the demo's roman of 12 points with its spaces: fonts 0 and 1 of the cases.
func Roman12(t testing.TB) *sorts.Cases {
	t.Helper()
	roman, _ := Font(t, "ferry-roman-12", 12000)
	spaces, _ := Font(t, "spacing-12", 12000)
	cases, err := sorts.Lay(roman, spaces)
	if err != nil {
		t.Fatal(err)
	}
	return cases
}

// Text is one of the open texts of testdata/texts, such as "en-prose-austen-emma".
func Text(t testing.TB, name string) []byte {
	t.Helper()
	f, err := os.Open(filepath.Join(Root(), "testdata", "texts", name+".txt.gz"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// Copy reads a text as plain text.
func Copy(t testing.TB, text []byte, verse bool) *read.Copy {
	t.Helper()
	c, err := read.Plain([]read.File{{Name: "trial", Data: text}}, verse)
	if err != nil {
		t.Fatal(err)
	}
	return c
}
