package main

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// takes lets a command have exactly the arguments named, e.g. takes("NAME");
// takes() lets it have none.
func takes(names ...string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if err := swallowed(cmd); err != nil {
			return err
		}
		switch {
		case len(args) < len(names):
			return lacking(cmd, strings.Join(names[len(args):], " and "))
		case len(args) > len(names):
			return refuseWith(helpHint(cmd), "%s does not take the argument %q", called(cmd), args[len(names)])
		}
		return nil
	}
}

// takesSome lets a command have one argument or more.
func takesSome(name string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if err := swallowed(cmd); err != nil {
			return err
		}
		if len(args) == 0 {
			return lacking(cmd, name)
		}
		return nil
	}
}

// swallowed refuses a command in which a flag of words was left without its value, and took the next flag for it.
func swallowed(cmd *cobra.Command) (err error) {
	cmd.Flags().Visit(func(f *pflag.Flag) {
		values := []string{f.Value.String()}
		if several, ok := f.Value.(pflag.SliceValue); ok {
			values = several.GetSlice()
		}
		for _, value := range values {
			if err == nil && looksLikeFlag(value) {
				err = bareFlag(cmd, f.Name, value)
			}
		}
	})
	return err
}

// looksLikeFlag tells a flag, with or without a value after =, from words that begin with a dash typed as --, and from the sort
// of that name.
func looksLikeFlag(value string) bool {
	name, dashed := strings.CutPrefix(value, "--")
	return dashed && name != "" && name[0] >= 'a' && name[0] <= 'z' && !strings.ContainsAny(name, " \t\n")
}

func bareFlag(cmd *cobra.Command, flag, value string) error {
	return refuseWith(helpHint(cmd), "--%s needs a value, and %s is a flag", flag, value)
}

// needs refuses a command in which one of the flags was not given. Names come
// without dashes.
func needs(cmd *cobra.Command, flags ...string) error {
	var absent []string
	for _, name := range flags {
		if !cmd.Flags().Changed(name) {
			absent = append(absent, "--"+name)
		}
	}
	if len(absent) == 0 {
		return nil
	}
	return lacking(cmd, strings.Join(absent, " and "))
}

func lacking(cmd *cobra.Command, what string) error {
	return refuseWith(helpHint(cmd), "%s needs %s", called(cmd), what)
}

// noCommand refuses a word that is none of the commands of a group.
func noCommand(group *cobra.Command, word string) error {
	var known []string
	for _, cmd := range group.Commands() {
		if cmd.IsAvailableCommand() {
			known = append(known, cmd.Name())
		}
	}
	hint := helpHint(group)
	if meant := nearest(word, known); meant != "" {
		hint = fmt.Sprintf("did you mean `%s %s`?", group.CommandPath(), meant)
	}
	return refuseWith(hint, "no command %q (%s has %s)", word, called(group), strings.Join(known, ", "))
}

// flagFailure words what the flag parser found, and is set once on the root.
func flagFailure(cmd *cobra.Command, err error) error {
	var (
		unknown *pflag.NotExistError
		bare    *pflag.ValueRequiredError
		invalid *pflag.InvalidValueError
		syntax  *pflag.InvalidSyntaxError
	)
	switch {
	case errors.As(err, &unknown):
		if letters := unknown.GetSpecifiedShortnames(); letters != "" {
			// A word after one dash is a flag that lacks the other.
			if word, _, _ := strings.Cut(letters, "="); len(word) > 1 {
				if meant := nearest(word, flagNames(cmd)); meant != "" {
					return refuseWith("did you mean --"+meant+"?", "%s has no flag -%s", called(cmd), word)
				}
			}
			return refuseWith(helpHint(cmd), "%s has no flag -%s", called(cmd), unknown.GetSpecifiedName())
		}
		hint := helpHint(cmd)
		if meant := nearest(unknown.GetSpecifiedName(), flagNames(cmd)); meant != "" {
			hint = "did you mean --" + meant + "?"
		}
		return refuseWith(hint, "%s has no flag --%s", called(cmd), unknown.GetSpecifiedName())
	case errors.As(err, &bare):
		return refuseWith(helpHint(cmd), "--%s needs a value", bare.GetFlag().Name)
	case errors.As(err, &invalid):
		flag := invalid.GetFlag()
		if looksLikeFlag(invalid.GetValue()) {
			return bareFlag(cmd, flag.Name, invalid.GetValue())
		}
		switch flag.Value.Type() {
		case "int":
			if errors.Is(err, strconv.ErrRange) {
				return refuse("--%s: %q is out of all reason", flag.Name, invalid.GetValue())
			}
			return refuse("--%s: %q is not a whole number", flag.Name, invalid.GetValue())
		case "bool":
			return refuse("--%s takes no value, or true or false (got %q)", flag.Name, invalid.GetValue())
		}
		// Flags of a type of our own word it themselves, the value included.
		return &failure{what: fmt.Sprintf("--%s: %v", flag.Name, invalid.Unwrap()), cause: invalid.Unwrap()}
	case errors.As(err, &syntax):
		return refuseWith(helpHint(cmd), "%q is no flag", syntax.GetSpecifiedFlag())
	}
	return err
}

// flagNames are the flags of a command that its help shows.
func flagNames(cmd *cobra.Command) []string {
	var names []string
	cmd.Flags().VisitAll(func(f *pflag.Flag) {
		if !f.Hidden {
			names = append(names, f.Name)
		}
	})
	return names
}

// called is the command as the printer typed it, without the program's name;
// the root is called by it.
func called(cmd *cobra.Command) string {
	if !cmd.HasParent() {
		return cmd.Name()
	}
	return strings.TrimPrefix(cmd.CommandPath(), cmd.Root().Name()+" ")
}

func helpHint(cmd *cobra.Command) string {
	return fmt.Sprintf("`%s --help` shows how it is used", cmd.CommandPath())
}

// nearest is the one of known that word was most likely meant for: no more than
// two letters put in, left out or changed, and fewer than half of the word;
// the first of equals; "" if there is none.
func nearest(word string, known []string) string {
	best, least := "", min(2, (len(word)-1)/2)+1
	for _, candidate := range known {
		if d := edits(word, candidate); d < least {
			best, least = candidate, d
		}
	}
	return best
}

// edits counts the bytes to put in, leave out or change between a and b, row
// by row of the usual table.
func edits(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		corner := row[0]
		row[0] = i + 1
		for j := range len(b) {
			changed := corner
			if a[i] != b[j] {
				changed++
			}
			corner = row[j+1]
			row[j+1] = min(changed, row[j]+1, corner+1)
		}
	}
	return row[len(b)]
}
