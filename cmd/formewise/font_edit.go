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
formewise font edit "Ferry Roman 12" --retire ffi`,
		Long: `
--add enters a sort with its opening count. The name of a retired sort takes
that one back, with the pieces that it still has in the ledger.
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
	fs.StringVar(&flags.set, "set", "", "its set `width` in ems of the body: 0.4444 or 1/3")
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

func (c *counter) addingSort(cmd *cobra.Command, flags fontEditFlags) (edit, error) {
	if err := needs(cmd, "set"); err != nil {
		return nil, err
	}
	if !cmd.Flags().Changed("text") && flags.kind != string(inventory.Space) {
		return nil, refuseWith("a space prints nothing: it has --kind space and no --text", "%s --add needs --text", called(cmd))
	}
	sort := inventory.Sort{Name: flags.add, Text: flags.text, Basis: inventory.Counted}
	var err error
	if sort.Set, err = inventory.ParseSet(flags.set); err != nil {
		return nil, flagError("set", err)
	}
	if sort.OnHand, err = inventory.ParseCount(flags.count); err != nil {
		return nil, flagError("count", err)
	}
	if sort.Kerned, err = inventory.ParseKerned(flags.kerned); err != nil {
		return nil, flagError("kerned", err)
	}
	if cmd.Flags().Changed("kind") {
		if sort.Kind, err = inventory.ParseKind(flags.kind); err != nil {
			return nil, flagError("kind", err)
		}
	}
	return func(ctx context.Context, shop *inventory.Shop, font string) (string, error) {
		if err := shop.AddSort(ctx, font, sort); err != nil {
			return "", err
		}
		f, s, err := sortNow(ctx, shop, font, flags.add)
		if err != nil { // what was done is done, whoever changed the font since
			return sayDone(fmt.Sprintf("Entered the sort %q in the font %q.", flags.add, font), c.next("font", "show", quoted(font))), nil
		}
		done := fmt.Sprintf("Entered the sort %q in the font %q: %s, %s.", s.Name, f.Name, described(s), report.Count(sort.OnHand, "piece", "pieces"))
		if s.OnHand != sort.OnHand {
			done = fmt.Sprintf("Took back the sort %q of the font %q: %s, %s entered, %s on hand.", s.Name, f.Name, described(s),
				report.Count(sort.OnHand, "piece", "pieces"), report.Number(s.OnHand))
		}
		if s.Kind == inventory.Space {
			return sayDone(done, c.next("font", "show", quoted(f.Name))), nil
		}
		return sayDone(done, c.nextCheck(f, "")), nil
	}, nil
}

func (c *counter) correctingSort(cmd *cobra.Command, flags fontEditFlags) (edit, error) {
	var fix inventory.Correction
	name := flags.correct
	given := cmd.Flags().Changed
	if !given("text") && !given("set") && !given("kind") && !given("kerned") && !given("name") {
		return nil, refuseWith(helpHint(cmd), "%s --correct needs --text, --set, --kind, --kerned or --name", called(cmd))
	}
	if given("text") {
		fix.Text = &flags.text
	}
	if given("name") {
		fix.Name, name = &flags.name, flags.name
	}
	if given("set") {
		set, err := inventory.ParseSet(flags.set)
		if err != nil {
			return nil, flagError("set", err)
		}
		fix.Set = &set
	}
	if given("kind") {
		kind, err := inventory.ParseKind(flags.kind)
		if err != nil {
			return nil, flagError("kind", err)
		}
		fix.Kind = &kind
	}
	if given("kerned") {
		kerned, err := inventory.ParseKerned(flags.kerned)
		if err != nil {
			return nil, flagError("kerned", err)
		}
		fix.Kerned = &kerned
	}
	return func(ctx context.Context, shop *inventory.Shop, font string) (string, error) {
		if err := shop.CorrectSort(ctx, font, flags.correct, fix); err != nil {
			return "", err
		}
		f, s, err := sortNow(ctx, shop, font, name)
		if err != nil { // as above
			return sayDone(fmt.Sprintf("Corrected the sort %q of the font %q.", flags.correct, font), c.next("font", "show", quoted(font))), nil
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
