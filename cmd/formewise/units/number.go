package units

import (
	"math/big"
	"strings"
)

// cutNumber takes the number off the front of text: an optional minus, then
// `12`, `3.5`, `.5` or `1/2`. It gives the number exactly and what follows it;
// ok is false where no such number stands.
func cutNumber(text string) (number *big.Rat, rest string, ok bool) {
	unsigned, negative := strings.CutPrefix(text, "-")
	whole, rest := cutDigits(unsigned)
	literal := whole
	switch {
	case strings.HasPrefix(rest, "."):
		part, after := cutDigits(rest[1:])
		if part == "" {
			return nil, text, false
		}
		literal, rest = whole+"."+part, after
	case whole == "":
		return nil, text, false
	case strings.HasPrefix(rest, "/"):
		part, after := cutDigits(rest[1:])
		if strings.Trim(part, "0") == "" {
			return nil, text, false
		}
		literal, rest = whole+"/"+part, after
	}
	number, ok = new(big.Rat).SetString(literal)
	if !ok {
		return nil, text, false
	}
	if negative {
		number.Neg(number)
	}
	return number, rest, true
}

// cutDigits takes the ASCII digits off the front of text.
func cutDigits(text string) (digits, rest string) {
	end := strings.IndexFunc(text, func(r rune) bool { return r < '0' || r > '9' })
	if end < 0 {
		end = len(text)
	}
	return text[:end], text[end:]
}

// roundHalfUp is the whole number nearest to x, the greater of two.
func roundHalfUp(x *big.Rat) *big.Int {
	// ⌊x + 1/2⌋ = ⌊(2·num + den) / (2·den)⌋; Div rounds down for den > 0.
	top := new(big.Int).Lsh(x.Num(), 1)
	top.Add(top, x.Denom())
	return top.Div(top, new(big.Int).Lsh(x.Denom(), 1))
}
