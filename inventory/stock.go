package inventory

import (
	"context"
	"database/sql"
	"fmt"
	"time"
	"unicode/utf8"
)

// opening is the kind of the entry by which a sort comes into the ledger, with a
// change of 0 when there is none of it: that too was counted.
const opening = "opening"

// AddFont enters a font, its sorts, and an opening entry in the ledger for each of
// them, with OnHand as its pieces. The font is tidied first (see Font.Tidy); one
// that is not allowed, or is there already, is refused.
func (s *Shop) AddFont(ctx context.Context, f Font) error {
	f, err := f.Tidy()
	if err != nil {
		return err
	}
	if s.db == nil {
		if err := s.make(); err != nil {
			return err
		}
	}
	return s.change(ctx, func(tx *sql.Tx) error {
		var there int
		err := tx.QueryRowContext(ctx, "SELECT count(*) FROM font WHERE name = ?", f.Name).Scan(&there)
		if err != nil {
			return err
		}
		if there > 0 {
			return refuse(fmt.Sprintf("`formewise font edit %q …` changes its sorts; or give this one another name", f.Name),
				"font %q is in the shop already", f.Name)
		}
		res, err := tx.ExecContext(ctx, "INSERT INTO font (name, body, spacing) VALUES (?, ?, ?)", f.Name, f.Body, f.Spacing)
		if err != nil {
			return err
		}
		font, err := res.LastInsertId()
		if err != nil {
			return err
		}
		date := s.date()
		for _, sort := range f.Sorts {
			if err := insertSort(ctx, tx, font, sort, date); err != nil {
				return err
			}
		}
		return nil
	})
}

// date is that of an entry made now, as the ledger keeps it.
func (s *Shop) date() string { return s.now().UTC().Format(time.RFC3339) }

func insertSort(ctx context.Context, tx *sql.Tx, font int64, s Sort, date string) error {
	res, err := tx.ExecContext(ctx, "INSERT INTO sort (font, name, text, kind, set_width, kerned) VALUES (?, ?, ?, ?, ?, ?)",
		font, s.Name, s.Text, string(s.Kind), s.Set, s.Kerned)
	if err != nil {
		return err
	}
	id, err := res.LastInsertId()
	if err != nil {
		return err
	}
	return insertOpening(ctx, tx, id, s, date)
}

func insertOpening(ctx context.Context, tx *sql.Tx, sort int64, s Sort, date string) error {
	_, err := tx.ExecContext(ctx, "INSERT INTO entry (sort, date, kind, change, basis) VALUES (?, ?, ?, ?, ?)",
		sort, date, opening, s.OnHand, string(s.Basis))
	return err
}

// Fonts gives all fonts of the shop by name, in byte order; nil when there are none.
func (s *Shop) Fonts(ctx context.Context) ([]Font, error) {
	if s.db == nil {
		return nil, nil
	}
	var fonts []Font
	err := s.read(ctx, func(q querier) error {
		kept, err := readFonts(ctx, q, s.path, "")
		for _, k := range kept {
			fonts = append(fonts, k.Font)
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	return fonts, nil
}

// Font gives the font of that name. The error for an unknown name lists the known.
func (s *Shop) Font(ctx context.Context, name string) (Font, error) {
	name, err := FontName(name)
	if err != nil {
		return Font{}, err
	}
	if s.db == nil {
		return Font{}, unknownFont(name, nil)
	}
	var k keptFont
	err = s.read(ctx, func(q querier) (err error) {
		k, err = readFont(ctx, q, s.path, name)
		return err
	})
	return k.Font, err
}

// keptFont is a font with the keys of its rows.
type keptFont struct {
	Font
	id   int64
	sort map[string]int64 // by name, the retired too
}

func readFont(ctx context.Context, q querier, path, name string) (keptFont, error) {
	fonts, err := readFonts(ctx, q, path, name)
	if err != nil {
		return keptFont{}, err
	}
	if len(fonts) == 1 {
		return fonts[0], nil
	}
	names, err := fontNames(ctx, q)
	if err != nil {
		return keptFont{}, err
	}
	return keptFont{}, unknownFont(name, names)
}

func fontNames(ctx context.Context, q querier) (names []string, err error) {
	rows, err := q.QueryContext(ctx, "SELECT name FROM font ORDER BY name")
	if err != nil {
		return nil, err
	}
	defer func() { _ = rows.Close() }()
	for rows.Next() {
		var name string
		if err := rows.Scan(&name); err != nil {
			return nil, err
		}
		names = append(names, name)
	}
	return names, rows.Err()
}

// readFonts reads the font of that name, or all of them for "". q is a transaction:
// a shop that is only read may be of an older schema, and what that has no column
// for is read as the next change will enter it.
func readFonts(ctx context.Context, q querier, path, name string) ([]keptFont, error) {
	id, err := identify(ctx, q)
	if err != nil {
		return nil, err
	}
	kerned := "sort.kerned"
	if id.version < 2 {
		kerned = "0"
	}
	rows, err := q.QueryContext(ctx, `
		SELECT font.id, font.name, font.body, font.spacing,
		       sort.id, sort.name, sort.text, sort.kind, sort.set_width, `+kerned+`, sort.retired,
		       (SELECT sum(change) FROM entry WHERE entry.sort = sort.id),
		       (SELECT basis FROM entry WHERE entry.sort = sort.id ORDER BY id DESC LIMIT 1)
		FROM font JOIN sort ON sort.font = font.id
		WHERE ?1 = '' OR font.name = ?1
		ORDER BY font.name, sort.id`, name)
	if err != nil {
		return nil, err
	}
	defer func() { _ = rows.Close() }()
	var fonts []keptFont
	for rows.Next() {
		var f keptFont
		var s Sort
		var id int64
		var retired bool
		var onHand sql.NullInt64
		var basis sql.NullString
		if err := rows.Scan(&f.id, &f.Name, &f.Body, &f.Spacing, &id, &s.Name, &s.Text, &s.Kind, &s.Set, &s.Kerned, &retired, &onHand, &basis); err != nil {
			if ctx.Err() != nil {
				return nil, err
			}
			return nil, damaged(path, "what it holds of a sort cannot be read")
		}
		s.OnHand, s.Basis = int(onHand.Int64), Basis(basis.String)
		if !f.sound() || !s.sound() {
			return nil, damaged(path, fmt.Sprintf("the sort %q of font %q is none that could have been entered", s.Name, f.Name))
		}
		if n := len(fonts); n == 0 || fonts[n-1].id != f.id {
			f.sort = map[string]int64{}
			fonts = append(fonts, f)
		}
		last := &fonts[len(fonts)-1]
		last.sort[s.Name] = id
		if retired {
			last.Retired = append(last.Retired, s)
		} else {
			last.Sorts = append(last.Sorts, s)
		}
	}
	return fonts, rows.Err()
}

// sound tells whether a font that was read is one that could have been entered:
// what comes out of a damaged file should stop here and not in a sum.
func (f keptFont) sound() bool {
	return f.Name != "" && utf8.ValidString(f.Name) && f.Body > 0 && f.Body <= MaxBody
}

func (s Sort) sound() bool {
	_, err := ParseKind(string(s.Kind))
	return err == nil && s.kindSuitsText() == nil && s.Basis.known() &&
		!(s.Kerned && s.Kind == Space) && s.Name != "" && utf8.ValidString(s.Name) && utf8.ValidString(s.Text) &&
		s.Set > 0 && s.Set <= mostSetKept && s.OnHand >= 0 && s.OnHand <= MaxCount
}
