package divide

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/iotest"

	"pgregory.net/rapid"
)

func TestWithExceptions(t *testing.T) {
	for _, c := range []struct{ name, language, file, want string }{
		{"a word the patterns do not divide", "en", "man-u-script", "man-u-script"},
		{"a word divided otherwise", "en", "hyphe-nation\n", "hyphe-nation"},
		{"a word not to be divided", "en", "hyphenation", "hyphenation"},
		{"a word of TeX's own list", "en", "tab-le-s\npre-sent", "pre-sent"},
		{"the other words of that list stay", "en", "pre-sent", "project"},
		{"the last of two counts", "en", "hyphe-nation\nhy-phenation", "hy-phenation"},
		{"a capital in the file", "en", "Hyphe-Nation", "hyphe-nation"},
		{"a capital in the text", "en", "hyphe-nation", "HYPHE-NATION"},
		{"inside quotes", "en", "hyphe-nation", "“hyphe-nation,”"},
		{"a long s", "en", "mis-siſ-sippi", "miſ-sis-ſippi"},
		{"comments, spaces, empty lines, CRLF, a BOM", "en", "\ufeff# the ferry's\r\n\r\n  ferry-house # new\r\n\thyphe-nation \r\n", "hyphe-nation"},
		{"too near to the ends", "en", "h-yphena-ti-on", "hyphena-tion"},
		{"too short to be divided", "en", "on-ly\nbo-ok", "only"},
		{"not in NFC", "fr", "re\u0301gl-ette", "régl-ette"},
		{"a letter that is in no pattern", "en", "ægr-otat", "Ægr-otat"},
		{"a mark that nothing is composed with", "en", "im\u0304a-terial", "im\u0304a-terial"},
		{"an apostrophe in French", "fr", "aujour-d'hui", "aujour-d’hui"},
		{"an apostrophe at a division in French", "fr", "aujourd'-hui", "aujourd'-hui"},
		{"umlauts", "de", "Überf-ahrt", "ÜBERF-AHRT"},
	} {
		d, err := mustFor(t, c.language).WithExceptions(strings.NewReader(c.file))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got := divided(d, strings.ReplaceAll(c.want, "-", "")); got != c.want {
			t.Errorf("%s: got %s, want %s", c.name, got, c.want)
		}
		if c.language == "en" {
			if got := divided(d, "uncomfortable"); got != "un-com-fort-able" {
				t.Errorf("%s: another word: %s", c.name, got)
			}
		}
	}
	if got := divided(mustFor(t, "en"), "manuscript"); got != "manuscript" {
		t.Errorf("the divider without the file has changed: %s", got)
	}
}

func TestWithExceptionsRefuses(t *testing.T) {
	for _, c := range []struct{ language, file, want string }{
		{"en", "man-u-script\nta--ble", `line 2: divided word "ta--ble": a hyphen stands between two letters`},
		{"en", "-table", `line 1: divided word "-table": a hyphen stands between two letters`},
		{"en", "ta-ble-", `line 1: divided word "ta-ble-": a hyphen stands between two letters`},
		{"en", "\n\n-", `line 3: divided word "-": a hyphen stands between two letters`},
		{"en", "ta-ble ch-air", `line 1: divided word "ta-ble ch-air": ' ' (it may have letters, and hyphens between them)`},
		{"en", "ta-ble,", `line 1: divided word "ta-ble,": ',' (it may have letters, and hyphens between them)`},
		{"en", "aujour-d'hui", `line 1: divided word "aujour-d'hui": '\'' (it may have letters, and hyphens between them)`},
		{"fr", "jusqu'", `line 1: divided word "jusqu'": '\'' (it may have letters, and hyphens between them)`},
		{"en", "\u0304ta-ble", "line 1: divided word \"\u0304ta-ble\": '\u0304' (it may have letters, and hyphens between them)"},
		{"en", "ta-\u0304ble", "line 1: divided word \"ta-\u0304ble\": '\u0304' (it may have letters, and hyphens between them)"},
		{"en", "table\nt\xe4ble", `line 2: not UTF-8`},
		{"en", strings.Repeat("ta-ble", 13), `line 1: divided word "` + strings.Repeat("ta-ble", 13) + `": more than 63 letters`},
		{"en", "table\n" + strings.Repeat("a", 1<<16), `line 2: too long for a word`},
	} {
		_, err := mustFor(t, c.language).WithExceptions(strings.NewReader(c.file))
		if err == nil || err.Error() != c.want {
			t.Errorf("%.40q: got error %v, want %s", c.file, err, c.want)
		}
	}
	broken := errors.New("the disk is full of ferries")
	if _, err := mustFor(t, "en").WithExceptions(iotest.ErrReader(broken)); !errors.Is(err, broken) {
		t.Errorf("got error %v, want %v", err, broken)
	}
}

// Every word of a file is divided as the file says, and no other word otherwise than before.
func TestExceptionsLaw(t *testing.T) {
	d := mustFor(t, "en")
	part := rapid.StringOfN(rapid.RuneFrom([]rune("abcdefghijklmnopqrstuvwxyzæé")), 2, 6, -1)
	rapid.Check(t, func(t *rapid.T) {
		said := map[string][]int{}
		var file strings.Builder
		for range rapid.IntRange(0, 8).Draw(t, "words") {
			list := rapid.SliceOfN(part, 1, 5).Draw(t, "parts")
			list[len(list)-1] += "ing" // three letters at the end
			word, places := "", []int(nil)
			for _, p := range list {
				if word != "" {
					places = append(places, len(word))
				}
				word += p
			}
			said[word] = places
			fmt.Fprintln(&file, strings.Join(list, "-"))
		}
		with, err := d.WithExceptions(strings.NewReader(file.String()))
		if err != nil {
			t.Fatal(err)
		}
		for word, want := range said {
			if got := with.Places([]byte(word), nil); !slices.Equal(got, want) {
				t.Errorf("%q: %v, the file says %v", word, got, want)
			}
		}
		other := strings.Join(rapid.SliceOfN(part, 1, 4).Draw(t, "other"), "")
		if _, ok := said[other]; !ok {
			if got, want := with.Places([]byte(other), nil), d.Places([]byte(other), nil); !slices.Equal(got, want) {
				t.Errorf("%q: %v, without the file %v", other, got, want)
			}
		}
	})
}
