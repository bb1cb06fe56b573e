package house

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"fmt"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

//go:embed struck.csv
var struckTable []byte

// Struck tells whether a kerned sort strikes a character that stands next to it on the right, by the house's table.
func Struck() func(rune) bool {
	r := csv.NewReader(bytes.NewReader(struckTable))
	r.Comment = '#'
	r.FieldsPerRecord = 2
	rows, err := r.ReadAll()
	if err != nil {
		panic(fmt.Sprintf("house: the embedded struck.csv: %v", err)) // our own file; a test reads it
	}
	struck := map[rune]bool{}
	for _, row := range rows[1:] {
		character, _ := utf8.DecodeRuneInString(row[0])
		struck[character] = true
	}
	return func(r rune) bool {
		base, _ := utf8.DecodeRuneInString(norm.NFD.String(string(r)))
		return struck[base]
	}
}
