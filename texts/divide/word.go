package divide

import (
	"bytes"
	"math/bits"
	"unicode"
	"unicode/utf8"
)

// longestWord is how many letters of a word are looked at, as in TeX.
const longestWord = 63

// places is a set of places inside a word: bit n for the one after n of its characters.
type places uint64

// A word is the run of letters that is to be divided.
type word struct {
	letters [longestWord + 4]uint8 // the alphabet's numbers, from 1, with an edge before and after them, and none at the end
	n       int                    // how many of them
	begin   int                    // where they begin, in bytes
	ascii   bool                   // each is one byte
	silent  places                 // which ones are not counted: marks and apostrophes (bit 0 the first letter)
	marks   places                 // which of those are marks: no division before them
}

// Places appends to dst the places where a printed word may be divided: offsets in bytes, ascending. The word is UTF-8 in
// NFC, whole, with the points, quotes and hyphens that are printed with it; the package comment says what is divided in
// it. Bytes that are not UTF-8 are no letters. A word that cannot be divided leaves dst as it is.
func (d *Divider) Places(printed []byte, dst []int) []int {
	var w word
	if !d.alphabet.take(&w, printed) {
		return dst
	}
	found, known := places(0), false
	if d.exceptions.mayHave(&w) {
		found, known = d.byHand(&w, printed)
	}
	if !known {
		found = d.byPatterns(&w)
	}
	found &= w.inner()
	if w.ascii {
		for ; found != 0; found &= found - 1 {
			dst = append(dst, w.begin+bits.TrailingZeros64(uint64(found)))
		}
		return dst
	}
	for at := w.begin; found != 0; found >>= 1 {
		if found&1 != 0 {
			dst = append(dst, at)
		}
		_, size := utf8.DecodeRune(printed[at:])
		at += size
	}
	return dst
}

// take finds the run of letters in a printed word. It is false where there is none, or too short a one, or where the word
// has a hyphen or dash of its own.
func (a *alphabet) take(w *word, printed []byte) bool {
	at := 0
	for number, size := a.next(printed); number == none; number, size = a.next(printed[at:]) {
		if at += size; at >= len(printed) {
			return false
		}
	}
	if hasHyphen(printed[:at]) {
		return false
	}
	w.begin, w.ascii, w.letters[0] = at, true, edge
	for w.n < longestWord && at < len(printed) {
		number, size := a.next(printed[at:])
		if number == none {
			if number, size = a.silent(printed[at:]); number == none {
				break
			}
			w.silent |= 1 << w.n
			if number != a.apostrophe {
				w.marks |= 1 << w.n
			}
		}
		w.n++
		w.letters[w.n] = number
		w.ascii = w.ascii && size == 1
		at += size
	}
	w.letters[w.n+1] = edge
	return w.n >= before+after && !hasHyphen(printed[at:])
}

// next gives the number of the character that some text begins with, and its length; none if it is no letter.
func (a *alphabet) next(text []byte) (number uint8, size int) {
	if len(text) > 0 && text[0] < utf8.RuneSelf {
		return a.numbers[text[0]], 1
	}
	return a.wide(text)
}

func (a *alphabet) wide(text []byte) (number uint8, size int) {
	r, size := utf8.DecodeRune(text)
	return a.of(r), size
}

// silent does the same for what is no letter, and still goes on with a word: a mark or an apostrophe.
func (a *alphabet) silent(text []byte) (number uint8, size int) {
	if text[0] < utf8.RuneSelf && a.apostrophe == none {
		return none, 1
	}
	r, size := utf8.DecodeRune(text)
	switch {
	case unicode.IsMark(r):
		return stranger, size
	case a.joins(r, text[size:]):
		return a.apostrophe, size
	}
	return none, size
}

// hasHyphen tells whether some text has a hyphen, a dash or a soft hyphen.
func hasHyphen(text []byte) bool {
	for i, b := range text {
		if b == '-' {
			return true
		}
		if b >= utf8.RuneSelf {
			return bytes.ContainsFunc(text[i:], func(r rune) bool { return unicode.Is(unicode.Pd, r) || r == '\u00ad' })
		}
	}
	return false
}

// inner are the places that leave letters enough before and after them, and no mark without its letter.
func (w *word) inner() places {
	if w.silent == 0 {
		return 1<<(w.n-after+1) - 1<<before
	}
	var inner places
	passed, ahead := 0, w.n-bits.OnesCount64(uint64(w.silent))
	for n := range w.n {
		if passed >= before && ahead >= after {
			inner |= 1 << n
		}
		if w.silent>>n&1 == 0 {
			passed, ahead = passed+1, ahead-1
		}
	}
	return inner &^ w.marks
}

// byPatterns are the places that the patterns allow, those too near to the ends among them.
func (d *Divider) byPatterns(w *word) places {
	var (
		found places
		got   levels // of the place before the letter in hand, and of those that follow
	)
	for i := range w.n - 1 { // patterns that begin later have no say where a word may be divided
		got = greater(got, d.trie.walk(w.letters[i:]))
		found |= places(got&1) << i
		got >>= 4
	}
	return found >> 1 // the edge before the first letter has a place of its own
}

// byHand are the places of a word that is divided by hand; false if it is none.
func (d *Divider) byHand(w *word, printed []byte) (found places, known bool) {
	var room [longestWord * utf8.UTFMax]byte
	folded, at := room[:0], w.begin
	for range w.n {
		r, size := utf8.DecodeRune(printed[at:])
		folded = utf8.AppendRune(folded, fold(r))
		at += size
	}
	found, known = d.exceptions.places[string(folded)]
	return found, known
}
