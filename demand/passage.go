package demand

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"formewise/demand/page"
	"formewise/demand/stick"
	"formewise/texts/house"
	"formewise/texts/read"
)

const softHyphen = '\u00ad'

// wordsShown is how many characters of a page's first and last words are shown.
const wordsShown = 24

// firstWords are the words that begin a page, counted from 1, as the copy has them: as many as wordsShown takes, at least one. What is
// left of a divided word begins with a hyphen.
func (s *Setting) firstWords(number int) string {
	from, to := s.pages.Start(number), s.pages.Start(number+1)
	w := words{}
	for at := from; w.more() && at.Paragraph <= to.Paragraph && at.Paragraph < len(s.copy.Paragraphs); at = (stick.Place{Paragraph: at.Paragraph + 1}) {
		for text := s.upTo(at, to); len(text) > 0 && w.more(); {
			r, n := utf8.DecodeRune(text)
			w.take(r)
			text = text[n:]
		}
		w.take(' ')
	}
	return w.between(from.Divisions > 0, to.Divisions > 0 && w.more())
}

// lastWords are the words that end a page, as firstWords has those that begin it. The first part of a divided word ends
// with a hyphen.
func (s *Setting) lastWords(number int) string {
	return s.wordsBefore(s.pages.Start(number), s.pages.Start(number+1))
}

// wordsBefore are the last words between two places.
func (s *Setting) wordsBefore(from, to stick.Place) string {
	w := words{backwards: true}
	for i := min(to.Paragraph, len(s.copy.Paragraphs)-1); w.more() && i >= from.Paragraph; i-- {
		at := stick.Place{Paragraph: i}
		if i == from.Paragraph {
			at = from
		}
		for text := s.upTo(at, to); len(text) > 0 && w.more(); {
			r, n := utf8.DecodeLastRune(text)
			w.take(r)
			text = text[:len(text)-n]
		}
		w.take(' ')
	}
	return w.between(from.Divisions > 0 && w.more(), to.Divisions > 0)
}

// upTo is the text of a place's paragraph, from that place as far as the other.
func (s *Setting) upTo(at, to stick.Place) []byte {
	p := s.copy.Paragraphs[at.Paragraph]
	if at.Paragraph == to.Paragraph {
		return p.Text[min(at.At, to.At):to.At]
	}
	return p.Text[at.At:]
}

// words gathers the words of a text character by character, as many whole ones as are shown.
type words struct {
	backwards bool // from the last to the first
	whole     []rune
	word      []rune
	full      bool
}

func (w *words) more() bool { return !w.full }

func (w *words) take(r rune) {
	switch {
	case r == softHyphen:
	case !unicode.IsSpace(r):
		if w.word = append(w.word, r); len(w.word) > wordsShown {
			w.end()
			w.full = true
		}
	case len(w.word) > 0:
		w.end()
	}
}

func (w *words) end() {
	switch n := len(w.whole) + len(w.word); {
	case len(w.whole) == 0:
		w.whole = append(w.whole, w.word[:min(len(w.word), wordsShown)]...)
	case n < wordsShown:
		w.whole = append(append(w.whole, ' '), w.word...)
	default:
		w.full = true
	}
	w.word = w.word[:0]
}

// between gives the words, with a hyphen where the first or the last is part of a word.
func (w *words) between(rest, part bool) string {
	var b strings.Builder
	if rest {
		b.WriteByte('-')
	}
	for i := range w.whole {
		if w.backwards {
			i = len(w.whole) - 1 - i
		}
		b.WriteRune(w.whole[i])
	}
	if part {
		b.WriteByte('-')
	}
	return b.String()
}

// A Passage is a page's text run together, as a compositor who has to find the line ends himself is given it.
type Passage struct {
	Page      int
	Head      string // head line and direction line, "" where the page has none
	Direction string
	Text      []Paragraph
}

// A Paragraph is one of a passage, or what of it stands on the page; in verse, a line of the manuscript.
type Paragraph struct {
	Text   string // a space between words, quotes and dashes as they are set; the first part of a word that the page's end divides has its hyphen
	Begins bool   // the paragraph begins here
	Blank  bool   // blank lines, and no text
}

// Passage runs a page's text together; pages are numbered as the plan numbers them.
func (s *Setting) Passage(number int) Passage {
	in := number - s.plan.FirstPage + 1
	out := Passage{Page: number}
	for _, l := range s.pages.NewSetter().Page(in) {
		switch l.Part {
		case page.Head:
			out.Head = s.line(number, l).text()
		case page.Direction:
			out.Direction = s.line(number, l).text()
		}
	}
	to := s.pages.Start(in + 1)
	for at := s.pages.Start(in); at.Paragraph <= to.Paragraph && at.Paragraph < len(s.copy.Paragraphs); at = (stick.Place{Paragraph: at.Paragraph + 1}) {
		p := s.copy.Paragraphs[at.Paragraph]
		if p.Kind == read.Blank || p.Kind == read.Break {
			if n := len(out.Text); n > 0 && !out.Text[n-1].Blank && at.Paragraph < to.Paragraph {
				out.Text = append(out.Text, Paragraph{Blank: true})
			}
			continue
		}
		end := len(p.Text)
		if at.Paragraph == to.Paragraph {
			end = to.At
		}
		if text := runTogether(p.Text, at.At, end); text != "" {
			if at.Paragraph == to.Paragraph && to.Divisions > 0 {
				text += "-"
			}
			out.Text = append(out.Text, Paragraph{Text: text, Begins: at.At == 0})
		}
	}
	if n := len(out.Text); n > 0 && out.Text[n-1].Blank {
		out.Text = out.Text[:n-1]
	}
	return out
}

// runTogether gives part of a paragraph's text as it is meant: quotes and dashes turned, white space as one space.
func runTogether(text []byte, from, to int) string {
	var b strings.Builder
	for i := from; i < to; {
		if turned, n := house.Turn(text, i); n > 0 {
			b.WriteString(turned)
			i += n
			continue
		}
		r, n := utf8.DecodeRune(text[i:])
		if r != softHyphen {
			b.WriteRune(r)
		}
		i += n
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// text is what a line prints, with one space for whatever stands between words.
func (l Line) text() string {
	var b strings.Builder
	for _, p := range l.Pieces {
		switch {
		case p.Space:
			b.WriteByte(' ')
		case p.Missing != 0:
			b.WriteRune(p.Missing)
		default:
			b.WriteString(p.Text)
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}
