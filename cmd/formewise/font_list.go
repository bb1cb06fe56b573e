package main

import (
	"context"
	"encoding/json"
	"fmt"

	"github.com/spf13/cobra"

	"formewise/cmd/formewise/report"
	"formewise/inventory"
)

func newFontList(c *counter) *cobra.Command {
	var asked struct{ json bool }
	cmd := &cobra.Command{
		Use:   "list",
		Short: "the fonts of the shop",
		Example: `
formewise font list
formewise font list --json`,
		Long: `
Every font with its body, how many sorts and pieces it has, and the font that
its spaces come from: its own, the one spacing font of its body, or none.`,
		Args: takes(),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return c.listFonts(cmd.Context(), asked.json)
		},
	}
	cmd.Flags().BoolVar(&asked.json, "json", false, "one object for scripts")
	return cmd
}

func (c *counter) listFonts(ctx context.Context, forScripts bool) error {
	fonts, err := c.readFonts(ctx)
	if err != nil {
		return err
	}
	list := fontTable
	if forScripts {
		list = fontsJSON
	}
	text, err := list(fonts)
	if err != nil {
		return err
	}
	return c.answer(text, codeDone)
}

// readFonts reads all fonts of the shop.
func (c *counter) readFonts(ctx context.Context) ([]inventory.Font, error) {
	path, err := c.shopPath()
	if err != nil {
		return nil, err
	}
	shop, err := inventory.Open(ctx, path)
	if err != nil {
		return nil, err
	}
	defer func() { _ = shop.Close() }() // it was only read
	return shop.Fonts(ctx)
}

func fontTable(fonts []inventory.Font) (string, error) {
	columns := []report.Column{
		report.Words("font"), report.Numbers("body"), report.Numbers("sorts"), report.Numbers("pieces"), report.Words("spaces from"),
	}
	var rows [][]string
	for _, f := range fonts {
		var from string
		switch name := spacesFont(fonts, f); {
		case f.Spacing:
			from = "a spacing font"
		case name == nil:
			from = "none"
		case *name == f.Name:
			from = "its own"
		default:
			from = fmt.Sprintf("%q", *name)
		}
		rows = append(rows, []string{f.Name, body(f.Body), report.Number(len(f.Sorts)), report.Number(f.Pieces()), from})
	}
	return report.Table(columns, rows)
}

// fontHead is what the JSON of one font and of all of them have in common.
type fontHead struct {
	Font       string      `json:"font"`
	Body       json.Number `json:"body_pt"`
	Spacing    bool        `json:"spacing"`
	Pieces     int         `json:"pieces"`
	SpacesFrom *string     `json:"spaces_from"` // null where there is none, or not one alone
}

func headOf(all []inventory.Font, f inventory.Font) fontHead {
	return fontHead{
		Font: f.Name, Body: report.JSONNumber(f.Body, 1000, 3), Spacing: f.Spacing,
		Pieces: f.Pieces(), SpacesFrom: spacesFont(all, f),
	}
}

func fontsJSON(fonts []inventory.Font) (string, error) {
	type row struct {
		fontHead
		Sorts int `json:"sorts"`
	}
	list := struct {
		Schema string `json:"schema"`
		Fonts  []row  `json:"fonts"`
	}{"formewise.fonts/1", []row{}}
	for _, f := range fonts {
		list.Fonts = append(list.Fonts, row{headOf(fonts, f), len(f.Sorts)})
	}
	return report.JSON(list)
}
