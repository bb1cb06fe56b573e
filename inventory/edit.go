package inventory

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"slices"
)

// AddSort enters a sort in a font that is in the shop, with an opening entry for
// its OnHand pieces. The name of a retired sort takes that one back, in its old
// place, as the sort now given; the pieces it still has in the ledger come on top.
func (s *Shop) AddSort(ctx context.Context, font string, sort Sort) error {
	sort, err := sort.tidy()
	if err != nil {
		return err
	}
	return s.edit(ctx, font, func(tx *sql.Tx, f keptFont) error {
		if err := f.free(sort.Name); err != nil {
			return err
		}
		if err := sort.mayEnter(f, ""); err != nil {
			return err
		}
		for _, old := range f.Retired {
			if old.Name == sort.Name {
				return takeBack(ctx, tx, f.sort[old.Name], old, sort, s.date())
			}
		}
		if n := len(f.Sorts) + len(f.Retired); n >= MaxSorts {
			return refuse("", "%d sorts are in it, the retired counted, and a font has at most %d", n, MaxSorts)
		}
		return insertSort(ctx, tx, f.id, sort, s.date())
	})
}

func takeBack(ctx context.Context, tx *sql.Tx, id int64, old, now Sort, date string) error {
	if now.OnHand > MaxCount-old.OnHand {
		return refuse("", "sort %q: it has %d pieces in the ledger; with %d more they are over 1,000,000,000", now.Name, old.OnHand, now.OnHand)
	}
	if err := updateSort(ctx, tx, id, now, false); err != nil {
		return err
	}
	if now.OnHand == 0 { // nothing to enter, and what is there stays known as it was
		return nil
	}
	return insertOpening(ctx, tx, id, now, date)
}

// TakeBack takes a retired sort back into use, in its old place and as it was but for what c corrects, with an opening
// entry for so many pieces more; for 0 there is none. A sort that is not retired is refused.
func (s *Shop) TakeBack(ctx context.Context, font, name string, c Correction, pieces int) error {
	name, err := sortName(name)
	if err != nil {
		return err
	}
	return s.edit(ctx, font, func(tx *sql.Tx, f keptFont) error {
		i := slices.IndexFunc(f.Retired, func(r Sort) bool { return r.Name == name })
		if i < 0 {
			return refuse("", "no retired sort %q", name)
		}
		old := f.Retired[i]
		sort, err := c.of(old)
		if err != nil {
			return err
		}
		if pieces < 0 || pieces > MaxCount {
			return refuse("", "sort %q: a count of %d: it must be from 0 to 1,000,000,000", name, pieces)
		}
		sort.OnHand, sort.Basis = pieces, Counted
		if err := sort.mayEnter(f, ""); err != nil {
			return err
		}
		return takeBack(ctx, tx, f.sort[name], old, sort, s.date())
	})
}

// Correction is what is to be put right about a sort; nil leaves a thing as it is.
// Counts are not among it: they are put right by entries in the ledger.
type Correction struct {
	Name   *string
	Text   *string
	Kind   *Kind
	Set    *int // millionths of an em
	Kerned *bool
}

// of is the sort as it is once it has been put right. The ledger is no part of a correction, so nothing is on hand of it.
func (c Correction) of(old Sort) (Sort, error) {
	sort := old
	if c.Name != nil {
		sort.Name = *c.Name
	}
	if c.Set != nil {
		sort.Set = *c.Set
	}
	if c.Text != nil {
		sort.Text = *c.Text
		if old.Kind == KindOf(old.Text) && sort.Text != old.Text {
			sort.Kind = "" // deduced by tidy
		}
	}
	if c.Kind != nil {
		sort.Kind = *c.Kind
	}
	if c.Kerned != nil {
		sort.Kerned = *c.Kerned
	}
	if err := sort.emptyByName(); err != nil {
		return Sort{}, err
	}
	sort.OnHand, sort.Standing = 0, 0
	return sort.tidy()
}

// mayEnter says why a sort cannot be in the font; except is as in takenIn.
func (s Sort) mayEnter(f keptFont, except string) error {
	if err := s.fits(f.Spacing); err != nil {
		return err
	}
	taken, err := takenIn(f, except)
	if err != nil {
		return err
	}
	return taken.enter(s, "")
}

// CorrectSort puts right what is known of the sort of that name. When the text is
// corrected and the kind is not given, a kind that was the one deduced from the old
// text becomes the one deduced from the new; any other kind stays.
func (s *Shop) CorrectSort(ctx context.Context, font, name string, c Correction) error {
	return s.edit(ctx, font, func(tx *sql.Tx, f keptFont) error {
		old, err := f.find(name)
		if err != nil {
			return err
		}
		sort, err := c.of(old)
		if err != nil {
			return err
		}
		for _, r := range f.Retired {
			if r.Name == sort.Name {
				return refuse(fmt.Sprintf("`formewise font edit %q --add %q` takes that one back", f.Name, r.Name),
					"sort %q is the name of a retired sort", r.Name)
			}
		}
		if err := sort.mayEnter(f, old.Name); err != nil {
			return err
		}
		return updateSort(ctx, tx, f.sort[old.Name], sort, false)
	})
}

// RetireSort takes a sort out of use: it is no longer set nor reported. Its pieces
// stay in the ledger, and AddSort takes it back.
func (s *Shop) RetireSort(ctx context.Context, font, name string) error {
	return s.edit(ctx, font, func(tx *sql.Tx, f keptFont) error {
		old, err := f.find(name)
		if err != nil {
			return err
		}
		return updateSort(ctx, tx, f.sort[old.Name], old, true)
	})
}

// edit runs do in one transaction with the font as it stands there.
func (s *Shop) edit(ctx context.Context, font string, do func(*sql.Tx, keptFont) error) error {
	font, err := FontName(font)
	if err != nil {
		return err
	}
	if s.db == nil {
		return unknownFont(font, nil)
	}
	return s.change(ctx, func(tx *sql.Tx) error {
		f, err := readFont(ctx, tx, s.path, font)
		if err != nil {
			return err
		}
		err = do(tx, f)
		var ours *Error
		if errors.As(err, &ours) {
			return within(err, "font %q", f.Name)
		}
		return err
	})
}

// takenIn is the names and texts that another sort of the font cannot have; except
// is the sort that is about to be changed, "" for none.
func takenIn(f keptFont, except string) (*roll, error) {
	var taken roll
	for _, s := range f.Sorts {
		if s.Name == except {
			continue
		}
		if err := taken.enter(s, ""); err != nil {
			return nil, err
		}
	}
	return &taken, nil
}

func updateSort(ctx context.Context, tx *sql.Tx, id int64, s Sort, retired bool) error {
	_, err := tx.ExecContext(ctx, "UPDATE sort SET name = ?, text = ?, kind = ?, set_width = ?, kerned = ?, retired = ? WHERE id = ?",
		s.Name, s.Text, string(s.Kind), s.Set, s.Kerned, retired, id)
	return err
}
