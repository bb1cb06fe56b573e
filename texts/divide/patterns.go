package divide

import (
	"bytes"
	"fmt"
	"unicode/utf8"
)

// readPatternFile reads as much of TeX as pattern files use: comments from % to the end of the line, and \patterns{…} and
// \hyphenation{…} with nothing but words between the braces, which it hands on. All else is passed over.
func readPatternFile(source []byte, patterns, divided func(word []byte) error) error {
	var take func([]byte) error
	for at := 0; at < len(source); {
		switch b := source[at]; {
		case b == '%':
			if n := bytes.IndexByte(source[at:], '\n'); n >= 0 {
				at += n + 1
			} else {
				at = len(source)
			}
		case b <= ' ' || b == '{':
			at++
		case b == '}':
			take = nil
			at++
		default:
			begin := at
			for at++; at < len(source) && !endsWord(source[at]); at++ {
			}
			word := source[begin:at]
			switch {
			case word[0] != '\\' && take == nil:
			case word[0] != '\\':
				if err := take(word); err != nil {
					return err
				}
			case take != nil:
				return fmt.Errorf("%s inside a group, where only words are read", word)
			case string(word) == `\patterns`:
				take = patterns
			case string(word) == `\hyphenation`:
				take = divided
			}
		}
	}
	if take != nil {
		return fmt.Errorf("the last group is not closed")
	}
	return nil
}

func endsWord(b byte) bool { return b <= ' ' || b == '%' || b == '{' || b == '}' || b == '\\' }

// longestPattern is how many letters a pattern may have, its points counted: its figures fit in one number.
const longestPattern = 15

// A pattern is a pattern with its letters as the alphabet numbers them, one a byte from the lowest up; and with its
// figures, see levels.
type pattern struct {
	letters [2]uint64
	levels  levels
}

// letter is the i-th letter from 0, none after the last.
func (p *pattern) letter(i int) uint8 { return uint8(p.letters[i>>3&1] >> (8 * (i & 7))) }

// readPattern reads a pattern such as “.hy3ph”, and numbers letters that are new.
func readPattern(a *alphabet, word []byte) (p pattern, err error) {
	n := 0
	for at := 0; at < len(word); {
		if b := word[at]; '0' <= b && b <= '9' {
			if b > '0'+highest {
				return p, fmt.Errorf("pattern %q: figure above %d", word, highest)
			}
			if at > 0 && '0' <= word[at-1] && word[at-1] <= '9' {
				return p, fmt.Errorf("pattern %q: two figures between two letters", word)
			}
			p.levels |= levels(b-'0') << (4 * n)
			at++
			continue
		}
		r, size := utf8.DecodeRune(word[at:])
		letter, err := a.number(r)
		if err != nil {
			return p, fmt.Errorf("pattern %q: %w", word, err)
		}
		if n == longestPattern {
			return p, fmt.Errorf("pattern %q: more than %d letters", word, longestPattern)
		}
		p.letters[n>>3] |= uint64(letter) << (8 * (n & 7))
		n++
		at += size
	}
	if n == 0 {
		return p, fmt.Errorf("pattern %q: no letter", word)
	}
	return p, nil
}
