package inventory

import (
	"cmp"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"time"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"
)

// Shop is one open shop file, used by one goroutine at a time. Several programs may
// have the file open at once: who changes it waits up to five seconds for the others.
type Shop struct {
	path string
	db   *sql.DB          // nil as long as the file is still to be made
	now  func() time.Time // the date of new entries
}

// how says what a database is opened for, as SQLite's own word for it.
type how string

const (
	forReading  how = "ro"
	forChanging how = "rw"
	forMaking   how = "rwc"
)

// Open opens a shop file for reading. It never makes a file, and no method of the
// Shop can change it. The error says what is the matter: no such file, no fonts
// in it yet, no database, that of another program, a newer schema, damage.
func Open(ctx context.Context, path string) (*Shop, error) {
	size, err := measureFile(path)
	if err != nil {
		return nil, err
	}
	if size == 0 {
		return nil, noFontsYet(path)
	}
	return open(ctx, path, forReading, false)
}

// OpenForChange opens a shop file to be changed. With create a file that is
// missing or empty is made, and its folders too, but only by the first AddFont,
// so that a refusal leaves nothing behind; without, it is refused as by Open.
func OpenForChange(ctx context.Context, path string, create bool) (*Shop, error) {
	size, err := measureFile(path)
	if create && (errors.Is(err, os.ErrNotExist) || err == nil && size == 0) {
		return newShop(path, nil), nil
	}
	if err != nil {
		return nil, err
	}
	if size == 0 {
		return nil, noFontsYet(path)
	}
	return open(ctx, path, forChanging, create)
}

// Close closes the file. The Shop is of no use afterwards.
func (s *Shop) Close() error {
	if s.db == nil {
		return nil
	}
	return s.db.Close()
}

func newShop(path string, db *sql.DB) *Shop {
	return &Shop{path: path, db: db, now: time.Now}
}

// smallestDatabase is the smallest page of an SQLite file, in bytes.
const smallestDatabase = 512

// measureFile gives the size of the shop file in bytes, or says why it is none.
func measureFile(path string) (int64, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return 0, missingFile(path, err)
	case err != nil:
		return 0, &Error{What: fmt.Sprintf("shop file %q: %s", path, systemWord(err)), cause: err}
	case info.IsDir():
		return 0, isFolder(path)
	case info.Size() > 0 && info.Size() < smallestDatabase:
		return 0, notDatabase(path) // SQLite would take it for an empty one
	}
	return info.Size(), nil
}

// systemWord is what the system said, without the operation and path it names.
func systemWord(err error) string {
	var at *os.PathError
	if errors.As(err, &at) {
		return at.Err.Error()
	}
	return err.Error()
}

// open opens a file that is there; an SQLite file in which there is nothing at all
// is taken for a shop to be if mayBeEmpty.
func open(ctx context.Context, path string, mode how, mayBeEmpty bool) (*Shop, error) {
	// A first look that takes no locks, rolls nothing back and makes no files
	// beside the database leaves one that is not ours exactly as it is. Only where
	// the making of a database was cut off there may be nothing to see yet.
	err := look(ctx, path)
	if isCode(err, sqlite3.SQLITE_NOTADB) && journalBeside(path) {
		err = nil
	}
	var db *sql.DB
	if err == nil {
		db, err = connect(path, mode)
	}
	if err != nil {
		return nil, plain(ctx, path, err)
	}
	id, err := identify(ctx, db)
	if mode == forReading && isCode(err, sqlite3.SQLITE_READONLY_ROLLBACK) {
		if err = rollBack(ctx, path); err == nil {
			id, err = identify(ctx, db)
		}
	}
	switch {
	case err != nil:
	case id.empty && !mayBeEmpty:
		err = noFontsYet(path)
	case !id.empty:
		err = id.refusal(path)
	}
	if err != nil {
		_ = db.Close() // what matters is err
		return nil, plain(ctx, path, err)
	}
	return newShop(path, db), nil
}

func look(ctx context.Context, path string) error {
	db, err := connect(path, forReading, "immutable", "1")
	if err != nil {
		return err
	}
	id, err := identify(ctx, db)
	if err == nil && !id.empty {
		err = id.refusal(path)
	}
	return cmp.Or(err, db.Close())
}

func isCode(err error, code int) bool {
	var lite *sqlite.Error
	return errors.As(err, &lite) && lite.Code() == code
}

// journalBeside tells whether a change is under way, or was cut off, by a power cut
// say, and must be rolled back before the file can be read.
func journalBeside(path string) bool {
	info, err := os.Stat(path + "-journal")
	return err == nil && info.Size() > 0
}

// rollBack brings a file whose last change was cut off to where it was before it.
func rollBack(ctx context.Context, path string) error {
	db, err := connect(path, forChanging)
	if err != nil {
		return err
	}
	// SQLite rolls back by itself when it first reads.
	_, err = identify(ctx, db)
	return cmp.Or(err, db.Close())
}

// connect makes a handle on the database; nothing is opened until it is used.
// more is keys and values that SQLite takes in the name of a file.
func connect(path string, mode how, more ...string) (*sql.DB, error) {
	name, err := dataSource(path, mode, more...)
	if err != nil {
		return nil, err
	}
	db, err := sql.Open("sqlite", name)
	if err != nil {
		return nil, err
	}
	// One connection: the methods of one Shop wait for each other here, and not
	// at the lock of the file.
	db.SetMaxOpenConns(1)
	return db, nil
}

func dataSource(path string, mode how, more ...string) (string, error) {
	whole, err := filepath.Abs(path)
	if err != nil {
		return "", err
	}
	whole = filepath.ToSlash(whole)
	if !strings.HasPrefix(whole, "/") { // C:/…
		whole = "/" + whole
	}
	// These hold for a connection, not for the file, so they are said every time.
	q := url.Values{
		"mode":          {string(mode)},
		"_busy_timeout": {"5000"},
		"_foreign_keys": {"1"},
		"_dqs":          {"0"},
		"_defensive":    {"1"},
		"_synchronous":  {"FULL"},
		"_error_rc":     {"1"},
		"_pragma":       {"recursive_triggers(1)", "cell_size_check(1)"},
	}
	if mode != forReading {
		q.Set("_txlock", "immediate")
	}
	for i := 0; i+1 < len(more); i += 2 {
		q.Set(more[i], more[i+1])
	}
	u := url.URL{Scheme: "file", Path: whole, RawQuery: q.Encode()}
	return u.String(), nil
}

// change runs do in one immediate transaction. Whatever goes wrong, the file is
// as it was.
func (s *Shop) change(ctx context.Context, do func(*sql.Tx) error) error {
	tx, err := s.db.BeginTx(ctx, nil)
	if err != nil {
		return plain(ctx, s.path, err)
	}
	defer func() { _ = tx.Rollback() }() // after Commit it does nothing
	if err = upgrade(ctx, tx, s.path); err == nil {
		err = do(tx)
	}
	if err == nil {
		err = tx.Commit()
	}
	return plain(ctx, s.path, err)
}

// read runs do in one transaction that only reads, so that all of it speaks of one
// moment of the shop, and of one schema.
func (s *Shop) read(ctx context.Context, do func(querier) error) error {
	tx, err := s.db.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return plain(ctx, s.path, err)
	}
	defer func() { _ = tx.Rollback() }() // there is nothing to keep
	return plain(ctx, s.path, do(tx))
}

// make makes the folders of a shop file that is to be made, and opens it.
func (s *Shop) make() error {
	if err := os.MkdirAll(filepath.Dir(s.path), 0o700); err != nil {
		return &Error{What: fmt.Sprintf("shop file %q: its folder cannot be made: %s", s.path, systemWord(err)), Hint: "name a file in another folder with --shop", cause: err}
	}
	db, err := connect(s.path, forMaking)
	if err != nil {
		return fmt.Errorf("shop file %q: %w", s.path, err)
	}
	s.db = db
	return nil
}
