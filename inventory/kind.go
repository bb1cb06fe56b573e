package inventory

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Kind is the class of a sort, as founders' bills class them.
type Kind string

// The nine kinds.
const (
	Lower        Kind = "lower"
	Capital      Kind = "capital"
	SmallCapital Kind = "small capital" // only by saying so: its text is the capital
	Figure       Kind = "figure"
	Point        Kind = "point"
	Ligature     Kind = "ligature"
	Accent       Kind = "accent"
	Sign         Kind = "sign"
	Space        Kind = "space" // spaces and quads: what prints nothing
)

// Kinds lists the kinds in the order in which a font is shown.
func Kinds() []Kind {
	return []Kind{Lower, Capital, SmallCapital, Figure, Point, Ligature, Accent, Sign, Space}
}

// ParseKind reads the name of a kind, as Kinds has it; the error names them all.
func ParseKind(name string) (Kind, error) {
	var names []string
	for _, k := range Kinds() {
		if string(k) == name {
			return k, nil
		}
		names = append(names, string(k))
	}
	return "", refuse("", "unknown kind %q (there are %s)", name, strings.Join(names, ", "))
}

// KindOf deduces the kind of a sort from the text it prints: nothing is a space;
// letters joined (fi, æ) a ligature; a letter with a mark over or under it an accent; else
// a letter is a capital or, those of alphabets without capitals included, lower.
// It never says small capital.
func KindOf(text string) Kind {
	if text == "" {
		return Space
	}
	var letters, marks, figures, points, all int
	var letter rune
	for _, r := range norm.NFC.String(text) {
		all++
		switch {
		case unicode.IsLetter(r):
			letters++
			letter = r
		case unicode.IsMark(r):
			marks++
		case unicode.IsNumber(r):
			figures++
		case isPoint(r):
			points++
		}
	}
	switch {
	case letters > 0 && (all-marks > 1 || joined(letter)):
		return Ligature
	case letters > 0 && (marks > 0 || accented(letter)):
		return Accent
	case letters > 0 && (unicode.IsUpper(letter) || unicode.IsTitle(letter)):
		return Capital
	case letters > 0:
		return Lower
	case marks == all:
		return Accent
	case figures == all:
		return Figure
	case points == all:
		return Point
	}
	return Sign
}

// isPoint tells the points from the signs. As in the bill of pica (MacKellar, The
// American Printer, 1893), the reference marks * † ‡ § ‖ ¶ are among the points.
func isPoint(r rune) bool {
	return unicode.IsPunct(r) && !strings.ContainsRune(`&@#%‰‱/\`, r)
}

// joined tells whether one character is several letters in one: æ, œ, ﬁ, ĳ.
func joined(r rune) bool {
	if strings.ContainsRune("æœÆŒ", r) {
		return true
	}
	// The compatibility form is looked at here and kept nowhere: it tells that ﬁ
	// is an f and an i.
	letters := 0
	for _, part := range norm.NFKD.String(string(r)) {
		if unicode.IsLetter(part) {
			letters++
		}
	}
	return letters > 1
}

// accented tells whether a letter is another one with a mark: é, Å, ŵ.
func accented(r rune) bool {
	for _, part := range norm.NFD.String(string(r)) {
		if unicode.IsMark(part) {
			return true
		}
	}
	return false
}

// emptyByName says why a sort without a text, of which nobody said that it is a space, cannot be taken for one: a cell is easily
// left empty, and only by its name is the sort known for a space.
func (s Sort) emptyByName() error {
	name := strings.TrimSpace(s.Name)
	known := composes(name) || strings.HasSuffix(name, "quad") || strings.HasSuffix(name, "space")
	if s.Text != "" || s.Kind != "" || known {
		return nil
	}
	return refuse("", "sort %q has no text; give it one, or the kind space", s.Name)
}

// kindSuitsText says why a sort of that kind cannot have that text.
func (s Sort) kindSuitsText() error {
	switch {
	case s.Kind == Space && s.Text != "":
		return refuse("", "sort %q: a space prints nothing, so its text must be empty, not %q", s.Name, s.Text)
	case s.Kind != Space && s.Text == "":
		return refuse("", "sort %q: its text is empty, and only a space prints nothing (its kind is %s)", s.Name, s.Kind)
	case s.Kind == SmallCapital && strings.ContainsFunc(s.Text, unicode.IsLower):
		return refuse("", "sort %q: a small capital has the capital as its text, and %q is not one", s.Name, s.Text)
	}
	return nil
}
