package main

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"github.com/spf13/cobra"
)

// ask runs the whole program in this process and gives what came of it.
func ask(t *testing.T, args ...string) (code int, stdout, stderr string) {
	t.Helper()
	var out, complaints bytes.Buffer
	code = run(t.Context(), args, strings.NewReader(""), &out, &complaints)
	return code, out.String(), complaints.String()
}

// walk visits cmd and all commands below it.
func walk(cmd *cobra.Command, visit func(*cobra.Command)) {
	visit(cmd)
	for _, sub := range cmd.Commands() {
		walk(sub, visit)
	}
}

// TestEveryCommand holds every command to the house's habits, those included
// that do not exist yet when this is read.
func TestEveryCommand(t *testing.T) {
	c := &counter{env: func(string) string { return "" }, now: time.Now}
	walk(newRoot(c), func(cmd *cobra.Command) {
		t.Run(cmd.CommandPath(), func(t *testing.T) {
			if cmd.Args == nil || cmd.RunE == nil {
				t.Error("Args or RunE is not set")
			}
			if cmd.Short == "" || strings.HasSuffix(cmd.Short, ".") {
				t.Errorf("Short is %q, want a few words without a full point", cmd.Short)
			}
			words := append(strings.Fields(cmd.CommandPath())[1:], "--help")
			code, help, stderr := ask(t, words...)
			if code != codeDone || stderr != "" {
				t.Fatalf("help: exit code %d, stderr %q", code, stderr)
			}
			if cmd.Hidden {
				return
			}
			title, rest, _ := strings.Cut(help, "\n\n")
			if strings.ReplaceAll(title, "\n", " ") != cmd.CommandPath()+": "+cmd.Short {
				t.Errorf("help begins with %q", title)
			}
			if !strings.HasPrefix(rest, "Examples:\n  formewise ") {
				t.Error("help does not show an example first")
			}
			if !strings.HasSuffix(help, codesOfAnswers) && !strings.HasSuffix(help, codesOfTheRest) {
				t.Error("help does not end with the exit codes")
			}
			for line := range strings.Lines(help) {
				// An example is one line, to be copied, however long it is.
				if n := len([]rune(strings.TrimSuffix(line, "\n"))); n > helpWidth && !strings.HasPrefix(line, "  formewise ") {
					t.Errorf("help is %d columns wide: %s", n, line)
				}
			}
			code, out, stderr := ask(t, append(words[:len(words)-1], "--no-such-flag")...)
			if code != codeRefused || out != "" || !strings.HasPrefix(stderr, "formewise: error: ") {
				t.Errorf("an unknown flag gives exit code %d, stdout %q, stderr %q", code, out, stderr)
			}
		})
	})
}

func TestArgumentsAreNeverTheProcess(t *testing.T) {
	// cobra reads os.Args when it is given nil: those of the test binary.
	if code, out, stderr := ask(t); code != codeDone || !strings.HasPrefix(out, "formewise: ") || stderr != "" {
		t.Errorf("exit code %d, stdout %q, stderr %q, want the help", code, out, stderr)
	}
}
