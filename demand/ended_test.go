package demand_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"formewise/demand"
	"formewise/demand/internal/trial"
)

func TestParseReport(t *testing.T) {
	for text, want := range map[string]demand.Report{
		"3: … over the sands":       {Page: 3, Words: "over the sands"},
		"3:over the sands":          {Page: 3, Words: "over the sands"},
		" 12 : ... the compos- ":    {Page: 12, Words: "the compos-"},
		"6+1 line":                  {Page: 6, Lines: 1},
		"6-2 lines":                 {Page: 6, Lines: -2},
		"6 − 2":                     {Page: 6, Lines: -2},
		"6 + 10lines":               {Page: 6, Lines: 10},
		"3: 6-2 lines":              {Page: 3, Words: "6-2 lines"},
		"0: a":                      {Page: 0, Words: "a"},
		"7: “No,” she said: “no.”":  {Page: 7, Words: "“No,” she said: “no.”"},
		"7:\tthe\u00ad sands\u00a0": {Page: 7, Words: "the\u00ad sands"},
	} {
		if got, err := demand.ParseReport(text); got != want || err != nil {
			t.Errorf("%q: %+v, want %+v (error %v)", text, got, want, err)
		}
	}
	for text, want := range map[string]string{
		"":                             "does not begin with the number of a page",
		"over":                         "does not begin with the number of a page",
		"-1: over":                     "does not begin with the number of a page",
		"99999999999999999999: over":   "does not begin with the number of a page",
		"3":                            "says neither the last words of the page nor a number of lines",
		"3 over":                       "says neither the last words of the page nor a number of lines",
		"3:":                           "has no words after the page",
		"3: … ...":                     "has no words after the page", // points that say that something goes before
		"3: …":                         "has no words after the page",
		"3: \u00ad":                    "has no words after the page",
		"3+":                           "does not say by how many lines",
		"3+0 lines":                    "does not say by how many lines",
		"3+-1 line":                    "does not say by how many lines",
		"3+one line":                   "does not say by how many lines",
		"3+1.5 lines":                  "does not say by how many lines",
		"3+99999999999999999999 lines": "does not say by how many lines",
	} {
		_, err := demand.ParseReport(text)
		var bad *demand.BadReport
		if !errors.As(err, &bad) || err.Error() != fmt.Sprintf("%q %s", text, want) || bad.Advice() == "" {
			t.Errorf("%q: %v, want that it %s", text, err, want)
		}
	}
}

// What can be read says a page and one of the two, and says it again when it is written out.
func FuzzParseReport(f *testing.F) {
	for _, text := range []string{"3: … over the sands", "6+1 line", "6-2 lines", "6 − 2", "3:", "1: …...", "99999999999999999999+1", "3: \u00ad"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := demand.ParseReport(text)
		if err != nil {
			var bad *demand.BadReport
			if !errors.As(err, &bad) || r != (demand.Report{}) {
				t.Fatalf("%q: %+v, error %v", text, r, err)
			}
			return
		}
		if r.Page < 0 || (r.Words == "") == (r.Lines == 0) || strings.TrimSpace(r.Words) != r.Words {
			t.Fatalf("%q: %+v", text, r)
		}
		again := fmt.Sprintf("%d%+d lines", r.Page, r.Lines)
		if r.Words != "" {
			again = fmt.Sprintf("%d: … %s", r.Page, r.Words)
		}
		if got, err := demand.ParseReport(again); got != r && !strings.HasPrefix(r.Words, "…") && !strings.HasPrefix(r.Words, "...") || err != nil && !strings.HasPrefix(r.Words, "…") && !strings.HasPrefix(r.Words, "...") {
			t.Fatalf("%q: %+v; written out as %q: %+v, error %v", text, r, again, got, err)
		}
	})
}

// The words that a page ended with, as a printer writes them, and where the next page begins.
func TestWordsAreFound(t *testing.T) {
	// Three lines of verse to a page: page 1 is cast off to end after “‘gg’ hh”.
	const text = "aa bb cc dd ee ff\naa dd “ee” ff gg--hh aa,\nbb-cc dd. Ee ff ‘gg’ hh\nfe\u00aded aa bb cc dd ee ff\ngg hh\naa bb cc\ncc\n"
	plan := emsPlan(3)
	plan.Measure = 480_000
	for _, c := range []struct{ words, last, first string }{
		{"hh", "dd. Ee ff ‘gg’ hh", "feed aa bb cc dd ee ff"},
		{"'gg' hh", "dd. Ee ff ‘gg’ hh", "feed aa bb cc dd ee ff"},
		{"… Ee ff gg", "", ""},
		{"ff ‘gg", "bb-cc dd. Ee ff ‘gg’", "hh feed aa bb cc dd ee"},
		{"... hh aa, bb-cc dd", "hh aa, bb-cc dd.", "Ee ff ‘gg’ hh feed aa bb"},
		{"\"ee\"", "cc dd ee ff aa dd “ee”", "ff gg--hh aa, bb-cc dd."},
		{"“ee", "cc dd ee ff aa dd “ee”", "ff gg--hh aa, bb-cc dd."},
		{"ff gg—", "aa dd “ee” ff gg--", "hh aa, bb-cc dd. Ee ff"},
		{"ff gg-hh", "aa dd “ee” ff gg--hh", "aa, bb-cc dd. Ee ff ‘gg’"},
		{"gg--hh aa", "“ee” ff gg--hh aa,", "bb-cc dd. Ee ff ‘gg’ hh"},
		{"bb-", "ff gg--hh aa, bb-", "cc dd. Ee ff ‘gg’ hh"},
		{"feed aa b-", "‘gg’ hh feed aa b-", "-b cc"},
		{"bb-c-", "ff gg--hh aa, bb-c-", "-c dd. Ee ff ‘gg’ hh"},
		{"-ed aa", "feed aa", "bb cc"},
		{"hh fe-", "Ee ff ‘gg’ hh fe-", "-ed aa bb cc dd ee ff gg"},
		{"feed", "dd. Ee ff ‘gg’ hh feed", "aa bb cc dd ee ff gg hh"},
		{"cc \t dd ee", "feed aa bb cc dd ee", "ff gg hh aa bb cc"},
		{"dd ee ff gg", "aa bb cc dd ee ff gg", "hh aa bb cc cc"},
		{"gg hh aa bb", "dd ee ff gg hh aa bb", "cc cc"},
		{"cc cc", "", ""}, // on page 3
	} {
		r, err := demand.ParseReport("1: " + c.words)
		if err != nil {
			t.Fatal(err)
		}
		got, err := demand.EndPages(t.Context(), plan, emsStock(), trial.Copy(t, []byte(text), true), []demand.Report{r})
		if c.last == "" {
			if err == nil {
				t.Errorf("%q: found, page 1 ending with %q", c.words, got.Pages[0].Last)
			}
			continue
		}
		if err != nil {
			t.Errorf("%q: %v", c.words, err)
			continue
		}
		if last, first := got.Pages[0].Last, got.Pages[1].First; !strings.HasSuffix(last, c.last) || !strings.HasPrefix(first, c.first) {
			t.Errorf("%q: page 1 ends with %q, and page 2 begins with %q; want %q and %q", c.words, last, first, c.last, c.first)
		}
	}
}

// Words that stand more than once near the expected end: three lines of verse to a page, of 18 characters each with their ends, and so many
// after it. The third line differs.
func TestWordsThatStandMoreThanOnce(t *testing.T) {
	plan := emsPlan(3)
	plan.Measure = 480_000
	for _, c := range []struct{ third, words, want string }{
		// 45 and 27 characters before the end, and 9 after it.
		{"gg gg gg gg gg gg", "aa bb cc", "gg gg gg aa bb cc"},
		{"gg gg gg gg gg gg", "bb cc", `page 1: "bb cc" stands 3 times within a page of where it was cast off to end ("gg ff gg gg gg gg gg gg")`}, // too few words
		{"gg gg aa bb cc gg", "aa bb cc", "ff gg gg aa bb cc"}, // 3 before the end
		{"gg gg aa bb cc gg", "aabbcc", `page 1: no "aabbcc" from its head to the end of the page after it (it was cast off to end with "gg ff gg gg aa bb cc gg")`},
		{"gg aa bb cc gg gg", "aa bb cc", `page 1: "aa bb cc" stands 4 times within a page of where it was cast off to end ("gg ff gg aa bb cc gg gg")`}, // 6 before: 9 is not twice that
		{"aa bb cc gg gg gg", "aa bb cc", `page 1: "aa bb cc" stands 4 times within a page of where it was cast off to end ("gg ff aa bb cc gg gg gg")`}, // 9 before
		{"gg gg gg aa bb cc", "cc", "gg gg gg aa bb cc"},               // as it was cast off
		{"gg abcdefghabcd g", "abcdefghabcd", "gg ff gg abcdefghabcd"}, // 2 before the end and 18 after: letters enough
		{"gg abcdefghabc gg", "abcdefghabc", `page 1: "abcdefghabc" stands 2 times within a page of where it was cast off to end ("gg ff gg abcdefghabc gg")`},
	} {
		next := "aa bb cc dd hh hh"
		if strings.HasPrefix(c.words, "abc") {
			next = "hh " + c.words
		}
		text := "aa bb cc dd ee ff\naa bb cc hh gg ff\n" + c.third + "\n" + next + "\nhh\nhh\nhh\n"
		r, err := demand.ParseReport("1: " + c.words)
		if err != nil {
			t.Fatal(err)
		}
		ends, err := demand.EndPages(t.Context(), plan, emsStock(), trial.Copy(t, []byte(text), true), []demand.Report{r})
		got := ""
		var bad *demand.BadReport
		switch {
		case err == nil:
			got = ends.Pages[0].Last
		case errors.As(err, &bad) && bad.Advice() != "":
			got = err.Error()
		default:
			t.Fatal(err)
		}
		if got != c.want && !strings.HasSuffix(got, c.want) {
			t.Errorf("%q, third line %q: %s\nwant %s", c.words, c.third, got, c.want)
		}
	}
}

// Lines are lines of text, whatever blank ones stand between them, and what is reported is what is shown.
func TestLinesReportedAreLinesShown(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var text strings.Builder
		for range rapid.IntRange(6, 30).Draw(rt, "lines") {
			text.WriteString(rapid.SampledFrom([]string{"aa", "aa bb", "aa bb cc", "\naa", "\n\nbb cc"}).Draw(rt, "line") + "\n")
		}
		plan := emsPlan(rapid.IntRange(2, 8).Draw(rt, "page"))
		copy := trial.Copy(t, []byte(text.String()), rapid.Bool().Draw(rt, "verse"))
		free := endPages(t, plan, emsStock(), copy)
		r := demand.Report{Page: rapid.IntRange(1, len(free.Pages)).Draw(rt, "ended"), Lines: rapid.IntRange(-8, 8).Filter(func(n int) bool { return n != 0 }).Draw(rt, "by")}
		got, err := demand.EndPages(t.Context(), plan, emsStock(), copy, []demand.Report{r})
		if err != nil {
			if has := free.Pages[r.Page-1].Lines; r.Lines < 0 && has > -r.Lines || r.Lines > 0 && r.Page < len(free.Pages) && free.Pages[r.Page].Lines > r.Lines {
				rt.Fatalf("%+v: %v", r, err)
			}
			return
		}
		if off := got.Reported[0].Off; off != 1000*r.Lines {
			rt.Fatalf("%+v: shown as %d thousandths", r, off)
		}
		if far := 3*max(r.Lines, -r.Lines) > plan.Lines; got.Reported[0].Far != far {
			rt.Fatalf("%+v of %d lines: far %v", r, plan.Lines, !far)
		}
		if was, is := free.Pages[r.Page-1].Lines, got.Pages[r.Page-1].Lines; is != was+r.Lines {
			rt.Fatalf("%+v: the page had %d lines, and has %d", r, was, is)
		}
	})
}

// Pages of three lines and more cannot come out, however they are got in; blank lines between others take room too.
func TestPagesThatCannotBe(t *testing.T) {
	verse := trial.Copy(t, []byte("aa\nbb\ncc\n\ndd\nee\nff\ngg\n"), true) // aa bb cc | dd ee ff | gg
	for _, c := range []struct {
		reports []string
		over    []int
	}{
		{[]string{"1+1 line"}, []int{2, 0}},                // aa bb cc _ dd | ee ff gg
		{[]string{"1+2 lines"}, []int{3, 0}},               // aa bb cc _ dd ee | ff gg
		{[]string{"1-1 line", "2+1 line"}, []int{0, 1, 0}}, // aa bb | cc _ dd ee | ff gg
		{[]string{"1: cc"}, []int{0, 0, 0}},
	} {
		var over []int
		for _, p := range endPages(t, emsPlan(3), emsStock(), verse, c.reports...).Pages {
			over = append(over, p.Over)
		}
		if !slices.Equal(over, c.over) {
			t.Errorf("%q: %v lines too many, want %v", c.reports, over, c.over)
		}
	}
	// Of prose a line of which a part is taken in is not reckoned too many: aabb ccdd eeff gghh, two to a page.
	prose := trial.Copy(t, []byte("aa bb cc dd ee ff gg hh"), false)
	for report, over := range map[string]int{"1: cc dd": 0, "1: dd ee": 0, "1: ee ff": 1, "1: ff gg": 1} {
		if p := endPages(t, emsPlan(2), emsStock(), prose, report).Pages[0]; p.Over != over {
			t.Errorf("%q: %d lines too many, want %d", report, p.Over, over)
		}
	}
	// And what can be got in is taken off.
	copy := chapter(t, 300_000, 9_000)
	got := endPages(t, ferryPlan(t), ferryStock(t, 100), copy, "1-25 lines", "2+25 lines").Pages
	if p := got[1]; p.Lines != 55 || p.In == 0 || p.Over != 25-p.In || got[0].Over != 0 || got[2].Over != 0 {
		t.Errorf("page 2 of 55 lines: %+v", p)
	}
}

// A word that the copy has not, and pages that are not there.
func TestReportsRefused(t *testing.T) {
	verse := trial.Copy(t, []byte("aa\nbb\ncc\ndd\n\fee\n\f\fff\ngg\n"), true) // pages aa bb, cc dd, ee, none, ff gg
	for _, c := range []struct {
		report string
		want   string
	}{
		{"1: aa bbb", `page 1: no "aa bbb" from its head to the end of the page after it (it was cast off to end with "aa bb")`},
		{"1: b", `page 1: no "b" from its head to the end of the page after it (it was cast off to end with "aa bb")`},
		{"2: ee", `page 2: no "ee" from its head to the end of the page after it (it was cast off to end with "cc dd")`},
		{"6: aa", "there is no page 6 (there are pages 1 to 5)"},
		{"0+1 line", "there is no page 0 (there are pages 1 to 5)"},
		{"5+1 line", "page 5 took in no line more: it is the last"},
		{"2+1 line", "page 2 took in no line more: a form feed ends it"},
		{"1+2 lines", "page 1 took in 2 lines more: the next page has 2 (it takes fewer than those)"},
		{"1-2 lines", "page 1 took in 2 lines fewer: it has 2 (one has to stay)"},
		{"3-1 lines", "page 3 took in 1 line fewer: it has 1 (one has to stay)"},
		{"4: ff", "page 4 is empty: a form feed made it"},
	} {
		r, err := demand.ParseReport(c.report)
		if err != nil {
			t.Fatal(err)
		}
		_, err = demand.EndPages(t.Context(), emsPlan(2), emsStock(), verse, []demand.Report{r})
		var bad *demand.BadReport
		if !errors.As(err, &bad) || err.Error() != c.want {
			t.Errorf("%q: %v\nwant %s", c.report, err, c.want)
		}
	}
	twice := []demand.Report{{Page: 1, Words: "aa"}, {Page: 2, Words: "cc"}, {Page: 1, Lines: 1}}
	if _, err := demand.EndPages(t.Context(), emsPlan(2), emsStock(), verse, twice); err == nil || err.Error() != "page 1 is reported twice" {
		t.Errorf("twice: %v", err)
	}
}
