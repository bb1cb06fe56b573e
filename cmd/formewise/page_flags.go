package main

import (
	"strings"

	"github.com/spf13/pflag"
	"golang.org/x/text/unicode/norm"

	"formewise/cmd/formewise/units"
	"formewise/demand"
)

// pageFlags are what a page has beside its lines of text. All are off unless
// asked for.
type pageFlags struct {
	title      string
	folios     bool
	catchwords bool
	signatures string
	drop       int
	noWidow    bool
	initials   string
	leading    units.Length
	led        *pflag.Flag
}

func (p *pageFlags) add(f *pflag.FlagSet) {
	f.StringVar(&p.title, "title", "", "a head line with this running `title` in its middle")
	f.BoolVar(&p.folios, "folios", false, "page numbers, at the outer end of the head line")
	f.BoolVar(&p.catchwords, "catchwords", false, "the first word of the next page, at the foot")
	f.StringVar(&p.signatures, "signatures", "", "signatures at the foot, the first gathering's being this `letter` (B)")
	f.IntVar(&p.drop, "drop", 0, "blank `lines` at the head of the work, and after a form feed")
	f.BoolVar(&p.noWidow, "no-widow", false, "no page begins with the last line of a paragraph: an opening may run a line\nshort or long")
	f.StringVar(&p.initials, "initials", "", "initials two lines deep, from this larger `font`, at the head of the work and\nafter a form feed")
	f.Var(&p.leading, "leading", "leads between the lines, as 2pt (default: set solid)")
	p.led = f.Lookup("leading")
}

// planned fills in what the flags say by themselves.
func (p *pageFlags) planned(plan *demand.Plan) error {
	plan.Page = demand.PageStyle{
		Title: norm.NFC.String(strings.TrimSpace(p.title)), Folios: p.folios, Catchwords: p.catchwords, Drop: p.drop, NoWidow: p.noWidow,
	}
	if p.signatures != "" {
		first, err := demand.FirstSignature(p.signatures)
		if err != nil {
			return &failure{what: "--signatures: " + err.Error(), cause: err}
		}
		plan.Page.Signature = first
	}
	return nil
}

// lengths fills in what is measured in ems of the text font.
func (p *pageFlags) lengths(plan *demand.Plan, body int) error {
	if !p.led.Changed {
		return nil
	}
	leading, err := p.leading.Positive(body)
	if err != nil {
		return &failure{what: "--leading: " + err.Error(), hint: "leave it out to set solid", cause: err}
	}
	if leading > demand.MostLeading {
		return refuse("--leading: %s is more than lines are led apart (at most %dpt)", p.leading.String(), demand.MostLeading/1000)
	}
	plan.Page.Leading = leading
	return nil
}
