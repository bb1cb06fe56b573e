package main

import (
	"bufio"

	"github.com/spf13/cobra"

	"formewise/cmd/formewise/report"
	"formewise/demand"
)

// newLines prints the setting copy.
func newLines(c *counter) *cobra.Command {
	var flags struct {
		workFlags
		order          string
		hideEnds, json bool
	}
	cmd := &cobra.Command{
		Use:   "lines MANUSCRIPT… --font NAME --measure LENGTH --lines N",
		Short: "the setting copy: every line as it is to be set, its spaces named",
		Example: `
formewise lines tide-table.txt --font "Ferry Roman 12" --measure 22em --lines 30 | less
formewise lines tide-table.txt --font "Ferry Roman 12" --measure 22em --lines 30 --order setting
formewise lines tide-table.txt --font "Ferry Roman 12" --measure 22em --lines 30 --hide-ends
formewise lines tide-table.txt --font "Ferry Roman 12" --measure 22em --lines 30 --json`,
		Long: `
Sets the manuscript as check does, and shows every line of every page with the
space that goes into each gap. What the line still wants is made up with brass,
copper or paper. With --json one object a line.

In setting order the pages stand forme by forme, as they are set. For learners,
--hide-ends runs the text of each page together and leaves the spaces plain: the
line ends are found in the stick.`,
		Args: takesSome("MANUSCRIPT"),
		RunE: func(cmd *cobra.Command, names []string) error {
			switch inReadingOrder := flags.order == "reading"; {
			case !inReadingOrder && flags.order != "setting":
				return notOneOf("order", flags.order, "reading", "setting")
			case !inReadingOrder && flags.json:
				return refuse("--order setting does not go with --json: its lines come in reading order")
			case flags.hideEnds && flags.json:
				return refuse("--hide-ends does not go with --json: its objects are lines")
			}
			q, err := flags.resolve(cmd.Context(), c, cmd, names)
			if err != nil {
				return err
			}
			set, err := demand.Set(cmd.Context(), q.plan, q.stock, q.copy)
			if err != nil {
				return err
			}
			out := bufio.NewWriterSize(c.stdout, 1<<16)
			switch {
			case flags.json:
				err = report.LinesJSON(cmd.Context(), out, set.Lines(set.PageNumbers()))
			case flags.hideEnds:
				err = report.RunCopy(cmd.Context(), out, set, flags.order == "setting")
			default:
				err = report.SettingCopy(cmd.Context(), out, set, flags.order == "setting")
			}
			if err != nil {
				return err
			}
			return out.Flush()
		},
	}
	flags.add(cmd.Flags())
	cmd.Flags().StringVar(&flags.order, "order", "reading", "the `order` of the pages: reading, or setting (forme by forme)")
	cmd.Flags().BoolVar(&flags.hideEnds, "hide-ends", false, "for learners: without line ends, the text of each page run together")
	cmd.Flags().BoolVar(&flags.json, "json", false, "one JSON object a line")
	return cmd
}
