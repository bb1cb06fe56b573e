package main

import (
	"io"
	"time"

	"github.com/spf13/cobra"
)

// counter is what every command works with: the streams, the environment, the
// clock, and the flags that belong to all commands. Commands reach the outside
// through it alone, so a test can stand in for all of it.
type counter struct {
	stdin  io.Reader
	stdout io.Writer // results; see also answer
	stderr io.Writer // progress, warnings, errors; see also warn
	env    func(name string) string
	now    func() time.Time

	shopFlag  string // --shop as given
	shopGiven bool   // and whether it was
	helpless  error  // why help could not be shown; nil if it was, or was not asked for
}

// newRoot is the program with all its commands.
//
// To add a command: write newThing(c *counter) *cobra.Command in thing.go, with
// its flags in a struct of its own, and name it in the list below. Give it
// Short, Long, Example (real, runnable lines), Args and RunE, in RunE return
// nil, an error (refuse, refuseWith, one of an inner room) or c.answer(…), and
// say answersWithACode(cmd) if its exit code is the answer. A command with
// commands of its own (`font`) is made by newGroup. A script in
// testdata/script/ tries it.
func newRoot(c *counter) *cobra.Command {
	help := newHelp()
	root := newGroup(&cobra.Command{
		Use:   "formewise",
		Short: "does the type in the cases carry the book?",
		Example: `
formewise demo
formewise font add "Ferry Roman 12" --body 12pt --sorts ferry-roman-12.csv
formewise check tide-table.txt --font "Ferry Roman 12" --measure 22em --lines 30`,
		Long: `
Formewise reads a manuscript, and the stock of a printer who sets it by hand,
and tells whether the type carries the work, where it runs out, and how much
of the work can stand at once.`,
	},
		// The commands, in the order of the walk (help sorts them).
		newDemo(c),
		newFont(c),
		newCheck(c), newLines(c), newPageEnds(c), newCastOff(c),
		help,
	)
	root.SetIn(c.stdin)
	root.SetOut(c.stdout)
	root.SetErr(c.stderr)
	root.SilenceErrors, root.SilenceUsage = true, true
	root.CompletionOptions.DisableDefaultCmd = true
	root.SetFlagErrorFunc(flagFailure)
	root.SetHelpFunc(c.showHelp)
	root.SetHelpCommand(help)
	root.PersistentFlags().BoolP("help", "h", false, "show how the command is used")
	root.PersistentFlags().StringVar(&c.shopFlag, "shop", "", "the shop `file` (default: $FORMEWISE_SHOP, else formewise/shop.db in the user's data folder)")
	root.PersistentPreRun = func(cmd *cobra.Command, _ []string) {
		c.shopGiven = cmd.Flags().Changed("shop")
	}
	return root
}

// newGroup makes cmd a command that only holds others: by itself it shows its
// help, and a word that is none of its commands is refused.
func newGroup(cmd *cobra.Command, commands ...*cobra.Command) *cobra.Command {
	cmd.AddCommand(commands...)
	cmd.Args = func(cmd *cobra.Command, args []string) error {
		if len(args) > 0 {
			return noCommand(cmd, args[0])
		}
		return nil
	}
	cmd.RunE = func(cmd *cobra.Command, _ []string) error { return cmd.Help() }
	return cmd
}
