package main

import (
	"context"
	"errors"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"formewise/cmd/formewise/report"
	"formewise/cmd/formewise/units"
	"formewise/inventory"
)

type fontAddFlags struct {
	body    units.Length
	sorts   string
	spacing bool
}

func newFontAdd(c *counter) *cobra.Command {
	var flags fontAddFlags
	cmd := &cobra.Command{
		Use:   "add NAME --body LENGTH --sorts FILE",
		Short: "enter a font with its sorts and their counts",
		Example: `
formewise font add "Ferry Roman 12" --body 12pt --sorts ferry-roman-12.csv
formewise font add "Spacing 12" --body 12pt --spacing --sorts spacing-12.csv
formewise font add "Ferry Italic 12" --body 12pt --sorts - < ferry-italic-12.csv`,
		Long: `
The sorts come from a CSV in UTF-8, with commas and a heading row, its columns
in any order:

  sort   the name of the sort, unique in the font: a, ffi, thick, em quad
  text   the characters it prints; empty for spaces and quads
  kind   lower, capital, small capital, figure, point, ligature, accent, sign
         or space; may be left out, and is then deduced from the text (of a
         space from its name). A small capital has the capital as its text
  set    its set width in ems of the body: 0.4444 or 1/3 (at most 10)
  count  pieces on hand: the opening entry in the ledger
  kerned yes if its face overhangs the body on the right, as that of an f may;
         may be left out. Where it would strike the next sort, as the f of fi
         or f?, and no ligature prints both, a thin space parts them

Spaces that lines are made with are called 3-em quad, 2-em quad, em quad,
en quad, thick, middle, thin, 6-to-em and hair (also read: 3-to-em, 4-to-em,
5-to-em); others are kept in stock. The shop file is made if it is missing. If
one row does not go in, none does.`,
		Args: takes("NAME"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := needs(cmd, "body", "sorts"); err != nil {
				return err
			}
			return c.addFont(cmd.Context(), args[0], flags)
		},
	}
	cmd.Flags().Var(&flags.body, "body", "the body of the font, as 12pt (at most 500pt)")
	cmd.Flags().StringVar(&flags.sorts, "sorts", "", "the CSV `file` of its sorts, or - for stdin")
	cmd.Flags().BoolVar(&flags.spacing, "spacing", false, "the font is spaces and quads alone, for every font of its body")
	return cmd
}

func (c *counter) addFont(ctx context.Context, name string, flags fontAddFlags) error {
	bodyMpt, err := flags.body.Positive(0)
	if err != nil {
		return &failure{what: "--body: " + err.Error(), cause: err}
	}
	// What can be refused without the sorts is refused before they are read.
	if _, err := inventory.FontName(name); err != nil {
		return err
	}
	if bodyMpt > inventory.MaxBody {
		return refuse("--body: %q is more than a body can be (%s)", flags.body.String(), body(inventory.MaxBody))
	}
	sorts, warnings, err := c.readSorts(flags.sorts)
	if err != nil {
		return err
	}
	f, err := inventory.Font{Name: name, Body: bodyMpt, Spacing: flags.spacing, Sorts: sorts}.Tidy()
	if err != nil {
		return err
	}
	path, err := c.shopPath()
	if err != nil {
		return err
	}
	shop, err := inventory.OpenForChange(ctx, path, true)
	if err != nil {
		return err
	}
	defer func() { _ = shop.Close() }() // what was done is in the file already
	if err := shop.AddFont(ctx, f); err != nil {
		return err
	}
	for _, w := range warnings {
		c.warn("sorts %q: %s", flags.sorts, w)
	}
	return c.answer(c.fontAdded(ctx, shop, f), codeDone)
}

// readSorts reads the CSV of that name, "-" for stdin.
func (c *counter) readSorts(file string) (sorts []inventory.Sort, warnings []string, err error) {
	from := c.stdin
	if file != "-" {
		opened, err := os.Open(file)
		if err != nil {
			return nil, nil, unreadable("sorts", file, err)
		}
		defer func() { _ = opened.Close() }() // it was only read
		from = opened
	}
	sorts, warnings, err = inventory.ReadSorts(from)
	var refusal *inventory.Error
	switch {
	case errors.As(err, &refusal):
		return nil, nil, fmt.Errorf("sorts %q: %w", file, err)
	case err != nil:
		return nil, nil, unreadable("sorts", file, err)
	}
	return sorts, warnings, nil
}

// fontAdded says what was entered and names the next command. The font is in the
// shop whatever goes wrong here, so that is no failure.
func (c *counter) fontAdded(ctx context.Context, shop *inventory.Shop, f inventory.Font) string {
	what := "font"
	if f.Spacing {
		what = "spacing font"
	}
	done := fmt.Sprintf("Entered the %s %q, body %s: %s, %s.", what, f.Name, body(f.Body),
		report.Count(len(f.Sorts), "sort", "sorts"), report.Count(f.Pieces(), "piece", "pieces"))
	all, err := shop.Fonts(ctx)
	if err != nil {
		return sayDone(done, c.next("font", "list"))
	}
	if from := spacesFont(all, f); !f.Spacing && from != nil && *from != f.Name {
		done += fmt.Sprintf(" Its spaces come from %q.", *from)
	}
	next, lacks := c.nextOf(all, f)
	if lacks != "" {
		c.warn("%s", lacks)
	}
	return sayDone(done, next)
}

// nextOf is the command to go on with when a font was changed: the check, where the font prints and has spaces to be set with,
// else what brings those; lacks says what it has not, or is "".
func (c *counter) nextOf(all []inventory.Font, f inventory.Font) (next, lacks string) {
	if f.Spacing {
		return c.nextOfSpacing(all, f), ""
	}
	sameBody := func(other inventory.Font) bool { return other.Body == f.Body && other.Name != f.Name }
	if !prints(f) {
		lacks = fmt.Sprintf("font %q has no printing sorts, only spaces, and serves other fonts only where --spaces names it (font add --spacing enters spaces for every font of a body)", f.Name)
		for _, other := range all {
			if sameBody(other) && prints(other) {
				return c.nextCheck(other, f.Name), lacks
			}
		}
		return c.next("font", "add", "NAME", "--body", body(f.Body), "--sorts", "FILE"), lacks
	}
	var refusal *inventory.Error
	_, err := inventory.SpacingIn(all, f)
	switch {
	case err == nil:
		return c.nextCheck(f, ""), ""
	case errors.As(err, &refusal):
		lacks = refusal.What
	}
	// Of two spacing fonts one is chosen; if there is none, one is added.
	for _, other := range all {
		if sameBody(other) && other.Spacing && other.HasSpaces() {
			return c.nextCheck(f, other.Name), lacks
		}
	}
	return c.next("font", "add", quoted("Spacing "+body(f.Body)), "--body", body(f.Body), "--spacing", "--sorts", "FILE"), lacks
}

// nextOfSpacing is the check of the first font that draws its spaces from f.
func (c *counter) nextOfSpacing(all []inventory.Font, f inventory.Font) string {
	for _, other := range all {
		if other.Spacing || !prints(other) {
			continue
		}
		if from := spacesFont(all, other); from != nil && *from == f.Name {
			return c.nextCheck(other, "")
		}
	}
	return c.next("font", "add", "NAME", "--body", body(f.Body), "--sorts", "FILE")
}

func (c *counter) nextCheck(f inventory.Font, spaces string) string {
	words := []string{"check", "MANUSCRIPT", "--font", quoted(f.Name), "--measure", "22em", "--lines", "30"}
	if spaces != "" {
		words = append(words, "--spaces", quoted(spaces))
	}
	return c.next(words...)
}
