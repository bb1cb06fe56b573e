package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"formewise/cmd/formewise/report"
	"formewise/inventory"
)

type fontEditFlags struct {
	add, correct, retire                 string // the name of the sort
	text, set, kind, name, count, kerned string
}

// edit changes a sort of the font of that name, and says what was done.
type edit func(ctx context.Context, shop *inventory.Shop, font string) (string, error)

func newFontEdit(c *counter) *cobra.Command {
	var flags fontEditFlags
	cmd := &cobra.Command{
		Use:   "edit NAME (--add SORT | --correct SORT | --retire SORT)",
		Short: "add a sort to a font, put one right, or retire it",
		Example: `
formewise font edit "Ferry Roman 12" --add þ --text þ --set 0.5 --count 30
formewise font edit "Heron Roman 10" --add hair --kind space --set 1/12
formewise font edit "Ferry Roman 12" --correct ffi --set 0.8056
formewise font edit "Ferry Roman 12" --correct ae --name æ --text æ
formewise font edit "Ferry Roman 12" --correct f --kerned yes
formewise font edit "Ferry Roman 12" --retire ffi
formewise font edit "Ferry Roman 12" --add ffi`,
		Long: `
--add enters a sort with its opening count; it needs --set, and --text or --kind
space. The name of a retired sort takes that one back as it was, with the pieces
that it still has in the ledger: --add by itself is enough then, and what is
given with it is put right.
--correct puts right what is known of a sort; counts are the ledger's affair.
--retire takes a sort out of use: it is neither set nor reported any longer,
and its pieces stay in the ledger.`,
		Args: takes("NAME"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.editFont(cmd, args[0], flags)
		},
	}
	fs := cmd.Flags()
	fs.StringVar(&flags.add, "add", "", "the name of a `sort` to add")
	fs.StringVar(&flags.correct, "correct", "", "the name of a `sort` to put right")
	fs.StringVar(&flags.retire, "retire", "", "the name of a `sort` to retire")
	fs.StringVar(&flags.text, "text", "", "the `characters` that it prints")
	fs.StringVar(&flags.set, "set", "", "its set `width` in ems of the body: 0.4444 or 1/3 (at most 10)")
	fs.StringVar(&flags.kind, "kind", "", "its `kind`; deduced from the text if left out")
	fs.StringVar(&flags.kerned, "kerned", "no", "`yes` if its face overhangs the body on the right, or no")
	fs.StringVar(&flags.name, "name", "", "the new `name`, with --correct")
	fs.StringVar(&flags.count, "count", "0", "the `pieces` on hand, with --add")
	return cmd
}

func (c *counter) editFont(cmd *cobra.Command, name string, flags fontEditFlags) error {
	which, err := oneEdit(cmd)
	if err != nil {
		return err
	}
	var do edit
	switch which {
	case "add":
		do, err = c.addingSort(cmd, flags)
	case "correct":
		do, err = c.correctingSort(cmd, flags)
	case "retire":
		do = c.retiringSort(flags)
	}
	if err != nil {
		return err
	}
	path, err := c.shopPath()
	if err != nil {
		return err
	}
	ctx := cmd.Context()
	shop, err := inventory.OpenForChange(ctx, path, false)
	if err != nil {
		return err
	}
	defer func() { _ = shop.Close() }() // what was done is in the file already
	said, err := do(ctx, shop, name)
	if err != nil {
		return err
	}
	return c.answer(said, codeDone)
}

// oneEdit is which of the three edits is asked for, its flags being its own.
func oneEdit(cmd *cobra.Command) (string, error) {
	goesWith := map[string][]string{
		"add":     {"text", "set", "kind", "kerned", "count"},
		"correct": {"text", "set", "kind", "kerned", "name"},
		"retire":  {},
	}
	var asked []string
	for _, edit := range []string{"add", "correct", "retire"} {
		if cmd.Flags().Changed(edit) {
			asked = append(asked, edit)
		}
	}
	switch len(asked) {
	case 0:
		return "", lacking(cmd, "--add, --correct or --retire")
	case 1:
	default:
		return "", refuseWith("give one of them at a time", "%s takes only one of --add, --correct and --retire", called(cmd))
	}
	edit := asked[0]
	for _, flag := range []string{"text", "set", "kind", "kerned", "name", "count"} {
		if !cmd.Flags().Changed(flag) || slices.Contains(goesWith[edit], flag) {
			continue
		}
		hint := helpHint(cmd)
		if flag == "count" {
			hint = "a count is entered with --add; from then on it is the sum of the ledger"
		}
		return "", refuseWith(hint, "--%s does not go with --%s", flag, edit)
	}
	return edit, nil
}

// correction is what the flags given say of a sort.
func (flags *fontEditFlags) correction(cmd *cobra.Command) (fix inventory.Correction, err error) {
	given := cmd.Flags().Changed
	if given("text") {
		fix.Text = &flags.text
	}
	if given("name") {
		fix.Name = &flags.name
	}
	if given("set") {
		set, err := inventory.ParseSet(flags.set)
		if err != nil {
			return fix, flagError("set", err)
		}
		fix.Set = &set
	}
	if given("kind") {
		kind, err := inventory.ParseKind(flags.kind)
		if err != nil {
			return fix, flagError("kind", err)
		}
		fix.Kind = &kind
	}
	if given("kerned") {
		kerned, err := inventory.ParseKerned(flags.kerned)
		if err != nil {
			return fix, flagError("kerned", err)
		}
		fix.Kerned = &kerned
	}
	return fix, nil
}

// addingSort takes back a sort that is retired, as it was but for the flags given, or enters a new one, for which more is
// needed. Which of the two it is only the shop can tell.
func (c *counter) addingSort(cmd *cobra.Command, flags fontEditFlags) (edit, error) {
	fix, err := flags.correction(cmd)
	if err != nil {
		return nil, err
	}
	pieces, err := inventory.ParseCount(flags.count)
	if err != nil {
		return nil, flagError("count", err)
	}
	return func(ctx context.Context, shop *inventory.Shop, font string) (string, error) {
		f, err := shop.Font(ctx, font)
		if err != nil {
			return "", err
		}
		back := f.HasRetired(flags.add)
		if back {
			err = shop.TakeBack(ctx, font, flags.add, fix, pieces)
		} else {
			err = addNew(cmd, shop, f, flags.add, fix, pieces)
		}
		if err != nil {
			return "", err
		}
		f, s, err := sortNow(ctx, shop, font, flags.add)
		if err != nil { // what was done is done, whoever changed the font since
			return sayDone(fmt.Sprintf("Entered the sort %q in the font %q.", flags.add, font), c.next("font", "show", quoted(font))), nil
		}
		done := fmt.Sprintf("Entered the sort %q in the font %q: %s, %s.", s.Name, f.Name, described(s), report.Count(pieces, "piece", "pieces"))
		if back {
			entered := ""
			if pieces > 0 {
				entered = report.Count(pieces, "piece", "pieces") + " entered, "
			}
			done = fmt.Sprintf("Took back the sort %q of the font %q: %s, %s%s on hand.", s.Name, f.Name, described(s), entered, report.Number(s.OnHand))
		}
		c.warnOfWidth(s)
		return sayDone(done, c.nextOfSort(ctx, shop, f, s)), nil
	}, nil
}

// addNew enters a sort that the font has not had.
func addNew(cmd *cobra.Command, shop *inventory.Shop, f inventory.Font, name string, fix inventory.Correction, pieces int) error {
	if err := f.Free(name); err != nil {
		return err
	}
	if err := needs(cmd, "set"); err != nil {
		return err
	}
	sort := inventory.Sort{Name: name, Set: *fix.Set, OnHand: pieces, Basis: inventory.Counted}
	if fix.Text != nil {
		sort.Text = *fix.Text
	}
	if fix.Kind != nil {
		sort.Kind = *fix.Kind
	}
	if fix.Kerned != nil {
		sort.Kerned = *fix.Kerned
	}
	if sort.Text == "" && sort.Kind != inventory.Space {
		return refuseWith("a space prints nothing: it has --kind space and no --text", "%s --add needs --text", called(cmd))
	}
	return shop.AddSort(cmd.Context(), f.Name, sort)
}

// nextOfSort is the command to go on with once a sort is entered: with one that prints, the font is ready to be tried.
func (c *counter) nextOfSort(ctx context.Context, shop *inventory.Shop, f inventory.Font, s inventory.Sort) string {
	if all, err := shop.Fonts(ctx); err == nil && s.Kind != inventory.Space {
		next, lacks := c.nextOf(all, f)
		if lacks != "" {
			c.warn("%s", lacks)
		}
		return next
	}
	return c.next("font", "show", quoted(f.Name))
}

// warnOfWidth warns of a set width that may be a slip.
func (c *counter) warnOfWidth(s inventory.Sort) {
	if wide := inventory.WideSorts(s); wide != "" {
		c.warn("%s (%s)", wide, set(s.Set))
	}
}

func (c *counter) correctingSort(cmd *cobra.Command, flags fontEditFlags) (edit, error) {
	given := cmd.Flags().Changed
	if !given("text") && !given("set") && !given("kind") && !given("kerned") && !given("name") {
		return nil, refuseWith(helpHint(cmd), "%s --correct needs --text, --set, --kind, --kerned or --name", called(cmd))
	}
	name := flags.correct
	if given("name") {
		name = flags.name
	}
	fix, err := flags.correction(cmd)
	if err != nil {
		return nil, err
	}
	return func(ctx context.Context, shop *inventory.Shop, font string) (string, error) {
		if err := shop.CorrectSort(ctx, font, flags.correct, fix); err != nil {
			return "", err
		}
		f, s, err := sortNow(ctx, shop, font, name)
		if err != nil { // as above
			return sayDone(fmt.Sprintf("Corrected the sort %q of the font %q.", flags.correct, font), c.next("font", "show", quoted(font))), nil
		}
		if given("set") {
			c.warnOfWidth(s)
		}
		done := fmt.Sprintf("Corrected the sort %q of the font %q: %s, %s on hand.", s.Name, f.Name, described(s),
			report.Count(s.OnHand, "piece", "pieces"))
		return sayDone(done, c.next("font", "show", quoted(f.Name))), nil
	}, nil
}

func (c *counter) retiringSort(flags fontEditFlags) edit {
	return func(ctx context.Context, shop *inventory.Shop, font string) (string, error) {
		f, s, err := sortNow(ctx, shop, font, flags.retire)
		if err != nil {
			return "", err
		}
		if err := shop.RetireSort(ctx, font, flags.retire); err != nil {
			return "", err
		}
		done := fmt.Sprintf("Retired the sort %q of the font %q: it is neither set nor reported any longer; in the ledger it keeps %s.",
			s.Name, f.Name, report.Count(s.OnHand, "piece", "pieces"))
		return sayDone(done, c.next("font", "show", quoted(f.Name))), nil
	}
}

// sortNow is a sort as the shop has it, with its font.
func sortNow(ctx context.Context, shop *inventory.Shop, font, name string) (inventory.Font, inventory.Sort, error) {
	f, err := shop.Font(ctx, font)
	if err != nil {
		return inventory.Font{}, inventory.Sort{}, err
	}
	s, err := f.Sort(name)
	return f, s, err
}

// described says of a sort what it prints and how wide, and whether it is kerned.
func described(s inventory.Sort) string {
	if s.Kind == inventory.Space {
		return "a space of " + set(s.Set)
	}
	text := fmt.Sprintf("%s, prints %q, set %s", s.Kind, s.Text, set(s.Set))
	if s.Kerned {
		text += ", kerned"
	}
	return text
}

// flagError names the flag in the refusal of its value, and keeps the hint.
func flagError(flag string, err error) error {
	var refusal *inventory.Error
	if errors.As(err, &refusal) {
		// The sentence begins with what was parsed, as a column would be called.
		what := strings.TrimPrefix(refusal.What, flag+" ")
		return &failure{what: "--" + flag + ": " + what, hint: refusal.Hint, cause: err}
	}
	return err
}
