package main

import (
	"github.com/spf13/cobra"

	"formewise/demand"
)

// newCheck is the main job: does the type carry this manuscript?
func newCheck(c *counter) *cobra.Command {
	var flags struct {
		workFlags
		json, all bool
	}
	cmd := answersWithACode(&cobra.Command{
		Use:   "check MANUSCRIPT… --font NAME --measure LENGTH --lines N",
		Short: "does the type carry the work, and where does it run out?",
		Example: `
formewise check tide-table.txt --font "Ferry Roman 12" --measure 22em --lines 30
formewise check songs.txt --verse --font "Ferry Roman 12" --measure 24pc --lines 28 --format quarto
formewise check part1.txt part2.txt --font "Heron Roman 10" --measure 4in --lines 36 --standing 1 --json`,
		Long: `
Sets the manuscript in the font, line by line and page by page, imposes the
pages, and holds what they take against what is in the cases: where each sort
runs out, how many pages can stand at once, and into which sections the work
is to be cut if it cannot go through in one.`,
		Args: takesSome("MANUSCRIPT"),
		RunE: func(cmd *cobra.Command, names []string) error {
			q, err := flags.resolve(cmd.Context(), c, cmd, names)
			if err != nil {
				return err
			}
			answer, err := demand.Check(cmd.Context(), q.plan, q.stock, q.copy)
			if err != nil {
				return err
			}
			said := q.said(answer)
			said.All = flags.all
			show := said.Text
			if flags.json {
				show = said.JSON
			}
			text, err := show()
			if err != nil {
				return err
			}
			if answer.Holds() {
				return c.answer(text, codeDone)
			}
			return c.answer(text, codeShort)
		},
	})
	flags.add(cmd.Flags())
	cmd.Flags().BoolVar(&flags.all, "all", false, "show every sort, not only those that are short or nearly so")
	cmd.Flags().BoolVar(&flags.json, "json", false, "the whole answer as one JSON object")
	return cmd
}
