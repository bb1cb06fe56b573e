package demand

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"formewise/demand/stick"
	"formewise/texts/read"
)

// endingWith finds the last words of a page in the copy. They are looked for from the head of the page to the end of the one
// that would follow, so that nothing is found more than a page off. Straight quotes and turned ones are the same there, and so
// are hyphens and dashes; points after the last word may be left out.
//
//	copy     … by the clock, and it is not the church clock. It is ours.
//	words    “the church clock”     the page ends after “clock.”, and the next begins with “It”
//	words    “and it is not the ch-”     the next begins with “urch”
//	words    “is”     stands twice: which is meant nobody can tell
func (s *Setting) endingWith(r Report, number int) (stick.Place, error) {
	from, expected, beyond := s.pages.Start(number), s.pages.Start(number+1), s.pages.Start(min(number+2, s.pages.Count()+1))
	var near fold
	at := from
	for ; at.Paragraph < len(s.copy.Paragraphs) && s.copy.Paragraphs[at.Paragraph].Kind != read.Break && isBefore(at, beyond); at = (stick.Place{Paragraph: at.Paragraph + 1}) {
		near.add(s.upTo(at, beyond), at)
		near.space(stick.Place{Paragraph: at.Paragraph + 1})
	}
	want := foldWords(r.Words)
	var found []stick.Place
	for _, end := range near.endings(want) {
		if next := s.next(near.ends[end]); isBefore(from, next) && !slices.Contains(found, next) {
			found = append(found, next)
		}
	}
	if len(found) == 0 {
		return stick.Place{}, &BadReport{
			fmt.Sprintf("page %d: no %q from its head to the end of the page after it (it was cast off to end with %q)", r.Page, r.Words, s.lastWords(number)),
			"give the last words as the manuscript has them; a few are enough, and of a divided word the first part with a hyphen",
		}
	}
	middle := near.count(expected)
	off := func(next stick.Place) int { return abs(near.count(next) - middle) }
	slices.SortStableFunc(found, func(a, b stick.Place) int { return off(a) - off(b) })
	length := max(middle, len(near.text)-middle) // of a page
	around := 0
	for _, next := range found {
		if off(next) <= length {
			around++
		}
	}
	if around > 1 && !isClear(want, off(found[0]), off(found[1])) {
		return stick.Place{}, &BadReport{
			fmt.Sprintf("page %d: %q stands %d times within a page of where it was cast off to end (%q)", r.Page, r.Words, around, s.lastWords(number)),
			"give a few words more: all that stand before them on the line, say",
		}
	}
	return found[0], nil
}

// Words that stand more than once are believed to be the nearest of them if they are so many words or so many letters, and the
// next nearest is so many times as far from the expected end. Common sense, no source.
const (
	clearWords   = 3
	clearLetters = 12
	clearTimes   = 2
)

// isClear tells whether words that stand at two distances from the expected end are meant to be the nearer. Where the page ends as
// it was cast off any words will do: whatever is shown as its last may be given back.
func isClear(words []rune, nearest, second int) bool {
	if nearest == 0 {
		return true
	}
	letters, count := 0, 0
	for _, word := range strings.Fields(string(words)) {
		if strings.ContainsFunc(word, isOfWord) {
			count++
		}
	}
	for _, r := range words {
		if isOfWord(r) {
			letters++
		}
	}
	return (count >= clearWords || letters >= clearLetters) && second >= clearTimes*nearest
}

// next is the place where the next page begins after one that ends at a place: spaces, soft hyphens and blank lines are passed over,
// and the form feed that ends the page.
func (s *Setting) next(at stick.Place) stick.Place {
	if at.Paragraph < len(s.copy.Paragraphs) && at.At > 0 {
		text := s.copy.Paragraphs[at.Paragraph].Text
		for at.At < len(text) {
			r, n := utf8.DecodeRune(text[at.At:])
			if r != softHyphen && !unicode.IsSpace(r) {
				return at
			}
			at.At += n
		}
		at = stick.Place{Paragraph: at.Paragraph + 1}
	}
	fed := false
	for ; at.Paragraph < len(s.copy.Paragraphs); at.Paragraph++ {
		switch kind := s.copy.Paragraphs[at.Paragraph].Kind; {
		case kind == read.Break && !fed:
			fed = true
		case kind != read.Blank:
			return at
		}
	}
	return at
}

func isBefore(a, b stick.Place) bool {
	return a.Paragraph < b.Paragraph || a.Paragraph == b.Paragraph && a.At < b.At
}

func abs(n int) int { return max(n, -n) }

// A fold is text in which signs that are hard to tell apart are alike, with the place after each.
type fold struct {
	text []rune
	ends []stick.Place
}

func foldWords(words string) []rune {
	var f fold
	f.add([]byte(words), stick.Place{})
	if last := len(f.text) - 1; last >= 0 && f.text[last] == ' ' {
		return f.text[:last]
	}
	return f.text
}

// add folds a text that stands at a place.
func (f *fold) add(text []byte, at stick.Place) {
	for len(text) > 0 {
		r, n := utf8.DecodeRune(text)
		text = text[n:]
		at.At += n
		switch {
		case r == softHyphen:
		case unicode.IsSpace(r):
			f.space(at)
		case strings.ContainsRune("'‘’‚‛", r):
			f.put('\'', at)
		case strings.ContainsRune("\"“”„‟", r):
			f.put('"', at)
		case unicode.Is(unicode.Pd, r):
			if last := len(f.text) - 1; last >= 0 && f.text[last] == '-' {
				f.ends[last] = at
			} else {
				f.put('-', at)
			}
		case r == '…':
			f.put('.', at)
			f.put('.', at)
			f.put('.', at)
		default:
			f.put(r, at)
		}
	}
}

func (f *fold) put(r rune, after stick.Place) {
	f.text = append(f.text, r)
	f.ends = append(f.ends, after)
}

// space adds a space, and none after another.
func (f *fold) space(after stick.Place) {
	if last := len(f.text) - 1; last < 0 || f.text[last] == ' ' {
		return
	}
	f.put(' ', after)
}

// count is how many characters lie before a place.
func (f *fold) count(at stick.Place) int {
	n, _ := slices.BinarySearchFunc(f.ends, at, func(end, at stick.Place) int {
		if isBefore(end, at) {
			return -1
		}
		return 1
	})
	return n
}

// endings lists where the words stand and a page may end after them: the last character of each. The first of them is looked for
// as a whole word, and only if there is none, and they are many, as the end of one: the words that are shown may be cut.
func (f *fold) endings(words []rune) []int {
	if len(words) == 0 {
		return nil
	}
	rest := len(words) > 1 && words[0] == '-' && isOfWord(words[1]) // of a divided word
	if rest {
		words = words[1:]
	}
	part := words // of a divided word
	if n := len(words); n > 1 && words[n-1] == '-' && isOfWord(words[n-2]) {
		part = words[:n-1]
	}
	if list := f.found(words, part, true); list != nil || len(words) < wordsShown/2 && !rest {
		return list
	}
	return f.found(words, part, false)
}

// found lists the endings of words that begin where a word does, or anywhere. part is the words without a hyphen at their
// end that may be a division's.
func (f *fold) found(words, part []rune, begin bool) []int {
	var list []int
	for i := range f.text {
		if begin && i > 0 && isOfWord(f.text[i-1]) && isOfWord(words[0]) {
			continue
		}
		if f.has(words, i) {
			if end, ok := f.wordEnd(i + len(words) - 1); ok {
				list = append(list, end)
				continue
			}
		}
		if end := i + len(part) - 1; len(part) < len(words) && f.has(part, i) && end+1 < len(f.text) && isOfWord(f.text[end+1]) {
			list = append(list, end)
		}
	}
	return list
}

func (f *fold) has(words []rune, at int) bool {
	return at+len(words) <= len(f.text) && slices.Equal(f.text[at:at+len(words)], words)
}

// wordEnd is the last of the points that follow upon a character, if a word ends there.
func (f *fold) wordEnd(at int) (end int, ok bool) {
	if f.text[at] == '-' {
		return at, true
	}
	for at+1 < len(f.text) && f.text[at+1] != ' ' {
		at++
		switch {
		case isOfWord(f.text[at]):
			return 0, false
		case f.text[at] == '-': // a page may end after a dash
			return at, true
		}
	}
	return at, true
}

func isOfWord(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r) }
