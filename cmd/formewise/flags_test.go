package main

import (
	"bytes"
	"testing"

	"github.com/spf13/cobra"

	"formewise/cmd/formewise/units"
)

// tryOut is a small tree of commands, to try the wording of refusals on:
// `formewise font show NAME` with flags, and `formewise font list`.
func tryOut(t *testing.T, args ...string) error {
	t.Helper()
	show := &cobra.Command{
		Use: "show NAME", Short: "show", Args: takes("NAME"),
		RunE: func(cmd *cobra.Command, _ []string) error { return needs(cmd, "measure", "lines") },
	}
	show.Flags().Var(new(units.Length), "measure", "the length of the line")
	show.Flags().Int("lines", 0, "lines in a page")
	show.Flags().Bool("all", false, "all sorts")
	show.Flags().String("title", "", "a title")
	list := &cobra.Command{Use: "list FILE…", Short: "list", Args: takesSome("FILE"), RunE: show.RunE}
	list.Flags().StringArray("ended", nil, "how a page ended")
	root := newGroup(&cobra.Command{Use: "formewise"}, newGroup(&cobra.Command{Use: "font"}, show, list))
	root.SilenceErrors, root.SilenceUsage = true, true
	root.CompletionOptions.DisableDefaultCmd = true
	root.SetFlagErrorFunc(flagFailure)
	root.SetOut(new(bytes.Buffer))
	root.SetArgs(args)
	return root.ExecuteContext(t.Context())
}

func TestRefusals(t *testing.T) {
	const help = "`formewise font show --help` shows how it is used"
	tests := []struct {
		args       []string
		what, hint string
	}{
		{[]string{"fnt"}, `no command "fnt" (formewise has font)`, "did you mean `formewise font`?"},
		{[]string{"font", "shw"}, `no command "shw" (font has list, show)`, "did you mean `formewise font show`?"},
		{[]string{"font", "melt"}, `no command "melt" (font has list, show)`, "`formewise font --help` shows how it is used"},
		{[]string{"font", "show"}, "font show needs NAME", help},
		{[]string{"font", "show", "A", "B"}, `font show does not take the argument "B"`, help},
		{[]string{"font", "list"}, "font list needs FILE", "`formewise font list --help` shows how it is used"},
		{[]string{"font", "show", "A"}, "font show needs --measure and --lines", help},
		{[]string{"font", "show", "A", "--measure", "4in"}, "font show needs --lines", help},
		{[]string{"font", "show", "A", "--mesure", "4in"}, "font show has no flag --mesure", "did you mean --measure?"},
		{[]string{"font", "show", "A", "--colour"}, "font show has no flag --colour", help},
		{[]string{"font", "show", "A", "-xyz"}, "font show has no flag -x", help},
		{[]string{"font", "show", "A", "-all"}, "font show has no flag -all", "did you mean --all?"},
		{[]string{"font", "show", "A", "-lins=3"}, "font show has no flag -lins", "did you mean --lines?"},
		{[]string{"font", "show", "A", "-a"}, "font show has no flag -a", help},
		{[]string{"font", "show", "--title", "--measure", "4in"}, "--title needs a value, and --measure is a flag", help},
		{[]string{"font", "show", "A", "--title", "--lines=4"}, "--title needs a value, and --lines=4 is a flag", help},
		{[]string{"font", "show", "A", "--lines", "--all"}, "--lines needs a value, and --all is a flag", help},
		{[]string{"font", "show", "A", "--measure", "--lines", "4"}, "--measure needs a value, and --lines is a flag", help},
		{[]string{"font", "list", "A", "--ended", "2+1", "--ended", "--lines", "4"}, "--ended needs a value, and --lines is a flag", "`formewise font list --help` shows how it is used"},
		{[]string{"font", "show", "A", "--lines"}, "--lines needs a value", help},
		{[]string{"font", "show", "A", "--lines", "3.5"}, `--lines: "3.5" is not a whole number`, ""},
		{[]string{"font", "show", "A", "--lines", "99999999999999999999"}, `--lines: "99999999999999999999" is out of all reason`, ""},
		{[]string{"font", "show", "A", "--all=perhaps"}, `--all takes no value, or true or false (got "perhaps")`, ""},
		{[]string{"font", "show", "A", "--measure", "4"}, `--measure: "4" has no unit (pt, pc, in, mm, cm, dd or em)`, ""},
		{[]string{"font", "show", "A", "--=4"}, `"--=4" is no flag`, help},
	}
	for _, test := range tests {
		err := tryOut(t, test.args...)
		if err == nil || err.Error() != test.what || adviceOf(err) != test.hint {
			t.Errorf("%q:\n got %v, hint %q\nwant %s, hint %q", test.args, err, adviceOf(err), test.what, test.hint)
		}
	}
	for _, title := range []string{"", "Songs", "--", "-- Songs --", "--Songs", "---", "-a"} {
		if err := tryOut(t, "font", "show", "A", "--measure", "4in", "--lines", "30", "--title", title); err != nil {
			t.Errorf("a good command is refused with the title %q: %v", title, err)
		}
	}
}

func TestEdits(t *testing.T) {
	tests := []struct {
		a, b string
		want int
	}{
		{"", "", 0}, {"", "abc", 3}, {"abc", "", 3}, {"lines", "lines", 0},
		{"line", "lines", 1}, {"mesure", "measure", 1}, {"chek", "check", 1}, {"sitting", "kitten", 3},
	}
	for _, test := range tests {
		if got := edits(test.a, test.b); got != test.want {
			t.Errorf("from %q to %q: %d, want %d", test.a, test.b, got, test.want)
		}
	}
}

func TestNearest(t *testing.T) {
	known := []string{"check", "lines", "font", "demo"}
	tests := []struct{ word, want string }{
		{"chek", "check"}, {"line", "lines"}, {"fonts", "font"}, {"dmeo", ""}, {"x", ""}, {"", ""}, {"ledger", ""},
	}
	for _, test := range tests {
		if got := nearest(test.word, known); got != test.want {
			t.Errorf("%q: %q, want %q", test.word, got, test.want)
		}
	}
}
