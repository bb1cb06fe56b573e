package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"formewise/cmd/formewise/report"
	"formewise/cmd/formewise/units"
	"formewise/demand"
	"formewise/demand/impose"
	"formewise/demand/standing"
	"formewise/inventory"
	"formewise/texts/divide"
	"formewise/texts/read"
)

// workFlags are the flags of every command that speaks of a manuscript to be
// set: in what, how wide, how imposed, and in which order it is worked.
type workFlags struct {
	font, spaces string
	measure      units.Length
	lines        int
	format       string
	in           int
	halfSheet    bool
	pull         int
	setting      string
	first        string
	standing     string
	release      string
	allowance    units.Share
	verse        bool
	firstPage    int
	divide       string
	divided      string
	spacing      string
	style        pageFlags

	later laterFlags
}

// laterFlags are in the contract and not there yet.
type laterFlags struct {
	italic, smallCaps, bold, heading string
	encoding, html                   string
	longS, sample                    bool
	of                               int
}

func (w *workFlags) add(f *pflag.FlagSet) {
	w.allowance, _ = units.ParseShare("3%")
	f.StringVar(&w.font, "font", "", "the text font, by its `name` in the shop")
	f.StringVar(&w.spaces, "spaces", "", "the font that spaces are drawn from, by `name` (default: the font's own, else\nthe shop's one spacing font of its body)")
	f.Var(&w.measure, "measure", "the length of the line: 22em, 24pc, 264pt, 4in, 101mm, 10cm, 28dd")
	f.IntVar(&w.lines, "lines", 0, "`lines` in a full page")
	f.StringVar(&w.format, "format", "octavo", "`one of` "+strings.Join(impose.Formats(), ", "))
	f.IntVar(&w.in, "in", 1, "`sheets` quired to a gathering: folio, quarto, octavo")
	f.BoolVar(&w.halfSheet, "half-sheet", false, "all pages of the half sheet in one forme, worked and turned")
	f.IntVar(&w.pull, "pull", 0, "the press takes so many `pages` at a pull (default: the whole forme)")
	f.StringVar(&w.setting, "setting", "by-formes", "the `order` pages are set in: by-formes or seriatim")
	f.StringVar(&w.first, "first", "inner", "by formes, the `forme` of a sheet that is set first: inner or outer")
	f.StringVar(&w.standing, "standing", "0", "finished `formes` left standing while the next pages are set: 0, 1, … or all")
	f.StringVar(&w.release, "release", "forme", "what is `released` for distribution once it is printed: forme, or sheet (both\nformes together)")
	f.Var(&w.allowance, "allowance", "what is never counted on: a share of the stock (5%), or of a page (0.5page)")
	f.BoolVar(&w.verse, "verse", false, "every line of the manuscript is a line of verse")
	f.IntVar(&w.firstPage, "first-page", 1, "the `number` of the first page")
	f.StringVar(&w.divide, "divide", "en", "the `language` words are divided in: "+strings.Join(divide.Languages(), ", ")+", or none")
	f.StringVar(&w.divided, "divided", "", "a `file` of words divided by hand, which overrule the patterns: a word a line,\nas man-u-script")
	f.StringVar(&w.spacing, "spacing", "even", "even, or `old`: an em after a sentence, an en after colon and semicolon")
	w.style.add(f)

	l := &w.later
	f.StringVar(&l.italic, "italic", "", "")
	f.StringVar(&l.smallCaps, "small-caps", "", "")
	f.StringVar(&l.bold, "bold", "", "")
	f.StringVar(&l.heading, "heading", "", "")
	f.StringVar(&l.encoding, "encoding", "", "")
	f.StringVar(&l.html, "html", "", "")
	f.BoolVar(&l.longS, "long-s", false, "")
	f.BoolVar(&l.sample, "sample", false, "")
	f.IntVar(&l.of, "of", 0, "")
	for _, name := range []string{"italic", "small-caps", "bold", "heading", "encoding", "html", "long-s", "sample", "of"} {
		// The flag is there, so it can be hidden.
		_ = f.MarkHidden(name)
	}
}

// notYet refuses what the contract has and the program has not.
func (w *workFlags) notYet(cmd *cobra.Command) error {
	for _, name := range []string{"italic", "small-caps", "bold", "heading", "encoding", "html", "long-s", "sample", "of"} {
		if cmd.Flags().Changed(name) {
			return notYet("--" + name)
		}
	}
	return nil
}

func notOneOf(flag, given string, allowed ...string) error {
	return refuse("--%s: %q is not one of %s", flag, given, strings.Join(allowed, ", "))
}

// A question is a command's flags and files come to values: what demand asks for.
type question struct {
	plan  demand.Plan
	stock demand.Stock
	copy  *read.Copy
	asked asked
}

// said puts an answer to the question for the report.
func (q *question) said(a *demand.Answer) report.Check {
	return report.Check{
		Answer: a, Format: q.asked.format, Setting: q.asked.setting, Release: q.asked.release, Allowance: q.asked.allowance, Divide: q.asked.divide, Divided: q.asked.divided,
	}
}

// asked is what the answer repeats as it was given.
type asked struct {
	format, setting, release, allowance, divide, divided string
}

// resolve fetches the fonts and the manuscript and makes a plan of the flags. Whatever is wrong with the flags is said
// before a file is opened.
func (w *workFlags) resolve(ctx context.Context, c *counter, cmd *cobra.Command, names []string) (*question, error) {
	if err := needs(cmd, "font", "measure", "lines"); err != nil {
		return nil, err
	}
	if err := w.notYet(cmd); err != nil {
		return nil, err
	}
	q := &question{asked: asked{w.format, w.setting, w.release, w.allowance.Text, w.divide, w.divided}}
	if err := w.planned(cmd, &q.plan); err != nil {
		return nil, err
	}
	// Patterns and manuscript are read while the shop is opened; what is wrong with the shop is said first all the same.
	type reading struct {
		copy *read.Copy
		err  error
	}
	type dividing struct {
		by  *divide.Divider
		err error
	}
	patterns := make(chan dividing, 1)
	go func() {
		by, err := w.divider()
		patterns <- dividing{by, err}
	}()
	manuscript := make(chan reading, 1)
	go func() {
		files, err := c.manuscripts(ctx, names)
		if err != nil {
			manuscript <- reading{err: err}
			return
		}
		copy, err := read.Plain(files, w.verse)
		manuscript <- reading{copy, err}
	}()
	text, fonts, err := w.fonts(ctx, c)
	if err != nil {
		return nil, err
	}
	q.stock = stockOf(fonts)
	if w.style.initials != "" {
		q.plan.Initials = len(fonts) - 1
	}
	if q.plan.Measure, err = w.measure.Positive(text.Body); err != nil {
		return nil, refuseWith("twenty ems and more read well: --measure 22em", "--measure: %v", err)
	}
	if q.plan.Measure > demand.MostMeasure {
		return nil, refuse("--measure: %s is longer than any line (at most %dpt)", w.measure.String(), demand.MostMeasure/1000)
	}
	if err := w.style.lengths(&q.plan, text.Body); err != nil {
		return nil, err
	}
	d := <-patterns
	if d.err != nil {
		return nil, d.err
	}
	if d.by != nil {
		q.plan.Dividing = d.by
	}
	got := <-manuscript
	q.copy = got.copy
	return q, got.err
}

// planned fills in what the flags say by themselves.
func (w *workFlags) planned(cmd *cobra.Command, p *demand.Plan) error {
	switch {
	case w.lines < 1:
		return refuse("--lines: a page of %d lines cannot be (it takes 1 to %d)", w.lines, demand.MostLines)
	case w.lines > demand.MostLines:
		return refuse("--lines: %d lines are more than any page has (it takes 1 to %d)", w.lines, demand.MostLines)
	case w.firstPage < 1 || w.firstPage > demand.MostPageNumber:
		return refuse("--first-page: %d is no page number (it takes 1 to %d)", w.firstPage, demand.MostPageNumber)
	case cmd.Flags().Changed("pull") && w.pull < 1:
		return refuse("--pull: a press that takes %d pages at a pull cannot be (it takes 1 or more)", w.pull)
	case w.first != "inner" && w.first != "outer":
		return notOneOf("first", w.first, "inner", "outer")
	case w.setting != "by-formes" && w.setting != "seriatim":
		return notOneOf("setting", w.setting, "by-formes", "seriatim")
	case w.release != "forme" && w.release != "sheet":
		return notOneOf("release", w.release, "forme", "sheet")
	case w.spacing != "even" && w.spacing != "old":
		return notOneOf("spacing", w.spacing, "even", "old")
	case w.divided != "" && w.divide == "none":
		return refuseWith("leave out --divide none, or name the language of the words with --divide",
			"--divided does not go with --divide none: no word is divided then but at its soft hyphens")
	case cmd.Flags().Changed("divided") && w.divided == "":
		return refuse("--divided: the name of the file is empty")
	case w.in > 1 && w.halfSheet:
		return refuse("--half-sheet does not go with --in: half sheets are not quired")
	case cmd.Flags().Changed("in") && w.in < 1:
		return refuse("--in: %d sheets to a gathering cannot be (it takes 1 to %d)", w.in, impose.MaxIn)
	}
	kept := standing.All
	if w.standing != "all" {
		n, err := strconv.Atoi(w.standing)
		if err != nil || n < 0 {
			return refuse("--standing: %q is no number of formes (0, 1, 2, … or all)", w.standing)
		}
		kept = n
	}
	p.Lines, p.FirstPage = w.lines, w.firstPage
	p.Imposing = impose.Plan{Format: w.format, In: w.in, HalfSheet: w.halfSheet, Pull: w.pull, OuterFirst: w.first == "outer"}
	p.Schedule = standing.Schedule{Seriatim: w.setting == "seriatim", Standing: kept, SheetRelease: w.release == "sheet"}
	p.Old = w.spacing == "old"
	if languages := divide.Languages(); w.divide != "none" && !slices.Contains(languages, w.divide) {
		return notOneOf("divide", w.divide, append(languages, "none")...)
	}
	if err := w.style.planned(p); err != nil {
		return err
	}
	p.Allowance = demand.Allowance{Num: w.allowance.Num, Den: w.allowance.Den, OfPage: w.allowance.OfPage}
	return p.Imposing.Check()
}

// divider is what divides words: the patterns of the language, and the words of the file of --divided as it says; nil for none.
func (w *workFlags) divider() (*divide.Divider, error) {
	if w.divide == "none" {
		return nil, nil
	}
	d, err := divide.For(w.divide)
	if err != nil || w.divided == "" {
		return d, err
	}
	words, err := os.ReadFile(w.divided)
	if err != nil {
		return nil, unreadable("divided words", w.divided, err)
	}
	if d, err = d.WithExceptions(bytes.NewReader(words)); err != nil {
		return nil, &failure{
			what: fmt.Sprintf("divided words %q: %v", w.divided, err), cause: err,
			hint: "write a word a line in UTF-8, with a hyphen where it may be divided: man-u-script; what follows a # is a comment",
		}
	}
	return d, nil
}

// fonts fetches the fonts that the work draws on: the text font, that of its spaces if that is another, and that of its
// initials, last, if it has any.
func (w *workFlags) fonts(ctx context.Context, c *counter) (text inventory.Font, fonts []inventory.Font, err error) {
	path, err := c.shopPath()
	if err != nil {
		return text, nil, err
	}
	shop, err := inventory.Open(ctx, path)
	if err != nil {
		return text, nil, err
	}
	defer func() { err = errors.Join(err, shop.Close()) }()
	if text, err = shop.Font(ctx, w.font); err != nil {
		return text, nil, err
	}
	if !prints(text) {
		return text, nil, refuseWith("give the font of the letters with --font; --spaces names this one",
			"font %q has no printing sorts, only spaces", text.Name)
	}
	spaces, err := shop.SpacingFor(ctx, text, w.spaces)
	if err != nil {
		return text, nil, err
	}
	fonts = []inventory.Font{text}
	if spaces.Name != text.Name {
		fonts = append(fonts, spaces)
	}
	if w.style.initials == "" {
		return text, fonts, nil
	}
	initials, err := shop.Font(ctx, w.style.initials)
	if err != nil {
		return text, nil, err
	}
	if initials.Name == text.Name || !prints(initials) || initials.Body <= text.Body {
		return text, nil, refuseWith("give the name of a larger font", "--initials: %q is no font for initials beside %q", initials.Name, text.Name)
	}
	return text, append(fonts, initials), nil
}

func prints(f inventory.Font) bool {
	for _, s := range f.Sorts {
		if s.Kind != inventory.Space {
			return true
		}
	}
	return false
}

// stockOf puts fonts of the shop as demand asks for them.
func stockOf(fonts []inventory.Font) demand.Stock {
	stock := make(demand.Stock, len(fonts))
	for i, f := range fonts {
		stock[i] = demand.Font{Name: f.Name, Body: f.Body, Sorts: make([]demand.Sort, len(f.Sorts))}
		for n, s := range f.Sorts {
			stock[i].Sorts[n] = demand.Sort{
				Name: s.Name, Text: s.Text, Kind: string(s.Kind), Set: s.Set, Basis: string(s.Basis), OnHand: s.OnHand, Standing: s.Standing, Kerned: s.Kerned,
			}
		}
	}
	return stock
}

// manuscripts reads the files of a work; - is standard input, once.
func (c *counter) manuscripts(ctx context.Context, names []string) ([]read.File, error) {
	files := make([]read.File, len(names))
	stdin := false
	for i, name := range names {
		var data []byte
		var err error
		if name == "-" {
			if stdin {
				return nil, refuse("standard input (-) can be read only once")
			}
			stdin = true
			data, err = io.ReadAll(c.stdin)
		} else {
			data, err = readFile(ctx, name)
		}
		if errors.Is(err, os.ErrNotExist) {
			return nil, &failure{what: fmt.Sprintf("manuscript %q: there is no such file", name), hint: "give a file of plain text, or - for standard input; names of works are not there yet", cause: err}
		}
		if err != nil {
			return nil, unreadable("manuscript", name, err)
		}
		files[i] = read.File{Name: name, Data: data}
	}
	return files, nil
}
