package inventory

import (
	"database/sql"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// schema1 copies testdata/schema-1.db, a shop as schema 1 had it: two fonts, a sort retired, one retired and taken back, one
// renamed, and entries of three bases.
func schema1(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", "schema-1.db"))
	if err != nil {
		t.Fatal(err)
	}
	return makeFile(t, data)
}

// ofSchema1 is what that shop holds.
func ofSchema1() []Font {
	return []Font{
		{Name: ferry, Body: 12_000, Sorts: []Sort{
			{Name: "small e", Text: "e", Kind: Lower, Set: 444_400, OnHand: 1800, Basis: Counted},
			{Name: "A", Text: "A", Kind: Capital, Set: 700_000, OnHand: 200, Basis: Counted},
			{Name: "sc A", Text: "A", Kind: SmallCapital, Set: 500_000, Basis: Counted},
			{Name: "f", Text: "f", Kind: Lower, Set: 305_600, OnHand: 320, Basis: Bill},
			{Name: "fi", Text: "fi", Kind: Ligature, Set: 550_000, OnHand: 70, Basis: Counted},
		}, Retired: []Sort{
			{Name: "ffi", Text: "ffi", Kind: Ligature, Set: 833_333, OnHand: 40, Basis: Counted},
		}},
		spaces("Spacing 12", 12_000),
	}
}

// A shop of an older schema answers, and is not written for that.
func TestOldSchemaIsRead(t *testing.T) {
	path := schema1(t)
	before := snapshot(t, path)
	for _, s := range []*Shop{openRead(t, path), openChange(t, path, false), openChange(t, path, true)} {
		fonts, err := s.Fonts(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(ofSchema1(), fonts); diff != "" {
			t.Errorf("fonts (-want +got):\n%s", diff)
		}
		if diff := cmp.Diff(ofSchema1()[0], fontOf(t, s, ferry)); diff != "" {
			t.Errorf("font (-want +got):\n%s", diff)
		}
		if from, err := s.SpacingFor(t.Context(), fonts[0], ""); err != nil || from.Name != "Spacing 12" {
			t.Errorf("spaces from %q, %v", from.Name, err)
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
	s := openChange(t, path, false)
	refused(t, s.RetireSort(t.Context(), ferry, "þ"), true, `no sort "þ"`)
	refused(t, s.AddFont(t.Context(), roman()), true, "in the shop already")
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(before, snapshot(t, path)); diff != "" {
		t.Errorf("the file has changed:\n%s", diff)
	}
}

// tables writes down what the tables of schema 1 hold, a line a row.
func tables(t *testing.T, path string) []string {
	t.Helper()
	db := raw(t, path, forReading)
	defer db.Close()
	var all []string
	for _, query := range []string{
		"SELECT 'font', id, name, body, spacing FROM font ORDER BY id",
		"SELECT 'sort', id, font, name, text, kind, set_width, retired FROM sort ORDER BY id",
		"SELECT 'entry', id, sort, date, kind, change, basis FROM entry ORDER BY id",
	} {
		rows, err := db.Query(query)
		if err != nil {
			t.Fatal(err)
		}
		columns, err := rows.Columns()
		if err != nil {
			t.Fatal(err)
		}
		for rows.Next() {
			cells := make([]any, len(columns))
			for i := range cells {
				cells[i] = new(any)
			}
			if err := rows.Scan(cells...); err != nil {
				t.Fatal(err)
			}
			var row []string
			for _, c := range cells {
				row = append(row, fmt.Sprint(*c.(*any)))
			}
			all = append(all, strings.Join(row, "|"))
		}
		if err := rows.Err(); err != nil {
			t.Fatal(err)
		}
		rows.Close()
	}
	return all
}

// Whatever the first change is, it brings the shop to the newest schema, and changes nothing else.
func TestOldSchemaIsBroughtUpByAChange(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*Shop) error
		want   func([]Font) []Font
		rows   int // that are new, or not as they were
	}{
		{"add a font", func(s *Shop) error { return s.AddFont(t.Context(), spaces("Spacing 10", 10_000)) }, func(f []Font) []Font {
			return slices.Insert(f, 1, spaces("Spacing 10", 10_000))
		}, 5},
		{"add a kerned sort", func(s *Shop) error {
			return s.AddSort(t.Context(), ferry, Sort{Name: "ſ", Text: "ſ", Set: 300_000, Kerned: true, OnHand: 9})
		}, func(f []Font) []Font {
			f[0].Sorts = append(f[0].Sorts, Sort{Name: "ſ", Text: "ſ", Kind: Lower, Set: 300_000, Kerned: true, OnHand: 9, Basis: Counted})
			return f
		}, 2},
		{"take one back as kerned", func(s *Shop) error {
			return s.AddSort(t.Context(), ferry, Sort{Name: "ffi", Text: "ff", Set: 833_333, Kerned: true})
		}, func(f []Font) []Font {
			back := f[0].Retired[0]
			back.Text, back.Kerned = "ff", true
			f[0].Sorts, f[0].Retired = slices.Insert(f[0].Sorts, 1, back), nil
			return f
		}, 1},
		{"mark one as kerned", func(s *Shop) error { return s.CorrectSort(t.Context(), ferry, "f", Correction{Kerned: ptr(true)}) }, func(f []Font) []Font {
			f[0].Sorts[3].Kerned = true
			return f
		}, 0},
		{"retire one", func(s *Shop) error { return s.RetireSort(t.Context(), "Spacing 12", "thick") }, func(f []Font) []Font {
			f[1].Sorts, f[1].Retired = f[1].Sorts[1:], f[1].Sorts[:1]
			return f
		}, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := schema1(t)
			before := tables(t, path)
			reader := openRead(t, path) // and one that had the file open goes on reading
			s := openChange(t, path, false)
			if err := c.change(s); err != nil {
				t.Fatal(err)
			}
			want := c.want(ofSchema1())
			for _, from := range []*Shop{s, reader, openRead(t, path)} {
				got, err := from.Fonts(t.Context())
				if err != nil {
					t.Fatal(err)
				}
				if diff := cmp.Diff(want, got); diff != "" {
					t.Errorf("fonts (-want +got):\n%s", diff)
				}
			}
			after, changed := tables(t, path), 0
			for _, row := range after {
				if !slices.Contains(before, row) {
					changed++
				}
			}
			gone := 0
			for _, row := range before {
				if !slices.Contains(after, row) {
					gone++
				}
			}
			if changed != c.rows || gone > 1 || len(after) != len(before)+changed-gone {
				t.Errorf("%d rows are new and %d gone of %d, want %d new", changed, gone, len(before), c.rows)
			}
			sound(t, path)
		})
	}
}

// sound wants a file of the newest schema, whole, and its ledger guarded as a new one is.
func sound(t *testing.T, path string) {
	t.Helper()
	var version, application int
	var integrity string
	db := raw(t, path, forChanging)
	defer db.Close()
	row := db.QueryRow("SELECT (SELECT user_version FROM pragma_user_version), (SELECT application_id FROM pragma_application_id), (SELECT integrity_check FROM pragma_integrity_check)")
	if err := row.Scan(&version, &application, &integrity); err != nil {
		t.Fatal(err)
	}
	if version != newestSchema || application != applicationID || integrity != "ok" {
		t.Errorf("schema %d, application %#x, integrity %s", version, application, integrity)
	}
	if old, made := objects(t, db), objects(t, raw(t, newShopFile(t, roman()), forReading)); !slices.Equal(old, made) {
		t.Errorf("the database is not that of a new shop:\n%s", cmp.Diff(made, old))
	}
	if _, err := db.Exec("UPDATE entry SET change = 0"); err == nil {
		t.Error("an entry of the ledger can be changed")
	}
}

func objects(t *testing.T, db *sql.DB) (all []string) {
	t.Helper()
	rows, err := db.Query("SELECT type || ' ' || name || ': ' || coalesce(sql, '') FROM sqlite_schema ORDER BY 1")
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	for rows.Next() {
		var object string
		if err := rows.Scan(&object); err != nil {
			t.Fatal(err)
		}
		all = append(all, object)
	}
	return all
}

// The database itself keeps out what is no answer to "kerned?", and a kerned space.
func TestSchemaKeepsKerned(t *testing.T) {
	f := roman()
	f.Sorts = append(f.Sorts, Sort{Name: "thin", Kind: Space, Set: 200_000})
	db := raw(t, newShopFile(t, f), forChanging)
	for _, statement := range []string{
		"UPDATE sort SET kerned = 2 WHERE name = 'e'", "UPDATE sort SET kerned = NULL WHERE name = 'e'", "UPDATE sort SET kerned = 'yes' WHERE name = 'e'",
		"UPDATE sort SET kerned = 1 WHERE name = 'thin'",
	} {
		if _, err := db.Exec(statement); err == nil {
			t.Errorf("%s: went through", statement)
		}
	}
	if _, err := db.Exec("UPDATE sort SET kerned = 1 WHERE name = 'e'"); err != nil {
		t.Error(err)
	}
}

// newestSchema is the number of the last file.
func TestSchemasAreNumberedThrough(t *testing.T) {
	files, err := fs.Glob(schemas, "schema/*.sql")
	if err != nil {
		t.Fatal(err)
	}
	for i, file := range files {
		if want := fmt.Sprintf("schema/%03d.sql", i+1); file != want {
			t.Errorf("%s, want %s", file, want)
		}
	}
	if len(files) != newestSchema {
		t.Errorf("%d schemas, and the newest is %d", len(files), newestSchema)
	}
}
