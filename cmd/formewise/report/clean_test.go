package report

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

func TestClean(t *testing.T) {
	tests := []struct{ text, want string }{
		{"", ""},
		{"Ferry Roman 12", "Ferry Roman 12"},
		{"þ ŵ æ ſt “—” ◌\u0301 活字", "þ ŵ æ ſt “—” ◌\u0301 活字"},
		{"a\x1b[31mb", "a<U+001B>[31mb"},
		{"a\u009b31mb", "a<U+009B>31mb"},           // C1, a terminal takes it for ESC [
		{"a\x9b31mb", "a<byte 9B>31mb"},            // the same as a single byte
		{"a\u202eb\u2066c", "a<U+202E>b<U+2066>c"}, // bidi controls
		{"a\tb\nc\r\x00\x7f", "a<U+0009>b<U+000A>c<U+000D><U+0000><U+007F>"},
		{"a\u00adb\u200bc\ufeff", "a<U+00AD>b<U+200B>c<U+FEFF>"},
		{"a\u00a0b\u2003c\u2028d", "a<U+00A0>b<U+2003>c<U+2028>d"},
		{"\ufffd is a sign, \xff is not", "\ufffd is a sign, <byte FF> is not"},
		{"cut \xe2\x80", "cut <byte E2><byte 80>"},
		{"tag \U000e0041", "tag <U+E0041>"},
	}
	for _, test := range tests {
		if got := Clean(test.text); got != test.want {
			t.Errorf("%q: %q, want %q", test.text, got, test.want)
		}
	}
}

func FuzzClean(f *testing.F) {
	for _, seed := range []string{"plain", "\x1b]0;title\x07", "\u009b2J", "\xff\xfe", "\u202e", "\ufffd"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		got := Clean(text)
		if !utf8.ValidString(got) {
			t.Fatalf("%q is not UTF-8", got)
		}
		for _, r := range got {
			if unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) || (unicode.IsSpace(r) && r != ' ') {
				t.Fatalf("%q holds %U", got, r)
			}
		}
		if Clean(got) != got {
			t.Fatalf("%q is not clean", got)
		}
		// What was harmless is still there, in its order.
		rest := got
		for _, r := range text {
			if unicode.IsLetter(r) {
				_, after, found := strings.Cut(rest, string(r))
				if !found {
					t.Fatalf("%q lost %q of %q", got, r, text)
				}
				rest = after
			}
		}
	})
}
