package inventory

import (
	"fmt"
	"slices"
	"strings"
)

// What a font may hold. The bounds are far beyond any shop; they keep a slip of
// the keyboard or a wrong file from being entered as stock.
const (
	MaxSorts = 4000          // sorts in a font
	MaxCount = 1_000_000_000 // pieces of a sort
	MaxSet   = 10_000_000    // set width of a sort, in millionths of an em: 10 ems
	MaxBody  = 500_000       // body of a font, in milli-points: 500 points
)

// Basis says how the pieces of a sort are known, from the surest to the least
// sure; that of its newest entry in the ledger.
type Basis string

// The bases there are.
const (
	Counted  Basis = "counted"  // piece by piece; what a CSV holds
	Weighed  Basis = "weighed"  // from a weight
	Measured Basis = "measured" // from the length of the pieces stood in a row
	Bill     Basis = "bill"     // from a founder's bill
)

// Sort is one sort of a font and what there is of it.
type Sort struct {
	Name     string // unique in its font, NFC: "a", "ffi", "em quad"
	Text     string // the characters it prints, NFC, unique in its kind; "" for a space
	Kind     Kind
	Set      int  // set width in millionths of an em of the body, 1 to MaxSet (in older shops up to ten times as much)
	Kerned   bool // its face overhangs the body on the right, as that of an f does; never of a space
	OnHand   int  // pieces, all of them, in the case or standing
	Standing int  // of those, the pieces tied up in pages that stand
	Basis    Basis
}

// Font is the sorts of one face, one body and one style.
type Font struct {
	Name    string // unique in the shop, NFC
	Body    int    // milli-points, 1 to MaxBody
	Spacing bool   // cast for its body, to serve the fonts that have no spaces of their own
	Sorts   []Sort // that are set and reported, in the order they were entered
	Retired []Sort // that are not; nil when there are none
}

// Tidy gives the font as the shop keeps it: names and texts trimmed and in NFC,
// kinds deduced where they are "", Counted where the basis is "". The error says
// what the shop would refuse. The font itself is not changed.
func (f Font) Tidy() (Font, error) {
	name, err := FontName(f.Name)
	if err != nil {
		return Font{}, err
	}
	f.Name = name
	switch {
	case f.Body <= 0:
		return Font{}, refuse("", "font %q: a body of %s: it must be more than nothing", name, Points(f.Body))
	case f.Body > MaxBody:
		return Font{}, refuse("", "font %q: a body of %s: at most %s can be", name, Points(f.Body), Points(MaxBody))
	case len(f.Sorts) == 0:
		return Font{}, refuse("", "font %q: no sorts, and a font has at least one", name)
	case len(f.Sorts) > MaxSorts:
		return Font{}, refuse("", "font %q: %d sorts, and a font has at most %d", name, len(f.Sorts), MaxSorts)
	case len(f.Retired) > 0:
		return Font{}, refuse("", "font %q: a font is added without retired sorts", name)
	}
	sorts := make([]Sort, len(f.Sorts))
	var taken roll
	for i, s := range f.Sorts {
		if s, err = s.tidy(); err == nil {
			err = taken.enter(s, "")
		}
		if err == nil {
			err = s.fits(f.Spacing)
		}
		if err != nil {
			return Font{}, within(err, "font %q", name)
		}
		sorts[i] = s
	}
	f.Sorts = sorts
	return f, nil
}

// tidy does for one sort what Font.Tidy does for all of a font.
func (s Sort) tidy() (Sort, error) {
	var err error
	if s.Name, err = sortName(s.Name); err != nil {
		return Sort{}, err
	}
	if s.Text, err = sortText(s.Name, s.Text); err != nil {
		return Sort{}, err
	}
	if s.Kind == "" {
		s.Kind = KindOf(s.Text)
	}
	if s.Kind, err = ParseKind(string(s.Kind)); err != nil {
		return Sort{}, within(err, "sort %q", s.Name)
	}
	if err := s.kindSuitsText(); err != nil {
		return Sort{}, err
	}
	if s.Kerned && s.Kind == Space {
		return Sort{}, refuse("", "sort %q: a space prints nothing, so it has no face to be kerned", s.Name)
	}
	if s.Basis == "" {
		s.Basis = Counted
	}
	switch {
	case s.Set <= 0 || s.Set > MaxSet:
		hint := ""
		if s.Set > 0 {
			hint = hintEms
		}
		return Sort{}, refuse(hint, "sort %q: a set width of %s: it must be more than 0 and at most %d ems", s.Name, Ems(s.Set), MaxSet/million)
	case s.OnHand < 0 || s.OnHand > MaxCount:
		return Sort{}, refuse("", "sort %q: a count of %d: it must be from 0 to 1,000,000,000", s.Name, s.OnHand)
	case s.Standing != 0:
		return Sort{}, refuse("", "sort %q: a sort is entered from the case, and none of it stands yet", s.Name)
	case !s.Basis.known():
		return Sort{}, refuse("", "sort %q: unknown basis %q (there are counted, weighed, measured, bill)", s.Name, s.Basis)
	}
	return s, nil
}

// fits says why a sort does not belong into a font, that is a spacing font or not.
func (s Sort) fits(spacing bool) error {
	if spacing && s.Kind != Space {
		return refuse("leave out --spacing for a font that has letters and spaces",
			"sort %q is of the kind %s, and a spacing font holds spaces only", s.Name, s.Kind)
	}
	return nil
}

func (b Basis) known() bool {
	switch b {
	case Counted, Weighed, Measured, Bill:
		return true
	}
	return false
}

// Pieces is how many pieces the font has of all its sorts, the retired left out.
func (f Font) Pieces() int {
	n := 0
	for _, s := range f.Sorts {
		n += s.OnHand
	}
	return n
}

// Share is what part of the pieces of the font is pieces many, in hundredths of
// a per cent, half a hundredth rounded up. A font of no pieces has no shares: ok
// is false.
func (f Font) Share(pieces int) (share int, ok bool) {
	all := f.Pieces()
	if all == 0 {
		return 0, false
	}
	return (2*10_000*pieces + all) / (2 * all), true
}

// Sort gives the sort of that name, as it may be typed. The error for one that is
// retired says so, and for one that is unknown names some that are there.
func (f Font) Sort(name string) (Sort, error) {
	s, err := f.find(name)
	if err != nil {
		return Sort{}, within(err, "font %q", f.Name)
	}
	return s, nil
}

// find is Sort with an error that leaves it to the caller to name the font.
func (f Font) find(name string) (Sort, error) {
	name, err := sortName(name)
	if err != nil {
		return Sort{}, err
	}
	for _, s := range f.Sorts {
		if s.Name == name {
			return s, nil
		}
	}
	return Sort{}, unknownSort(f, name)
}

// Free says why no sort of that name can be added to the font: one is there that is not retired.
func (f Font) Free(name string) error {
	name, err := sortName(name)
	if err == nil {
		err = f.free(name)
	}
	if err != nil {
		return within(err, "font %q", f.Name)
	}
	return nil
}

func (f Font) free(name string) error {
	if slices.ContainsFunc(f.Sorts, func(s Sort) bool { return s.Name == name }) {
		return refuse(fmt.Sprintf("`formewise font edit %q --correct %q …` puts it right", f.Name, name),
			"sort %q is there already, and a name is unique in its font", name)
	}
	return nil
}

// HasRetired tells whether a sort of that name, as it may be typed, is one of the retired.
func (f Font) HasRetired(name string) bool {
	name, err := sortName(name)
	return err == nil && slices.ContainsFunc(f.Retired, func(s Sort) bool { return s.Name == name })
}

// HasSpaces tells whether the font has a space of its own, whatever the count.
func (f Font) HasSpaces() bool {
	for _, s := range f.Sorts {
		if s.Kind == Space {
			return true
		}
	}
	return false
}

// Group is the sorts of one kind in a font.
type Group struct {
	Kind  Kind
	Sorts []Sort // in the order they were entered, at least one
}

// Pieces is how many pieces there are of all sorts of the group.
func (g Group) Pieces() int { return Font{Sorts: g.Sorts}.Pieces() }

// ByKind groups the sorts of a font, the retired left out, in the order of Kinds.
func (f Font) ByKind() []Group {
	var groups []Group
	for _, k := range Kinds() {
		g := Group{Kind: k}
		for _, s := range f.Sorts {
			if s.Kind == k {
				g.Sorts = append(g.Sorts, s)
			}
		}
		if g.Sorts != nil {
			groups = append(groups, g)
		}
	}
	return groups
}

// roll holds the names and texts that are taken in a font. The zero roll is empty.
type roll struct {
	names map[string]string   // name: where it was entered, or ""
	texts map[kindText]taking // printing sorts only
}

type kindText struct {
	kind Kind
	text string
}

type taking struct{ name, at string }

// enter takes the name and the text of a sort, or says that one of them is taken.
// at is where the sort is entered, e.g. "line 3", or "".
func (r *roll) enter(s Sort, at string) error {
	if r.names == nil {
		r.names, r.texts = map[string]string{}, map[kindText]taking{}
	}
	if first, there := r.names[s.Name]; there {
		return refuse("", "sort %q is there already%s, and a name is unique in its font", s.Name, inBrackets(first))
	}
	r.names[s.Name] = at
	if s.Text == "" {
		return nil
	}
	key := kindText{s.Kind, s.Text}
	if first, there := r.texts[key]; there {
		return refuse("", "sort %q: the text %q is printed by %q already%s, and a text is unique in its kind (%s)",
			s.Name, s.Text, first.name, inBrackets(first.at), s.Kind)
	}
	r.texts[key] = taking{s.Name, at}
	return nil
}

func inBrackets(at string) string {
	if at == "" {
		return ""
	}
	return " (" + at + ")"
}

// Points writes a body of so many milli-points in points, exactly: "12pt", "10.5pt".
func Points(mpt int) string { return decimal(mpt, 1000) + "pt" }

// Ems writes a set width of so many millionths in ems, exactly: "0.4444", "1".
func Ems(set int) string { return decimal(set, million) }

// decimal writes n/unit exactly, without zeros at the end; unit is a power of ten.
func decimal(n, unit int) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	whole, part := n/unit, n%unit
	if part == 0 {
		return fmt.Sprintf("%s%d", sign, whole)
	}
	// The leading 1 keeps the zeros after the point.
	digits := fmt.Sprint(unit + part)[1:]
	return fmt.Sprintf("%s%d.%s", sign, whole, strings.TrimRight(digits, "0"))
}
