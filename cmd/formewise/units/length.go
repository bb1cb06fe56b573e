// Package units reads what a printer writes on the command line with a unit:
// the length of a line, the body of a font, the sides of a sheet (Length), and
// the allowance (Share).
//
// Inside the program a length is a whole number of thousandths of a point
// (milli-points, mpt), 72.27 points to the inch. It is reckoned exactly and
// rounded once, half up, at the end. Worked through: 101 mm is
//
//	101 / 25.4 inches x 72.27 points x 1000 = 287,372.8… mpt, so 287,373
//
// and 22 em of a body of 12 pt is 22 x 12,000 = 264,000 mpt.
package units

import (
	"fmt"
	"math/big"
	"strings"
)

// Most is the greatest length that is believed, in milli-points: 100,000 pt,
// about 35 metres.
const Most = 100_000_000

// longest bounds what is read at all, so that no number of a million digits is
// multiplied out.
const longest = 40

// unit is a unit of length and what one of it is in points, exactly. An em has
// no points of its own.
type unit struct {
	name   string
	points *big.Rat
}

// table has the units in the order in which they are named to the printer.
//
// The inch has 72.27 points: the American point of 0.013837 in, as TeX later
// rounded it. The Didot point is 1/2660 of a metre, so 1 mm has 2.66 of them.
func table() []unit {
	inch := big.NewRat(7227, 100)
	millimetre := new(big.Rat).Quo(inch, big.NewRat(254, 10))
	return []unit{
		{"pt", big.NewRat(1, 1)},
		{"pc", big.NewRat(12, 1)},
		{"in", inch},
		{"mm", millimetre},
		{"cm", new(big.Rat).Mul(millimetre, big.NewRat(10, 1))},
		{"dd", new(big.Rat).Quo(millimetre, big.NewRat(266, 100))},
		{"em", nil},
	}
}

const unitNames = "pt, pc, in, mm, cm, dd or em"

// Length is a length as it was given. The zero Length is none, and of no size.
// It serves as a flag's value (pflag.Value).
type Length struct {
	text   string
	number *big.Rat
	unit   unit
}

// ParseLength reads a number and its unit, with or without a space between:
// `12pt`, `3.5 in`, `1/2in`, `22em`. Zero and negative lengths are read (see
// Positive); a number without a unit, an unknown unit, and more than 100,000
// points or ems are refused in one sentence that begins with the text itself.
func ParseLength(text string) (Length, error) {
	trimmed := strings.TrimSpace(text)
	if len(trimmed) > longest {
		return Length{}, fmt.Errorf("%.20q… is too long to be a length (such as 22em)", trimmed)
	}
	number, rest, ok := cutNumber(trimmed)
	if !ok {
		return Length{}, fmt.Errorf("%q is no length (a number and a unit: %s)", text, unitNames)
	}
	name := strings.TrimSpace(rest)
	if name == "" {
		return Length{}, fmt.Errorf("%q has no unit (%s)", text, unitNames)
	}
	for _, u := range table() {
		if u.name != name {
			continue
		}
		size := number
		if u.points != nil {
			size = new(big.Rat).Mul(number, u.points)
		}
		if size.Cmp(big.NewRat(Most, 1000)) > 0 || size.Cmp(big.NewRat(-Most, 1000)) < 0 {
			return Length{}, tooLong(text)
		}
		return Length{text: trimmed, number: number, unit: u}, nil
	}
	if strings.HasPrefix(name, ",") {
		return Length{}, fmt.Errorf("%q is no length (decimals take a point: 3.5in)", text)
	}
	return Length{}, fmt.Errorf("%q: unknown unit %q (%s)", text, name, unitNames)
}

func tooLong(text string) error {
	return fmt.Errorf("%q is more than a length can be (100,000 pt)", text)
}

// InEms says whether the length depends on a body.
func (l Length) InEms() bool { return l.unit.name == "em" }

// Mpt is the length in milli-points, rounded half up. body is the body of the
// text font in milli-points, and only lengths in ems use it: for them a body
// of 0 or less means that there is none, which is an error.
func (l Length) Mpt(body int) (int, error) {
	if l.number == nil {
		return 0, nil
	}
	size := new(big.Rat).Mul(l.number, big.NewRat(1000, 1))
	if l.InEms() {
		if body <= 0 {
			return 0, fmt.Errorf("%q: there is no body here to have ems (pt, pc, in, mm, cm or dd)", l.text)
		}
		size.Mul(l.number, big.NewRat(int64(body), 1))
	} else {
		size.Mul(size, l.unit.points)
	}
	whole := roundHalfUp(size)
	if whole.CmpAbs(big.NewInt(Most)) > 0 {
		return 0, tooLong(l.text)
	}
	return int(whole.Int64()), nil
}

// Positive is Mpt for a length that has to be greater than zero, after
// rounding too.
func (l Length) Positive(body int) (int, error) {
	size, err := l.Mpt(body)
	if err == nil && size <= 0 {
		err = fmt.Errorf("%q is not more than nothing", l.text)
	}
	return size, err
}

// String is the length as it was given, and Set and Type with it make Length
// the value of a flag.
func (l *Length) String() string { return l.text }

// Set reads the flag.
func (l *Length) Set(text string) error {
	read, err := ParseLength(text)
	if err == nil {
		*l = read
	}
	return err
}

// Type names the value in help.
func (l *Length) Type() string { return "length" }
