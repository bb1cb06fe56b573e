package read

import (
	"bytes"
	"fmt"
)

// A Refusal says why a file cannot be read as a manuscript, and what to do about it. Offsets count bytes from 0, lines from 1.
type Refusal struct {
	What string // one sentence, lower case
	Hint string // what to do; may be empty
}

func (r *Refusal) Error() string { return r.What }

// Advice is the way out, for whoever shows the error.
func (r *Refusal) Advice() string { return r.Hint }

// The ways out where a file is no text at all, and where it is one in another encoding.
const (
	hintBinary   = "give the text itself, saved as plain text in UTF-8, not a word processor's or a picture's file"
	hintEncoding = "save it as UTF-8 in the editor it was written with; other encodings are not read yet"
)

func notUTF8(name string, data []byte, offset int) *Refusal {
	r := &Refusal{
		What: fmt.Sprintf("manuscript %q is not UTF-8: byte 0x%02X at byte offset %d, line %d", name, data[offset], offset, lineOf(data, offset)),
		Hint: hintEncoding,
	}
	if bytes.IndexByte(data, 0) >= 0 { // a picture's first byte is seldom a NUL
		r.Hint = hintBinary
	}
	return r
}

func binary(name string, data []byte, offset int) *Refusal {
	return &Refusal{
		What: fmt.Sprintf("manuscript %q is not plain text: a NUL byte at byte offset %d, line %d", name, offset, lineOf(data, offset)),
		Hint: hintBinary,
	}
}

func empty(name string) *Refusal {
	return &Refusal{
		What: fmt.Sprintf("manuscript %q is empty: there is nothing to set", name),
		Hint: "give a file with text in it, or - to read from standard input",
	}
}

func lineOf(data []byte, offset int) int {
	line := 1
	for i, b := range data[:offset] {
		if b == '\n' || b == '\r' && data[i+1] != '\n' {
			line++
		}
	}
	return line
}
