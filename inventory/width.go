package inventory

import (
	"math/big"
	"strconv"
	"strings"
)

const (
	million = 1_000_000

	// wideSet is the set width, in millionths of an em, from which on a slip is likelier than the sort: the widest
	// quad that is cast as stock is of 3 ems (common practice, no source), and 43 is easily typed for 0.43.
	wideSet = 4 * million
	// mostSetKept is what a shop file may hold: MaxSet was once 100 ems.
	mostSetKept = 100 * million

	hintEms = "a set width is in ems of the body: an en is 0.5"
)

// WideSorts warns of the sorts wider than 4 ems, which may be, and mostly are not; "" where there are none.
func WideSorts(sorts ...Sort) string {
	var wide []string
	for _, s := range sorts {
		if s.Set > wideSet {
			wide = append(wide, s.Name)
		}
	}
	if wide == nil {
		return ""
	}
	return "wider than 4 ems of the body, which few sorts are: " + list(wide)
}

// ParseSet reads a set width in ems of the body, a decimal (0.4444, .5) or a fraction
// (1/3), and gives it in millionths of an em, half a millionth rounded up. It must
// be more than 0 and at most 10 ems.
func ParseSet(text string) (int, error) {
	const allowed = "a set width is a decimal or a fraction of an em, like 0.4444 or 1/3"
	ems, ok := new(big.Rat), false
	// The bound on the length keeps the arithmetic short; no width needs as much.
	if len(text) <= 40 {
		if above, below, fraction := strings.Cut(text, "/"); fraction {
			ok = digits(above) && digits(below) && strings.Trim(below, "0") != ""
		} else {
			whole, part, point := strings.Cut(text, ".")
			ok = digits(whole) && !point || digits(part) && (whole == "" || digits(whole))
		}
	}
	if ok {
		_, ok = ems.SetString(text)
	}
	if !ok {
		hint := ""
		if strings.Contains(text, ",") {
			hint = "write the decimal point as a point, not as a comma"
		}
		return 0, refuse(hint, "set %q: %s", shorten(text), allowed)
	}
	if ems.Cmp(big.NewRat(MaxSet, million)) > 0 {
		return 0, refuse(hintEms, "set %q: at most %d ems can be", text, MaxSet/million)
	}
	// floor(x + 1/2) with x = ems * 1,000,000, over twice the denominator.
	twice := new(big.Int).Mul(ems.Num(), big.NewInt(2*million))
	twice.Add(twice, ems.Denom())
	set := int(twice.Div(twice, new(big.Int).Mul(ems.Denom(), big.NewInt(2))).Int64())
	if set == 0 {
		return 0, refuse("", "set %q: it must be more than 0, a millionth of an em at least", text)
	}
	return set, nil
}

// ParseCount reads a number of pieces in decimal digits, from 0 to MaxCount.
func ParseCount(text string) (int, error) {
	if !digits(text) {
		hint := ""
		if strings.ContainsAny(text, ",. ") {
			hint = "write it without points, commas or spaces between the digits"
		}
		return 0, refuse(hint, "count %q: a count is a whole number of pieces, 0 or more", shorten(text))
	}
	n, err := strconv.Atoi(text)
	if err != nil || n > MaxCount {
		return 0, refuse("", "count %q: at most 1,000,000,000 can be", shorten(text))
	}
	return n, nil
}

// ParseKerned reads whether a sort is kerned: "yes" or "no".
func ParseKerned(text string) (bool, error) {
	switch text {
	case "yes":
		return true, nil
	case "no":
		return false, nil
	}
	return false, refuse("", "kerned %q: it is yes or no", shorten(text))
}

// digits tells whether text is one decimal digit or more, and nothing else.
func digits(text string) bool {
	return text != "" && strings.Trim(text, "0123456789") == ""
}
