package inventory

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"
)

// Error is a refusal: What is wrong with which thing and what is allowed, in one
// sentence, and a Hint at what to do, or "".
type Error struct {
	What, Hint string

	cause error
}

func (e *Error) Error() string { return e.What }

// Advice is the hint.
func (e *Error) Advice() string { return e.Hint }

func (e *Error) Unwrap() error { return e.cause }

// refuse makes an Error; the hint comes first because the sentence has arguments.
func refuse(hint, format string, args ...any) error {
	return &Error{What: fmt.Sprintf(format, args...), Hint: hint}
}

// within says in which thing an error happened, and keeps its hint.
func within(err error, format string, args ...any) error {
	out := &Error{What: fmt.Sprintf(format, args...) + ": " + err.Error(), cause: err}
	var inner *Error
	if errors.As(err, &inner) {
		out.Hint = inner.Hint
	}
	return out
}

const hintBackup = "put a copy of the file from a backup in its place, or name another file with --shop"

func missingFile(path string, cause error) error {
	return &Error{
		What:  fmt.Sprintf("shop file %q: there is no such file", path),
		Hint:  "`formewise font add NAME --body 12pt --sorts FILE` makes it with its first font; --shop names another",
		cause: cause,
	}
}

func noFontsYet(path string) error {
	return refuse("`formewise font add NAME --body 12pt --sorts FILE` enters the first", "shop file %q holds no fonts yet", path)
}

func isFolder(path string) error {
	return refuse("name a file with --shop", "shop file %q: it is a folder", path)
}

func notDatabase(path string) error {
	return refuse("name another file with --shop; the file was not touched", "shop file %q: it is no shop file (not an SQLite database)", path)
}

func foreignDatabase(path string, application int) error {
	return refuse("name another file with --shop; the file was not touched",
		"shop file %q: it is the database of another program (application id %d, that of a shop file is %d)", path, application, applicationID)
}

func newerSchema(path string, version, known int) error {
	return refuse("use a newer formewise for this file; it was not touched",
		"shop file %q: it was written by a newer formewise (schema %d, this one knows up to %d)", path, version, known)
}

func damaged(path, why string) error {
	return refuse(hintBackup, "shop file %q: it is damaged (%s)", path, why)
}

func unknownFont(name string, known []string) error {
	if len(known) == 0 {
		return refuse("`formewise font add NAME --body 12pt --sorts FILE` enters one", "font %q: no such font; the shop holds none yet", name)
	}
	return refuse("`formewise font list` shows them all, and `formewise font add NAME --body 12pt --sorts FILE` enters another",
		"font %q: no such font (the shop has %s)", name, list(known))
}

// unknownSort leaves it to the caller to name the font.
func unknownSort(f Font, name string) error {
	for _, s := range f.Retired {
		if s.Name == name {
			return refuse(fmt.Sprintf("`formewise font edit %q --add %q` takes it back", f.Name, name),
				"the sort %q is retired", name)
		}
	}
	if len(f.Sorts) == 0 {
		return refuse("", "no sort %q (all its sorts are retired)", name)
	}
	var known []string
	for _, s := range f.Sorts {
		known = append(known, s.Name)
	}
	return refuse(fmt.Sprintf("`formewise font show %q` lists them all", f.Name), "no sort %q (it has %s)", name, list(known))
}

// list names some things, the first dozen if there are more than that.
func list(names []string) string {
	const most = 12
	more := ""
	if len(names) > most+1 {
		more = fmt.Sprintf(" and %d more", len(names)-most)
		names = names[:most]
	}
	quoted := make([]string, len(names))
	for i, n := range names {
		quoted[i] = fmt.Sprintf("%q", n)
	}
	return strings.Join(quoted, ", ") + more
}

// plain turns an error of SQLite into a sentence about the shop file. What is an
// Error already, and the end of the context, go through as they are.
func plain(ctx context.Context, path string, err error) error {
	var ours *Error
	if err == nil || errors.As(err, &ours) {
		return err
	}
	if ctx.Err() != nil {
		return fmt.Errorf("shop file %q: %w", path, ctx.Err())
	}
	var lite *sqlite.Error
	if !errors.As(err, &lite) {
		return fmt.Errorf("shop file %q: %w", path, err)
	}
	out := &Error{cause: err}
	switch lite.Code() & 0xff {
	case sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED:
		out.What, out.Hint = "another program is using it", "nothing was changed; try again when that program is done"
	case sqlite3.SQLITE_NOTADB:
		return notDatabase(path)
	case sqlite3.SQLITE_CORRUPT:
		out.What, out.Hint = "it is damaged", hintBackup
	case sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM, sqlite3.SQLITE_AUTH:
		out.What, out.Hint = "it cannot be written", "nothing was changed; see who may write to the file and to its folder"
	case sqlite3.SQLITE_CANTOPEN:
		out.What, out.Hint = "it cannot be opened", "see who may read and write the file and its folder"
	case sqlite3.SQLITE_FULL:
		out.What, out.Hint = "the disk is full", "nothing was changed; make room and try again"
	case sqlite3.SQLITE_IOERR:
		out.What, out.Hint = "the disk could not be read or written", "nothing was changed; see whether the disk is full or failing"
	case sqlite3.SQLITE_ERROR:
		// Every statement here is tried by the tests, so one that does not go
		// through finds tables that are not those of the schema.
		out.What, out.Hint = "it is damaged: its tables are not those of a shop file", hintBackup
	default:
		out.What = lite.Error()
	}
	out.What = fmt.Sprintf("shop file %q: %s", path, out.What)
	return out
}
