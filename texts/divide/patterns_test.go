package divide

import (
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestNewDivider(t *testing.T) {
	d, err := newDivider("xx", []byte(`% .\patterns{x1y}
\message{not {read}}
\patterns{%
.a1b% a comment \patterns{z1z}
1cd	d2e3 f'1g h1i2 2h2 i3k4
}
\hyphenation{q-r-s-t-u}
\patterns{c4d.}\endinput`))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"zzabzzz", "abzzz", // too near to the beginning, or not there at all
		"zz-cdzz", "zzzzcd",
		"zzde-zzz",
		"zzf'-gzz", "zzf’-gzz", // the patterns have an apostrophe
		"zzhi-kzz", // the greater figure of h1i2 and 2h2, of h1i2 and i3k4
		"qr-stu",   // by hand
		"xxxyxx", "zzzzzz",
	} {
		if got := divided(d, strings.ReplaceAll(want, "-", "")); got != want {
			t.Errorf("got %s, want %s", got, want)
		}
	}
}

func TestNewDividerRefuses(t *testing.T) {
	for _, c := range []struct{ source, want string }{
		{`\patterns{a1b`, "the last group is not closed"},
		{`\patterns{a1b \hyphenation{a-b}}`, `\hyphenation inside a group, where only words are read`},
		{`\patterns{a8b}`, `pattern "a8b": figure above 7`},
		{`\patterns{a12b}`, `pattern "a12b": two figures between two letters`},
		{`\patterns{1}`, `pattern "1": no letter`},
		{`\patterns{abcdefghijklmno1 abcdefghijklmno1p}`, `pattern "abcdefghijklmno1p": more than 15 letters`},
		{`\patterns{aB}`, `pattern "aB": 'B' is no small Latin letter`},
		{`\patterns{a,}`, `pattern "a,": ',' is no small Latin letter`},
		{"\\patterns{ab}\\hyphenation{a\xff}", `divided word "a\xff": '�' (it may have letters, and hyphens between them)`},
		{`\patterns{aλ}`, `pattern "aλ": 'λ' is no small Latin letter`},
		{`\patterns{aſ}`, `pattern "aſ": 'ſ' is no small Latin letter`},
		{
			`\patterns{abcdefghijklm nopqrstuvwxyz àáâãäåæçèéêë ìíîïðñòóôõöø ùúûüýþāăąćĉ ċ}`, // the sixty-second
			`pattern "ċ": 'ċ' is one letter more than can be told apart`,
		},
	} {
		if _, err := newDivider("xx", []byte(c.source)); err == nil || err.Error() != c.want {
			t.Errorf("%s: got error %v, want %s", c.source, err, c.want)
		}
	}
}

// Figures are compared all at once.
func TestGreater(t *testing.T) {
	figure := rapid.IntRange(0, highest)
	rapid.Check(t, func(t *rapid.T) {
		var a, b, want levels
		for i := range 16 {
			x, y := figure.Draw(t, "a"), figure.Draw(t, "b")
			a |= levels(x) << (4 * i)
			b |= levels(y) << (4 * i)
			want |= levels(max(x, y)) << (4 * i)
		}
		if got := greater(a, b); got != want {
			t.Errorf("%x and %x: got %x, want %x", a, b, got, want)
		}
	})
}

// The files are copies to the byte, as their licences' page says: hyphen.tex may be passed on in no other way.
func TestPatternFilesAreUnchanged(t *testing.T) {
	page, err := os.ReadFile(filepath.Join("patterns", "LICENCES.md"))
	if err != nil {
		t.Fatal(err)
	}
	files, err := patternFiles.ReadDir("patterns")
	if err != nil {
		t.Fatal(err)
	}
	if len(files) != len(languages) {
		t.Errorf("%d pattern files for %d languages", len(files), len(languages))
	}
	for _, f := range files {
		source, err := patternFiles.ReadFile("patterns/" + f.Name())
		if err != nil {
			t.Fatal(err)
		}
		if row := fmt.Sprintf("| `%s` | `%x` |", f.Name(), sha256.Sum256(source)); !strings.Contains(string(page), row) {
			t.Errorf("LICENCES.md has no row %s", row)
		}
	}
}
