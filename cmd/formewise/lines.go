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
		json bool
	}
	cmd := &cobra.Command{
		Use:   "lines MANUSCRIPT… --font NAME --measure LENGTH --lines N",
		Short: "the setting copy: every line as it is to be set, its spaces named",
		Example: `
formewise lines tide-table.txt --font "Ferry Roman 12" --measure 22em --lines 30 | less
formewise lines tide-table.txt --font "Ferry Roman 12" --measure 22em --lines 30 --json`,
		Long: `
Sets the manuscript as check does, and shows every line of every page with the
space that goes into each gap. What the line still wants is made up with brass,
copper or paper. With --json one object a line.`,
		Args: takesSome("MANUSCRIPT"),
		RunE: func(cmd *cobra.Command, names []string) error {
			q, err := flags.resolve(cmd.Context(), c, cmd, names)
			if err != nil {
				return err
			}
			set, err := demand.Set(cmd.Context(), q.plan, q.stock, q.copy)
			if err != nil {
				return err
			}
			out := bufio.NewWriterSize(c.stdout, 1<<16)
			first, last := q.plan.FirstPage, q.plan.FirstPage+set.Pages()-1
			write := report.SettingCopy
			if flags.json {
				write = report.LinesJSON
			}
			if err := write(cmd.Context(), out, set.Lines(first, last)); err != nil {
				return err
			}
			return out.Flush()
		},
	}
	flags.add(cmd.Flags())
	cmd.Flags().BoolVar(&flags.json, "json", false, "one JSON object a line")
	return cmd
}
