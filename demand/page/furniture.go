package page

import (
	"fmt"

	"formewise/demand/stick"
	"formewise/texts/read"
)

// A TooLong is the error of a head or direction line that does not go in the measure.
type TooLong struct {
	Page int // from 1
	Line string
	Text string
}

func (e *TooLong) Error() string {
	return fmt.Sprintf("the %s line of page %d is longer than the measure: %q", e.Line, e.Page, e.Text)
}

// headLine sets the head line of a page; nil where it has none.
func (p *Pages) headLine(h *stick.Hand, page int) (*stick.Spread, error) {
	o := &p.options
	if !o.headed() || p.options.drop > 0 && p.starts[page-1].drop {
		return nil, nil
	}
	left, right, folio := "", "", ""
	if o.folio != nil {
		folio = o.folio(page)
	}
	if o.recto != nil && o.recto(page) {
		right = folio
	} else {
		left = folio
	}
	line, ok := h.Spread(left, o.title, right)
	if !ok {
		return nil, &TooLong{page, "head", left + " " + o.title + " " + right}
	}
	return &line, nil
}

// directionLine sets the direction line of a page; nil where it has none.
func (p *Pages) directionLine(h *stick.Hand, page int) (*stick.Spread, error) {
	o := &p.options
	catchword, signature := "", ""
	if o.catchwords && page < len(p.starts) {
		next := p.starts[page]
		if paragraph := p.copy.Paragraphs[next.Paragraph]; paragraph.Kind == read.Prose || paragraph.Kind == read.Verse {
			catchword = h.FirstWord(paragraph.Text, next.At)
		}
	}
	if o.signature != nil {
		signature = o.signature(page)
	}
	if catchword == "" && signature == "" {
		return nil, nil
	}
	line, ok := h.Spread("", signature, catchword)
	if !ok && catchword != "" { // a word longer than the measure catches nothing
		if signature == "" {
			return nil, nil
		}
		line, ok = h.Spread("", signature, "")
	}
	if !ok {
		return nil, &TooLong{page, "direction", signature}
	}
	return &line, nil
}
