package main

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/spf13/pflag"
	"golang.org/x/text/unicode/norm"

	"formewise/cmd/formewise/report"
	"formewise/cmd/formewise/units"
	"formewise/demand"
)

// mostTitle is how many characters a running title may have: more go into no line.
const mostTitle = 200

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

	signed, led *pflag.Flag // these are read where they are given, and only there
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
	p.signed, p.led = f.Lookup("signatures"), f.Lookup("leading")
}

// planned fills in what the flags say by themselves.
func (p *pageFlags) planned(plan *demand.Plan) error {
	title, err := runningTitle(p.title)
	if err != nil {
		return err
	}
	if p.drop < 0 {
		return refuse("--drop: %d blank lines cannot be (it takes 0 or more)", p.drop)
	}
	plan.Page = demand.PageStyle{
		Title: title, Folios: p.folios, Catchwords: p.catchwords, Drop: p.drop, NoWidow: p.noWidow,
	}
	if p.signed.Changed {
		if plan.Imposing.Format == "single" {
			return refuseWith("leave out --signatures, or give a --format that is folded", "--signatures does not go with --format single: leaves are not gathered")
		}
		first, err := demand.FirstSignature(p.signatures)
		if err != nil {
			return &failure{what: "--signatures: " + err.Error(), cause: err}
		}
		plan.Page.Signature = first
	}
	return nil
}

// runningTitle gives the title trimmed and in NFC, or says why none can be set: what is not seen in it is not meant.
func runningTitle(given string) (string, error) {
	const hint = "a title has letters, signs and spaces only"
	title := norm.NFC.String(strings.TrimSpace(given))
	if !utf8.ValidString(given) {
		return "", refuseWith("give it in UTF-8", "--title: %q is not UTF-8", begun(given))
	}
	if n := utf8.RuneCountInString(title); n > mostTitle {
		return "", refuseWith("it has to go into one line", "--title: %q is %s characters long (at most %d)", begun(title), report.Number(n), mostTitle)
	}
	if i := strings.IndexFunc(title, steers); i >= 0 {
		r, _ := utf8.DecodeRuneInString(title[i:])
		return "", refuseWith(hint, "--title: %q holds U+%04X, a control character", begun(title), r)
	}
	return title, nil
}

// steers tells control and format characters, and those that end a line or a paragraph.
func steers(r rune) bool { return unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp) }

// begun is the beginning of a text that may be long.
func begun(text string) string {
	const most = 40
	if utf8.RuneCountInString(text) <= most {
		return text
	}
	return string([]rune(text)[:most]) + "…"
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
