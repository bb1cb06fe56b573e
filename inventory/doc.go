// Package inventory is what the shop has: fonts, their sorts, and the ledger
// that says how many pieces there are of each. All of it is one SQLite file, and
// no other package knows that.
//
// A font is the sorts of one face, one body and one style, kept together. A sort
// has a name, the text it prints, a kind, and a set width. It has no count: what
// is on hand is the sum of its entries in the ledger, and an entry is never
// changed or removed. So a font of three sorts and its ledger are
//
//	font "Ferry Roman 12", body 12pt
//
//	sort      text  kind      set (em)         entry  sort   kind     change  basis
//	e         e     lower     0.444            1      e      opening    1800  counted
//	fi        fi    ligature  0.5              2      fi     opening     120  counted
//	thick           space     0.333333         3      thick  opening    1500  counted
//
// and "how many e are on hand?" is answered by adding up its entries: 1,800. When
// a later entry takes 40 away the two of them come to 1,760, and both stay to be
// read. A sort that is retired is no longer set nor reported, but its entries
// stay too, so taking it back finds its pieces where they were.
//
// Lengths are whole numbers: a body in milli-points (thousandths of a point, mpt),
// a set width in millionths of an em of the body. Where a number is rounded on the
// way in, half a unit goes up.
//
// A shop file is opened by [Open] to be read, and then is never made nor changed,
// or by [OpenForChange]. Every public method is one transaction: it is done as a
// whole, or it is refused and the file is as it was, byte for byte.
package inventory
