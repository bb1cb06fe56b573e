package inventory

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"
)

// maxSheet is how many bytes a CSV of sorts may have: hundreds of times what
// MaxSorts rows take.
const maxSheet = 16 << 20

// maxColumns is how many columns are looked at, those that are not read included.
const maxColumns = 100

const hintHeadings = "the first row names the columns: sort,text,kind,set,count"

// composingSpaces are the names of the spaces that lines are made with; other
// spaces are stock and nothing else.
var composingSpaces = []string{
	"3-em quad", "2-em quad", "em quad", "en quad",
	"thick", "3-to-em", "middle", "4-to-em", "thin", "5-to-em", "6-to-em", "hair",
}

// The columns of a CSV of sorts.
const (
	columnSort   = "sort"
	columnText   = "text"
	columnKind   = "kind"
	columnSet    = "set"
	columnCount  = "count"
	columnKerned = "kerned"
)

// ReadSorts reads the sorts of a font from a CSV: a heading row, then a row a sort,
// in UTF-8 with or without a BOM, its columns in any order. So
//
//	sort,text,kind,set,count
//	e,e,,0.444,1800
//	thick,,,1/3,1500
//
// is an e (lower, as its text says) and a thick space (as its name says: a row with
// neither text nor kind is refused if its name is not that of a space). A column kerned, which may be
// left out, says yes of the sorts whose face overhangs the body on the right, and no
// or nothing of the others. The counts are in OnHand, as Counted. A warning is something that was not read, or is read and may not be
// what was meant. The error is of the first row that does not go in, and names its
// line; then there are no sorts.
func ReadSorts(r io.Reader) (sorts []Sort, warnings []string, err error) {
	data, err := io.ReadAll(io.LimitReader(r, maxSheet+1))
	if err != nil {
		return nil, nil, err
	}
	if data, err = plainSheet(data); err != nil {
		return nil, nil, err
	}
	rows := csv.NewReader(bytes.NewReader(data))
	rows.FieldsPerRecord = -1 // counted here, to say it better
	headings, line, err := nextRow(rows)
	if err == io.EOF {
		return nil, nil, refuse(hintHeadings, "the CSV is empty")
	}
	if err != nil {
		return nil, nil, err
	}
	columns, warnings, err := readHeadings(headings)
	if err != nil {
		return nil, nil, within(err, "line %d", line)
	}
	var taken roll
	var idle []string // spaces that composing does not use
	for {
		cells, line, err := nextRow(rows)
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, nil, err
		}
		if blank(cells) {
			continue
		}
		s, err := columns.sort(cells, headings)
		if err == nil {
			err = taken.enter(s, fmt.Sprintf("line %d", line))
		}
		if err == nil && len(sorts) == MaxSorts {
			err = refuse("", "more than %d sorts, and a font has at most that many", MaxSorts)
		}
		if err != nil {
			return nil, nil, within(err, "line %d", line)
		}
		if s.Kind == Space && !composes(s.Name) {
			idle = append(idle, s.Name)
		}
		sorts = append(sorts, s)
	}
	if len(sorts) == 0 {
		return nil, nil, refuse("", "the CSV has headings and no sorts")
	}
	if idle != nil {
		warnings = append(warnings, fmt.Sprintf("kept in stock as spaces, and not used to compose with: %s (lines are made with %s)",
			list(idle), strings.Join(composingSpaces, ", ")))
	}
	if wide := WideSorts(sorts...); wide != "" {
		warnings = append(warnings, wide)
	}
	return sorts, warnings, nil
}

// plainSheet takes off a BOM, and refuses what is no text with commas in it.
func plainSheet(data []byte) ([]byte, error) {
	if len(data) > maxSheet {
		return nil, refuse("", "the CSV is over 16 MB, and a font has at most %d sorts", MaxSorts)
	}
	const saveAs = "save it as CSV in UTF-8, with commas between the columns"
	for at := 0; at < len(data); {
		r, n := utf8.DecodeRune(data[at:])
		if r == utf8.RuneError && n == 1 || r == 0 {
			what := "not UTF-8"
			if r == 0 {
				what = "a NUL byte, so this is no text"
			}
			return nil, refuse(saveAs, "line %d: the byte at offset %d is %s", 1+bytes.Count(data[:at], []byte("\n")), at, what)
		}
		at += n
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	first, _, several := bytes.Cut(data, []byte("\n"))
	if first, _, old := bytes.Cut(first, []byte("\r")); !several && old && len(first) > 0 {
		return nil, refuse("save it with line ends LF or CRLF", "the CSV ends its lines with CR alone")
	}
	if !bytes.Contains(first, []byte(",")) && bytes.ContainsAny(first, ";\t") {
		return nil, refuse(saveAs, "line 1: no commas between the columns, but semicolons or tabs")
	}
	return data, nil
}

// nextRow gives the next row and the line it begins on, from 1; io.EOF after the last.
func nextRow(rows *csv.Reader) (cells []string, line int, err error) {
	cells, err = rows.Read()
	var parse *csv.ParseError
	switch {
	case errors.As(err, &parse):
		return nil, 0, refuse(`a cell with a comma or a double quote in it stands in double quotes, and a double quote in it is doubled: """"`,
			"line %d: a double quote is out of place", parse.StartLine)
	case err != nil:
		return nil, 0, err
	}
	line, _ = rows.FieldPos(0)
	return cells, line, nil
}

// blank tells a row of empty cells, as spreadsheets leave them at the end.
func blank(cells []string) bool {
	for _, c := range cells {
		if strings.TrimSpace(c) != "" {
			return false
		}
	}
	return true
}

// columnPlaces is where each column is, from 0, by its heading.
type columnPlaces map[string]int

func readHeadings(headings []string) (columnPlaces, []string, error) {
	const all = "the columns are sort, text, kind (may be left out), set, count, kerned (may be left out)"
	if len(headings) > maxColumns {
		return nil, nil, refuse(all, "%d columns, and a CSV of sorts has at most %d", len(headings), maxColumns)
	}
	if !slices.ContainsFunc(headings, func(h string) bool { return isColumn(columnName(h)) }) {
		return nil, nil, refuse(hintHeadings, "the heading row is missing")
	}
	places := columnPlaces{}
	var warnings []string
	for i, h := range headings {
		h = columnName(h)
		if h == "" {
			continue // a cell with something in it below is refused when it comes
		}
		if _, there := places[h]; there {
			return nil, nil, refuse("", "the column %q is there twice", shorten(h))
		}
		places[h] = i
		if !isColumn(h) {
			warnings = append(warnings, fmt.Sprintf("the column %q is not read; %s", shorten(h), all))
		}
	}
	for _, needed := range []string{columnSort, columnText, columnSet, columnCount} {
		if _, there := places[needed]; there {
			continue
		}
		if needed == columnSet {
			return nil, nil, within(noSetYet(), "no column %q", needed)
		}
		return nil, nil, refuse(all, "no column %q", needed)
	}
	return places, warnings, nil
}

// columnName is a heading as columns are called: case and white space round it do not count.
func columnName(heading string) string { return strings.ToLower(strings.TrimSpace(heading)) }

func isColumn(name string) bool {
	switch name {
	case columnSort, columnText, columnKind, columnSet, columnCount, columnKerned:
		return true
	}
	return false
}

func noSetYet() error {
	return refuse("give every sort its set width in ems of the body, like 0.4444 or 1/3",
		"the set width is left out, and estimated widths are not there yet")
}

// sort makes the sort of one row.
func (c columnPlaces) sort(cells, headings []string) (Sort, error) {
	if len(cells) != len(headings) {
		return Sort{}, refuse("a row has a cell for every heading, be it empty", "%d cells under %d headings", len(cells), len(headings))
	}
	for i, h := range headings {
		if strings.TrimSpace(h) == "" && strings.TrimSpace(cells[i]) != "" {
			return Sort{}, refuse("", "cell %d holds %q and has no heading", i+1, shorten(cells[i]))
		}
	}
	cell := func(column string) string {
		if at, there := c[column]; there {
			return strings.TrimSpace(cells[at])
		}
		return ""
	}
	s := Sort{Name: cell(columnSort), Kind: Kind(cell(columnKind)), Basis: Counted}
	var err error
	if s.Name, err = sortName(s.Name); err != nil {
		return Sort{}, err
	}
	// White space is no text, but it is no empty cell either.
	s.Text = cells[c[columnText]]
	if err := s.emptyByName(); err != nil {
		return Sort{}, err
	}
	if cell(columnSet) == "" {
		err = noSetYet()
	} else if s.Set, err = ParseSet(cell(columnSet)); err == nil {
		s.OnHand, err = ParseCount(cell(columnCount))
	}
	if kerned := cell(columnKerned); err == nil && kerned != "" {
		s.Kerned, err = ParseKerned(kerned)
	}
	if err != nil {
		return Sort{}, within(err, "sort %q", s.Name)
	}
	return s.tidy()
}

func composes(name string) bool { return slices.Contains(composingSpaces, name) }
