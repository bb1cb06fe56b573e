package inventory

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"modernc.org/sqlite"
	"pgregory.net/rapid"
)

const ferry = "Ferry Roman 12"

func ptr[T any](v T) *T { return &v }

func fontOf(t *testing.T, s *Shop, name string) Font {
	t.Helper()
	f, err := s.Font(t.Context(), name)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestAddSort(t *testing.T) {
	s := openChange(t, newShopFile(t, roman()), false)
	if err := s.AddSort(t.Context(), ferry, Sort{Name: " þ ", Text: "þ", Set: 500_000, OnHand: 30}); err != nil {
		t.Fatal(err)
	}
	want := roman()
	want.Sorts = append(want.Sorts, Sort{Name: "þ", Text: "þ", Kind: Lower, Set: 500_000, OnHand: 30, Basis: Counted})
	if diff := cmp.Diff(want, fontOf(t, s, ferry)); diff != "" {
		t.Errorf("font (-want +got):\n%s", diff)
	}
}

func TestCorrectSort(t *testing.T) {
	for _, c := range []struct {
		name string
		sort string
		fix  Correction
		want Sort
	}{
		{"set", "e", Correction{Set: ptr(450_000)}, Sort{Name: "e", Text: "e", Kind: Lower, Set: 450_000, OnHand: 1800, Basis: Counted}},
		{"name", "e", Correction{Name: ptr("small e")}, Sort{Name: "small e", Text: "e", Kind: Lower, Set: 444_400, OnHand: 1800, Basis: Counted}},
		{"text, and the deduced kind with it", "e", Correction{Text: ptr("e\u0301")}, Sort{Name: "e", Text: "é", Kind: Accent, Set: 444_400, OnHand: 1800, Basis: Counted}},
		{"text, and the kind that was given stays", "sc A", Correction{Text: ptr("B")}, Sort{Name: "sc A", Text: "B", Kind: SmallCapital, Set: 500_000, Basis: Counted}},
		{"text and kind", "A", Correction{Text: ptr("Ø"), Kind: ptr(Accent)}, Sort{Name: "A", Text: "Ø", Kind: Accent, Set: 700_000, OnHand: 200, Basis: Counted}},
		{"a space that was none", "brass", Correction{Text: ptr("|")}, Sort{Name: "brass", Text: "|", Kind: Sign, Set: 100_000, OnHand: 9, Basis: Counted}},
		{"not kerned, as it was", "ffi", Correction{Kerned: ptr(false)}, roman().Sorts[1]},
		{"kerned", "ffi", Correction{Kerned: ptr(true)}, Sort{Name: "ffi", Text: "ffi", Kind: Ligature, Set: 833_333, Kerned: true, OnHand: 40, Basis: Counted}},
		{"to what it is", "e", Correction{Name: ptr("e"), Text: ptr("e"), Kind: ptr(Lower)}, roman().Sorts[0]},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := roman()
			f.Sorts = append(f.Sorts, Sort{Name: "brass", Set: 100_000, OnHand: 9})
			s := openChange(t, newShopFile(t, f), false)
			if err := s.CorrectSort(t.Context(), ferry, c.sort, c.fix); err != nil {
				t.Fatal(err)
			}
			got := fontOf(t, s, ferry)
			if !slices.Contains(got.Sorts, c.want) || len(got.Sorts) != len(f.Sorts) {
				t.Errorf("sorts %+v, want among them %+v", got.Sorts, c.want)
			}
		})
	}
}

func TestRetireAndTakeBack(t *testing.T) {
	s := openChange(t, newShopFile(t, roman()), false)
	if err := s.RetireSort(t.Context(), ferry, "ffi"); err != nil {
		t.Fatal(err)
	}
	f := fontOf(t, s, ferry)
	want := roman()
	want.Retired = []Sort{want.Sorts[1]}
	want.Sorts = slices.Delete(want.Sorts, 1, 2)
	if diff := cmp.Diff(want, f); diff != "" {
		t.Errorf("retired (-want +got):\n%s", diff)
	}
	refused(t, s.RetireSort(t.Context(), ferry, "ffi"), true, `the sort "ffi" is retired`)
	refused(t, s.CorrectSort(t.Context(), ferry, "ffi", Correction{Set: ptr(1)}), true, `the sort "ffi" is retired`)
	refused(t, s.CorrectSort(t.Context(), ferry, "e", Correction{Name: ptr("ffi")}), true, `"ffi" is the name of a retired sort`)

	// Its text is free while it is away,
	if err := s.AddSort(t.Context(), ferry, Sort{Name: "new ffi", Text: "ffi", Set: 800_000, OnHand: 5}); err != nil {
		t.Fatal(err)
	}
	refused(t, s.AddSort(t.Context(), ferry, Sort{Name: "ffi", Text: "ffi", Set: 800_000}), false, `printed by "new ffi" already`)
	// and its pieces are there when it comes back, in its old place.
	if err := s.AddSort(t.Context(), ferry, Sort{Name: "ffi", Text: "ffj", Set: 810_000, OnHand: 2}); err != nil {
		t.Fatal(err)
	}
	f = fontOf(t, s, ferry)
	if got, want := f.Sorts[1], (Sort{Name: "ffi", Text: "ffj", Kind: Ligature, Set: 810_000, OnHand: 42, Basis: Counted}); got != want || f.Retired != nil {
		t.Errorf("back as %+v with %v retired, want %+v", got, f.Retired, want)
	}
}

// A retired sort comes back as it was, but for what is corrected; its entries in the ledger are left alone unless there are
// pieces more.
func TestTakeBackAsItWas(t *testing.T) {
	was := roman()
	was.Sorts[1].Kind, was.Sorts[1].Kerned = Sign, true // not what its text says, so that both would be lost by entering it anew
	s := openChange(t, newShopFile(t, was), false)
	retire := func() {
		t.Helper()
		if err := s.RetireSort(t.Context(), ferry, "ffi"); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct {
		fix    Correction
		pieces int
		want   Sort
	}{
		{Correction{}, 0, was.Sorts[1]},
		{Correction{Set: ptr(700_000)}, 3, Sort{Name: "ffi", Text: "ffi", Kind: Sign, Set: 700_000, Kerned: true, OnHand: 43, Basis: Counted}},
		{Correction{Kind: ptr(Ligature), Kerned: ptr(false)}, 0, Sort{Name: "ffi", Text: "ffi", Kind: Ligature, Set: 700_000, OnHand: 43, Basis: Counted}},
		{Correction{Text: ptr("é")}, 0, Sort{Name: "ffi", Text: "é", Kind: Accent, Set: 700_000, OnHand: 43, Basis: Counted}},
	} {
		retire()
		var before, after int
		count := func(n *int) {
			t.Helper()
			if err := s.db.QueryRow("SELECT count(*) FROM entry").Scan(n); err != nil {
				t.Fatal(err)
			}
		}
		count(&before)
		if err := s.TakeBack(t.Context(), ferry, "ffi", c.fix, c.pieces); err != nil {
			t.Fatal(err)
		}
		count(&after)
		if f := fontOf(t, s, ferry); f.Sorts[1] != c.want || f.Retired != nil {
			t.Errorf("back as %+v with %v retired, want %+v", f.Sorts[1], f.Retired, c.want)
		}
		if entries := min(c.pieces, 1); after-before != entries {
			t.Errorf("%d entries for %d pieces, want %d", after-before, c.pieces, entries)
		}
	}
	retire()
	refused(t, s.TakeBack(t.Context(), ferry, "ffi", Correction{Text: ptr("")}, 0), false, `sort "ffi" has no text`)
	refused(t, s.TakeBack(t.Context(), ferry, "ffi", Correction{Text: ptr("e"), Kind: ptr(Lower)}, 0), false, `printed by "e" already`)
	refused(t, s.TakeBack(t.Context(), ferry, "ffi", Correction{}, -1), false, "count of -1")
	refused(t, s.TakeBack(t.Context(), ferry, "ffi", Correction{}, MaxCount), false, "43 pieces in the ledger")
	refused(t, s.TakeBack(t.Context(), "Heron 10", "ffi", Correction{}, 0), true, "no such font")
}

// A file that was written when a set width could be 100 ems is read, and such a sort is retired, or put right.
func TestWideSortsOfOldShops(t *testing.T) {
	path := newShopFile(t, roman())
	s := openChange(t, path, false)
	if _, err := s.db.Exec("UPDATE sort SET set_width = 43000000 WHERE name = 'e'"); err != nil {
		t.Fatal(err)
	}
	if e := fontOf(t, s, ferry).Sorts[0]; e.Set != 43*million {
		t.Errorf("set %d", e.Set)
	}
	refused(t, s.CorrectSort(t.Context(), ferry, "e", Correction{Kerned: ptr(true)}), true, `sort "e": a set width of 43`)
	if err := s.CorrectSort(t.Context(), ferry, "e", Correction{Set: ptr(430_000)}); err != nil {
		t.Error(err)
	}
}

func TestPiecesTakenBackAreBounded(t *testing.T) {
	f := roman()
	f.Sorts[0].OnHand = MaxCount
	s := openChange(t, newShopFile(t, f), false)
	if err := s.RetireSort(t.Context(), ferry, "e"); err != nil {
		t.Fatal(err)
	}
	back := f.Sorts[0]
	back.OnHand = 1
	refused(t, s.AddSort(t.Context(), ferry, back), false, "1000000000 pieces in the ledger", "with 1 more")
	back.OnHand = 0
	if err := s.AddSort(t.Context(), ferry, back); err != nil {
		t.Fatal(err)
	}
}

// A font never gets more sorts than it could have been added with.
func TestSortsAreBounded(t *testing.T) {
	f := Font{Name: "Full", Body: 12_000}
	for i := range MaxSorts {
		f.Sorts = append(f.Sorts, Sort{Name: fmt.Sprint("s", i), Set: 1})
	}
	s := openChange(t, newShopFile(t, f), false)
	if err := s.RetireSort(t.Context(), "Full", "s7"); err != nil {
		t.Fatal(err)
	}
	refused(t, s.AddSort(t.Context(), "Full", Sort{Name: "one more", Set: 1}), false, `font "Full": 4000 sorts are in it`)
	if err := s.AddSort(t.Context(), "Full", Sort{Name: "s7", Set: 2}); err != nil {
		t.Fatal(err)
	}
	_, err := fontOf(t, s, "Full").Sort("s4000")
	refused(t, err, true, `font "Full": no sort "s4000" (it has "s0", `, `"s11" and 3988 more)`)
}

func TestEditRefuses(t *testing.T) {
	path := newShopFile(t, roman(), spaces("Spacing 12", 12_000))
	good := Sort{Name: "x", Text: "x", Set: 500_000}
	with := func(change func(*Sort)) Sort {
		s := good
		change(&s)
		return s
	}
	add := func(font string, sort Sort) func(*Shop) error {
		return func(s *Shop) error { return s.AddSort(t.Context(), font, sort) }
	}
	correct := func(name string, c Correction) func(*Shop) error {
		return func(s *Shop) error { return s.CorrectSort(t.Context(), ferry, name, c) }
	}
	takeBack := func(name string, c Correction, pieces int) func(*Shop) error {
		return func(s *Shop) error { return s.TakeBack(t.Context(), ferry, name, c, pieces) }
	}
	for _, c := range []struct {
		do     func(*Shop) error
		hinted bool
		words  []string
	}{
		{add("Heron 10", good), true, []string{`font "Heron 10": no such font`, "Ferry Roman 12"}},
		{add(" ", good), false, []string{"font name", "empty"}},
		{add(ferry, with(func(s *Sort) { s.Name = "e" })), true, []string{`font "Ferry Roman 12": sort "e" is there already`}},
		{add(ferry, with(func(s *Sort) { s.Text = "e" })), false, []string{`"e" is printed by "e" already`}},
		{add(ferry, with(func(s *Sort) { s.Set = 0 })), false, []string{"set width of 0"}},
		{add(ferry, with(func(s *Sort) { s.Set = MaxSet + 1 })), true, []string{"set width of 10.000001"}},
		{add(ferry, with(func(s *Sort) { s.OnHand = MaxCount + 1 })), false, []string{"count"}},
		{add(ferry, with(func(s *Sort) { s.OnHand = -1 })), false, []string{"count of -1"}},
		{add(ferry, with(func(s *Sort) { s.Standing = 1 })), false, []string{"none of it stands"}},
		{add(ferry, with(func(s *Sort) { s.Basis = "guessed" })), false, []string{`basis "guessed"`}},
		{add(ferry, with(func(s *Sort) { s.Kind = "rune" })), false, []string{`kind "rune"`}},
		{add(ferry, with(func(s *Sort) { s.Name = "\xff" })), false, []string{"not UTF-8"}},
		{add(ferry, with(func(s *Sort) { s.Text = "\xff" })), false, []string{"not UTF-8"}},
		{add("Spacing 12", good), true, []string{`font "Spacing 12": sort "x"`, "holds spaces only"}},
		{correct("þ", Correction{Set: ptr(1)}), true, []string{`font "Ferry Roman 12": no sort "þ"`, `"e", "ffi", "A", "sc A"`}},
		{correct("e", Correction{Name: ptr("A")}), false, []string{`"A" is there already`}},
		{correct("sc A", Correction{Kind: ptr(Capital)}), false, []string{`"A" is printed by "A" already`}},
		{correct("e", Correction{Name: ptr("=1+1")}), false, []string{"formula"}},
		{correct("e", Correction{Kind: ptr(Space), Text: ptr(""), Kerned: ptr(true)}), false, []string{`sort "e"`, "no face to be kerned"}},
		{add(ferry, Sort{Name: "thin", Set: 200_000, Kerned: true}), false, []string{`sort "thin"`, "no face to be kerned"}},
		{correct("e", Correction{Set: ptr(0)}), false, []string{"set width of 0"}},
		{correct("e", Correction{Text: ptr("")}), false, []string{`sort "e" has no text`, "the kind space"}},
		{takeBack("e", Correction{}, 0), false, []string{`font "Ferry Roman 12": no retired sort "e"`}},
		{takeBack("nothing", Correction{}, 0), false, []string{`no retired sort "nothing"`}},
		{takeBack("?U+0041", Correction{}, 0), false, []string{"?U+"}},
		{func(s *Shop) error { return s.RetireSort(t.Context(), ferry, "") }, false, []string{"sort name", "empty"}},
		{func(s *Shop) error { return s.RetireSort(t.Context(), ferry, "E") }, true, []string{`no sort "E"`}},
		{func(s *Shop) error { return s.AddFont(t.Context(), roman()) }, true, []string{`font "Ferry Roman 12" is in the shop already`}},
	} {
		before := snapshot(t, path)
		s := openChange(t, path, false)
		refused(t, c.do(s), c.hinted, c.words...)
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(before, snapshot(t, path)); diff != "" {
			t.Errorf("after %q the file has changed:\n%s", c.words, diff)
		}
	}
}

// Without a text and without a kind, a sort is a space: the one case where an empty
// cell has a meaning.
func TestNoTextIsSpace(t *testing.T) {
	s := openChange(t, newShopFile(t, roman()), false)
	if err := s.AddSort(t.Context(), ferry, Sort{Name: "thin", Set: 200_000}); err != nil {
		t.Fatal(err)
	}
	if f := fontOf(t, s, ferry); f.Sorts[4].Kind != Space || !f.HasSpaces() {
		t.Errorf("sort %+v, want a space", f.Sorts[4])
	}
	refused(t, s.CorrectSort(t.Context(), ferry, "sc A", Correction{Text: ptr("")}), false, "its text is empty")
}

func TestTidyRefusesFonts(t *testing.T) {
	for _, c := range []struct {
		change func(*Font)
		hinted bool
		words  string
	}{
		{func(f *Font) { f.Name = " \t" }, false, "empty"},
		{func(f *Font) { f.Name = "a\x1b[0m" }, false, "U+001B"},
		{func(f *Font) { f.Name = string(make([]byte, 101)) }, false, "longer than 100"},
		{func(f *Font) { f.Body = 0 }, false, "a body of 0pt"},
		{func(f *Font) { f.Body = -12_000 }, false, "a body of -12pt"},
		{func(f *Font) { f.Body = MaxBody + 1 }, false, "a body of 500.001pt"},
		{func(f *Font) { f.Sorts = nil }, false, "no sorts"},
		{func(f *Font) { f.Sorts = make([]Sort, MaxSorts+1) }, false, "4001 sorts"},
		{func(f *Font) { f.Retired = make([]Sort, 1) }, false, "without retired"},
		{func(f *Font) { f.Spacing = true }, true, `sort "e" is of the kind lower`},
	} {
		f := roman()
		c.change(&f)
		_, err := f.Tidy()
		refused(t, err, c.hinted, c.words)
	}
	before := roman()
	before.Sorts[0].Name = " e "
	if after, err := before.Tidy(); err != nil || after.Sorts[0].Name != "e" || before.Sorts[0].Name != " e " {
		t.Errorf("tidied %q, left %q, error %v", after.Sorts[0].Name, before.Sorts[0].Name, err)
	}
}

func TestShares(t *testing.T) {
	f := Font{Sorts: []Sort{{OnHand: 1, Kind: Lower}, {OnHand: 2, Kind: Space}, {OnHand: 0, Kind: Lower}}}
	for pieces, want := range map[int]int{0: 0, 1: 3333, 2: 6667, 3: 10_000} {
		if got, ok := f.Share(pieces); got != want || !ok {
			t.Errorf("share of %d: %d, %v; want %d", pieces, got, ok, want)
		}
	}
	if _, ok := (Font{}).Share(0); ok {
		t.Error("a font of no pieces has a share")
	}
	groups := f.ByKind()
	if len(groups) != 2 || groups[0].Kind != Lower || len(groups[0].Sorts) != 2 || groups[1].Pieces() != 2 {
		t.Errorf("groups %+v", groups)
	}
}

// Any run of edits leaves the shop as a list in memory that is edited alike, and
// what is refused by one is refused by the other.
func TestEditsAgainstList(t *testing.T) {
	names := rapid.SampledFrom([]string{"a", "b", "c", "d", "e"})
	texts := rapid.SampledFrom([]string{"a", "b", "c", "A", "ff", "é"})
	s := openChange(t, newShopFile(t, roman()), false)
	// A power cut is not what is tried here, and hundreds of commits are.
	if _, err := s.db.Exec("PRAGMA synchronous = OFF"); err != nil {
		t.Fatal(err)
	}
	round := 0
	rapid.Check(t, func(r *rapid.T) {
		round++
		font := fmt.Sprint("F", round)
		slow := slowFont{{Sort: Sort{Name: "e", Text: "e", Kind: Lower, Set: 7, OnHand: 3, Basis: Counted}}}
		if err := s.AddFont(t.Context(), Font{Name: font, Body: 1, Sorts: []Sort{slow[0].Sort}}); err != nil {
			r.Fatal(err)
		}
		for range rapid.IntRange(1, 8).Draw(r, "edits") {
			name := names.Draw(r, "name")
			var err error
			var went bool
			switch rapid.IntRange(0, 3).Draw(r, "edit") {
			case 0:
				text := texts.Draw(r, "text")
				sort := Sort{Name: name, Text: text, Kind: KindOf(text), Set: rapid.IntRange(1, 9).Draw(r, "set"), Kerned: rapid.Bool().Draw(r, "kerned"), OnHand: rapid.IntRange(0, 9).Draw(r, "count"), Basis: Counted}
				err = s.AddSort(t.Context(), font, sort)
				went = slow.add(sort)
			case 1:
				to, text := names.Draw(r, "to"), texts.Draw(r, "text")
				err = s.CorrectSort(t.Context(), font, name, Correction{Name: &to, Text: &text, Kind: ptr(Sign)})
				went = slow.correct(name, to, text)
			case 2:
				err = s.RetireSort(t.Context(), font, name)
				went = slow.retire(name)
			case 3:
				pieces := rapid.IntRange(0, 9).Draw(r, "pieces")
				err = s.TakeBack(t.Context(), font, name, Correction{}, pieces)
				went = slow.takeBack(name, pieces)
			}
			if went != (err == nil) {
				r.Fatalf("the list says %v, the shop %v", went, err)
			}
			// The shop sees it coming, and does not leave it to the database.
			var lite *sqlite.Error
			if errors.As(err, &lite) {
				r.Fatalf("refused by the database: %v", err)
			}
			got, err := s.Font(t.Context(), font)
			if err != nil {
				r.Fatal(err)
			}
			if diff := cmp.Diff(slow.font(font), got); diff != "" {
				r.Fatalf("font (-list +shop):\n%s", diff)
			}
		}
	})
}

type slowSort struct {
	Sort
	retired bool
}

type slowFont []slowSort

func (f slowFont) font(name string) Font {
	out := Font{Name: name, Body: 1}
	for _, s := range f {
		if s.retired {
			out.Retired = append(out.Retired, s.Sort)
		} else {
			out.Sorts = append(out.Sorts, s.Sort)
		}
	}
	return out
}

// clash tells whether a sort other than number at has that name or that text.
func (f slowFont) clash(at int, s Sort) bool {
	for i, o := range f {
		if i != at && (o.Name == s.Name || !o.retired && o.Text == s.Text && o.Kind == s.Kind) {
			return true
		}
	}
	return false
}

func (f slowFont) at(name string) int {
	return slices.IndexFunc(f, func(s slowSort) bool { return s.Name == name })
}

func (f *slowFont) add(s Sort) bool {
	i := f.at(s.Name)
	if i >= 0 && !(*f)[i].retired || f.clash(i, s) {
		return false
	}
	if i < 0 {
		*f = append(*f, slowSort{Sort: s})
		return true
	}
	s.OnHand += (*f)[i].OnHand
	(*f)[i] = slowSort{Sort: s}
	return true
}

func (f slowFont) correct(name, to, text string) bool {
	i := f.at(name)
	if i < 0 || f[i].retired {
		return false
	}
	s := f[i].Sort
	s.Name, s.Text, s.Kind = to, text, Sign
	if f.clash(i, s) {
		return false
	}
	f[i].Sort = s
	return true
}

func (f slowFont) takeBack(name string, pieces int) bool {
	i := f.at(name)
	if i < 0 || !f[i].retired || f.clash(i, f[i].Sort) {
		return false
	}
	f[i].retired = false
	f[i].OnHand += pieces
	return true
}

func (f slowFont) retire(name string) bool {
	i := f.at(name)
	if i < 0 || f[i].retired {
		return false
	}
	f[i].retired = true
	return true
}
