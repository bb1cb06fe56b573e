package divide

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"maps"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// exceptions are words divided by hand.
type exceptions struct {
	places map[string]places // by word, its characters folded
	// By length the first and the second letters that there are: most words need not be looked up.
	first, second [longestWord + 1]uint64
}

func (e *exceptions) mayHave(w *word) bool {
	return e.first[w.n]>>(w.letters[1]&63)&(e.second[w.n]>>(w.letters[2]&63))&1 != 0
}

// WithExceptions is a divider that has some words divided by hand, and divides the others as d does. The file is UTF-8, a
// word a line, with a hyphen at each place where it may be divided, or with none where it may not be divided at all:
//
//	# of the ferry
//	ferry-man
//	man-u-script
//	Ferryholm
//
// Capitals and small letters are one. What follows a # is a comment; empty lines are passed over. A word overrules the
// patterns and what was said of it before. A place nearer to the ends than a division may be is kept out, as in every word.
// Errors name the line.
func (d *Divider) WithExceptions(r io.Reader) (*Divider, error) {
	more := *d
	more.exceptions.places = maps.Clone(d.exceptions.places)
	lines := bufio.NewScanner(r)
	n := 1
	for ; lines.Scan(); n++ {
		line := lines.Bytes()
		if n == 1 {
			line = bytes.TrimPrefix(line, []byte("\ufeff"))
		}
		if !utf8.Valid(line) {
			return nil, fmt.Errorf("line %d: not UTF-8", n)
		}
		line, _, _ = bytes.Cut(line, []byte("#"))
		if line = bytes.TrimSpace(line); len(line) == 0 {
			continue
		}
		if err := more.exceptions.add(d.alphabet, norm.NFC.Bytes(line)); err != nil {
			return nil, fmt.Errorf("line %d: %w", n, err)
		}
	}
	if err := lines.Err(); errors.Is(err, bufio.ErrTooLong) {
		return nil, fmt.Errorf("line %d: too long for a word", n)
	} else if err != nil {
		return nil, fmt.Errorf("divided words: %w", err)
	}
	return &more, nil
}

// add enters a word such as “ta-ble”.
func (e *exceptions) add(a *alphabet, divided []byte) error {
	var (
		whole []byte
		at    places
		n     int
		last  = '-'
	)
	for rest := divided; len(rest) > 0; {
		r, size := utf8.DecodeRune(rest)
		rest = rest[size:]
		switch {
		case r == '-':
			if last == '-' || len(rest) == 0 {
				return fmt.Errorf("divided word %.80q: a hyphen stands between two letters", divided)
			}
			at |= 1 << n
		case a.of(r) != none, n > 0 && (unicode.IsMark(r) && last != '-' || a.joins(r, bytes.TrimPrefix(rest, []byte("-")))):
			if n == longestWord {
				return fmt.Errorf("divided word %.80q: more than %d letters", divided, longestWord)
			}
			whole = utf8.AppendRune(whole, fold(r))
			n++
		default:
			return fmt.Errorf("divided word %.80q: %q (it may have letters, and hyphens between them)", divided, r)
		}
		last = r
	}
	var w word
	if !a.take(&w, whole) {
		return nil // too short to be divided at all
	}
	if e.places == nil {
		e.places = map[string]places{}
	}
	e.places[string(whole)] = at
	e.first[n] |= 1 << w.letters[1]
	e.second[n] |= 1 << w.letters[2]
	return nil
}
