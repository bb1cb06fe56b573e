package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"formewise/cmd/formewise/report"
)

// answersKey marks, among a command's annotations, that its exit code is the
// answer to its question.
const answersKey = "formewise: answers with a code"

// answersWithACode marks cmd as one whose exit code 1 is an answer.
func answersWithACode(cmd *cobra.Command) *cobra.Command {
	if cmd.Annotations == nil {
		cmd.Annotations = map[string]string{}
	}
	cmd.Annotations[answersKey] = "yes"
	return cmd
}

const (
	codesOfAnswers = `Exit codes:
  0    the type carries the work under the schedule asked for
  1    it does not (a sort runs short), or a character has no sort
  2    the question could not be answered
  130  interrupted; nothing half-written
`
	codesOfTheRest = `Exit codes:
  0    done
  2    refused; nothing was changed
  130  interrupted; nothing half-written
`
)

// showHelp prints the help of one command: examples first, exit codes last.
// cobra takes no error from it: a write that fails is kept by the outlet, and
// help for a command that is not there by the counter.
func (c *counter) showHelp(cmd *cobra.Command, _ []string) {
	if cmd.HasSubCommands() && cmd.Flags().NArg() > 0 {
		c.helpless = noCommand(cmd, cmd.Flags().Arg(0))
		return
	}
	_, _ = io.WriteString(cmd.OutOrStdout(), helpText(cmd))
}

func helpText(cmd *cobra.Command) string {
	var b strings.Builder
	b.WriteString(report.Wrap(cmd.CommandPath()+": "+cmd.Short, helpWidth) + "\n")
	if cmd.Example != "" {
		b.WriteString("Examples:\n")
		for line := range strings.Lines(strings.Trim(cmd.Example, "\n")) {
			b.WriteString("  " + strings.TrimSpace(line) + "\n")
		}
		b.WriteString("\n")
	}
	if cmd.Long != "" {
		b.WriteString(strings.TrimSpace(cmd.Long) + "\n\n")
	}
	if cmd.HasAvailableSubCommands() {
		b.WriteString("Commands:\n")
		for _, sub := range cmd.Commands() {
			if sub.IsAvailableCommand() {
				name := fmt.Sprintf("  %-*s  ", sub.NamePadding(), sub.Name())
				said := strings.TrimSpace(report.Wrap(sub.Short, helpWidth-len(name)))
				b.WriteString(name + strings.ReplaceAll(said, "\n", "\n"+strings.Repeat(" ", len(name))) + "\n")
			}
		}
		b.WriteString("\n")
	} else {
		fmt.Fprintf(&b, "Usage:\n  %s\n\n", cmd.UseLine())
	}
	cmd.Flags().SortFlags = false // in the order in which they were added, which is that of the walk
	if flags := cmd.LocalNonPersistentFlags(); flags.HasAvailableFlags() && !cmd.HasAvailableSubCommands() {
		flags.SortFlags = false
		b.WriteString("Flags:\n" + flags.FlagUsagesWrapped(helpWidth) + "\n")
	}
	shared := cmd.InheritedFlags()
	if !cmd.HasParent() {
		shared = cmd.PersistentFlags()
	}
	if shared.HasAvailableFlags() {
		b.WriteString("Flags of every command:\n" + shared.FlagUsagesWrapped(helpWidth) + "\n")
	}
	if cmd.Annotations[answersKey] != "" {
		b.WriteString(codesOfAnswers)
	} else {
		b.WriteString(codesOfTheRest)
	}
	return b.String()
}

// helpWidth is fixed: help is the same in every window and in a pipe.
const helpWidth = 80

// newHelp is `formewise help font add`, the same as `formewise font add --help`.
func newHelp() *cobra.Command {
	return &cobra.Command{
		Use:    "help [COMMAND…]",
		Short:  "show how a command is used",
		Hidden: true,
		Args:   cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, words []string) error {
			about := cmd.Root()
			for _, word := range words {
				next := findCommand(about, word)
				if next == nil {
					return noCommand(about, word)
				}
				about = next
			}
			return about.Help()
		},
	}
}

func findCommand(group *cobra.Command, name string) *cobra.Command {
	for _, cmd := range group.Commands() {
		if cmd.Name() == name {
			return cmd
		}
	}
	return nil
}
