package main

import (
	"bytes"
	"context"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"formewise/cmd/formewise/report"
	"formewise/cmd/formewise/units"
	"formewise/demand"
	"formewise/inventory"
)

//go:embed demo
var demoFiles embed.FS

// demoFonts are the fonts of the demo's press, as its commands add them.
var demoFonts = []struct {
	name, body, file string
	spacing          bool
}{
	{"Ferry Roman 12", "12pt", "fonts/ferry-roman-12.csv", false},
	{"Ferry Italic 12", "12pt", "fonts/ferry-italic-12.csv", false},
	{"Spacing 12", "12pt", "fonts/spacing-12.csv", true},
	{"Ferry Titling 24", "24pt", "fonts/ferry-titling-24.csv", false},
	{"Heron Roman 10", "10pt", "fonts/heron-roman-10.csv", false},
}

// demoCheck is the check that the demo runs, but for the folder and the shop.
var demoCheck = []string{"manuscripts/the-tide-table.txt", "--font", "Ferry Roman 12", "--measure", "22em", "--lines", "30",
	"--format", "quarto", "--standing", "1"}

// newDemo sets up the invented press and runs the main job on it.
func newDemo(c *counter) *cobra.Command {
	return &cobra.Command{
		Use:   "demo [DIR]",
		Short: "try everything on an invented press with its fonts and manuscripts",
		Example: `
formewise demo
formewise demo /tmp/ferry`,
		Long: `
Writes a shop file with the fonts of a small invented press, and manuscripts to
set in them, into DIR (formewise-demo if none is named; it must not be there
yet), checks one of them, and names the commands it ran and some to try next.`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return nil
			}
			return takes("DIR")(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			dir := "formewise-demo"
			if len(args) == 1 {
				dir = args[0]
			}
			if err := writeDemo(cmd.Context(), c, dir); err != nil {
				return err
			}
			text, err := runDemo(cmd.Context(), c, dir)
			if err != nil {
				return errors.Join(err, os.RemoveAll(dir)) // it was made just now, and is to be made whole or not at all
			}
			return c.answer(text, codeDone)
		},
	}
}

// writeDemo makes the folder whole or not at all: it is made beside its place and moved there at the end.
func writeDemo(ctx context.Context, c *counter, dir string) (err error) {
	if dir == "" {
		return refuse("demo: the name of the folder is empty")
	}
	if _, err := os.Lstat(dir); err == nil {
		return refuseWith("name another folder: formewise demo DIR; or take this one away first", "demo: %q is there already, and nothing is written over it", dir)
	} else if !errors.Is(err, fs.ErrNotExist) {
		return noDemo(dir, err)
	}
	parent := filepath.Dir(filepath.Clean(dir))
	if _, err := os.Stat(parent); errors.Is(err, fs.ErrNotExist) {
		return refuseWith("make that one first, or name another: formewise demo DIR", "demo: the folder %q cannot be made: there is no folder %q", dir, parent)
	}
	made, err := os.MkdirTemp(parent, ".formewise-demo-*")
	if err != nil {
		return noDemo(dir, err)
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.RemoveAll(made))
		}
	}()
	if err := copyDemo(made); err != nil {
		return noDemo(dir, err)
	}
	if err := stockDemo(ctx, c, made); err != nil {
		return err
	}
	if err := os.Chmod(made, 0o755); err != nil {
		return noDemo(dir, err)
	}
	if err := os.Rename(made, dir); err != nil {
		return noDemo(dir, err)
	}
	return nil
}

// noDemo says why the demo's folder could not be made.
func noDemo(dir string, err error) error {
	why := plainCause(err)
	if errors.Is(err, fs.ErrNotExist) { // where the system itself makes the files
		why = "nothing can be made there"
	}
	return &failure{what: fmt.Sprintf("demo: the folder %q cannot be made: %s", dir, why), hint: "name a folder that you may write in: formewise demo DIR", cause: err}
}

func copyDemo(to string) error {
	return fs.WalkDir(demoFiles, "demo", func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		target := filepath.Join(to, filepath.FromSlash(strings.TrimPrefix(name, "demo")))
		if entry.IsDir() {
			return os.MkdirAll(target, 0o755)
		}
		data, err := demoFiles.ReadFile(name)
		if err != nil {
			return err
		}
		return os.WriteFile(target, data, 0o644)
	})
}

// stockDemo enters the demo's fonts in a shop file of its own.
func stockDemo(ctx context.Context, c *counter, dir string) (err error) {
	shop, err := inventory.OpenForChange(ctx, filepath.Join(dir, "shop.db"), true)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, shop.Close()) }()
	for _, f := range demoFonts {
		data, err := demoFiles.ReadFile("demo/" + f.file)
		if err != nil {
			return err
		}
		sorts, _, err := inventory.ReadSorts(bytes.NewReader(data))
		if err != nil {
			return err
		}
		length, err := units.ParseLength(f.body)
		if err != nil {
			return err
		}
		body, err := length.Positive(0)
		if err != nil {
			return err
		}
		if err := shop.AddFont(ctx, inventory.Font{Name: f.name, Body: body, Spacing: f.spacing, Sorts: sorts}); err != nil {
			return err
		}
	}
	return nil
}

// runDemo answers the demo's check as `formewise check` would, in brief, with the first lines of the setting copy.
func runDemo(ctx context.Context, c *counter, dir string) (string, error) {
	c.shopFlag, c.shopGiven = filepath.Join(dir, "shop.db"), true
	var flags workFlags
	cmd := &cobra.Command{Use: "check"}
	flags.add(cmd.Flags())
	args := append(slices.Clone(demoCheck[1:]), "--", filepath.Join(dir, filepath.FromSlash(demoCheck[0])))
	if err := cmd.ParseFlags(args); err != nil {
		return "", err
	}
	q, err := flags.resolve(ctx, c, cmd, cmd.Flags().Args())
	if err != nil {
		return "", err
	}
	answer, err := demand.Check(ctx, q.plan, q.stock, q.copy)
	if err != nil {
		return "", err
	}
	brief, err := q.said(answer).Brief()
	if err != nil {
		return "", err
	}
	var b strings.Builder
	b.WriteString(brief)
	b.WriteString("\nThree lines of its setting copy, to prove with a stick\n")
	for _, line := range firstJustified(answer, 3) {
		b.WriteString(report.SettingLine(line) + "\n")
	}
	fmt.Fprintf(&b, "\nWhat was run (first: cd %s; export FORMEWISE_SHOP=shop.db)\n", report.Clean(quoted(dir)))
	for _, f := range demoFonts {
		add := []string{"font", "add", f.name, "--body", f.body}
		if f.spacing {
			add = append(add, "--spacing")
		}
		b.WriteString(wrapCommand(append(add, "--sorts", f.file)))
	}
	b.WriteString(wrapCommand(append([]string{"check"}, demoCheck...)))
	b.WriteString("\nTo try next\n")
	for _, try := range demoNext {
		b.WriteString("  # " + try.why + "\n" + wrapCommand(try.words))
	}
	return b.String(), nil
}

// demoNext are commands to go on with, and why.
var demoNext = []struct {
	why   string
	words []string
}{
	{"the songs, line by line: all of it can stand", []string{"check", "manuscripts/ferrymans-songs.txt", "--verse", "--font", "Ferry Roman 12", "--measure", "22em", "--lines", "28", "--format", "quarto"}},
	{"two letters no font here has", []string{"check", "manuscripts/two-letters.txt", "--font", "Ferry Roman 12", "--measure", "22em", "--lines", "30", "--format", "folio"}},
	{"the whole setting copy of the chapter", []string{"lines", "manuscripts/the-tide-table.txt", "--font", "Ferry Roman 12", "--measure", "22em", "--lines", "30"}},
}

// wrapCommand writes a command line in two columns' indent, broken before a flag where it would run past the screen.
func wrapCommand(words []string) string {
	var b strings.Builder
	line := "  formewise"
	for i := 0; i < len(words); i++ {
		part := " " + quoted(words[i])
		if strings.HasPrefix(words[i], "--") && i+1 < len(words) && !strings.HasPrefix(words[i+1], "--") {
			i++
			part += " " + quoted(words[i])
		}
		if len(line)+len(part) > 78 {
			b.WriteString(line + " \\\n")
			line = "     "
		}
		line += part
	}
	b.WriteString(line + "\n")
	return b.String()
}

// firstJustified gives the first so many lines on end that fill the measure, of the first page.
func firstJustified(a *demand.Answer, n int) []demand.Line {
	var lines []demand.Line
	for line := range a.Lines(a.Plan.FirstPage, a.Plan.FirstPage) {
		if lines = append(lines, line); line.Last || line.Blank {
			lines = nil
		}
		if len(lines) == n {
			break
		}
	}
	return lines
}
