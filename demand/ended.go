package demand

import (
	"fmt"
	"strconv"
	"strings"

	"formewise/demand/page"
	"formewise/demand/stick"
	"formewise/texts/read"
)

// A Report is how a page really ended.
type Report struct {
	Page  int    // numbered as the plan numbers pages
	Words string // its last words; "" where lines tell it
	Lines int    // how many lines of text it took in beyond those cast off for it; negative: so many fewer. Blank lines do not count: which of them stand on a page hangs on where it ends
}

// A BadReport is the error of a report that cannot be read, or that the copy does not bear out.
type BadReport struct{ What, Way string }

func (e *BadReport) Error() string { return e.What }

// Advice is the way out; "" if there is none to give.
func (e *BadReport) Advice() string { return e.Way }

const howToReport = `give a page and its last words, as "3: … over the sands", or the lines by which it missed: "6+1 line", "6-2 lines"`

// ParseReport reads “3: … over the sands”, or “6+1 line” and “6-2 lines”. The error is a *BadReport.
func ParseReport(text string) (Report, error) {
	bad := func(what string) (Report, error) {
		return Report{}, &BadReport{fmt.Sprintf("%q %s", text, what), howToReport}
	}
	rest := strings.TrimSpace(text)
	digits := len(rest) - len(strings.TrimLeft(rest, "0123456789"))
	number, err := strconv.Atoi(rest[:digits])
	if err != nil {
		return bad("does not begin with the number of a page")
	}
	r := Report{Page: number}
	rest = strings.TrimSpace(rest[digits:])
	if words, ok := strings.CutPrefix(rest, ":"); ok {
		words = strings.TrimSpace(words)
		for _, left := range []string{"…", "..."} {
			words = strings.TrimSpace(strings.TrimPrefix(words, left))
		}
		if len(foldWords(words)) == 0 {
			return bad("has no words after the page")
		}
		r.Words = words
		return r, nil
	}
	times := 1
	lines, ok := strings.CutPrefix(rest, "+")
	for _, minus := range []string{"-", "−"} {
		if fewer, is := strings.CutPrefix(rest, minus); is {
			lines, ok, times = fewer, true, -1
		}
	}
	if !ok {
		return bad("says neither the last words of the page nor a number of lines")
	}
	lines = strings.TrimSpace(lines)
	for _, noun := range []string{"lines", "line"} {
		lines = strings.TrimSpace(strings.TrimSuffix(lines, noun))
	}
	n, err := strconv.Atoi(lines)
	if err != nil || n < 1 || strings.Trim(lines, "0123456789") != "" {
		return bad("does not say by how many lines")
	}
	r.Lines = times * n
	return r, nil
}

// ending is the place where the page after a reported one begins. number is the page's, from 1. The error is a *BadReport.
func (s *Setting) ending(r Report, number int) (stick.Place, error) {
	if s.copy.Paragraphs[s.pages.Start(number).Paragraph].Kind == read.Break {
		return stick.Place{}, &BadReport{fmt.Sprintf("page %d is empty: a form feed made it", r.Page), ""}
	}
	if r.Words != "" {
		return s.endingWith(r, number)
	}
	if r.Lines > 0 {
		return s.later(r, number)
	}
	return s.sooner(r, number)
}

// later is where a page ends that took in more lines: as many lines of the next.
func (s *Setting) later(r Report, number int) (stick.Place, error) {
	switch {
	case number == s.pages.Count():
		return stick.Place{}, &BadReport{fmt.Sprintf("page %d took in no line more: it is the last", r.Page), ""}
	case s.pages.Opens(number + 1):
		return stick.Place{}, &BadReport{fmt.Sprintf("page %d took in no line more: a form feed ends it", r.Page), ""}
	}
	next := s.textOf(number + 1)
	if r.Lines < len(next) {
		return next[r.Lines].At, nil
	}
	return stick.Place{}, &BadReport{fmt.Sprintf("page %d took in %s more: the next page has %d (it takes fewer than those)", r.Page, lines(r.Lines), len(next)), howToReport}
}

// sooner is where a page ends that took in fewer lines.
func (s *Setting) sooner(r Report, number int) (stick.Place, error) {
	text := s.textOf(number)
	if n := len(text) + r.Lines; n > 0 {
		return text[n].At, nil
	}
	return stick.Place{}, &BadReport{fmt.Sprintf("page %d took in %s fewer: it has %d (one has to stay)", r.Page, lines(-r.Lines), len(text)), howToReport}
}

func lines(n int) string {
	if n == 1 {
		return "1 line"
	}
	return fmt.Sprintf("%d lines", n)
}

// textOf gives the lines of text of a page, from 1. A line's number counts the blank ones before it too.
func (s *Setting) textOf(number int) []page.Line {
	var text []page.Line
	for _, l := range s.pages.NewSetter().Page(number) {
		if l.Part == page.Body && !l.Blank {
			text = append(text, l)
		}
	}
	return text
}
