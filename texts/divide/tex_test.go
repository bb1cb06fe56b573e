package divide

import (
	"bytes"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// What TeX's \showhyphens said of words from testdata/texts: see testdata/tex/showhyphens.sh, which wrote these files.
var texFiles = []struct {
	name, language string
	words          int // at least
}{
	{"en", "en", 10_000},
	{"en-ec", "en", 400},
	{"en-gb", "en-gb", 10_000},
	{"la", "la", 5_000},
	{"fr", "fr", 5_000},
	{"de", "de", 5_000},
}

// No word is divided otherwise than TeX divides it.
func TestTeX(t *testing.T) {
	for _, f := range texFiles {
		t.Run(f.name, func(t *testing.T) {
			text := string(unpack(t, filepath.Join("..", "..", "testdata", "tex", "showhyphens-"+f.name+".txt.gz")))
			lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
			if len(lines) < f.words {
				t.Errorf("%d words, fewer than %d", len(lines), f.words)
			}
			d := mustFor(t, f.language)
			for _, line := range lines {
				word, want, _ := strings.Cut(line, "\t")
				if got := divided(d, word); got != want {
					t.Errorf("%s: got %s, TeX has %s", word, got, want)
				}
			}
		})
	}
}

// The files are what TeX says today, where there is one to ask.
func TestTeXLive(t *testing.T) {
	if testing.Short() {
		t.Skip("it runs TeX on 80,000 words: not in -short")
	}
	for _, tool := range []string{"sh", "go", "tex", "tftopl", "pltotf", "kpsewhich"} {
		if _, err := exec.LookPath(tool); err != nil {
			t.Skipf("%s is not installed: TeX cannot be asked", tool)
		}
	}
	for _, f := range texFiles {
		t.Run(f.name, func(t *testing.T) {
			var errs strings.Builder
			cmd := exec.Command("sh", filepath.Join("..", "..", "testdata", "tex", "showhyphens.sh"), f.name)
			cmd.Stderr = &errs
			got, err := cmd.Output()
			if err != nil {
				t.Fatalf("%v: %s", err, errs.String())
			}
			want := unpack(t, filepath.Join("..", "..", "testdata", "tex", "showhyphens-"+f.name+".txt.gz"))
			if !bytes.Equal(got, want) {
				t.Errorf("TeX says something else than the file: %s", firstDifference(string(got), string(want)))
			}
		})
	}
}

func firstDifference(got, want string) string {
	a, b := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			return "now " + a[i] + ", in the file " + b[i]
		}
	}
	return "one has more lines"
}
