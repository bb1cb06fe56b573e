package demand

import "formewise/texts/sorts"

// A Sort is one sort of a font as the shop has it.
type Sort struct {
	Name     string // unique in its font
	Text     string // what it prints; empty for a space or quad
	Kind     string // as the contract names it: "lower", "capital", … "space"
	Set      int    // millionths of an em
	Kerned   bool   // its face overhangs the body on the right
	Basis    string // how its number is known: "counted", "weighed", "measured", "bill"
	OnHand   int    // pieces, wherever they are
	Standing int    // of those, tied up in other works
}

// A Font is a font as the shop has it.
type Font struct {
	Name  string
	Body  int // thousandths of a point
	Sorts []Sort
}

// Stock is the fonts that a work draws on: the text font first, then the font of its spaces, if that is another, then the
// font of its initials, if there are any.
type Stock []Font

const million = 1_000_000

// width is a sort's set in thousandths of a point, rounded half up.
func (s Sort) width(body int) int { return (s.Set*body + million/2) / million }

// thousandths is a sort's set in thousandths of an em, rounded half up: what pools of spaces are reckoned in.
func (s Sort) thousandths() int { return (s.Set + 500) / 1000 }

func (s Sort) isSpace() bool { return s.Kind == "space" }

// cases numbers the sorts for cutting and setting.
func (s Stock) cases() (*sorts.Cases, error) {
	fonts := make([]sorts.Font, len(s))
	for i, f := range s {
		fonts[i] = sorts.Font{Name: f.Name, Body: f.Body}
		for _, t := range f.Sorts {
			fonts[i].Sorts = append(fonts[i].Sorts, sorts.Sort{
				Name: t.Name, Text: t.Text, Space: t.isSpace(), SmallCapital: t.Kind == "small capital", Width: t.width(f.Body), Kerned: t.Kerned,
			})
		}
	}
	return sorts.Lay(fonts...)
}
