package sorts_test

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"formewise/texts/read"
	"formewise/texts/sorts"
)

// readOff puts together again what the sorts of a cutting stand for: their texts, and the characters that the notes name.
func (s slow) readOff(t testing.TB, c cutting) string {
	var out strings.Builder
	notes := c.Notes
	for i := 0; i < len(c.IDs); {
		switch {
		case len(notes) > 0 && notes[0].At == i:
			n := 1
			if rule := notes[0].Rule; rule >= 0 {
				ids, _ := s.made(s.rules[rule].Set)
				n = len(ids)
			}
			out.WriteRune(notes[0].Character)
			notes = notes[1:]
			i += n
		case c.IDs[i] == s.cases.Missing():
			t.Fatalf("sort %d is missing, and no note says what", i)
		default:
			out.WriteString(s.cases.Sort(c.IDs[i]).Text)
			i++
		}
	}
	if len(notes) > 0 {
		t.Fatalf("notes beyond the sorts: %v", notes)
	}
	return out.String()
}

// FuzzCutter: whatever the reader lets through is cut without a panic and as the slow cutter does; every word is as wide as
// its sorts, the next is always further on (see hand.cut), a limit changes nothing, and no character is lost.
func FuzzCutter(f *testing.F) {
	rich := handOf(f, fontOf(pointed+" ; : ff fi fl ffi ffl ct st Qu f’ —a é q̃ ſ ⸺"))
	poor := handOf(f, fontOf(alphabet+" , - ff fi"))
	for _, text := range []string{
		"\"Well--'tis the chief's office,\" she said; \"baffled...\"\n",
		"of\u00adf\u00ad\u00adice \u00adAct\u00ad Queen 1894--96, Mr.\u00a0B----y\n\n(“—no”) þ ﬁ æ ½ e\u0301",
		"----- ------ '''''''\"\"\" .... f' f''f\"-\u00ad- —-— ⸻⸺", "a\u2007b\u202f\u3000c\fd\re\r\n'n' 'til",
		"well-known-\"quoted\"-‑-'s ‘x’—’tis",
	} {
		f.Add([]byte(text), uint16(0), false)
		f.Add([]byte(text), uint16(9_000), true)
	}
	f.Fuzz(func(t *testing.T, data []byte, limit uint16, few bool) {
		if len(data) > 1_000 {
			return // the slow cutter is slow
		}
		copy, err := read.Plain([]read.File{{Name: "a", Data: data}}, false)
		if err != nil {
			return
		}
		h := rich
		if few {
			h = poor
		}
		slow := slowOf(h)
		for _, p := range copy.Paragraphs {
			text := string(p.Text)
			compareSlow(t, h, text)
			compareLimited(t, h, text, int(limit))
			var want strings.Builder
			for at := 0; at < len(text); {
				signs := slow.meant(text, at, true)
				for _, s := range signs {
					want.WriteString(s.meant)
					at = s.end
				}
				for at < len(text) { // to the next that prints
					r, n := utf8.DecodeRuneInString(text[at:])
					if !unicode.IsSpace(r) && r != '\u00ad' {
						break
					}
					at += n
				}
			}
			two := strings.NewReplacer("⸺", "——")
			if got := slow.readOff(t, h.cut(t, text, noLimit)); two.Replace(got) != two.Replace(want.String()) {
				t.Fatalf("%q is read off as %q, want %q", text, got, want.String())
			}
			for _, w := range h.cut(t, text, int(limit)).words {
				if w.Join == sorts.NoBreak && !strings.ContainsAny(text[w.End:w.Next], "\u00a0\u2007\u202f") {
					t.Fatalf("%q: %+v ends no line", text, w)
				}
			}
		}
	})
}
