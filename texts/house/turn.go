// Package house holds the rules by which a shop reads an author's copy: how typewritten quotes, dashes and points are
// meant, and what other sorts may stand for a character that the font has not.
//
// Copy that says
//
//	"Well--'tis late," she said.
//
// is set as “Well—’tis late,” she said. Nothing here knows a font; what a rule gives is text again, to be cut into sorts.
package house

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Turn tells what typewritten characters at text[i:] are meant for, by their place: the characters to set instead, and
// how many bytes of the text they replace. It gives 0 bytes where the text stands as it is written.
//
//   - A straight quote opens where a word begins and closes elsewhere. A single one is an apostrophe inside a word, before
//     a figure ('88), and at the head of the few words that begin with one ('tis).
//   - Two hyphens are an em dash, between figures an en dash; three are an em dash; four or more as many em dashes as
//     there are pairs, given one by one.
//
// Three points are not turned here: whether they are one sort or three is for the font to say (see sorts.Cutter).
func Turn(text []byte, i int) (string, int) {
	switch text[i] {
	case '"':
		if opens(text, i) {
			return "“", 1
		}
		return "”", 1
	case '\'':
		if opens(text, i) && !elided(text, i) {
			return "‘", 1
		}
		return "’", 1
	case '-':
		return dash(text, i)
	}
	return "", 0
}

// reach bounds how far a rule looks to either side, so that a page of quotes takes no longer than a page of letters.
const reach = 16

// opens tells whether the straight quote at i stands where a quotation begins.
func opens(text []byte, i int) bool {
	at := i
	for at > 0 && i-at < reach && (text[at-1] == '"' || text[at-1] == '\'') {
		at-- // quotes inside quotes all turn the same way: "'Yes,' he said,"
	}
	if at == 0 {
		return true
	}
	before, _ := utf8.DecodeLastRune(text[:at])
	switch {
	case unicode.IsSpace(before), unicode.Is(unicode.Ps, before), unicode.Is(unicode.Pi, before):
		return true
	case unicode.Is(unicode.Pd, before):
		// After a dash it depends on what follows: --"Yes" or "No--"
		end := i
		for end < len(text) && end-i < reach && (text[end] == '"' || text[end] == '\'') {
			end++
		}
		after, _ := utf8.DecodeRune(text[end:])
		return unicode.IsLetter(after) || unicode.IsDigit(after) || unicode.Is(unicode.Ps, after) || unicode.Is(unicode.Pi, after)
	}
	return false
}

// The words that begin with an apostrophe, whatever follows. Common practice, no source; a house that writes others sets
// the apostrophe itself.
var always = []string{"tis", "tisn", "twas", "twasn", "twere", "tweren", "twill", "twould", "twouldn", "em", "n"}

// Those that are words of their own too, as 'round and 'till in a quotation, count only where no quote closes them.
var unclosed = []string{"twixt", "gainst", "neath", "cause", "bout", "round", "til", "till", "pon", "tween", "un", "ere"}

// elided tells whether the quote at i heads a word that has lost its beginning.
func elided(text []byte, i int) bool {
	rest := text[i+1:]
	if len(rest) > 0 && isFigure(rest[0]) {
		return true
	}
	n := 0
	for n < len(rest) && n < reach && ('a' <= rest[n]|0x20 && rest[n]|0x20 <= 'z') {
		n++
	}
	if n == 0 || letterAt(rest, n) {
		return false
	}
	word := strings.ToLower(string(rest[:n]))
	return slices.Contains(always, word) || slices.Contains(unclosed, word) && !closes(rest[n:])
}

// closes tells whether a straight single quote ends a word soon.
func closes(rest []byte) bool {
	inWord := true
	for i := 0; i < len(rest) && i < 4*reach; i++ {
		if rest[i] == '\'' && inWord && !letterAt(rest, i+1) {
			return true
		}
		inWord = rest[i] > ' '
	}
	return false
}

func letterAt(text []byte, i int) bool {
	r, _ := utf8.DecodeRune(text[i:])
	return unicode.IsLetter(r)
}

func isFigure(b byte) bool { return '0' <= b && b <= '9' }

func dash(text []byte, i int) (string, int) {
	n := 1
	for i+n < len(text) && n < 4 && text[i+n] == '-' {
		n++
	}
	switch {
	case n == 1:
		return "", 0
	case n == 2 && i > 0 && isFigure(text[i-1]) && i+2 < len(text) && isFigure(text[i+2]):
		return "–", 2
	case n == 3:
		return "—", 3
	}
	return "—", 2 // a longer row goes on by pairs; an odd one goes with the last
}
