// Package divide finds the places where a word may be divided at the end of a line.
//
// It is the method of F. M. Liang (Word Hy-phen-a-tion by Com-put-er, Stanford 1983). A language is a list of patterns: a
// few letters with figures between them, and a point where the word has to begin or end. Every pattern that stands in the
// word has its say; of the figures between two letters the greatest holds, and where that is odd the word may be divided.
// Liang's own example:
//
//	h y p h e n a t i o n
//	h y3p h                    hy3ph
//	      h e2n                he2n
//	      h e n a4             hena4
//	      h e n5a t            hen5at
//	         1n a              1na
//	          n2a t            n2at
//	             1t i o        1tio
//	               2i o        2io
//	                  o2n      o2n
//	h y3p h e2n5a4t2i o2n      hy-phen-ation
//
// In every language at least two letters stay before the division and three come after it. Words that the patterns get
// wrong are listed apart, divided by hand: such lists are part of the English patterns, and a user may add another.
//
// What is divided, and what is left alone, follows plain TeX:
//
//   - Of a printed word, which may have quotes, brackets and points about it, the first run of letters is divided, and no
//     later one: of “shouldn't” that is “shouldn”, of “and/or” it is “and”.
//   - A word that has a hyphen or a dash of its own anywhere is not divided. Whoever wants its parts divided asks for each.
//     Nor is a word with a soft hyphen, which says by itself where it may be divided.
//   - Capitals are divided like small letters, a long s like an s. A letter that the patterns do not know, such as an
//     accented one in English, is a letter that stands in no pattern.
//   - Of more than 63 letters the first 63 are taken for the word.
//   - An apostrophe, straight or turned, ends the run, but in French it is a letter (l'op-ti-misme). TeX takes it for one
//     wherever it stands; here it has to stand between two letters, and is not counted among the two before and the three
//     after, so that a closing quote is not taken for the end of a word.
//
// A combining mark stays with the letter before it, and is not counted either.
package divide

import (
	"fmt"
	"strings"
)

// How many letters at least a division leaves before it and after it.
const (
	before = 2
	after  = 3
)

// A Divider divides the words of one language. It never changes, so any number of hands may use it at once.
type Divider struct {
	language   string
	alphabet   *alphabet
	trie       *trie
	exceptions exceptions
}

// Languages are the languages that there are patterns for, in the order in which they are listed to a user.
func Languages() []string {
	names := make([]string, len(languages))
	for i, l := range languages {
		names[i] = l.name
	}
	return names
}

// For is the divider for a language, which is one of Languages. The patterns of a language are read when they are first
// asked for, and then kept.
func For(language string) (*Divider, error) {
	for _, l := range languages {
		if l.name == language {
			return l.divider()
		}
	}
	return nil, fmt.Errorf("no division patterns for language %q (there are %s)", language, strings.Join(Languages(), ", "))
}
