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
		text, err := c.take(f)
		if err != nil {
			return nil, err
		}
		c.split(text, verse)
	}
	if c.Words == 0 {
		return nil, empty(c.Name)
	}
	return c, nil
}

// take counts a file's characters and words and gives its text, in NFC, with line ends of LF or CRLF.
func (c *Copy) take(f File) ([]byte, error) {
	text := bytes.TrimPrefix(f.Data, byteOrderMark)
	skipped := len(f.Data) - len(text)
	s := look(text)
	if s.nul >= 0 && (s.invalid < 0 || s.nul < s.invalid) {
		return nil, binary(f.Name, f.Data, s.nul+skipped)
	}
	if s.invalid >= 0 {
		return nil, notUTF8(f.Name, f.Data, s.invalid+skipped)
	}
	c.Characters += s.characters
	c.Words += s.words
	if s.lone {
		text = bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))
		text = bytes.ReplaceAll(text, []byte("\r"), []byte("\n"))
	}
	if !s.normal {
		text = norm.NFC.Bytes(text)
	}
	return text, nil
}

// split cuts a file's text into paragraphs and adds them to the copy.
func (c *Copy) split(text []byte, verse bool) {
	begin := -1 // where the paragraph in hand begins, -1 between paragraphs
	end := 0    // where its last line ends
	finish := func() {
		if begin >= 0 {
			if !verse {
				c.Paragraphs = append(c.Paragraphs, Paragraph{Text: text[begin:end], Kind: Prose})
			}
			c.Count++
			begin = -1
		}
	}
	for at := 0; at < len(text); {
		stop, next := len(text), len(text)
		if n := bytes.IndexByte(text[at:], '\n'); n >= 0 {
			stop, next = at+n, at+n+1
		}
		// A form feed cuts its line in pieces; an empty piece beside it is nothing, where an empty line is a blank one.
		fed := false
		for {
			piece := text[at:stop]
			feed := bytes.IndexByte(piece, '\f')
			if feed >= 0 {
				fed = true
				piece = piece[:feed]
			}
			switch {
			case !isEmpty(piece):
				if verse {
					c.Paragraphs = append(c.Paragraphs, Paragraph{Text: piece, Kind: Verse})
				}
				if begin < 0 {
					begin = at
				}
				end = at + len(piece)
			case !fed:
				finish()
				if verse {
					c.Paragraphs = append(c.Paragraphs, Paragraph{Kind: Blank})
				}
			}
			if feed < 0 {
				break
			}
			finish()
			c.Paragraphs = append(c.Paragraphs, Paragraph{Kind: Break})
			at += feed + 1
		}
		at = next
	}
	finish()
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
