package divide

import (
	"fmt"
	"unicode"
	"unicode/utf8"
)

// An alphabet numbers the letters of a language's patterns, so that a set of letters is one number.
type alphabet struct {
	numbers    [tabled]uint8 // by character, small letters and capitals alike; none for what is no letter
	apostrophe uint8         // none where an apostrophe ends a word
	count      uint8         // the next number to be given
}

// Numbers of letters; the patterns' own are between edge and stranger.
const (
	none     = 0  // no letter
	edge     = 1  // the point that stands for either end of a word
	stranger = 63 // a letter that is in no pattern
)

// tabled is how many characters have their number in a table: Latin letters up to the long s.
const tabled = 0x180

func newAlphabet() *alphabet { return &alphabet{count: edge + 1} }

// number gives the number of a character of a pattern, a new one where it is not yet known.
func (a *alphabet) number(r rune) (uint8, error) {
	switch {
	case r == '.':
		return edge, nil
	case r == '\'':
		if a.apostrophe == none {
			a.apostrophe = a.count
			a.count++
		}
		return a.apostrophe, nil
	case r >= tabled || !unicode.IsLetter(r) || fold(r) != r:
		return none, fmt.Errorf("%q is no small Latin letter", r)
	}
	if a.numbers[r] == none {
		if a.count == stranger {
			return none, fmt.Errorf("%q is one letter more than can be told apart", r)
		}
		a.numbers[r] = a.count
		a.count++
	}
	return a.numbers[r], nil
}

// finish enters the capitals and the letters that are in no pattern.
func (a *alphabet) finish() {
	for r := range rune(tabled) {
		if a.numbers[r] == none && unicode.IsLetter(r) {
			a.numbers[r] = a.ofLetter(fold(r))
		}
	}
}

// ofLetter gives the number of a letter that is folded.
func (a *alphabet) ofLetter(r rune) uint8 {
	if r < tabled && a.numbers[r] != none {
		return a.numbers[r]
	}
	return stranger
}

// of gives the number of any character, none if it is no letter. An apostrophe is not one here.
func (a *alphabet) of(r rune) uint8 {
	switch {
	case r < tabled:
		return a.numbers[r]
	case unicode.IsLetter(r):
		return a.ofLetter(fold(r))
	}
	return none
}

// fold brings a character to the form that words are compared in.
func fold(r rune) rune {
	switch r {
	case 'ſ':
		return 's'
	case '’':
		return '\''
	}
	return unicode.ToLower(r)
}

// joins tells whether r, with more coming after it, is an apostrophe between two letters of a word.
func (a *alphabet) joins(r rune, more []byte) bool {
	if a.apostrophe == none || r != '\'' && r != '’' {
		return false
	}
	next, _ := utf8.DecodeRune(more)
	return a.of(next) != none
}
