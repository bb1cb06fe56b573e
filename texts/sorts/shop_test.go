package sorts_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"formewise/texts/house"
	"formewise/texts/sorts"
)

const (
	body     = 12_000 // of every font here
	alphabet = "a b c d e f g h i j k l m n o p q r s t u v w x y z"
	capitals = " A B C D E F G H I J K L M N O P Q R S T U V W X Y Z"
	noLimit  = 1 << 40
)

// fontOf makes a font of the texts of its sorts, set apart by spaces. Each sort is named after its text; no two sets are alike.
func fontOf(texts string) sorts.Font {
	f := sorts.Font{Name: "Ferry Roman 12", Body: body}
	for i, text := range strings.Fields(texts) {
		f.Sorts = append(f.Sorts, sorts.Sort{Name: text, Text: text, Width: 2_000 + 17*i})
	}
	return f
}

// A hand cuts with one font, and says what it cut.
type hand struct {
	cases  *sorts.Cases
	cutter *sorts.Cutter
}

func handOf(t testing.TB, fonts ...sorts.Font) hand {
	t.Helper()
	cases, err := sorts.Lay(fonts...)
	if err != nil {
		t.Fatal(err)
	}
	cutter, err := sorts.NewCutter(cases, 0)
	if err != nil {
		t.Fatal(err)
	}
	return hand{cases, cutter}
}

// A cutting is a text cut from end to end.
type cutting struct {
	sorts.Galley
	words []sorts.Word
	at    []int // where in the text each word begins
	ids   []int // and where it ends in the galley
}

func (h hand) cut(t interface{ Fatalf(string, ...any) }, text string, limit int) cutting {
	var c cutting
	for at := h.cutter.Skip([]byte(text), 0); at < len(text); {
		from := len(c.IDs)
		w := h.cutter.Word(&c.Galley, []byte(text), at, len(text), limit)
		width := 0
		for _, id := range c.IDs[from:] {
			width += h.width(id)
		}
		if w.Width != width || w.Next <= at || w.End < at || w.Next < w.End {
			t.Fatalf("%q: the word at %d is %+v, its sorts are %d wide", text, at, w, width)
		}
		c.words, c.at, c.ids = append(c.words, w), append(c.at, at), append(c.ids, len(c.IDs))
		at = w.Next
	}
	return c
}

func (h hand) width(id sorts.ID) int {
	if id == h.cases.Missing() {
		return body / 2
	}
	return h.cases.Sort(id).Width
}

// joins are the signs for what comes after a word.
func joins(j sorts.Join) string {
	return map[sorts.Join]string{sorts.End: "", sorts.Gap: " _ ", sorts.NoBreak: " ~ ", sorts.Dash: " / ", sorts.More: " > "}[j]
}

// said gives the names of the sorts, with _ for a word space, ~ for one that ends no line, / where the line may end after
// a hyphen or dash, and > where the word was cut off.
func (h hand) said(t interface{ Fatalf(string, ...any) }, text string) string {
	c := h.cut(t, text, noLimit)
	var b strings.Builder
	from := 0
	for i, w := range c.words {
		b.WriteString(h.names(c, from, c.ids[i]) + joins(w.Join))
		from = c.ids[i]
	}
	return b.String()
}

// names gives those of a stretch of the galley; a missing one is named as in the output, ?U+00FE.
func (h hand) names(c cutting, from, to int) string {
	var names []string
	for i := from; i < to; i++ {
		if c.IDs[i] != h.cases.Missing() {
			names = append(names, h.cases.Sort(c.IDs[i]).Name)
			continue
		}
		n := slices.IndexFunc(c.Notes, func(n sorts.Note) bool { return n.At == i && n.Rule < 0 })
		if n < 0 {
			names = append(names, "?")
			continue
		}
		names = append(names, fmt.Sprintf("?%U", c.Notes[n].Character))
	}
	return strings.Join(names, " ")
}

// noted gives the notes, as "3 æ: its letters", the sort's place first.
func noted(c cutting) []string {
	rules := house.Substitutes()
	var list []string
	for _, n := range c.Notes {
		what := "missing"
		if n.Rule >= 0 {
			what = rules[n.Rule].Note
			if rules[n.Rule].Character != n.Character {
				what += ", for another character"
			}
		}
		list = append(list, fmt.Sprintf("%d %c: %s", n.At, n.Character, what))
	}
	return list
}
