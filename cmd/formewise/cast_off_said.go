package main

import (
	"encoding/json"
	"fmt"
	"strings"

	"formewise/cmd/formewise/report"
	"formewise/demand/castoff"
	"formewise/demand/impose"
)

// castOffText is the answer as it is read on a screen: the extent first, then the working, the paper, and what it rests on.
func castOffText(asked castOffAsked, made castoff.Answer) (string, error) {
	copyFrom, pageFrom := asked.working()
	toPage := asked.plan.ToPage
	perPage := report.Ratio(toPage.Num, toPage.Den, 2)
	working, err := report.Table(
		[]report.Column{report.Words(""), report.Words("reckoned from"), report.Numbers(""), report.Words("")},
		[][]string{
			{"copy", copyFrom, report.Number(made.Words), noun(made.Words, "word")},
			{"page", pageFrom, perPage, "words"},
			{"work", report.Number(made.Words) + " / " + perPage, report.Number(made.Pages), noun(made.Pages, "page")},
		})
	if err != nil {
		return "", err
	}
	text := report.Wrap(asked.extent(made), report.Width) + "\n" + working
	if p := made.Paper; p != nil {
		text += "\n" + report.Wrap(asked.paper(p), report.Width)
	}
	folded := asked.unit()
	if asked.flags.in > 1 {
		folded = "gathering"
	}
	rests := "A part of a word, a page or a " + folded + " is counted as a whole one. The answer is as good as the counts that it rests on."
	if asked.pageBy == byEms {
		page, unit := asked.castUp(1), asked.castUp(made.ToUnit)
		text += "\n" + report.Wrap(fmt.Sprintf("Cast up, a full page is %s ens, and a %s %s.", ens(page), asked.unit(), ens(unit)), report.Width)
		rests += " Three ems to a word is a rule of thumb, and unsafe in the larger bodies: a specimen set in the type and counted tells more."
	}
	return text + "\n" + report.Wrap(rests, report.Width), nil
}

// extent is the answer in a sentence or two.
func (asked castOffAsked) extent(made castoff.Answer) string {
	unit := asked.unit()
	one, more := unit, plurals(unit)
	if unit != "leaf" {
		one, more = asked.flags.format+" "+one, asked.flags.format+" "+more
	}
	text := report.Count(made.Pages, "page", "pages")
	switch {
	case made.Units == 0:
		text += ", less than one " + one
	case made.Over == 0:
		text += ": " + report.Count(made.Units, one, more)
	default:
		text += ": " + report.Count(made.Units, one, more) + " and " + report.Count(made.Over, "page", "pages") + " over"
	}
	text += "; " + report.Count(made.Formes, "forme", "formes") + "."
	sheets, paper := report.Ratio(made.HalfSheets, 2, 1), asked.leaf()
	if sheets != "1" {
		paper = plurals(paper)
	}
	text += fmt.Sprintf(" One copy takes %s %s", sheets, paper)
	if unit != "leaf" {
		text += " of paper"
	}
	if asked.flags.in > 1 {
		text += fmt.Sprintf(", %s to the gathering", report.Number(asked.flags.in))
	}
	return text + "."
}

// unit is what the Answer's units are called.
func (asked castOffAsked) unit() string {
	if asked.plan.Imposing.HalfSheet {
		return "half sheet"
	}
	return asked.leaf()
}

// leaf is what the paper is counted in.
func (asked castOffAsked) leaf() string {
	if asked.flags.format == "single" {
		return "leaf"
	}
	return "sheet"
}

func plurals(one string) string {
	if one == "leaf" {
		return "leaves"
	}
	return one + "s"
}

func noun(n int, one string) string {
	if n == 1 {
		return one
	}
	return plurals(one)
}

// working says whence the words of the copy and of the page are reckoned.
func (asked castOffAsked) working() (copyFrom, pageFrom string) {
	f := asked.flags
	words := func(n int) string { return report.Count(n, "word", "words") }
	lines := func(n int) string { return report.Count(n, "line", "lines") }
	folios := report.Count(f.folios, "folio", "folios")
	switch asked.copyBy {
	case byWords:
		copyFrom = "as given"
	case byFolio:
		copyFrom = folios + " of " + words(f.wordsToFolio)
	case byLines:
		copyFrom = folios + " of " + lines(f.linesToFolio) + " of " + words(f.wordsCopyLine)
	case bySample:
		copyFrom = folios + ", " + words(f.sampleWords) + " in " + report.Number(f.sampleFolios)
	}
	if f.added > 0 {
		copyFrom += ", " + report.Number(f.added) + " added to each"
	}
	switch asked.pageBy {
	case byPage:
		pageFrom = "as given"
	case byLines:
		pageFrom = lines(f.lines) + " of " + words(f.wordsToLine)
	case bySpecimen:
		pageFrom = lines(f.lines) + ", " + words(f.specimenWords) + " in " + report.Number(f.specimenLines)
	case byEms:
		ems := report.Ratio(asked.measure, asked.em, 3)
		if ems == "1" {
			ems += " em"
		} else {
			ems += " ems"
		}
		pageFrom = lines(f.lines) + " of " + ems + ", three to a word"
	}
	return copyFrom, pageFrom
}

// paper says what the edition takes.
func (asked castOffAsked) paper(p *castoff.Paper) string {
	leaf := asked.leaf()
	count := func(n int, parted string) string {
		text := report.Count(n, leaf, plurals(leaf))
		if text == parted {
			return text
		}
		return text + " (" + parted + ")"
	}
	of := report.Count(asked.plan.Copies, "copy", "copies")
	if asked.plan.Overs > 0 {
		of += " and " + report.Number(asked.plan.Overs) + " over"
	}
	quires, left := castoff.Quires(p.ToUnit)
	toEach := pile([]int{quires, left}, "quire", leaf)
	reams, quires, left := castoff.Reams(p.Sheets)
	inAll := pile([]int{reams, quires, left}, "ream", "quire", leaf)
	return fmt.Sprintf("Paper for %s: to each %s of the work %s, in all %s. A ream is 20 quires of 24 %s.",
		of, asked.unit(), count(p.ToUnit, toEach), count(p.Sheets, inAll), plurals(leaf))
}

// pile writes "37 reams 8 quires": counts with their nouns, those of nothing left out.
func pile(counts []int, nouns ...string) string {
	var parts []string
	for i, n := range counts {
		if n > 0 {
			parts = append(parts, report.Count(n, nouns[i], plurals(nouns[i])))
		}
	}
	return strings.Join(parts, " ")
}

func (asked castOffAsked) castUp(pages int) castoff.Rate {
	return castoff.CastUp(pages, asked.flags.lines, asked.measure, asked.em)
}

func ens(r castoff.Rate) string { return report.Ratio(r.Num, r.Den, 2) }

// castOffAnswer is the answer for scripts. Decimals are rounded to two places; null means "does not apply". Where the unit
// is the leaf, sheets are leaves.
type castOffAnswer struct {
	Schema string `json:"schema"`
	Copy   struct {
		Basis   string       `json:"basis"` // words, folio, lines or sample
		Words   int          `json:"words"`
		Folios  *int         `json:"folios"`
		ToFolio *json.Number `json:"words_per_folio"` // what is added not among them
		Added   *int         `json:"added_per_folio"`
	} `json:"copy"`
	Page struct {
		Basis  string      `json:"basis"` // page, lines, specimen or ems
		ToPage json.Number `json:"words_per_page"`
		Lines  *int        `json:"lines_per_page"`
	} `json:"page"`
	Work struct {
		Format        string `json:"format"`
		PagesPerForme int    `json:"pages_per_forme"`
	} `json:"work"`
	CastOff struct {
		Pages  int         `json:"pages"`
		Formes int         `json:"formes"`
		Sheets json.Number `json:"sheets"` // of paper in one copy
		Unit   string      `json:"unit"`   // sheet, half sheet or leaf
		Whole  int         `json:"whole_units"`
		Over   int         `json:"pages_over"`
	} `json:"cast_off"`
	CastUp *castUpJSON `json:"cast_up"`
	Paper  *paperJSON  `json:"paper"`
}

type castUpJSON struct {
	Page json.Number `json:"ens_per_page"`
	Unit json.Number `json:"ens_per_unit"`
}

type paperJSON struct {
	Copies int `json:"copies"`
	Overs  int `json:"overs"`
	ToUnit int `json:"sheets_per_unit"`
	Sheets int `json:"sheets"`
	Reams  int `json:"reams"` // with the next two the same number of sheets
	Quires int `json:"quires"`
	Left   int `json:"sheets_left"`
}

func castOffJSON(asked castOffAsked, made castoff.Answer) (string, error) {
	f, p := asked.flags, asked.plan
	number := func(num, den int) json.Number { return report.JSONNumber(num, den, 2) }
	a := castOffAnswer{Schema: "formewise.castoff/1"}
	a.Copy.Basis, a.Copy.Words = asked.copyBy, made.Words
	if asked.copyBy != byWords {
		toFolio := number(p.Copy.ToFolio.Num, p.Copy.ToFolio.Den)
		a.Copy.Folios, a.Copy.ToFolio, a.Copy.Added = &f.folios, &toFolio, &f.added
	}
	a.Page.Basis, a.Page.ToPage = asked.pageBy, number(p.ToPage.Num, p.ToPage.Den)
	if asked.pageBy != byPage {
		a.Page.Lines = &f.lines
	}
	a.Work.Format, a.Work.PagesPerForme = f.format, impose.PagesPerForme(p.Imposing)
	a.CastOff.Pages, a.CastOff.Formes, a.CastOff.Sheets = made.Pages, made.Formes, number(made.HalfSheets, 2)
	a.CastOff.Unit, a.CastOff.Whole, a.CastOff.Over = asked.unit(), made.Units, made.Over
	if asked.pageBy == byEms {
		page, unit := asked.castUp(1), asked.castUp(made.ToUnit)
		a.CastUp = &castUpJSON{number(page.Num, page.Den), number(unit.Num, unit.Den)}
	}
	if made.Paper != nil {
		reams, quires, left := castoff.Reams(made.Paper.Sheets)
		a.Paper = &paperJSON{p.Copies, p.Overs, made.Paper.ToUnit, made.Paper.Sheets, reams, quires, left}
	}
	return report.JSON(a)
}
