package read

import (
	"bytes"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

var byteOrderMark = []byte("\ufeff")

// Plain reads plain text: UTF-8 with or without a byte order mark, lines ended by LF, CRLF or CR, paragraphs set apart
// by empty lines, a form feed for the end of a page. In verse every line is a line of verse and an empty line is a blank
// one. Several files make one work; each begins a paragraph.
//
// The paragraphs share memory with the files. The error is a *Refusal where a file is not UTF-8, holds a NUL byte, or
// where nothing is there to be set.
func Plain(files []File, verse bool) (*Copy, error) {
	c := &Copy{files: files}
	names := make([]string, len(files))
	for i, f := range files {
		names[i] = f.Name
	}
	c.Name = strings.Join(names, ", ")

	for _, f := range files {
		if err := c.take(f, verse); err != nil {
			return nil, err
		}
	}
	if c.Words == 0 {
		return nil, empty(c.Name)
	}
	return c, nil
}

// take counts a file's characters and words and adds its paragraphs, in NFC, with line ends of LF or CRLF.
func (c *Copy) take(f File, verse bool) error {
	text := bytes.TrimPrefix(f.Data, byteOrderMark)
	skipped := len(f.Data) - len(text)
	found := make(chan parts, 1)
	go func() { found <- split(text, verse) }() // beside the counting, since nearly every text stays as it is
	s := look(text)
	p := <-found
	if s.nul >= 0 && (s.invalid < 0 || s.nul < s.invalid) {
		return binary(f.Name, f.Data, s.nul+skipped)
	}
	if s.invalid >= 0 {
		return notUTF8(f.Name, f.Data, s.invalid+skipped)
	}
	if s.lone {
		text = bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))
		text = bytes.ReplaceAll(text, []byte("\r"), []byte("\n"))
	}
	if !s.normal {
		text = norm.NFC.Bytes(text)
	}
	if s.lone || !s.normal {
		p = split(text, verse)
	}
	c.Characters += s.characters
	c.Words += s.words
	c.Count += p.count
	if c.Paragraphs == nil {
		c.Paragraphs = p.list
	} else {
		c.Paragraphs = append(c.Paragraphs, p.list...)
	}
	return nil
}

// parts are the paragraphs of a text, and how many there are, or stanzas in verse.
type parts struct {
	list  []Paragraph
	count int
}

// split cuts a text into paragraphs.
func split(text []byte, verse bool) (p parts) {
	begin := -1 // where the paragraph in hand begins, -1 between paragraphs
	end := 0    // where its last line ends
	finish := func() {
		if begin >= 0 {
			if !verse {
				p.list = append(p.list, Paragraph{Text: text[begin:end], Kind: Prose})
			}
			p.count++
			begin = -1
		}
	}
	feeds := bytes.IndexByte(text, '\f') >= 0
	for at := 0; at < len(text); {
		stop, next := len(text), len(text)
		if n := bytes.IndexByte(text[at:], '\n'); n >= 0 {
			stop, next = at+n, at+n+1
		}
		// A form feed cuts its line in pieces; an empty piece beside it is nothing, where an empty line is a blank one.
		fed := false
		for {
			piece, feed := text[at:stop], -1
			if feeds {
				feed = bytes.IndexByte(piece, '\f')
			}
			if feed >= 0 {
				fed = true
				piece = piece[:feed]
			}
			switch {
			case !isEmpty(piece):
				if verse {
					p.list = append(p.list, Paragraph{Text: piece, Kind: Verse})
				}
				if begin < 0 {
					begin = at
				}
				end = at + len(piece)
			case !fed:
				finish()
				if verse {
					p.list = append(p.list, Paragraph{Kind: Blank})
				}
			}
			if feed < 0 {
				break
			}
			finish()
			p.list = append(p.list, Paragraph{Kind: Break})
			at += feed + 1
		}
		at = next
	}
	finish()
	return p
}

// isEmpty tells whether a line holds nothing but space.
func isEmpty(line []byte) bool {
	for i := 0; i < len(line); {
		if b := line[i]; b < utf8.RuneSelf {
			if classes[b] == letter {
				return false
			}
			i++
			continue
		}
		r, n := utf8.DecodeRune(line[i:])
		if !unicode.IsSpace(r) {
			return false
		}
		i += n
	}
	return true
}
