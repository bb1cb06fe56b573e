package demand_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

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
	// Three lines of verse to a page: page 1 is cast off to end after “‘gg’ hh”. Of several places the nearest to that is meant.
	const text = "aa bb cc dd ee ff\naa dd “ee” ff gg--hh aa,\nbb-cc dd. Ee ff ‘gg’ hh\nfe\u00aded aa bb cc dd ee ff\ngg hh\naa bb cc\ncc\n"
	plan := emsPlan(3)
	plan.Measure = 480_000
	for _, c := range []struct{ words, last, first string }{
		{"hh", "dd. Ee ff ‘gg’ hh", "feed aa bb cc dd ee ff"},
		{"'gg' hh", "dd. Ee ff ‘gg’ hh", "feed aa bb cc dd ee ff"},
		{"… Ee ff gg", "", ""},
		{"ff ‘gg", "bb-cc dd. Ee ff ‘gg’", "hh feed aa bb cc dd ee"},
		{"... dd", "hh aa, bb-cc dd.", "Ee ff ‘gg’ hh feed aa bb"},
		{"\"ee\"", "cc dd ee ff aa dd “ee”", "ff gg--hh aa, bb-cc dd."},
		{"“ee", "cc dd ee ff aa dd “ee”", "ff gg--hh aa, bb-cc dd."},
		{"ff gg—", "aa dd “ee” ff gg--", "hh aa, bb-cc dd. Ee ff"},
		{"ff gg-hh", "aa dd “ee” ff gg--hh", "aa, bb-cc dd. Ee ff ‘gg’"},
		{"hh aa", "“ee” ff gg--hh aa,", "bb-cc dd. Ee ff ‘gg’ hh"},
		{"bb-", "ff gg--hh aa, bb-", "cc dd. Ee ff ‘gg’ hh"},
		{"b-", "feed aa b-", "-b cc"},
		{"bb-c-", "ff gg--hh aa, bb-c-", "-c dd. Ee ff ‘gg’ hh"},
		{"-ed aa", "feed aa", "bb cc"},
		{"hh fe-", "Ee ff ‘gg’ hh fe-", "-ed aa bb cc dd ee ff gg"},
		{"feed", "dd. Ee ff ‘gg’ hh feed", "aa bb cc dd ee ff gg hh"},
		{"cc \t dd ee", "feed aa bb cc dd ee", "ff gg hh aa bb cc"},
		{"ff gg", "aa bb cc dd ee ff gg", "hh aa bb cc cc"},
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
