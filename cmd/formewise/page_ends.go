package main

import (
	"fmt"

	"github.com/spf13/cobra"
	"golang.org/x/text/unicode/norm"

	"formewise/cmd/formewise/report"
	"formewise/demand"
)

// newPageEnds marks the copy, and casts off again from pages as they really ended.
func newPageEnds(c *counter) *cobra.Command {
	var flags struct {
		workFlags
		ended []string
		json  bool
	}
	cmd := &cobra.Command{
		Use:   "page-ends MANUSCRIPT… --font NAME --measure LENGTH --lines N",
		Short: "the marked copy: where each page begins and ends, and how much it gives",
		Example: `
formewise page-ends tide-table.txt --font "Ferry Roman 12" --measure 22em --lines 30
formewise page-ends tide-table.txt --font "Ferry Roman 12" --measure 22em --lines 30 --ended "2: … over the sands"
formewise page-ends tide-table.txt --font "Ferry Roman 12" --measure 22em --lines 30 --ended "2+1 line" --ended "3-2 lines"`,
		Long: `
By formes, pages are set out of their order, each from copy that was cast off
and marked for it. Shows of every page its first and last words, and how many
of its lines could be got in by close spacing or driven out by wide.

Where a page ended otherwise, say how: with its last words (a few are enough; of
a divided word the first part with a hyphen: "2: … the compos-"), or by how many
lines of text more or fewer it took in; blank lines do not count. The next page
begins with the next word, and from there on the copy is cast off again. After
three such pages the set widths are corrected by what they tell, by up to 5% and
if the pages bear one another out.`,
		Args: takesSome("MANUSCRIPT"),
		RunE: func(cmd *cobra.Command, names []string) error {
			reports := make([]demand.Report, len(flags.ended))
			for i, text := range flags.ended {
				var err error
				if reports[i], err = demand.ParseReport(norm.NFC.String(text)); err != nil {
					return fmt.Errorf("--ended: %w", err)
				}
			}
			q, err := flags.resolve(cmd.Context(), c, cmd, names)
			if err != nil {
				return err
			}
			ends, err := demand.EndPages(cmd.Context(), q.plan, q.stock, q.copy, reports)
			if err != nil {
				return err
			}
			show := report.PageEnds
			if flags.json {
				show = report.PageEndsJSON
			}
			text, err := show(ends)
			if err != nil {
				return err
			}
			return c.answer(text, codeDone)
		},
	}
	flags.add(cmd.Flags())
	cmd.Flags().StringArrayVar(&flags.ended, "ended", nil, "how a `page` really ended: \"3: … last words\", \"6+1 line\", \"6-2 lines\";\nas often as there are such pages")
	cmd.Flags().BoolVar(&flags.json, "json", false, "the whole answer as one JSON object")
	return cmd
}
