package main

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"formewise/cmd/formewise/report"
	"formewise/inventory"
)

func newFontShow(c *counter) *cobra.Command {
	var asked struct{ json bool }
	cmd := &cobra.Command{
		Use:   "show NAME",
		Short: "the sorts of a font by kind, with their counts",
		Example: `
formewise font show "Ferry Roman 12"
formewise font show "Ferry Roman 12" --json`,
		Long: `
Every sort with what it prints, its set width in ems of the body (to four
places; --json has it exactly), its pieces on hand, and their share of all
pieces of the font; and which are kerned, if any is.`,
		Args: takes("NAME"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.showFont(cmd.Context(), args[0], asked.json)
		},
	}
	cmd.Flags().BoolVar(&asked.json, "json", false, "one object for scripts")
	return cmd
}

func (c *counter) showFont(ctx context.Context, name string, forScripts bool) error {
	path, err := c.shopPath()
	if err != nil {
		return err
	}
	shop, err := inventory.Open(ctx, path)
	if err != nil {
		return err
	}
	defer func() { _ = shop.Close() }() // it was only read
	f, err := shop.Font(ctx, name)
	if err != nil {
		return err
	}
	all, err := shop.Fonts(ctx)
	if err != nil {
		return err
	}
	show := fontSheet
	if forScripts {
		show = fontJSON
	}
	text, err := show(all, f)
	if err != nil {
		return err
	}
	return c.answer(text, codeDone)
}

// fontSheet is a font on the screen; all is the fonts of the shop.
func fontSheet(all []inventory.Font, f inventory.Font) (string, error) {
	columns := []report.Column{
		report.Words("kind"), report.Words("sort"), report.Words("prints"),
		report.Numbers("set, em"), report.Numbers("pieces"), report.Numbers("share"),
	}
	// Most fonts have no kerned sort, and need no column for it.
	if slices.ContainsFunc(f.Sorts, func(s inventory.Sort) bool { return s.Kerned }) {
		columns = append(columns, report.Words("kerned"))
	}
	var rows [][]string
	for _, g := range f.ByKind() {
		rows = append(rows, []string{string(g.Kind), report.Count(len(g.Sorts), "sort", "sorts"), "", "",
			report.Number(g.Pieces()), shareCell(f, g.Pieces())})
		for _, s := range g.Sorts {
			row := []string{"", s.Name, s.Text, setCell(s.Set), report.Number(s.OnHand), shareCell(f, s.OnHand)}
			if s.Kerned {
				row = append(row, "yes")
			}
			rows = append(rows, row)
		}
	}
	table, err := report.Table(columns, rows)
	if err != nil {
		return "", err
	}
	var spaces string
	switch from := spacesFont(all, f); {
	case f.Spacing:
		spaces = "a spacing font"
	case from == nil:
		spaces = "spaces from none"
	case *from == f.Name:
		spaces = "spaces of its own"
	default:
		spaces = fmt.Sprintf("spaces from %q", *from)
	}
	head := fmt.Sprintf("%s: body %s, %s, %s, %s", f.Name, body(f.Body),
		report.Count(len(f.Sorts), "sort", "sorts"), report.Count(f.Pieces(), "piece", "pieces"), spaces)
	text := report.Clean(head) + "\n\n" + table
	if len(f.Retired) > 0 {
		var names []string
		for _, s := range f.Retired {
			names = append(names, fmt.Sprintf("%q (%s)", s.Name, report.Count(s.OnHand, "piece", "pieces")))
		}
		text += "\n" + report.Clean("Retired, and neither set nor counted above: "+strings.Join(names, ", ")) + "\n"
	}
	return text, nil
}

// sortJSON is one sort; Share is of the pieces of the font, in per cent, null where
// the font has none, or the sort is retired.
type sortJSON struct {
	Sort     string       `json:"sort"`
	Text     string       `json:"text"`
	Kind     string       `json:"kind"`
	Set      json.Number  `json:"set"`
	Kerned   bool         `json:"kerned"`
	Basis    string       `json:"basis"`
	OnHand   int          `json:"on_hand"`
	Standing int          `json:"standing"`
	Share    *json.Number `json:"share"`
}

type kindJSON struct {
	Kind   string       `json:"kind"`
	Sorts  int          `json:"sorts"`
	OnHand int          `json:"on_hand"`
	Share  *json.Number `json:"share"`
}

func fontJSON(all []inventory.Font, f inventory.Font) (string, error) {
	share := func(pieces int) *json.Number {
		share, ok := f.Share(pieces)
		if !ok {
			return nil
		}
		n := report.JSONNumber(share, 100, 2)
		return &n
	}
	sheet := struct {
		Schema string `json:"schema"`
		fontHead
		Kinds   []kindJSON `json:"kinds"`
		Sorts   []sortJSON `json:"sorts"`
		Retired []sortJSON `json:"retired"`
	}{"formewise.font/1", headOf(all, f), []kindJSON{}, []sortJSON{}, []sortJSON{}}
	row := func(s inventory.Sort) sortJSON {
		return sortJSON{
			Sort: s.Name, Text: s.Text, Kind: string(s.Kind), Set: json.Number(inventory.Ems(s.Set)), Kerned: s.Kerned,
			Basis: string(s.Basis), OnHand: s.OnHand, Standing: s.Standing,
		}
	}
	for _, g := range f.ByKind() {
		sheet.Kinds = append(sheet.Kinds, kindJSON{string(g.Kind), len(g.Sorts), g.Pieces(), share(g.Pieces())})
		for _, s := range g.Sorts {
			r := row(s)
			r.Share = share(s.OnHand)
			sheet.Sorts = append(sheet.Sorts, r)
		}
	}
	for _, s := range f.Retired {
		sheet.Retired = append(sheet.Retired, row(s))
	}
	return report.JSON(sheet)
}
