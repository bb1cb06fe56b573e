package inventory

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
)

// applicationID marks a shop file in the header of the database: "FmWs".
const applicationID = 0x466D5773

// schemas holds 001.sql, 002.sql, …: number n brings a shop of schema n-1 to n.
// A file that has been released is never edited, only followed by the next.
//
//go:embed schema/*.sql
var schemas embed.FS

// newestSchema is the number of the last file in schemas.
const newestSchema = 2

// querier is what reads: a database, or a transaction in it.
type querier interface {
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

// identity is what the header of a database says of itself.
type identity struct {
	application, version int
	empty                bool // no tables, no marks: a database that nothing was put in yet
}

func identify(ctx context.Context, q querier) (identity, error) {
	var id identity
	var tables int
	err := q.QueryRowContext(ctx, "SELECT count(*) FROM sqlite_schema").Scan(&tables)
	if err == nil {
		err = q.QueryRowContext(ctx, "PRAGMA application_id").Scan(&id.application)
	}
	if err == nil {
		err = q.QueryRowContext(ctx, "PRAGMA user_version").Scan(&id.version)
	}
	id.empty = tables == 0 && id.application == 0 && id.version == 0
	return id, err
}

// refusal says why a database of that identity, not empty, is no shop for us, or nil.
func (id identity) refusal(path string) error {
	switch {
	case id.application != applicationID:
		return foreignDatabase(path, id.application)
	case id.version > newestSchema:
		return newerSchema(path, id.version, newestSchema)
	case id.version < 1:
		return damaged(path, "it names no schema")
	}
	return nil
}

// upgrade brings a shop to the newest schema inside the transaction of a change,
// so that a new shop comes into being with its first font or not at all.
func upgrade(ctx context.Context, tx *sql.Tx, path string) error {
	id, err := identify(ctx, tx)
	if err != nil {
		return err
	}
	if !id.empty {
		if err := id.refusal(path); err != nil {
			return err
		}
	}
	for n := id.version + 1; n <= newestSchema; n++ {
		script, err := schemas.ReadFile(fmt.Sprintf("schema/%03d.sql", n))
		if err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, string(script)); err != nil {
			return fmt.Errorf("schema %d: %w", n, err)
		}
		// A PRAGMA takes no parameters; both are numbers of our own.
		marks := fmt.Sprintf("PRAGMA application_id = %d; PRAGMA user_version = %d", applicationID, n)
		if _, err := tx.ExecContext(ctx, marks); err != nil {
			return err
		}
	}
	return nil
}
