package main

import (
	"strings"
	"testing"
)

func TestRunningTitle(t *testing.T) {
	const hint = "a title has letters, signs and spaces only"
	long := strings.Repeat("é", mostTitle)
	tests := []struct{ given, want, what, hint string }{
		{given: "", want: ""},
		{given: "  The Tide Table \n", want: "The Tide Table"},
		{given: "Caf" + "e\u0301", want: "Caf\u00e9"},
		{given: "the\u00a0tide", want: "the\u00a0tide"},
		{given: long, want: long},
		{given: strings.Repeat("e\u0301", mostTitle), want: long},
		{given: long + "x", what: `--title: "` + long[:80] + `…" is 201 characters long (at most 200)`, hint: "it has to go into one line"},
		{given: strings.Repeat("x", 12345), what: `--title: "` + strings.Repeat("x", 40) + `…" is 12,345 characters long (at most 200)`, hint: "it has to go into one line"},
		{given: "a\xff", what: `--title: "a\xff" is not UTF-8`, hint: "give it in UTF-8"},
		{given: "\x1b[31mred", what: `--title: "\x1b[31mred" holds U+001B, a control character`, hint: hint},
		{given: "a\tb", what: `--title: "a\tb" holds U+0009, a control character`, hint: hint},
		{given: "a\u00adb", what: `--title: "a\u00adb" holds U+00AD, a control character`, hint: hint},
		{given: "a\u202eb", what: `--title: "a\u202eb" holds U+202E, a control character`, hint: hint},
		{given: "a\u2028b", what: `--title: "a\u2028b" holds U+2028, a control character`, hint: hint},
	}
	for _, test := range tests {
		got, err := runningTitle(test.given)
		switch {
		case test.what == "" && (err != nil || got != test.want):
			t.Errorf("%q: %q, %v, want %q", test.given, got, err, test.want)
		case test.what != "" && (err == nil || err.Error() != test.what || adviceOf(err) != test.hint):
			t.Errorf("%q: got %v, hint %q\nwant %s, hint %q", test.given, err, adviceOf(err), test.what, test.hint)
		}
	}
}
