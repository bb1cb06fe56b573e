package castoff

import "fmt"

// A Rate is so many of one thing to one of another, as a fraction that is never rounded: 3,965 words counted in 12 folios
// are Rate{3965, 12}, 10 words to the line Rate{10, 1}.
type Rate struct {
	Num, Den int // each 1 or more; in lowest terms or not
}

// mostDen bounds the lower part of a rate: three times a body of 10,000 points in thousandths of a point.
const mostDen = 3 * mostBody

// mostBody is the largest body believed, in thousandths of a point.
const mostBody = 10_000_000

// Lines is the rate of a page or a folio that has so many lines (1 to MostLines) of that rate.
func Lines(lines int, line Rate) Rate { return Rate{lines * line.Num, line.Den} }

// LineOfEms estimates the words to a line of print from its length and the body, both in thousandths of a point (or both in
// thousandths of an em): three ems to a word. The rule is that of an American authors' handbook of about 1905, p. 73. It is
// one of two estimators there, and they disagree for the larger bodies: a specimen counted in the type itself is better.
// A line of no length, or of more than MostToLine words, is refused, and so is a body of nothing or of 10,000 points.
func LineOfEms(measure, body int) (Rate, error) {
	switch {
	case body < 1 || body >= mostBody:
		return Rate{}, fmt.Errorf("a body of %d thousandths of a point: it takes more than 0 and less than %d points", body, mostBody/1000)
	case measure < 1:
		return Rate{}, fmt.Errorf("a line of %d thousandths of a point has no length", measure)
	case up(measure, 3*body) > MostToLine:
		return Rate{}, fmt.Errorf("a line of %d ems is longer than any (at most %d)", up(measure, body), 3*MostToLine)
	}
	return Rate{measure, 3 * body}, nil
}

// CastUp gives the ens in so many pages of such lines, exactly, by which composition is reckoned: 24 pages of 55 lines of
// 60 ens (30 ems) are 79,200 ens, a sheet of twelves (Cowie's Printer's Pocket-book, p. 21). The letters are reckoned as if
// each page were full. Pages and lines within the Most of this package, measure and body such as LineOfEms takes.
func CastUp(pages, lines, measure, body int) Rate {
	return Rate{2 * pages * lines * measure, body}
}

// check refuses a rate of words to a page or a folio that cannot be reckoned with; to says which.
func (r Rate) check(to string) error {
	switch {
	case r.Num < 1 || r.Den < 1:
		return fmt.Errorf("no words to the %s: it takes more than nothing, and at most %d", to, MostToPage)
	case up(r.Num, r.Den) > MostToPage:
		return fmt.Errorf("%d words to the %s: it takes at most %d", up(r.Num, r.Den), to, MostToPage)
	case r.Den > mostDen:
		return fmt.Errorf("the words to the %s are counted in %d, more than is believed (at most %d)", to, r.Den, mostDen)
	}
	return nil
}
