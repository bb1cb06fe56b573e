package report

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"iter"
	"slices"
	"strings"

	"formewise/demand"
	"formewise/demand/page"
)

type lineJSON struct {
	Page    int       `json:"page"`
	Line    int       `json:"line"`
	Kind    string    `json:"kind"`
	Measure int       `json:"measure"`
	Set     int       `json:"set"`
	Wants   int       `json:"wants"`
	Runs    []runJSON `json:"runs"`
	Broken  bool      `json:"broken"`
}

type runJSON struct {
	Font  string   `json:"font"`
	Sorts []string `json:"sorts"`
}

// LinesJSON writes the setting copy as NDJSON, an object a line, as the contract has it.
func LinesJSON(ctx context.Context, w *bufio.Writer, lines iter.Seq[demand.Line]) error {
	var buffer bytes.Buffer
	encode := json.NewEncoder(&buffer)
	encode.SetEscapeHTML(false)
	for l := range lines {
		if err := ctx.Err(); err != nil {
			return err
		}
		o := lineJSON{Page: l.Page, Line: l.Number, Measure: l.Measure, Set: l.Set, Wants: l.Wants, Runs: []runJSON{}, Broken: l.Broken}
		o.Kind = kindOf(l)
		for _, p := range l.Pieces {
			if n := len(o.Runs); n == 0 || o.Runs[n-1].Font != p.Font {
				o.Runs = append(o.Runs, runJSON{Font: p.Font})
			}
			run := &o.Runs[len(o.Runs)-1]
			run.Sorts = append(run.Sorts, pieceName(p))
		}
		buffer.Reset()
		if err := encode.Encode(o); err != nil {
			return err
		}
		if _, err := w.Write(buffer.Bytes()); err != nil {
			return err
		}
	}
	return nil
}

func pieceName(p demand.Piece) string {
	if p.Missing != 0 {
		return fmt.Sprintf("?U+%04X", p.Missing)
	}
	return p.Sort
}

// The marks that the setting copy uses for spaces. A thick space, the ordinary one, is shown as a space.
var spaceMarks = map[string]string{
	"thick": "3", "3-to-em": "3", "middle": "4", "4-to-em": "4", "thin": "5", "5-to-em": "5", "6-to-em": "6", "hair": "h",
	"en quad": "n", "em quad": "m", "2-em quad": "2m", "3-em quad": "3m",
}

// SettingKey explains the marks, once, at the head of the copy.
const SettingKey = `A space is a thick. In braces: {4} middle, {5} thin, {6} six to the em, {h}
hair, {n} en quad, {m} em quad, {2m} {3m} larger quads; {4+5} both together,
{2x3m} two alike; {|} beside an initial. The figure at the end is what the line
still wants, in points, for brass, copper or paper.
`

// SettingCopy writes the setting copy for the stick, in reading order or forme by forme.
func SettingCopy(ctx context.Context, w *bufio.Writer, set *demand.Setting, byFormes bool) error {
	if _, err := w.WriteString(SettingKey); err != nil {
		return err
	}
	return pagesInOrder(ctx, w, set, byFormes, func(pages iter.Seq[int]) error {
		number := 0
		for l := range set.LinesOf(pages) {
			if l.Page != number {
				number = l.Page
				if err := pageHead(ctx, w, number); err != nil {
					return err
				}
			}
			if _, err := w.WriteString(SettingLine(l) + "\n"); err != nil {
				return err
			}
		}
		return nil
	})
}

// pagesInOrder gives write the pages of a work, all at once in reading order, or forme by forme, each under its heading.
func pagesInOrder(ctx context.Context, w *bufio.Writer, set *demand.Setting, byFormes bool, write func(pages iter.Seq[int]) error) error {
	if !byFormes {
		first, last := set.PageNumbers()
		return write(func(yield func(int) bool) {
			for p := first; p <= last && yield(p); p++ {
			}
		})
	}
	for i, f := range set.Formes() {
		if _, err := fmt.Fprintf(w, "\nForme %d: sheet %d, %s\n", i+1, f.Sheet, f.Side); err != nil {
			return err
		}
		if err := write(slices.Values(f.Pages)); err != nil {
			return err
		}
	}
	return ctx.Err()
}

func pageHead(ctx context.Context, w *bufio.Writer, number int) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	_, err := fmt.Fprintf(w, "\nPage %d\n", number)
	return err
}

// SettingLine is one line of the setting copy: its number, its sorts with every space named, and what it wants.
func SettingLine(l demand.Line) string {
	if l.Blank {
		return fmt.Sprintf("%3d", l.Number)
	}
	var b strings.Builder
	if l.Beside > 0 {
		b.WriteString("{|}")
	}
	for i := 0; i < len(l.Pieces); {
		p := l.Pieces[i]
		if !p.Space {
			if p.Missing != 0 {
				b.WriteString("{?" + fmt.Sprintf("U+%04X", p.Missing) + "}")
			} else {
				b.WriteString(p.Text)
			}
			i++
			continue
		}
		from := i
		for i < len(l.Pieces) && l.Pieces[i].Space {
			i++
		}
		b.WriteString(gapMarks(l.Pieces[from:i], from > 0 && i < len(l.Pieces)))
	}
	wants := ""
	if tenths := (l.Wants + 50) / 100; tenths > 0 { // under a twentieth of a point is nothing to a compositor
		wants = "  " + Decimal(tenths, 1)
	}
	return Clean(fmt.Sprintf("%3d  %s%s", l.Number, b.String(), wants))
}

// gapMarks names the pieces of one gap, those of a kind together: {4+5}, {5+4x3m}. A thick between words is a space.
func gapMarks(pieces []demand.Piece, between bool) string {
	var marks []string
	for i := 0; i < len(pieces); {
		n := 1
		for i+n < len(pieces) && pieces[i+n].Sort == pieces[i].Sort {
			n++
		}
		mark := spaceMarks[pieces[i].Sort]
		if n > 1 {
			mark = fmt.Sprintf("%dx%s", n, mark)
		}
		marks = append(marks, mark)
		i += n
	}
	if between && len(marks) == 1 && marks[0] == "3" {
		return " "
	}
	return "{" + strings.Join(marks, "+") + "}"
}

func kindOf(l demand.Line) string {
	switch {
	case l.Part == page.Head:
		return "head"
	case l.Part == page.Direction:
		return "direction"
	case l.Blank:
		return "blank"
	}
	return "text"
}
