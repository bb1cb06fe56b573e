// Package order reckons what has to be cast or bought so that the type carries a work.
//
// New type comes under the allowance like the old. With 100 pieces on hand, 3 % of them kept back and 110 wanted at once, 14 have
// to come: of 114, 4 are kept back and 110 can be counted on; of 113, 4 as well, and 109.
package order

import "math/bits"

// Least is the fewest pieces to add to onHand so that wanted can be counted on, when of all that is there the share num/den,
// rounded up, is kept back, and standing pieces are tied up elsewhere. The share is below one.
func Least(onHand, standing, wanted, num, den int) int {
	// What can be counted on of a stock h is h - ceil(h·num/den) - standing = floor(h·(den-num)/den) - standing. The least h for
	// which that is wanted is ceil((wanted+standing)·den/(den-num)).
	high, low := bits.Mul64(uint64(wanted+standing), uint64(den)) // may be more than 64 bits hold
	h, rest := bits.Div64(high, low, uint64(den-num))
	if rest > 0 {
		h++
	}
	return max(0, int(h)-onHand)
}
