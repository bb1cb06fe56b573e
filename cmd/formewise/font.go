package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"formewise/cmd/formewise/report"
	"formewise/inventory"
)

// newFont is the group of commands about fonts.
func newFont(c *counter) *cobra.Command {
	return newGroup(&cobra.Command{
		Use:   "font",
		Short: "enter fonts and their sorts, look at them, put them right",
		Example: `
formewise font add "Ferry Roman 12" --body 12pt --sorts ferry-roman-12.csv
formewise font add "Spacing 12" --body 12pt --spacing --sorts spacing-12.csv
formewise font list
formewise font show "Ferry Roman 12"
formewise font edit "Ferry Roman 12" --add þ --text þ --set 0.5 --count 30`,
		Long: `
A font is the sorts of one face, one body and one style. Letters and spaces may
be two fonts: spacing is cast to a body, so one spacing font serves every font
of its body that has no spaces of its own.`,
	},
		newFontAdd(c), newFontList(c), newFontShow(c), newFontEdit(c),
	)
}

// next is a command line to go on with, that asks the same shop.
func (c *counter) next(words ...string) string {
	line := "formewise " + strings.Join(words, " ")
	if c.shopGiven {
		line += " --shop " + quoted(c.shopFlag)
	}
	return line
}

// quoted writes a word for a shell.
func quoted(word string) string { return report.Quoted(word) }

// sayDone words what was done, and what to do next, cleaned of what would steer
// the terminal.
func sayDone(done, next string) string {
	return report.Clean(done) + "\nNext: " + report.Clean(next) + "\n"
}

// body writes a body as it is given to --body.
func body(mpt int) string { return inventory.Points(mpt) }

// set writes a set width exactly, and setCell for a column of them: to four places,
// half a ten-thousandth of an em rounded up.
func set(width int) string { return inventory.Ems(width) + " em" }

func setCell(width int) string {
	width = (width + 50) / 100
	return fmt.Sprintf("%d.%04d", width/10_000, width%10_000)
}

// shareCell writes a share of the font's pieces in per cent, to two places.
func shareCell(f inventory.Font, pieces int) string {
	share, ok := f.Share(pieces)
	if !ok {
		return "-"
	}
	return fmt.Sprintf("%d.%02d%%", share/100, share%100)
}

// spacesFont is the name of the font that the spaces for f come from, f itself
// perhaps; nil where there is none, or more than one. all is the fonts of the shop.
func spacesFont(all []inventory.Font, f inventory.Font) *string {
	from, err := inventory.SpacingIn(all, f)
	if err != nil {
		return nil
	}
	return &from.Name
}
