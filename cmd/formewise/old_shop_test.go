package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A shop file of schema 1 answers as it is, and is brought up by the first change.
func TestShopOfSchema1(t *testing.T) {
	old, err := os.ReadFile("../../inventory/testdata/schema-1.db")
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	t.Setenv("FORMEWISE_SHOP", "shop.db")
	for name, data := range map[string][]byte{"shop.db": old, "effie.txt": []byte("fe f\n")} {
		if err := os.WriteFile(name, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	formewise := func(want int, args ...string) string {
		t.Helper()
		var both bytes.Buffer
		if code := run(t.Context(), args, strings.NewReader(""), &both, &both); code != want {
			t.Fatalf("%q: exit code %d, want %d: %s", args, code, want, &both)
		}
		return both.String()
	}
	show := []string{"font", "show", "Ferry Roman 12"}
	before := formewise(codeDone, show...)
	if !strings.Contains(before, "5 sorts, 2,390 pieces") || strings.Contains(before, "kerned") {
		t.Errorf("the font is shown as\n%s", before)
	}
	formewise(codeDone, "font", "list")
	formewise(codeDone, "font", "show", "Spacing 12", "--json")
	formewise(codeRefused, "font", "edit", "Ferry Roman 12", "--correct", "þ", "--kerned", "yes")
	formewise(codeRefused, "check", "effie.txt", "--font", "Ferry Roman 12", "--measure", "0em", "--lines", "3")
	formewise(codeDone, "check", "effie.txt", "--font", "Ferry Roman 12", "--measure", "20em", "--lines", "3")
	if now, err := os.ReadFile("shop.db"); err != nil || !bytes.Equal(now, old) {
		t.Fatalf("reading has changed the shop file (%v)", err)
	}
	formewise(codeDone, "font", "edit", "Ferry Roman 12", "--correct", "f", "--kerned", "yes")
	after := formewise(codeDone, show...)
	kerned := 0
	for line := range strings.Lines(after) {
		if line, is := strings.CutSuffix(line, "  yes\n"); is && strings.Contains(before, line+"\n") && strings.Contains(line, " f ") {
			kerned++
		}
	}
	if kerned != 1 || len(strings.Split(before, "\n")) != len(strings.Split(after, "\n")) {
		t.Errorf("before\n%safter\n%s", before, after)
	}
	if entries, err := filepath.Glob("*"); err != nil || len(entries) != 2 {
		t.Errorf("left beside the shop file: %v, %v", entries, err)
	}
}
