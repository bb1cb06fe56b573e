package demand

import (
	"errors"
	"fmt"
	"strings"

	"formewise/demand/impose"
)

// signatureLetters are the letters that signatures go by: the Latin alphabet, without J, U and W. Common practice, no source.
const signatureLetters = "ABCDEFGHIKLMNOPQRSTVXYZ"

// A Signature is the letter, from 1, that the first gathering is signed with: by default B, since the preliminaries, which are
// printed last, take A.
type Signature int

// FirstSignature reads a letter such as B, or Aa of the second alphabet.
func FirstSignature(text string) (Signature, error) {
	if text != "" {
		n := strings.IndexByte(signatureLetters, text[0])
		if n >= 0 && text[1:] == strings.Repeat(strings.ToLower(text[:1]), len(text)-1) {
			return Signature(n + 1 + (len(text)-1)*len(signatureLetters)), nil
		}
	}
	return 0, fmt.Errorf("%q is no signature (a capital of the alphabet without J, U and W: B; in the second alphabet Aa)", text)
}

// String is the letter of a gathering: A to Z, then Aa to Zz, and so on.
func (s Signature) String() string {
	n := int(s) - 1
	letter := signatureLetters[n%len(signatureLetters):][:1]
	return letter + strings.Repeat(strings.ToLower(letter), n/len(signatureLetters))
}

// signer gives the signature of every page, "" where it has none: the first half of the leaves of a gathering are signed, on
// their rectos, the first with the letter alone, the others with the number of the leaf: B, B2, B3, B4 in octavo. Common
// practice, no source.
func signer(first Signature, p impose.Plan) (func(page int) string, error) {
	if p.Format == "single" {
		return nil, errors.New("single leaves are not gathered, and have no signatures")
	}
	pages := impose.PagesToSignature(p)
	return func(page int) string {
		gathering, in := (page-1)/pages, (page-1)%pages
		leaf := in/2 + 1
		if in%2 == 1 || leaf > max(1, pages/4) {
			return ""
		}
		text := (first + Signature(gathering)).String()
		if leaf > 1 {
			text += fmt.Sprint(leaf)
		}
		return text
	}, nil
}
