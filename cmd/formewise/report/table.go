package report

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/tw"
)

// Column heads a column of a table and says on which side its cells are ranged.
type Column struct {
	Head string
	side tw.Align
}

// Words is a column of words, ranged left.
func Words(head string) Column { return Column{Head: head, side: tw.AlignLeft} }

// Numbers is a column of numbers, ranged right.
func Numbers(head string) Column { return Column{Head: head, side: tw.AlignRight} }

// Table sets rows of cells under their heads: no frame, two spaces between
// columns, each column as wide as its widest cell, no spaces at the end of a
// line, a newline after each. Heads and cells come out as given, but that they
// are cleaned (see Clean). A row shorter than the heads has empty cells at its
// end; a longer one is an error, and so is a cell of nothing but spaces, which
// nobody could read: a space sort goes in by its name. No columns give "".
//
// This is the only place that knows the library, which wraps, trims, frames
// and upper-cases unless told otherwise, and loses errors of writing: here it
// writes into memory.
func Table(columns []Column, rows [][]string) (string, error) {
	if len(columns) == 0 {
		return "", nil
	}
	heads := make([]string, len(columns))
	sides := make([]tw.Align, len(columns))
	for i, column := range columns {
		heads[i], sides[i] = cell(column.Head), column.side
	}
	cells := make([][]string, len(rows))
	for y, row := range rows {
		if len(row) > len(columns) {
			return "", fmt.Errorf("row %d of the table has %d cells, and there are %d columns", y+1, len(row), len(columns))
		}
		cells[y] = make([]string, len(columns))
		for x, text := range row {
			if text != "" && strings.TrimSpace(text) == "" {
				return "", fmt.Errorf("row %d of the table shows a bare space under %q", y+1, columns[x].Head)
			}
			cells[y][x] = cell(text)
		}
	}

	part := tw.CellConfig{
		Alignment:  tw.CellAlignment{PerColumn: sides},
		Formatting: tw.CellFormatting{AutoWrap: tw.WrapNone, AutoFormat: tw.Off},
		Padding:    tw.CellPadding{Global: tw.Padding{Right: "  ", Overwrite: true}},
	}
	var out strings.Builder
	table := tablewriter.NewTable(&out,
		tablewriter.WithHeaderConfig(part),
		tablewriter.WithRowConfig(part),
		tablewriter.WithHeaderAutoFormat(tw.Off),
		tablewriter.WithTrimSpace(tw.Off),
		tablewriter.WithAutoHide(tw.Off),
		// Else the width of a dash or a quote would follow the user's locale.
		tablewriter.WithEastAsian(tw.Off),
		tablewriter.WithRendition(tw.Rendition{
			Borders: tw.BorderNone,
			Settings: tw.Settings{
				Separators: tw.SeparatorsNone,
				Lines:      tw.LinesNone,
			},
		}),
	)
	table.Header(heads)
	if err := table.Bulk(cells); err != nil {
		return "", fmt.Errorf("a table could not be made: %w", err)
	}
	if err := table.Render(); err != nil {
		return "", fmt.Errorf("a table could not be made: %w", err)
	}
	// The library fills up the last column, and adds an empty line.
	lines := strings.SplitAfter(out.String(), "\n")
	var trimmed strings.Builder
	for _, line := range lines[:min(len(lines), len(rows)+1)] {
		trimmed.WriteString(strings.TrimRight(line, " \n") + "\n")
	}
	return trimmed.String(), nil
}

// fold makes of one row as many as it takes for each cell to keep to a width in
// characters, the same for a column all the way down; 0 leaves a column as it is.
// Cells are wrapped between words, and have empty ones under them where others go on.
func fold(row []string, widths ...int) [][]string {
	var rows [][]string
	for x, text := range row {
		lines := []string{text}
		if widths[x] > 0 && text != "" {
			lines = strings.Split(strings.TrimSuffix(Wrap(cell(text), widths[x]), "\n"), "\n")
		}
		for y, line := range lines {
			if y == len(rows) {
				rows = append(rows, make([]string, len(row)))
			}
			rows[y][x] = line
		}
	}
	return rows
}

// cell makes one cell's text safe, and gives an accent that stands alone the
// dotted circle that such accents are shown on: else it would go on to what is
// left of it.
func cell(text string) string {
	if first, _ := utf8.DecodeRuneInString(text); unicode.In(first, unicode.Mn, unicode.Me) {
		text = "\u25CC" + text
	}
	return Clean(text)
}
