package report

import (
	"bufio"
	"context"
	"fmt"
	"iter"
	"strings"

	"formewise/demand"
)

// RunCopy writes the copy for learners: the text of each page run together, in reading order or forme by forme.
func RunCopy(ctx context.Context, w *bufio.Writer, set *demand.Setting, byFormes bool) error {
	plan, font := set.Asked()
	head := fmt.Sprintf("The text of each page, run together: the line ends are to be found in the stick, at %s of %s, %s to the page. What begins with an indent begins a paragraph.",
		ems(plan.Measure, font.Body), font.Name, Count(plan.Lines, "line", "lines"))
	if _, err := w.WriteString(Wrap(Clean(head), width)); err != nil {
		return err
	}
	return pagesInOrder(ctx, w, set, byFormes, func(pages iter.Seq[int]) error {
		for number := range pages {
			if err := pageHead(ctx, w, number); err != nil {
				return err
			}
			if _, err := w.WriteString(run(set.Passage(number))); err != nil {
				return err
			}
		}
		return nil
	})
}

// run is the text of a page. It is wrapped to the screen, which has nothing to do with the measure.
func run(p demand.Passage) string {
	var b strings.Builder
	if p.Head != "" {
		b.WriteString(Wrap("Head line: "+Clean(p.Head), width))
	}
	for _, paragraph := range p.Text {
		switch {
		case paragraph.Blank:
			b.WriteString("\n")
		case paragraph.Begins:
			b.WriteString(indented(Clean(paragraph.Text)))
		default:
			b.WriteString(Wrap(Clean(paragraph.Text), width))
		}
	}
	if p.Direction != "" {
		b.WriteString(Wrap("Direction line: "+Clean(p.Direction), width))
	}
	return b.String()
}

// indented is Wrap with two spaces before the first line.
func indented(text string) string {
	const sign = "\x00\x00" // stands for them: it is a word to Wrap, and nothing clean has it
	return strings.Replace(Wrap(sign+text, width), sign, "  ", 1)
}
