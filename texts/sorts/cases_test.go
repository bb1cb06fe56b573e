package sorts_test

import (
	"strings"
	"testing"

	"formewise/texts/sorts"
)

func TestCases(t *testing.T) {
	fonts := []sorts.Font{fontOf("a b"), {Name: "none"}, fontOf("c"), {Name: "Spacing 12", Sorts: []sorts.Sort{{Name: "thick", Space: true, Width: 4_000}}}}
	cases, err := sorts.Lay(fonts...)
	if err != nil {
		t.Fatal(err)
	}
	if cases.Len() != 4 || cases.Missing() != 4 {
		t.Errorf("%d sorts, the missing one is %d; want 4, 4", cases.Len(), cases.Missing())
	}
	next := sorts.ID(0)
	for n, f := range fonts {
		if cases.Font(n).Name != f.Name {
			t.Errorf("font %d is %q, want %q", n, cases.Font(n).Name, f.Name)
		}
		for k, s := range f.Sorts {
			id := cases.ID(n, k)
			if id != next || cases.Sort(id) != s || cases.Owner(id) != n {
				t.Errorf("sort %d of font %d has ID %d, is %+v of font %d", k, n, id, cases.Sort(id), cases.Owner(id))
			}
			next++
		}
	}
}

func TestTooManySorts(t *testing.T) {
	f := sorts.Font{Name: "f", Body: body, Sorts: make([]sorts.Sort, sorts.Most-1)}
	cases, err := sorts.Lay(f, fontOf("a"))
	if err != nil {
		t.Fatal(err)
	}
	cutter, err := sorts.NewCutter(cases, 1)
	if err != nil {
		t.Fatal(err)
	}
	var g sorts.Galley
	if cutter.Word(&g, []byte("ab"), 0, 2, noLimit); len(g.IDs) != 2 || g.IDs[0] != sorts.Most-1 || g.IDs[1] != sorts.Most {
		t.Errorf("%v, want the last sort and the missing one", g.IDs)
	}
	_, err = sorts.Lay(f, fontOf("a b"))
	if want := "the fonts of this work have 65535 sorts, and no more than 65534 can be told apart"; err == nil || err.Error() != want {
		t.Errorf("%v, want %s", err, want)
	}
}

// Texts are told apart by a table that has its bounds: what does not go in is refused and not left out, be it a sort's own
// text or what is made up.
func TestTooMuchText(t *testing.T) {
	const room = 65_534
	for _, c := range []struct {
		name  string
		texts string
		goes  bool
	}{
		{"just full", strings.Repeat("x", room), true},
		{"one over", strings.Repeat("x", room+1), false},
		{"just full, with quotes of commas to be made up", ", " + strings.Repeat("x", room-1), false},
		{"room for those", ", " + strings.Repeat("x", room-50), true},
	} {
		cases, err := sorts.Lay(fontOf(c.texts))
		if err != nil {
			t.Fatal(err)
		}
		_, err = sorts.NewCutter(cases, 0)
		if (err == nil) != c.goes {
			t.Errorf("%s: %v", c.name, err)
		}
		if want := `font "Ferry Roman 12": its sorts' texts are too many and too long to be told apart`; err != nil && err.Error() != want {
			t.Errorf("%s: %v, want %s", c.name, err, want)
		}
	}
}
