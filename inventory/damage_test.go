package inventory

import (
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// makeDatabase makes an SQLite file past the shop.
func makeDatabase(t *testing.T, statements ...string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "other.db")
	db, err := sql.Open("sqlite", path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	for _, s := range statements {
		if _, err := db.Exec(s); err != nil {
			t.Fatal(err)
		}
	}
	return path
}

func makeFile(t *testing.T, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "file.db")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestFilesThatAreNoShop(t *testing.T) {
	good, err := os.ReadFile(newShopFile(t, roman()))
	if err != nil {
		t.Fatal(err)
	}
	ours := fmt.Sprintf("PRAGMA application_id = %d", applicationID)
	for _, c := range []struct {
		name, path string
		words      []string
	}{
		{"a text", makeFile(t, []byte("sort,text,kind,set,count\n"+strings.Repeat("e,e,lower,0.4,1\n", 100))), []string{"no shop file", "not an SQLite database"}},
		{"one byte", makeFile(t, []byte("x")), []string{"no shop file"}},
		{"the head of a database alone", makeFile(t, good[:100]), []string{"no shop file"}},
		{"a file of zeros", makeFile(t, make([]byte, 8192)), []string{"no shop file"}},
		{"another database", makeDatabase(t, "CREATE TABLE font (id)"), []string{"database of another program", "application id 0"}},
		{"another application", makeDatabase(t, "CREATE TABLE a (b)", "PRAGMA application_id = 77"), []string{"another program", "77"}},
		{"another application, with a write-ahead log", makeDatabase(t, "PRAGMA journal_mode = WAL", "CREATE TABLE a (b)", "PRAGMA application_id = 77"), []string{"another program", "77"}},
		{"a newer schema", makeDatabase(t, "CREATE TABLE a (b)", ours, "PRAGMA user_version = 9"), []string{"newer formewise", "schema 9", "up to 2"}},
		{"no schema", makeDatabase(t, "CREATE TABLE a (b)", ours), []string{"damaged", "names no schema"}},
		{"a folder", t.TempDir(), []string{"it is a folder"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			folder := c.name == "a folder"
			var before map[string]string
			if !folder {
				before = snapshot(t, c.path)
			}
			_, err := Open(t.Context(), c.path)
			refused(t, err, true, append(c.words, c.path)...)
			for _, create := range []bool{false, true} {
				_, err = OpenForChange(t.Context(), c.path, create)
				refused(t, err, true, append(c.words, c.path)...)
			}
			if folder {
				return
			}
			if diff := cmp.Diff(before, snapshot(t, c.path)); diff != "" {
				t.Errorf("the file has changed:\n%s", diff)
			}
		})
	}
}

// A shop whose tables are not those of its schema, and one with a page missing.
func TestDamagedShop(t *testing.T) {
	ours := fmt.Sprintf("PRAGMA application_id = %d", applicationID)
	noTables := makeDatabase(t, "CREATE TABLE a (b)", ours, "PRAGMA user_version = 1")
	good, err := os.ReadFile(newShopFile(t, roman()))
	if err != nil {
		t.Fatal(err)
	}
	cut := makeFile(t, good[:len(good)/2])
	zeroed := append([]byte{}, good...)
	clear(zeroed[4096:])
	wrong := newShopFile(t, roman())
	db := raw(t, wrong, forChanging)
	for _, statement := range []string{"PRAGMA ignore_check_constraints = 1", "UPDATE sort SET set_width = -5 WHERE name = 'e'"} {
		if _, err := db.Exec(statement); err != nil {
			t.Fatal(err)
		}
	}
	db.Close()
	notUTF8 := newShopFile(t, roman())
	db = raw(t, notUTF8, forChanging)
	if _, err := db.Exec("UPDATE sort SET name = CAST(x'ff' AS TEXT) WHERE name = 'e'"); err != nil {
		t.Fatal(err)
	}
	db.Close()

	for name, path := range map[string]string{"no tables": noTables, "cut": cut, "zeroed": makeFile(t, zeroed), "wrong": wrong, "not UTF-8": notUTF8} {
		t.Run(name, func(t *testing.T) {
			before := snapshot(t, path)
			s, err := Open(t.Context(), path)
			if err == nil {
				defer s.Close()
				_, err = s.Fonts(t.Context())
			}
			refused(t, err, true, "it is damaged", path)
			w, err := OpenForChange(t.Context(), path, true)
			if err == nil {
				defer w.Close()
				err = w.RetireSort(t.Context(), "Ferry Roman 12", "e")
			}
			refused(t, err, true, "it is damaged", path)
			if diff := cmp.Diff(before, snapshot(t, path)); diff != "" {
				t.Errorf("the file has changed:\n%s", diff)
			}
		})
	}
}

// A change that was cut off before it was whole is undone by whoever reads next.
func TestCutOffChangeIsRolledBack(t *testing.T) {
	path := newShopFile(t, roman())
	db := raw(t, path, forChanging)
	tx, err := db.Begin()
	if err != nil {
		t.Fatal(err)
	}
	defer tx.Rollback()
	// With a cache of nearly nothing SQLite writes pages before the commit.
	for _, statement := range []string{
		"PRAGMA cache_size = 1",
		"WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 20000) INSERT INTO entry (sort, date, kind, change, basis) SELECT 1, '', 'opening', i, 'counted' FROM n",
		"UPDATE sort SET set_width = 1",
	} {
		if _, err := tx.Exec(statement); err != nil {
			t.Fatal(err)
		}
	}
	cut := filepath.Join(t.TempDir(), "shop.db")
	for _, part := range []string{"-journal", ""} {
		data, err := os.ReadFile(path + part)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(cut+part, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if len(snapshot(t, cut)) != 2 {
		t.Fatal("no journal to roll back")
	}
	f, err := openRead(t, cut).Font(t.Context(), "Ferry Roman 12")
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(roman(), f); diff != "" {
		t.Errorf("font (-want +got):\n%s", diff)
	}
	if files := snapshot(t, cut); len(files) != 1 {
		t.Errorf("files %v, want the shop alone", files)
	}
}

// The same, where the change that was cut off was to make the shop: nothing was
// entered, and the file can still become one.
func TestCutOffMakingIsRolledBack(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.db")
	tx, err := raw(t, path, forMaking).Begin()
	if err != nil {
		t.Fatal(err)
	}
	defer tx.Rollback()
	if _, err := tx.Exec("PRAGMA cache_size = 1"); err != nil {
		t.Fatal(err)
	}
	if err := upgrade(t.Context(), tx, path); err != nil {
		t.Fatal(err)
	}
	for i := range 2000 {
		if _, err := tx.Exec("INSERT INTO font (name, body, spacing) VALUES (?, 1, 0)", fmt.Sprint(strings.Repeat("x", 90), i)); err != nil {
			t.Fatal(err)
		}
	}
	cut := filepath.Join(t.TempDir(), "shop.db")
	for _, part := range []string{"-journal", ""} {
		data, err := os.ReadFile(path + part)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(cut+part, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if info, err := os.Stat(cut); err != nil || info.Size() == 0 {
		t.Fatal("nothing was written before the commit")
	}
	_, err = Open(t.Context(), cut)
	refused(t, err, true, "holds no fonts yet")
	if err := openChange(t, cut, true).AddFont(t.Context(), roman()); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(roman(), fontOf(t, openRead(t, cut), ferry)); diff != "" {
		t.Errorf("font (-want +got):\n%s", diff)
	}
}

// A file that may not grow stands for a full disk.
func TestDiskFull(t *testing.T) {
	path := newShopFile(t, roman())
	before := snapshot(t, path)
	s := openChange(t, path, false)
	if _, err := s.db.Exec("PRAGMA max_page_count = 10"); err != nil {
		t.Fatal(err)
	}
	big := Font{Name: "Big", Body: 12_000}
	for i := range 1000 {
		big.Sorts = append(big.Sorts, Sort{Name: fmt.Sprint("s", i), Set: 1})
	}
	refused(t, s.AddFont(t.Context(), big), true, "the disk is full", path)
	if _, err := s.Fonts(t.Context()); err != nil {
		t.Error(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(before, snapshot(t, path)); diff != "" {
		t.Errorf("the file has changed:\n%s", diff)
	}
}

// Bytes changed anywhere in the file give an error or a font that could have been
// entered, and never a crash.
func TestChangedBytes(t *testing.T) {
	good, err := os.ReadFile(newShopFile(t, roman(), spaces("Spacing 12", 12_000)))
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "shop.db")
	rapid.Check(t, func(r *rapid.T) {
		bad := slices.Clone(good)
		for range rapid.IntRange(1, 8).Draw(r, "bytes") {
			bad[rapid.IntRange(0, len(bad)-1).Draw(r, "at")] = rapid.Byte().Draw(r, "byte")
		}
		if err := os.WriteFile(path, bad, 0o600); err != nil {
			r.Fatal(err)
		}
		s, err := Open(t.Context(), path)
		if err == nil {
			var fonts []Font
			fonts, err = s.Fonts(t.Context())
			for _, f := range fonts {
				for _, sort := range append(f.Sorts, f.Retired...) {
					if !sort.sound() {
						r.Fatalf("font %q has the sort %+v", f.Name, sort)
					}
				}
			}
			_ = s.Close()
		}
		var e *Error
		if err != nil && !errors.As(err, &e) {
			r.Fatalf("error %v (%T), want an *Error", err, err)
		}
	})
}
