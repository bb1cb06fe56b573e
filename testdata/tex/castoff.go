// Castoff is what castoff.sh needs beside TeX:
//
//	castoff spell FONT.csv MB TEXT… >text.tex      texts as TeX is to read them
//	castoff write FONT.csv MB TEXT… >text.txt      the same as a manuscript
//	castoff sum NAME=LINES.tsv.gz… >castoff.json   what the lines of every paragraph come to
//
// What the font has no sort for is left out of the texts. They are taken over and over again until there are so many
// millions of bytes; with 0, once and whole.
package main

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"formewise/texts/house"
	"formewise/texts/read"
)

func main() {
	if err := run(os.Args[1:], os.Stdout); err != nil {
		fmt.Fprintf(os.Stderr, "castoff: %v\n", err)
		os.Exit(1)
	}
}

func run(args []string, stdout io.Writer) error {
	out := bufio.NewWriterSize(stdout, 1<<20)
	var err error
	switch {
	case len(args) > 3 && (args[0] == "spell" || args[0] == "write"):
		var text []byte
		if text, err = loadAll(args[1], args[2], args[3:]); err != nil {
			return err
		}
		if args[0] == "write" {
			_, err = out.Write(text)
		} else {
			err = spell(text, out)
		}
	case len(args) > 1 && args[0] == "sum":
		err = sum(args[1:], out)
	default:
		err = fmt.Errorf("what to do: spell FONT MB TEXT…, write FONT MB TEXT…, or sum NAME=LINES…")
	}
	if err != nil {
		return err
	}
	return out.Flush()
}

// loadAll reads texts, over and over until there is enough of them, whole paragraphs.
func loadAll(font, megabytes string, names []string) ([]byte, error) {
	printed, err := signsOf(font)
	if err != nil {
		return nil, err
	}
	var all []byte
	for _, name := range names {
		text, err := load(name)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		for _, r := range string(text) {
			if printed[r] || unicode.IsSpace(r) {
				all = utf8.AppendRune(all, r)
			}
		}
		all = append(all, "\n\n"...)
	}
	mb, err := strconv.Atoi(megabytes)
	if size := mb * 1_000_000; err == nil && size > 0 {
		all = bytes.Repeat(all, size/len(all)+1)
		all = all[:bytes.LastIndex(all[:size], []byte("\n\n"))+2]
	}
	return all, err
}

// signsOf are the signs that a font has a sort for, and those that are turned into others.
func signsOf(font string) (map[rune]bool, error) {
	table, err := os.ReadFile(font)
	if err != nil {
		return nil, err
	}
	rows, err := csv.NewReader(bytes.NewReader(table)).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", font, err)
	}
	printed := map[rune]bool{'"': true, '\'': true}
	for _, row := range rows[1:] {
		if utf8.RuneCountInString(row[1]) == 1 {
			r, _ := utf8.DecodeRuneInString(row[1])
			printed[r] = true
		}
	}
	return printed, nil
}

func load(name string) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		return nil, err
	}
	return io.ReadAll(z)
}

// signs are what stands in plain TeX for the characters that are not themselves there.
var signs = map[rune]string{
	'#': `\#`, '$': `\$`, '%': `\%`, '&': `\&`,
	'“': "``", '”': "''", '‘': "`", '’': "'", '–': "--", '—': "---",
	'¡': `{\char"3C}`, '¿': `{\char"3E}`, 'ß': `{\char"19}`,
	'æ': `{\char"1A}`, 'œ': `{\char"1B}`, 'ø': `{\char"1C}`, 'Æ': `{\char"1D}`, 'Œ': `{\char"1E}`, 'Ø': `{\char"1F}`,
}

// joins tells whether TeX would make one sign of two that are two.
func joins(before, r rune) bool {
	switch r {
	case '“', '‘':
		return strings.ContainsRune("“‘?!", before)
	case '”', '’':
		return strings.ContainsRune("”’", before)
	}
	return false
}

// spell writes every paragraph as the argument of \P, its lines as they are.
func spell(text []byte, out *bufio.Writer) error {
	copy, err := read.Plain([]read.File{{Name: "text", Data: text}}, false)
	if err != nil {
		return err
	}
	for _, p := range copy.Paragraphs {
		if p.Kind != read.Prose {
			continue
		}
		out.WriteString(`\P{`)
		if err := spellText(bytes.TrimSpace(p.Text), out); err != nil {
			return err
		}
		out.WriteString("}\n")
	}
	return nil
}

func spellText(text []byte, out *bufio.Writer) error {
	before := rune(0)
	for i := 0; i < len(text); {
		said, n := house.Turn(text, i)
		if n == 0 {
			_, n = utf8.DecodeRune(text[i:])
			said = string(text[i : i+n])
		}
		i += n
		for _, r := range said {
			if joins(before, r) {
				out.WriteString("{}")
			}
			switch s, ok := signs[r]; {
			case ok:
				out.WriteString(s)
			case r < utf8.RuneSelf && !strings.ContainsRune("\"'`<>\\{}^_~|", r):
				out.WriteByte(byte(r))
			default:
				return fmt.Errorf("%q cannot be spelt in TeX", r)
			}
			before = r
		}
	}
	return nil
}

// The settings of castoff.tex, in its order: they are the columns of the lines.
var picas = []int{12, 18, 24, 30}

type total struct {
	Text     string `json:"text"`
	Picas    int    `json:"picas"`
	Divided  bool   `json:"divided"`
	Lines    int    `json:"lines"`
	Kernless int    `json:"lines_kernless"`
}

// sum adds the columns of each table: of cmr10 divided and not, measure by measure, and of the kernless font the same.
func sum(tables []string, out io.Writer) error {
	var list []total
	for _, table := range tables {
		name, file, _ := strings.Cut(table, "=")
		sums, err := columns(file)
		if err != nil {
			return fmt.Errorf("%s: %w", file, err)
		}
		if len(sums) != 4*len(picas) {
			return fmt.Errorf("%s: %d columns, and it was to have %d", file, len(sums), 4*len(picas))
		}
		for i, p := range picas {
			for k, divided := range []bool{true, false} {
				at := 2*i + k
				list = append(list, total{name, p, divided, sums[at], sums[at+2*len(picas)]})
			}
		}
	}
	for i, row := range list { // a row a line
		data, err := json.Marshal(row)
		if err != nil {
			return err
		}
		fmt.Fprintf(out, "%s%s", []string{"[\n", ",\n"}[min(i, 1)], data)
	}
	fmt.Fprintln(out, "\n]")
	return nil
}

func columns(file string) ([]int, error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		return nil, err
	}
	var sums []int
	lines := bufio.NewScanner(z)
	for lines.Scan() {
		for i, field := range strings.Fields(lines.Text()) {
			n, err := strconv.Atoi(strings.TrimSuffix(field, "*"))
			if err != nil {
				return nil, err
			}
			if i == len(sums) {
				sums = append(sums, 0)
			}
			sums[i] += n
		}
	}
	return sums, lines.Err()
}
