package castoff

// The ream of 20 quires of 24 sheets: MacKellar 1893, p. 299.
const (
	sheetsToQuire = 24
	quiresToReam  = 20
)

// Paper is what an edition takes, overs included, in sheets (in leaves where the work is in single leaves).
//
// A half sheet is printed on both sides of a whole one, which is worked, turned and cut in two: each sheet gives two copies.
// So with the figures of MacKellar, p. 299, half-sheetwise:
//
//	12mo of 408 pages          34 half sheets, one forme each
//	1,000 copies              500 sheets a forme, which is 20 quires 20 sheets
//	22 quires a forme         528 sheets: 56 copies over in them
//	34 x 22 quires            748 quires: 37 reams 8 quires
//
// How much of the 22 quires is overs follows from these figures; no rule for it is known here, so overs are asked for.
type Paper struct {
	ToUnit int // to each sheet or half sheet of the work
	Sheets int // in all
}

// paper is what so many copies take, overs among them.
func paper(copies, halfSheets int, byHalfSheets bool) *Paper {
	if byHalfSheets {
		toUnit := up(copies, 2)
		return &Paper{ToUnit: toUnit, Sheets: halfSheets * toUnit}
	}
	return &Paper{ToUnit: copies, Sheets: halfSheets / 2 * copies}
}

// Quires parts sheets into whole quires of 24 and the sheets left.
func Quires(sheets int) (quires, left int) { return sheets / sheetsToQuire, sheets % sheetsToQuire }

// Reams parts sheets into whole reams of 480, whole quires of 24, and the sheets left.
func Reams(sheets int) (reams, quires, left int) {
	quires, left = Quires(sheets)
	return quires / quiresToReam, quires % quiresToReam, left
}
