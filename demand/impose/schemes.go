package impose

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// Row is one row of pages on the stone.
type Row struct {
	Rotation int   // degrees: 0 the pages stand upright in the figure, 180 on their heads
	Pages    []int // from left to right
}

// scheme is one way to share out the pages of a sheet, or of a half sheet.
type scheme struct {
	format string
	half   bool
	pages  int // to the sheet, or to the half sheet
	sides  []side
}

// side is one forme of a scheme.
type side struct {
	name  string
	rows  []Row // as they lie, from the top
	pages []int // the same pages, ascending
}

//go:embed schemes.csv
var schemesFile string

// schemes is the table of schemes, read once. The file comes with the program and is read in the tests, so a table
// that does not parse is a slip of ours and not something a caller could mend.
var schemes = sync.OnceValue(func() []scheme {
	list, err := readSchemes(strings.NewReader(schemesFile))
	if err != nil {
		panic(err)
	}
	return list
})

// findScheme gives nil where the table has none.
func findScheme(format string, half bool) *scheme {
	list := schemes()
	i := slices.IndexFunc(list, func(s scheme) bool { return s.format == format && s.half == half })
	if i < 0 {
		return nil
	}
	return &list[i]
}

// scheme gives the scheme that the plan asks for. A plan without one was never put to Check.
func (p Plan) scheme() *scheme {
	s := findScheme(p.Format, p.HalfSheet)
	if s == nil {
		panic(fmt.Sprintf("impose: no scheme for format %q, half sheet %t: Check was not asked", p.Format, p.HalfSheet))
	}
	return s
}

// readSchemes reads the table of schemes.csv, in the order of the file. It refuses rows out of order and a scheme that has
// not each of its pages once.
func readSchemes(r io.Reader) ([]scheme, error) {
	in := csv.NewReader(r)
	in.Comment = '#'
	in.FieldsPerRecord = 7
	if _, err := in.Read(); err != nil {
		return nil, fmt.Errorf("schemes: no heading: %w", err)
	}
	var list []scheme
	for {
		cells, err := in.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, fmt.Errorf("schemes: %w", err)
		}
		if list, err = addRow(list, cells); err != nil {
			line, _ := in.FieldPos(0)
			return nil, fmt.Errorf("schemes: line %d: %w", line, err)
		}
	}
	for i := range list {
		if err := list[i].finish(); err != nil {
			return nil, err
		}
	}
	return list, nil
}

// addRow adds one line of the table to the last scheme of the list, or begins the next scheme with it.
func addRow(list []scheme, cells []string) ([]scheme, error) {
	format, paper, name, number, rotation := cells[0], cells[1], cells[3], cells[4], cells[5]
	if paper != "sheet" && paper != "half sheet" {
		return nil, fmt.Errorf("paper %q: it is sheet or half sheet", paper)
	}
	if rotation != "0" && rotation != "180" {
		return nil, fmt.Errorf("rotation %q: it is 0 or 180", rotation)
	}
	row := Row{}
	if rotation == "180" {
		row.Rotation = 180
	}
	for word := range strings.FieldsSeq(cells[6]) {
		page, err := strconv.Atoi(word)
		if err != nil {
			return nil, fmt.Errorf("page %q: not a number", word)
		}
		row.Pages = append(row.Pages, page)
	}
	half := paper == "half sheet"
	if n := len(list); n == 0 || list[n-1].format != format || list[n-1].half != half {
		list = append(list, scheme{format: format, half: half})
	}
	s := &list[len(list)-1]
	if n := len(s.sides); n == 0 || s.sides[n-1].name != name {
		s.sides = append(s.sides, side{name: name})
	}
	forme := &s.sides[len(s.sides)-1]
	if want := strconv.Itoa(len(forme.rows) + 1); number != want {
		return nil, fmt.Errorf("row %q: row %s comes next", number, want)
	}
	forme.rows = append(forme.rows, row)
	return list, nil
}

// finish sorts the pages of each forme and counts them, and says if a page is not there just once.
func (s *scheme) finish() error {
	var all []int
	for i := range s.sides {
		forme := &s.sides[i]
		for _, row := range forme.rows {
			forme.pages = append(forme.pages, row.Pages...)
		}
		slices.Sort(forme.pages)
		all = append(all, forme.pages...)
	}
	slices.Sort(all)
	for i, page := range all {
		if page != i+1 {
			return fmt.Errorf("schemes: %s: page %d is not there just once", s.format, i+1)
		}
	}
	if len(all) == 0 {
		return fmt.Errorf("schemes: %s: no pages", s.format)
	}
	s.pages = len(all)
	return nil
}
