package inventory

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

var noon = time.Date(2026, 3, 1, 12, 0, 0, 0, time.FixedZone("", 3600))

// roman is a small font as it is read back.
func roman() Font {
	return Font{Name: "Ferry Roman 12", Body: 12_000, Sorts: []Sort{
		{Name: "e", Text: "e", Kind: Lower, Set: 444_400, OnHand: 1800, Basis: Counted},
		{Name: "ffi", Text: "ffi", Kind: Ligature, Set: 833_333, OnHand: 40, Basis: Counted},
		{Name: "A", Text: "A", Kind: Capital, Set: 700_000, OnHand: 200, Basis: Counted},
		{Name: "sc A", Text: "A", Kind: SmallCapital, Set: 500_000, OnHand: 0, Basis: Counted},
	}}
}

func spaces(name string, body int) Font {
	return Font{Name: name, Body: body, Spacing: true, Sorts: []Sort{
		{Name: "thick", Kind: Space, Set: 333_333, OnHand: 1500, Basis: Counted},
		{Name: "em quad", Kind: Space, Set: 1_000_000, OnHand: 300, Basis: Counted},
	}}
}

func shopPath(t *testing.T) string { return filepath.Join(t.TempDir(), "ferry", "shop.db") }

// newShopFile makes a shop of those fonts and gives its path.
func newShopFile(t *testing.T, fonts ...Font) string {
	t.Helper()
	path := shopPath(t)
	s := openChange(t, path, true)
	for _, f := range fonts {
		if err := s.AddFont(t.Context(), f); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

func openChange(t *testing.T, path string, create bool) *Shop {
	t.Helper()
	s, err := OpenForChange(t.Context(), path, create)
	if err != nil {
		t.Fatal(err)
	}
	s.now = func() time.Time { return noon }
	t.Cleanup(func() { _ = s.Close() })
	return s
}

func openRead(t *testing.T, path string) *Shop {
	t.Helper()
	s, err := Open(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	return s
}

// raw opens the database past the shop, with the same settings.
func raw(t *testing.T, path string, mode how) *sql.DB {
	t.Helper()
	db, err := connect(path, mode)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = db.Close() })
	return db
}

// snapshot is the names and hashes of all files in the folder of path.
func snapshot(t *testing.T, path string) map[string]string {
	t.Helper()
	files := map[string]string{}
	entries, err := os.ReadDir(filepath.Dir(path))
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(filepath.Dir(path), e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		files[e.Name()] = fmt.Sprintf("%x", sha256.Sum256(data))
	}
	return files
}

// refused wants an Error whose sentence holds all of the words, and a hint if hinted.
func refused(t *testing.T, err error, hinted bool, words ...string) {
	t.Helper()
	var e *Error
	if !errors.As(err, &e) {
		t.Fatalf("error %v (%T), want an *Error", err, err)
	}
	for _, w := range words {
		if !strings.Contains(err.Error(), w) {
			t.Errorf("error %q does not say %q", err, w)
		}
	}
	if hinted != (e.Advice() != "") {
		t.Errorf("error %q: hint %q, wanted one: %v", err, e.Advice(), hinted)
	}
	if strings.Contains(err.Error(), "\n") {
		t.Errorf("error %q is more than one line", err)
	}
}

func TestAddAndRead(t *testing.T) {
	path := newShopFile(t, spaces("Spacing 12", 12_000), roman())
	s := openRead(t, path)
	fonts, err := s.Fonts(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	// By name in byte order, not as they were added.
	if diff := cmp.Diff([]Font{roman(), spaces("Spacing 12", 12_000)}, fonts); diff != "" {
		t.Errorf("fonts (-want +got):\n%s", diff)
	}
	one, err := s.Font(t.Context(), "  Ferry Roman 12 ")
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(roman(), one); diff != "" {
		t.Errorf("font (-want +got):\n%s", diff)
	}
	_, err = s.Font(t.Context(), "Heron 10")
	refused(t, err, true, `font "Heron 10": no such font`, `"Ferry Roman 12", "Spacing 12"`)
}

// A name that is composed differently is the same name.
func TestNamesAreNFC(t *testing.T) {
	f := roman()
	f.Name = "Fe\u0301rry" // e and a combining acute
	f.Sorts[0] = Sort{Name: "e\u0301", Text: "e\u0301", Set: 444_400}
	path := newShopFile(t, f)
	got, err := openRead(t, path).Font(t.Context(), "F\u00e9rry")
	if err != nil {
		t.Fatal(err)
	}
	want := Sort{Name: "\u00e9", Text: "\u00e9", Kind: Accent, Set: 444_400, Basis: Counted}
	if got.Name != "F\u00e9rry" || got.Sorts[0] != want {
		t.Errorf("got %q, %+v", got.Name, got.Sorts[0])
	}
}

func TestLedgerOfNewFont(t *testing.T) {
	path := shopPath(t)
	s := openChange(t, path, true)
	if err := s.AddFont(t.Context(), roman()); err != nil {
		t.Fatal(err)
	}
	rows, err := s.db.Query("SELECT entry.id, sort.name, entry.date, entry.kind, entry.change, entry.basis FROM entry JOIN sort ON sort.id = entry.sort ORDER BY entry.id")
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	var got []string
	for rows.Next() {
		var id, change int
		var name, date, kind, basis string
		if err := rows.Scan(&id, &name, &date, &kind, &change, &basis); err != nil {
			t.Fatal(err)
		}
		got = append(got, fmt.Sprint(id, " ", name, " ", date, " ", kind, " ", change, " ", basis))
	}
	want := []string{
		"1 e 2026-03-01T11:00:00Z opening 1800 counted",
		"2 ffi 2026-03-01T11:00:00Z opening 40 counted",
		"3 A 2026-03-01T11:00:00Z opening 200 counted",
		"4 sc A 2026-03-01T11:00:00Z opening 0 counted",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("ledger (-want +got):\n%s", diff)
	}
}

// Unknown settings in a data source name pass in silence, so all are read back.
func TestSettings(t *testing.T) {
	path := newShopFile(t, roman())
	for _, mode := range []how{forReading, forChanging, forMaking} {
		db := raw(t, path, mode)
		for pragma, want := range map[string]string{
			"busy_timeout": "5000", "foreign_keys": "1", "recursive_triggers": "1",
			"synchronous": "2", "journal_mode": "delete", "cell_size_check": "1",
			"application_id": fmt.Sprint(0x466D5773), "user_version": "2",
		} {
			var got string
			if err := db.QueryRow("PRAGMA " + pragma).Scan(&got); err != nil {
				t.Fatal(err)
			}
			if got != want {
				t.Errorf("%s: %s is %s, want %s", mode, pragma, got, want)
			}
		}
		// _dqs=0: a misspelt name is an error and not a string.
		if err := db.QueryRow(`SELECT "nonsense" FROM font`).Err(); err == nil {
			t.Errorf("%s: a name in double quotes that is none passes for a string", mode)
		}
		_, err := db.Exec("DELETE FROM sort")
		if mode == forReading && (err == nil || !strings.Contains(err.Error(), "readonly")) {
			t.Errorf("a shop opened for reading can be written: %v", err)
		}
	}
}

// With _txlock=immediate a transaction has the lock before its first statement.
func TestTransactionsAreImmediate(t *testing.T) {
	path := newShopFile(t, roman())
	tx, err := raw(t, path, forChanging).Begin()
	if err != nil {
		t.Fatal(err)
	}
	defer tx.Rollback()
	db := raw(t, path, forChanging)
	if _, err := db.Exec("PRAGMA busy_timeout = 0"); err != nil {
		t.Fatal(err)
	}
	_, err = db.Begin()
	refused(t, plain(t.Context(), path, err), true, "another program is using it")
	// Readers go on meanwhile.
	if _, err := openRead(t, path).Fonts(t.Context()); err != nil {
		t.Error(err)
	}
}

func TestLedgerIsAppendOnly(t *testing.T) {
	path := newShopFile(t, roman())
	before := snapshot(t, path)
	db := raw(t, path, forChanging)
	for _, statement := range []string{
		"UPDATE entry SET change = 5",
		"UPDATE entry SET id = 99 WHERE id = 1",
		"DELETE FROM entry",
		"DELETE FROM entry WHERE id = 1",
		"INSERT OR REPLACE INTO entry (id, sort, date, kind, change, basis) VALUES (1, 1, '', 'opening', 5, 'counted')",
		"REPLACE INTO entry (id, sort, date, kind, change, basis) VALUES (1, 1, '', 'opening', 5, 'counted')",
		"UPDATE OR IGNORE entry SET change = 5",
	} {
		if _, err := db.Exec(statement); err == nil || !strings.Contains(err.Error(), "an entry of the ledger is never") {
			t.Errorf("%s: error %v, want that of the trigger", statement, err)
		}
	}
	// A sort that has entries cannot go either, nor a font that has sorts.
	for _, statement := range []string{"DELETE FROM sort WHERE id = 1", "DELETE FROM font", "INSERT OR REPLACE INTO sort (id, font, name, text, kind, set_width) VALUES (99, 1, 'e', 'e', 'lower', 1)"} {
		if _, err := db.Exec(statement); err == nil || !strings.Contains(err.Error(), "FOREIGN KEY") {
			t.Errorf("%s: error %v, want that of a foreign key", statement, err)
		}
	}
	if diff := cmp.Diff(before, snapshot(t, path)); diff != "" {
		t.Errorf("the file has changed:\n%s", diff)
	}
}

func TestSchemasAreNumbered(t *testing.T) {
	files, err := schemas.ReadDir("schema")
	if err != nil {
		t.Fatal(err)
	}
	for i, f := range files {
		if want := fmt.Sprintf("%03d.sql", i+1); f.Name() != want {
			t.Errorf("schema file %q, want %q", f.Name(), want)
		}
	}
	if len(files) != newestSchema {
		t.Errorf("%d schema files, and the newest schema is %d", len(files), newestSchema)
	}
}

func TestMissingAndEmptyFiles(t *testing.T) {
	missing := filepath.Join(t.TempDir(), "no", "shop.db")
	_, err := Open(t.Context(), missing)
	refused(t, err, true, "there is no such file", missing)
	var e *Error
	if errors.As(err, &e); !strings.Contains(e.Hint, "formewise font add") {
		t.Errorf("hint %q does not name font add", e.Hint)
	}
	if !errors.Is(err, os.ErrNotExist) {
		t.Errorf("error %v is not os.ErrNotExist", err)
	}
	_, err = OpenForChange(t.Context(), missing, false)
	refused(t, err, true, "there is no such file")
	if _, err := os.Stat(filepath.Dir(missing)); !errors.Is(err, os.ErrNotExist) {
		t.Error("opening made a folder")
	}

	empty := makeFile(t, nil)
	_, err = Open(t.Context(), empty)
	refused(t, err, true, "holds no fonts yet")
	_, err = OpenForChange(t.Context(), empty, false)
	refused(t, err, true, "holds no fonts yet")
	if len(snapshot(t, empty)) != 1 {
		t.Error("files were made beside an empty one")
	}
	s := openChange(t, empty, true)
	if err := s.AddFont(t.Context(), roman()); err != nil {
		t.Fatal(err)
	}
	if f, err := openRead(t, empty).Font(t.Context(), "Ferry Roman 12"); err != nil || f.Pieces() != 2040 {
		t.Errorf("font %+v, error %v", f, err)
	}

	// An SQLite file that nothing was put in is an empty shop too.
	bare := makeDatabase(t, "CREATE TABLE a (b)", "DROP TABLE a")
	_, err = Open(t.Context(), bare)
	refused(t, err, true, "holds no fonts yet")
	if err := openChange(t, bare, true).AddFont(t.Context(), roman()); err != nil {
		t.Error(err)
	}

	_, err = Open(t.Context(), filepath.Join(empty, "shop.db"))
	refused(t, err, false, "not a directory")
}

// What is refused makes no file, and opening alone does not either.
func TestRefusedFirstFontMakesNothing(t *testing.T) {
	path := shopPath(t)
	s := openChange(t, path, true)
	if fonts, err := s.Fonts(t.Context()); fonts != nil || err != nil {
		t.Errorf("fonts %v, error %v; want none of either", fonts, err)
	}
	bad := roman()
	bad.Sorts[1].Name = "e"
	refused(t, s.AddFont(t.Context(), bad), false, `font "Ferry Roman 12": sort "e" is there already`)
	refused(t, s.RetireSort(t.Context(), "Ferry Roman 12", "e"), true, "the shop holds none yet")
	_, err := s.Font(t.Context(), "Ferry Roman 12")
	refused(t, err, true, "the shop holds none yet")
	if _, err := os.Stat(filepath.Dir(path)); !errors.Is(err, os.ErrNotExist) {
		t.Error("a refusal made the folder")
	}
}

func TestFolderCannotBeMade(t *testing.T) {
	file := makeFile(t, []byte("in the way"))
	s, err := OpenForChange(t.Context(), filepath.Join(filepath.Dir(file), "new", "shop.db"), true)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(filepath.Dir(file), "new"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	refused(t, s.AddFont(t.Context(), roman()), true, "its folder cannot be made")
}

func TestReadOnlyFolder(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("permissions hold nobody back who is root")
	}
	path := newShopFile(t, roman())
	for file, mode := range map[string]os.FileMode{path: 0o400, filepath.Dir(path): 0o500} {
		if err := os.Chmod(file, mode); err != nil {
			t.Fatal(err)
		}
	}
	t.Cleanup(func() { _ = os.Chmod(filepath.Dir(path), 0o700) })
	if _, err := openRead(t, path).Fonts(t.Context()); err != nil {
		t.Error(err)
	}
	before := snapshot(t, path)
	s := openChange(t, path, false)
	refused(t, s.AddFont(t.Context(), spaces("Spacing 12", 12_000)), true, "it cannot be written")
	if diff := cmp.Diff(before, snapshot(t, path)); diff != "" {
		t.Errorf("the file has changed:\n%s", diff)
	}
}

// A file name is a name and never part of a query.
func TestOddFileNames(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no file can be called that")
	}
	dir := t.TempDir()
	for _, name := range []string{"a?mode=memory", "a#b", "100%41.db", "two words é.db", "a&b=c.db", ":memory:"} {
		path := filepath.Join(dir, name)
		s := openChange(t, path, true)
		if err := s.AddFont(t.Context(), roman()); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if _, err := openRead(t, path).Font(t.Context(), "Ferry Roman 12"); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if info, err := os.Stat(path); err != nil || info.Size() == 0 {
			t.Errorf("%s: not where it should be: %v", name, err)
		}
	}
	if name, err := dataSource("x?y", forReading); err != nil {
		t.Error(err)
	} else if u, err := url.Parse(name); err != nil || !strings.HasSuffix(u.Path, "/x?y") {
		t.Errorf("data source %q, error %v", name, err)
	}
}

// Many handles on one file that is not there yet: every font gets in, once.
func TestShopsAtOnce(t *testing.T) {
	path := shopPath(t)
	const shops, each = 6, 5
	var all sync.WaitGroup
	errs := make(chan error, 2*shops*each)
	for w := range shops {
		all.Go(func() {
			s, err := OpenForChange(context.Background(), path, true)
			if err != nil {
				errs <- err
				return
			}
			defer s.Close()
			for i := range each {
				f := roman()
				f.Name = fmt.Sprintf("Font %d-%d", w, i)
				errs <- s.AddFont(context.Background(), f)
				// And one name that all of them want: one gets it.
				f.Name = fmt.Sprintf("Wanted %d", i)
				if err := s.AddFont(context.Background(), f); err != nil && !strings.Contains(err.Error(), "is in the shop already") {
					errs <- err
				}
			}
		})
	}
	all.Wait()
	close(errs)
	for err := range errs {
		if err != nil {
			t.Error(err)
		}
	}
	s := openRead(t, path)
	fonts, err := s.Fonts(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if len(fonts) != shops*each+each {
		t.Errorf("%d fonts, want %d", len(fonts), shops*each+each)
	}
	var entries int
	var word string
	if err := s.db.QueryRow("SELECT (SELECT count(*) FROM entry), (SELECT integrity_check FROM pragma_integrity_check)").Scan(&entries, &word); err != nil {
		t.Fatal(err)
	}
	if entries != 4*len(fonts) || word != "ok" {
		t.Errorf("%d entries, integrity %q; want %d and ok", entries, word, 4*len(fonts))
	}
}

func TestInterrupted(t *testing.T) {
	path := newShopFile(t, roman())
	before := snapshot(t, path)
	s := openChange(t, path, false)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if err := s.AddFont(ctx, spaces("Spacing 12", 12_000)); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want context.Canceled", err)
	}
	if _, err := s.Fonts(ctx); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want context.Canceled", err)
	}
	if _, err := Open(ctx, path); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want context.Canceled", err)
	}
	if diff := cmp.Diff(before, snapshot(t, path)); diff != "" {
		t.Errorf("the file has changed:\n%s", diff)
	}
}
