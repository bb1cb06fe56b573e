// Package read brings a manuscript from bytes to paragraphs.
//
// It is the first step of the walk, and knows neither shop nor type. A file such as
//
//	The tide was out,
//	and so was the ferryman.
//
//	"Then we walk," she said.
//
// is read into two paragraphs whose texts are slices of the file itself: line ends inside a paragraph stay where they
// are and count as spaces. Nothing is copied but what has to be changed: text that is not in the normal form NFC, and
// line ends of a lone CR.
package read

import (
	"crypto/sha256"
	"encoding/hex"
)

// A Kind says how a paragraph is set.
type Kind uint8

// The kinds of paragraph.
const (
	Prose Kind = iota // indented, and filled line by line
	Verse             // one line of verse, turned over where it is too long
	Blank             // an empty line between verses
	Break             // the page ends here
)

// A Paragraph is set by itself: it begins a line and ends one.
type Paragraph struct {
	Text []byte // UTF-8 in NFC, no form feeds; empty for Blank and Break
	Kind Kind
}

// A Copy is a manuscript as read: what the author wrote, ready to be cut into sorts.
type Copy struct {
	Name       string      // as the files were named, in order
	Paragraphs []Paragraph // in reading order
	Characters int         // code points as read, line ends and byte order mark left out
	Words      int         // runs of anything but space
	Count      int         // paragraphs; in verse, the stanzas that empty lines set apart

	files []File
}

// SHA256 is the hash of all bytes of all files, in order, as lower-case hexadecimal. It is worked out when it is asked for, since
// that takes as long as reading.
func (c *Copy) SHA256() string {
	h := sha256.New()
	for _, f := range c.files {
		h.Write(f.Data)
	}
	return hex.EncodeToString(h.Sum(nil))
}

// A File is one manuscript file: its name as given, and all its bytes.
type File struct {
	Name string
	Data []byte
}
