package report

import (
	"math/big"
	"slices"
	"strconv"
	"strings"
)

// Number writes a whole number with a comma at every thousand: 12,345.
func Number(n int) string { return group(strconv.Itoa(n)) }

// group puts the commas into digits that may begin with a minus.
func group(digits string) string {
	sign := ""
	if rest, negative := strings.CutPrefix(digits, "-"); negative {
		sign, digits = "-", rest
	}
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	return sign + digits
}

// Decimal writes n/10^places with a point, without zeros at its end:
// Decimal(1250, 2) is "12.5", Decimal(1200, 2) is "12". It is exact.
func Decimal(n, places int) string { return decimal(big.NewInt(int64(n)), places) }

// Ratio writes num/den to so many places, rounded half away from zero, without
// zeros at its end: Ratio(2, 3, 2) is "0.67". A den of 0 gives "-".
func Ratio(num, den, places int) string {
	if den == 0 {
		return "-"
	}
	return decimal(rounded(num, den, places), places)
}

// Fixed is Ratio with all its places, so that the points of a column stand under
// one another: Fixed(19, 2, 2) is "9.50".
func Fixed(num, den, places int) string {
	if den == 0 {
		return "-"
	}
	return fixed(rounded(num, den, places), places)
}

// rounded is num/den in so many places of a decimal, as a whole number, half away from zero; den is not 0.
func rounded(num, den, places int) *big.Int {
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)
	top := new(big.Int).Mul(big.NewInt(int64(num)), scale)
	bottom := big.NewInt(int64(den))
	negative := top.Sign()*bottom.Sign() < 0
	top.Abs(top)
	bottom.Abs(bottom)
	// Half up: (2·top + bottom) / (2·bottom), whole.
	top.Lsh(top, 1).Add(top, bottom).Quo(top, bottom.Lsh(bottom, 1))
	if negative {
		top.Neg(top)
	}
	return top
}

// decimal is fixed without zeros at its end.
func decimal(n *big.Int, places int) string {
	text := fixed(n, places)
	if places > 0 {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}

func fixed(n *big.Int, places int) string {
	digits := new(big.Int).Abs(n).String()
	if len(digits) <= places {
		digits = strings.Repeat("0", places-len(digits)+1) + digits
	}
	cut := len(digits) - places
	text := group(digits[:cut])
	if places > 0 {
		text += "." + digits[cut:]
	}
	if n.Sign() < 0 {
		text = "-" + text
	}
	return text
}

// Count writes a number with its noun: "1 page", "2 pages", "12,345 pages".
func Count(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return Number(n) + " " + more
}

// Pages writes numbers of pages, given in any order, as ascending ranges:
// "1, 4-8, 13". None gives "none".
func Pages(pages []int) string {
	if len(pages) == 0 {
		return "none"
	}
	sorted := slices.Compact(slices.Sorted(slices.Values(pages)))
	var parts []string
	for i := 0; i < len(sorted); {
		j := i
		for j+1 < len(sorted) && sorted[j+1] == sorted[j]+1 {
			j++
		}
		part := strconv.Itoa(sorted[i])
		if j > i {
			part += "-" + strconv.Itoa(sorted[j])
		}
		parts = append(parts, part)
		i = j + 1
	}
	return strings.Join(parts, ", ")
}
