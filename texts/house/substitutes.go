package house

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"fmt"
)

// A Substitute is one thing that may be set for a character the font has not.
type Substitute struct {
	Character rune
	Set       string // what is set instead, itself to be cut into sorts
	Note      string // what that is, in a few words
}

//go:embed substitutes.csv
var substitutes []byte

// Substitutes are the house's, in the order in which they are to be tried: for one character the first that can be set.
func Substitutes() []Substitute {
	r := csv.NewReader(bytes.NewReader(substitutes))
	r.Comment = '#'
	r.FieldsPerRecord = 3
	rows, err := r.ReadAll()
	if err != nil {
		panic(fmt.Sprintf("house: the embedded substitutes.csv: %v", err)) // our own file; a test reads it
	}
	list := make([]Substitute, 0, len(rows)-1)
	for _, row := range rows[1:] {
		list = append(list, Substitute{Character: []rune(row[0])[0], Set: row[1], Note: row[2]})
	}
	return list
}
