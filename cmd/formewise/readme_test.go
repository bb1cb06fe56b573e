package main

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write what the program prints into the README")

// The README's examples are run one after another in an empty folder, and print what it shows. An example is a block
// fenced with ```console: lines that begin with "$ " are commands, the lines below one are what it prints. Understood are
// formewise itself, cd, export, and "| head -N".
//
// After a change: go test ./cmd/formewise -run TestReadme -update
func TestReadme(t *testing.T) {
	readme, err := filepath.Abs("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	t.Setenv("FORMEWISE_SHOP", "")

	var out strings.Builder
	in, commands := false, 0
	skipping := false // the printed lines of a command, which are made anew
	for line := range strings.Lines(string(text)) {
		switch {
		case strings.HasPrefix(line, "```"):
			in = line == "```console\n"
			skipping = false
		case in && strings.HasPrefix(line, "$ "):
			skipping = true
		}
		if skipping && !strings.HasPrefix(line, "$ ") {
			continue
		}
		out.WriteString(line)
		if in && strings.HasPrefix(line, "$ ") {
			commands++
			out.WriteString(example(t, strings.TrimSpace(line[2:])))
		}
	}
	if commands == 0 {
		t.Fatal("the README has no examples")
	}
	if *update {
		if err := os.WriteFile(readme, []byte(out.String()), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if d := cmp.Diff(strings.Split(string(text), "\n"), strings.Split(out.String(), "\n")); d != "" {
		t.Errorf("the README does not show what the program prints (-README +printed); -update writes it:\n%s", d)
	}
}

// example runs one command line of the README and gives what it prints, errors too.
func example(t *testing.T, line string) string {
	t.Helper()
	command, head, cut := strings.Cut(line, " | head -")
	words := shellWords(t, command)
	switch words[0] {
	case "cd":
		t.Chdir(words[1])
		return ""
	case "export":
		name, value, _ := strings.Cut(words[1], "=")
		t.Setenv(name, value)
		return ""
	case "formewise":
	default:
		t.Fatalf("the README runs %q, which this test does not know", words[0])
	}
	var both bytes.Buffer
	code := run(t.Context(), words[1:], strings.NewReader(""), &both, &both)
	printed := both.String()
	if cut {
		n, err := strconv.Atoi(head)
		if err != nil {
			t.Fatal(err)
		}
		lines := strings.SplitAfter(printed, "\n")
		printed = strings.Join(lines[:min(n, len(lines))], "")
	}
	if code == codeRefused && !strings.Contains(printed, "formewise: error") {
		t.Fatalf("%s: exit code %d", line, code)
	}
	return printed
}

// shellWords splits a command line as a shell does, as far as the README goes: double quotes, no variables.
func shellWords(t *testing.T, line string) []string {
	t.Helper()
	var words []string
	var word strings.Builder
	quoted, begun := false, false
	for _, r := range line {
		switch {
		case r == '"':
			quoted, begun = !quoted, true
		case r == ' ' && !quoted:
			if begun {
				words = append(words, word.String())
			}
			word.Reset()
			begun = false
		default:
			word.WriteRune(r)
			begun = true
		}
	}
	if quoted {
		t.Fatalf("the README has an open quote: %s", line)
	}
	if begun {
		words = append(words, word.String())
	}
	return words
}
