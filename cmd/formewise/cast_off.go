package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"formewise/cmd/formewise/report"
	"formewise/cmd/formewise/units"
	"formewise/demand/castoff"
	"formewise/demand/impose"
)

// castOffFlags are the counts that a manuscript is cast off from. Which of them go together, waysOfCopy and waysOfPage say.
type castOffFlags struct {
	words, folios               int
	linesToFolio, wordsCopyLine int
	wordsToFolio                int
	sampleFolios, sampleWords   int
	added                       int

	wordsToPage                  int
	lines, wordsToLine           int
	specimenLines, specimenWords int
	measure, body                units.Length

	format        string
	in            int
	halfSheet     bool
	copies, overs int
	json          bool
}

// newCastOff reckons pages, sheets and paper for copy that is not keyed.
func newCastOff(c *counter) *cobra.Command {
	var f castOffFlags
	cmd := &cobra.Command{
		Use:   "cast-off --words N --lines N --words-to-line N",
		Short: "pages, sheets and paper of copy that is not keyed",
		Example: `
formewise cast-off --words 422000 --lines 40 --words-to-line 10
formewise cast-off --folios 422 --lines-to-folio 50 --words-to-copy-line 20 --lines 40 --words-to-line 10
formewise cast-off --folios 400 --sample-folios 12 --sample-words 3960 --added 44 --words-to-page 480
formewise cast-off --words 90000 --lines 30 --specimen-lines 12 --specimen-words 107 --format quarto
formewise cast-off --words 122400 --lines 36 --measure 22em --format duodecimo --half-sheet --copies 1000 --overs 56`,
		Long: `
Reckons how many pages a manuscript makes from the words in it and the words to
a printed page; for copy that is keyed, check counts every line.

The copy is given by its --words, or by its --folios with one of
  --words-to-folio                       the words of each
  --lines-to-folio --words-to-copy-line  an even hand or a typewriter
  --sample-folios --sample-words         some of them counted to the word
The printed page is given by --words-to-page, or by its --lines with one of
  --words-to-line                        the words of each
  --specimen-lines --specimen-words      some lines set in the type, and counted
  --measure                              nothing set yet: three ems to a word`,
		Args: takes(),
		RunE: func(cmd *cobra.Command, _ []string) error {
			asked, err := f.resolve(cmd)
			if err != nil {
				return err
			}
			made, err := castoff.Reckon(asked.plan)
			if err != nil {
				return err
			}
			show := castOffText
			if f.json {
				show = castOffJSON
			}
			text, err := show(asked, made)
			if err != nil {
				return err
			}
			return c.answer(text, codeDone)
		},
	}
	f.add(cmd)
	return cmd
}

func (f *castOffFlags) add(cmd *cobra.Command) {
	set := cmd.Flags()
	set.IntVar(&f.words, "words", 0, "`words` of the copy")
	set.IntVar(&f.folios, "folios", 0, "`folios` of the copy")
	set.IntVar(&f.wordsToFolio, "words-to-folio", 0, "`words` to a folio of the copy")
	set.IntVar(&f.linesToFolio, "lines-to-folio", 0, "`lines` to a folio of the copy")
	set.IntVar(&f.wordsCopyLine, "words-to-copy-line", 0, "`words` to a line of the copy")
	set.IntVar(&f.sampleFolios, "sample-folios", 0, "`folios` of the copy that were counted")
	set.IntVar(&f.sampleWords, "sample-words", 0, "`words` counted in them, together")
	set.IntVar(&f.added, "added", 0, "`words` added to each folio for its breaks: short last lines")
	set.IntVar(&f.wordsToPage, "words-to-page", 0, "`words` to a printed page")
	set.IntVar(&f.lines, "lines", 0, "`lines` in a full printed page")
	set.IntVar(&f.wordsToLine, "words-to-line", 0, "`words` to a printed line")
	set.IntVar(&f.specimenLines, "specimen-lines", 0, "`lines` that were set in the type and counted")
	set.IntVar(&f.specimenWords, "specimen-words", 0, "`words` counted in them, together")
	set.Var(&f.measure, "measure", "the length of the line: 22em, 24pc, 264pt, 4in, 101mm, 10cm, 28dd")
	set.Var(&f.body, "body", "the body of the type, where the measure is not in ems: 12pt")
	set.StringVar(&f.format, "format", "octavo", "`one of` "+strings.Join(impose.Formats(), ", "))
	set.IntVar(&f.in, "in", 1, "`sheets` quired to a gathering: folio, quarto, octavo")
	set.BoolVar(&f.halfSheet, "half-sheet", false, "all pages of the half sheet in one forme, worked and turned")
	set.IntVar(&f.copies, "copies", 0, "`copies` to be printed, to reckon the paper")
	set.IntVar(&f.overs, "overs", 0, "`copies` over, of every sheet, for proofs and spoiled ones")
	set.BoolVar(&f.json, "json", false, "the whole answer as one JSON object")
}

// A way is one of the ways to give a number: by flags that are needed together, and others that may be added.
type way struct {
	basis         string // its name in JSON
	needs, allows []string
}

// ways are all ways to give one number, no two of which can be complete at once.
type ways struct {
	what, advice string
	list         []way
}

// The bases; the words here are those of JSON.
const (
	byWords    = "words"
	byFolio    = "folio"
	byLines    = "lines"
	bySample   = "sample"
	byPage     = "page"
	bySpecimen = "specimen"
	byEms      = "ems"
)

func waysOfCopy() ways {
	return ways{
		what:   "the words of the copy",
		advice: "give --words, or --folios with --words-to-folio, with --lines-to-folio and --words-to-copy-line, or with --sample-folios and --sample-words",
		list: []way{
			{byWords, []string{"words"}, nil},
			{byFolio, []string{"folios", "words-to-folio"}, []string{"added"}},
			{byLines, []string{"folios", "lines-to-folio", "words-to-copy-line"}, []string{"added"}},
			{bySample, []string{"folios", "sample-folios", "sample-words"}, []string{"added"}},
		},
	}
}

func waysOfPage() ways {
	return ways{
		what:   "the words to a printed page",
		advice: "give --words-to-page, or --lines with --words-to-line, with --specimen-lines and --specimen-words, or with --measure",
		list: []way{
			{byPage, []string{"words-to-page"}, nil},
			{byLines, []string{"lines", "words-to-line"}, nil},
			{bySpecimen, []string{"lines", "specimen-lines", "specimen-words"}, nil},
			{byEms, []string{"lines", "measure"}, []string{"body"}},
		},
	}
}

// flags are those of the way, needed ones first.
func (w way) flags() []string { return slices.Concat(w.needs, w.allows) }

// basis is the way that the flags given take. Flags that no way has together are refused, and so is a way half gone.
func (w ways) basis(cmd *cobra.Command) (string, error) {
	var given []string
	for _, one := range w.list {
		for _, name := range one.flags() {
			if cmd.Flags().Changed(name) && !slices.Contains(given, name) {
				given = append(given, name)
			}
		}
	}
	if len(given) == 0 {
		return "", refuseWith(w.advice, "%s needs %s", called(cmd), w.what)
	}
	var wanting []string // of each way that is still open, the flags that it lacks
	for _, one := range w.list {
		if !within(given, one.flags()) {
			continue
		}
		var absent []string
		for _, name := range one.needs {
			if !slices.Contains(given, name) {
				absent = append(absent, "--"+name)
			}
		}
		if len(absent) == 0 {
			return one.basis, nil
		}
		wanting = append(wanting, strings.Join(absent, " and "))
	}
	if len(wanting) > 0 {
		return "", refuseWith(w.advice, "%s needs %s", called(cmd), strings.Join(wanting, ", or "))
	}
	for i, a := range given {
		for _, b := range given[i+1:] {
			if !w.together(a, b) {
				return "", refuseWith(w.advice, "--%s does not go with --%s", a, b)
			}
		}
	}
	return "", refuseWith(w.advice, "--%s do not go together", strings.Join(given, ", --"))
}

// together tells whether some way has both flags.
func (w ways) together(a, b string) bool {
	return slices.ContainsFunc(w.list, func(one way) bool { return within([]string{a, b}, one.flags()) })
}

func within(some, all []string) bool {
	return !slices.ContainsFunc(some, func(name string) bool { return !slices.Contains(all, name) })
}

// castOffAsked is what was asked: the plan, and whence its numbers come.
type castOffAsked struct {
	flags          *castOffFlags
	plan           castoff.Plan
	copyBy, pageBy string
	measure, em    int // by ems, in one unit: thousandths of a point, or of an em where no body is given
}

// resolve makes a plan of the flags, or says what is wrong with them.
func (f *castOffFlags) resolve(cmd *cobra.Command) (castOffAsked, error) {
	asked := castOffAsked{flags: f}
	var err error
	if asked.copyBy, err = waysOfCopy().basis(cmd); err != nil {
		return asked, err
	}
	if asked.pageBy, err = waysOfPage().basis(cmd); err != nil {
		return asked, err
	}
	if err := f.bounds(cmd); err != nil {
		return asked, err
	}
	if cmd.Flags().Changed("overs") && !cmd.Flags().Changed("copies") {
		return asked, refuse("--overs needs --copies")
	}
	if asked.copyBy == bySample && f.sampleFolios > f.folios {
		return asked, refuse("--sample-folios: %s counted of a copy of %s", report.Number(f.sampleFolios), report.Count(f.folios, "folio", "folios"))
	}
	p := &asked.plan
	p.Imposing = impose.Plan{Format: f.format, In: f.in, HalfSheet: f.halfSheet}
	p.Copies, p.Overs = f.copies, f.overs
	switch asked.copyBy {
	case byWords:
		p.Copy.Words = f.words
	case byFolio:
		p.Copy.ToFolio = castoff.Rate{Num: f.wordsToFolio, Den: 1}
	case byLines:
		p.Copy.ToFolio = castoff.Lines(f.linesToFolio, castoff.Rate{Num: f.wordsCopyLine, Den: 1})
	case bySample:
		p.Copy.ToFolio = castoff.Rate{Num: f.sampleWords, Den: f.sampleFolios}
	}
	p.Copy.Folios, p.Copy.Added = f.folios, f.added
	switch asked.pageBy {
	case byPage:
		p.ToPage = castoff.Rate{Num: f.wordsToPage, Den: 1}
	case byLines:
		p.ToPage = castoff.Lines(f.lines, castoff.Rate{Num: f.wordsToLine, Den: 1})
	case bySpecimen:
		p.ToPage = castoff.Lines(f.lines, castoff.Rate{Num: f.specimenWords, Den: f.specimenLines})
	case byEms:
		if asked.measure, asked.em, err = f.lineOfEms(cmd); err != nil {
			return asked, err
		}
		line, err := castoff.LineOfEms(asked.measure, asked.em)
		if err != nil {
			return asked, refuse("--measure: %v", err)
		}
		p.ToPage = castoff.Lines(f.lines, line)
	}
	return asked, nil
}

// lineOfEms is the measure and the em that it is told in.
func (f *castOffFlags) lineOfEms(cmd *cobra.Command) (measure, em int, err error) {
	em = 1000 // thousandths of an em
	switch {
	case cmd.Flags().Changed("body"):
		if em, err = f.body.Positive(0); err != nil {
			return 0, 0, refuse("--body: %v", err)
		}
	case !f.measure.InEms():
		return 0, 0, refuseWith("give --body 12pt, or whatever the type is, or the measure in ems", "--measure: %s cannot be told in ems without the body", f.measure.String())
	}
	if measure, err = f.measure.Positive(em); err != nil {
		return 0, 0, refuse("--measure: %v", err)
	}
	return measure, em, nil
}

// bounds refuses numbers that cannot be, by the flag that has them.
func (f *castOffFlags) bounds(cmd *cobra.Command) error {
	for _, b := range []struct {
		flag               string
		given, least, most int
	}{
		{"words", f.words, 1, castoff.MostWords},
		{"folios", f.folios, 1, castoff.MostFolios},
		{"words-to-folio", f.wordsToFolio, 1, castoff.MostToPage},
		{"lines-to-folio", f.linesToFolio, 1, castoff.MostLines},
		{"words-to-copy-line", f.wordsCopyLine, 1, castoff.MostToLine},
		{"sample-folios", f.sampleFolios, 1, castoff.MostFolios},
		{"sample-words", f.sampleWords, 1, castoff.MostWords},
		{"added", f.added, 0, castoff.MostToPage},
		{"words-to-page", f.wordsToPage, 1, castoff.MostToPage},
		{"lines", f.lines, 1, castoff.MostLines},
		{"words-to-line", f.wordsToLine, 1, castoff.MostToLine},
		{"specimen-lines", f.specimenLines, 1, castoff.MostLines},
		{"specimen-words", f.specimenWords, 1, castoff.MostToPage},
		{"copies", f.copies, 1, castoff.MostCopies},
		{"overs", f.overs, 0, castoff.MostCopies},
	} {
		if !cmd.Flags().Changed(b.flag) || b.given >= b.least && b.given <= b.most {
			continue
		}
		than := "more than can be"
		if b.given < b.least {
			than = "too few"
		}
		return refuse("--%s: %s is %s (it takes %s to %s)", b.flag, report.Number(b.given), than, report.Number(b.least), report.Number(b.most))
	}
	return nil
}
