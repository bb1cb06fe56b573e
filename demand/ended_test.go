package demand_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"formewise/demand"
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
