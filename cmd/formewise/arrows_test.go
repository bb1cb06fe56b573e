package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// arrow says what the packages below a folder may not import. Like the linter's
// rules (.golangci.yml) it speaks of folders: `formewise/texts` is the package
// and all below it, and a path that ends in $ is that package alone.
type arrow struct {
	from   string   // a pattern of path.Match for the folder, with /… for all below it
	except string   // a folder the rule leaves alone, or ""
	denied []string // import paths
	tests  bool     // whether test files are held to it too
}

func arrows() []arrow {
	sql := []string{"database/sql", "modernc.org/sqlite"}
	const trial = "demand/internal/trial" // for tests only, though no test file
	return []arrow{
		{from: "texts/…", tests: true, denied: append([]string{"formewise/cmd", "formewise/demand", "formewise/inventory"}, sql...)},
		{from: "inventory/…", tests: true, denied: []string{"formewise/cmd", "formewise/demand", "formewise/texts"}},
		{from: "demand/…", tests: true, denied: append([]string{"formewise/cmd", "formewise/inventory"}, sql...)},
		{from: "demand/…", except: trial, denied: []string{"os", "net", "log"}},
		{from: "…", except: trial, denied: []string{"testing", "formewise/" + trial}},
		{from: "demand/*/…", tests: true, denied: []string{"formewise/demand$"}},
		{from: "cmd/formewise/*/…", tests: true, denied: []string{"formewise/inventory", "formewise/texts"}},
		{from: "cmd/formewise/units/…", tests: true, denied: []string{"formewise/demand"}},
		{from: "cmd/…", tests: true, denied: sql},
		{from: "…", except: "cmd/formewise/report", tests: true, denied: []string{"github.com/olekukonko/tablewriter"}},
		{from: "texts/…", tests: true, denied: []string{"github.com/spf13"}},
		{from: "inventory/…", tests: true, denied: []string{"github.com/spf13"}},
		{from: "demand/…", tests: true, denied: []string{"github.com/spf13"}},
		{from: "cmd/formewise/*/…", tests: true, denied: []string{"github.com/spf13"}},
	}
}

// holds says whether the rule speaks of a package in this folder.
func (a arrow) holds(folder string, isTest bool) bool {
	if (isTest && !a.tests) || (a.except != "" && folder == a.except) {
		return false
	}
	pattern, deep := strings.CutSuffix(a.from, "…")
	pattern = strings.TrimSuffix(pattern, "/")
	if pattern == "" {
		return true
	}
	parts := strings.Split(folder, "/")
	n := strings.Count(pattern, "/") + 1
	if len(parts) < n || (!deep && len(parts) > n) {
		return false
	}
	matched, err := path.Match(pattern, strings.Join(parts[:n], "/"))
	return err == nil && matched
}

// denies says whether the rule forbids the import.
func (a arrow) denies(imported string) bool {
	return slices.ContainsFunc(a.denied, func(denied string) bool {
		if alone, exact := strings.CutSuffix(denied, "$"); exact {
			return imported == alone
		}
		return imported == denied || strings.HasPrefix(imported, denied+"/")
	})
}

// TestArrows reads the imports of every file and holds them to the arrows
// between the rooms.
func TestArrows(t *testing.T) {
	const top = "../.."
	rooms := map[string]bool{}
	err := filepath.WalkDir(top, func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if entry.IsDir() && name != top && (strings.HasPrefix(entry.Name(), ".") || entry.Name() == "testdata") {
			return filepath.SkipDir
		}
		if entry.IsDir() || !strings.HasSuffix(name, ".go") {
			return nil
		}
		relative, err := filepath.Rel(top, name)
		if err != nil {
			return err
		}
		folder := path.Dir(filepath.ToSlash(relative))
		rooms[strings.Split(folder, "/")[0]] = true
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, spec := range file.Imports {
			imported, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				return err
			}
			for _, a := range arrows() {
				if a.holds(folder, strings.HasSuffix(name, "_test.go")) && a.denies(imported) {
					t.Errorf("%s imports %s, which %s must not", filepath.ToSlash(relative), imported, a.from)
				}
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, room := range []string{"cmd", "demand", "inventory", "texts"} {
		if !rooms[room] {
			t.Errorf("no Go file was found in %s: the walk does not see the rooms", room)
		}
	}
}

// TestArrowsPoint tries the rules themselves.
func TestArrowsPoint(t *testing.T) {
	tests := []struct {
		folder, imported string
		isTest           bool
		allowed          bool
	}{
		{"cmd/formewise", "formewise/demand", false, true},
		{"cmd/formewise", "formewise/inventory", false, true},
		{"cmd/formewise", "formewise/cmd/formewise/report", false, true},
		{"cmd/formewise", "github.com/spf13/cobra", false, true},
		{"cmd/formewise", "os", false, true},
		{"cmd/formewise", "database/sql", false, false},
		{"cmd/formewise", "github.com/olekukonko/tablewriter", false, false},
		{"cmd/formewise/report", "github.com/olekukonko/tablewriter/tw", false, true},
		{"cmd/formewise/report", "formewise/demand", false, true},
		{"cmd/formewise/report", "formewise/inventory", false, false},
		{"cmd/formewise/units", "formewise/demand", false, false},
		{"cmd/formewise/units", "formewise/texts", false, false},
		{"cmd/formewise/units", "github.com/spf13/pflag", false, false},
		{"demand", "formewise/demand/standing", false, true},
		{"demand", "formewise/texts/sorts", false, true},
		{"demand", "formewise/inventory", false, false},
		{"demand", "formewise/inventory", true, false},
		{"demand", "os", false, false},
		{"demand", "os", true, true},
		{"demand/internal/trial", "os", false, true},
		{"demand/stick", "formewise/demand/internal/trial", false, false},
		{"demand/stick", "formewise/demand/internal/trial", true, true},
		{"inventory", "testing", false, false},
		{"demand/standing", "formewise/demand/impose", false, true},
		{"demand/standing", "formewise/demand", false, false},
		{"demand/standing", "log/slog", false, false},
		{"demand/standing", "logarithm", false, true},
		{"inventory", "database/sql", false, true},
		{"inventory", "modernc.org/sqlite", false, true},
		{"inventory", "formewise/texts", false, false},
		{"inventory", "formewise/demand/tally", true, false},
		{"texts/house", "formewise/texts/sorts", false, true},
		{"texts", "formewise/demand", false, false},
		{"texts/read", "formewise/inventory", false, false},
		{"texts/read", "os", false, true},
	}
	for _, test := range tests {
		allowed := true
		for _, a := range arrows() {
			if a.holds(test.folder, test.isTest) && a.denies(test.imported) {
				allowed = false
			}
		}
		if allowed != test.allowed {
			t.Errorf("%s importing %s (in a test: %v): allowed is %v", test.folder, test.imported, test.isTest, allowed)
		}
	}
}
