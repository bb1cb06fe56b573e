package read

import (
	"bytes"
	"runtime"
	"sync"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// A survey is what one look at every byte of a file tells. Files are surveyed in blocks that end at a line end, since
// neither words nor normal forms reach across one; the blocks are shared out over the cores.
type survey struct {
	characters, words int
	nul, invalid      int  // byte offset of the first, -1 if there is none
	normal            bool // the block is in NFC
	lone              bool // it has a CR without its LF
}

// A block is big enough to make sharing it out worth while.
const blockSize = 1 << 18

func look(data []byte) survey {
	var blocks [][]byte
	for rest := data; len(rest) > 0; {
		n := len(rest)
		if n > blockSize {
			n = blockSize
			if at := bytes.IndexByte(rest[n:], '\n'); at < 0 {
				n = len(rest)
			} else {
				n += at + 1
			}
		}
		blocks = append(blocks, rest[:n])
		rest = rest[n:]
	}
	found := make([]survey, len(blocks))
	next := make(chan int, len(blocks))
	for i := range blocks {
		next <- i
	}
	close(next)
	var wait sync.WaitGroup
	for range min(len(blocks), runtime.GOMAXPROCS(0)) {
		wait.Go(func() {
			for i := range next {
				found[i] = lookAt(blocks[i])
			}
		})
	}
	wait.Wait()

	all := survey{nul: -1, invalid: -1, normal: true}
	at := 0
	for i, s := range found {
		all.characters += s.characters
		all.words += s.words
		all.normal = all.normal && s.normal
		all.lone = all.lone || s.lone
		if all.nul < 0 && s.nul >= 0 {
			all.nul = at + s.nul
		}
		if all.invalid < 0 && s.invalid >= 0 {
			all.invalid = at + s.invalid
		}
		at += len(blocks[i])
	}
	return all
}

// What a byte is to the count, as bits: a line end is a space that is no character.
const (
	letter  = 0
	space   = 1
	lineEnd = space | 2
	wide    = 4 // the first byte of a longer code point, or none
)

var classes = func() (t [256]uint8) {
	for b := range t {
		switch {
		case b == '\n' || b == '\r':
			t[b] = lineEnd
		case b >= utf8.RuneSelf:
			t[b] = wide
		case unicode.IsSpace(rune(b)):
			t[b] = space
		}
	}
	return t
}()

func lookAt(block []byte) survey {
	s := survey{nul: bytes.IndexByte(block, 0), invalid: -1, normal: true}
	if n := bytes.Count(block, []byte{'\r'}); n > 0 {
		s.lone = n > bytes.Count(block, []byte("\r\n"))
	}
	before := uint8(space) // of what stands before, whether it is a space
	for i := 0; i < len(block); {
		// Nearly all is ASCII: one look at a table a byte, and nothing to decide but where that ends.
		start, words, ends := i, 0, 0
		for _, b := range block[i:] {
			class := classes[b]
			if class == wide {
				break
			}
			is := class & space
			words += int(before &^ is)
			ends += int(class >> 1)
			before = is
			i++
		}
		s.characters += i - start - ends
		s.words += words
		for i < len(block) && block[i] >= utf8.RuneSelf {
			r, n := utf8.DecodeRune(block[i:])
			if r == utf8.RuneError && n <= 1 {
				if s.invalid < 0 {
					s.invalid = i
				}
				n = 1
			}
			s.characters++
			is := uint8(letter)
			if unicode.IsSpace(r) {
				is = space
			}
			s.words += int(before &^ is)
			before = is
			// Below U+0300 nothing combines and everything is its own normal form; nor does anything in the general
			// punctuation that prose uses, U+2010 to U+2027.
			if r >= 0x300 && (r < 0x2010 || r > 0x2027) {
				s.normal = false
			}
			i += n
		}
	}
	if !s.normal && s.invalid < 0 {
		s.normal = norm.NFC.QuickSpan(block) == len(block)
	}
	return s
}
