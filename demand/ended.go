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
	Lines int    // how many lines of the copy it took in beyond what was cast off for it; negative: so many fewer
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
	next := s.bodyOf(number + 1)
	for n := r.Lines; n < len(next); n++ {
		if !next[n].Blank {
			return next[n].At, nil
		}
	}
	return stick.Place{}, &BadReport{fmt.Sprintf("page %d took in %s more: the next page has %d (it takes fewer than those)", r.Page, lines(r.Lines), len(next)), howToReport}
}

// sooner is where a page ends that took in fewer lines.
func (s *Setting) sooner(r Report, number int) (stick.Place, error) {
	body := s.bodyOf(number)
	first := 0
	for first < len(body) && body[first].Blank {
		first++
	}
	if n := len(body) + r.Lines; n > first {
		for ; n < len(body); n++ {
			if !body[n].Blank {
				return body[n].At, nil
			}
		}
	}
	return stick.Place{}, &BadReport{fmt.Sprintf("page %d took in %s fewer: it has %d (one has to stay)", r.Page, lines(-r.Lines), len(body)-first), howToReport}
}

func lines(n int) string {
	if n == 1 {
		return "1 line"
	}
	return fmt.Sprintf("%d lines", n)
}

// bodyOf gives the lines of a page, from 1, down to the last of text.
func (s *Setting) bodyOf(number int) []page.Line {
	var body []page.Line
	text := 0
	for _, l := range s.pages.NewSetter().Page(number) {
		if l.Part != page.Body {
			continue
		}
		if body = append(body, l); !l.Blank {
			text = len(body)
		}
	}
	return body[:text]
}
