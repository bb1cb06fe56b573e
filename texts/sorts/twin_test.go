package sorts_test

import (
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pgregory.net/rapid"

	"formewise/texts/house"
	"formewise/texts/sorts"
)

// A slow cutter writes out at each place the whole rest of the text as it is meant, and tries all sorts on it.
type slow struct {
	hand
	rules    []house.Substitute
	own      map[string]sorts.ID
	ellipsis bool
	longest  int // characters in a sort's text, at most
}

func slowOf(h hand) slow {
	s := slow{hand: h, rules: house.Substitutes(), own: map[string]sorts.ID{}}
	for n, sort := range h.cases.Font(0).Sorts {
		if _, twice := s.own[sort.Text]; twice || sort.Text == "" || sort.Space || sort.SmallCapital {
			continue
		}
		s.own[sort.Text] = h.cases.ID(0, n)
		s.longest = max(s.longest, utf8.RuneCountInString(sort.Text), 2)
	}
	_, s.ellipsis = s.own["…"]
	return s
}

// A sign is a character as it is meant, and where in the text what is written for it ends.
type sign struct {
	meant string
	end   int
}

// meant is the text from p on, as it is meant: quotes, dashes and points turned, soft hyphens left out, up to the next space.
func (s slow) meant(text string, p int, turning bool) (signs []sign) {
	for p < len(text) {
		r, n := utf8.DecodeRuneInString(text[p:])
		if unicode.IsSpace(r) {
			break
		}
		meant, m := "", 0
		if turning {
			meant, m = house.Turn([]byte(text), p)
			if s.ellipsis && strings.HasPrefix(text[p:], "...") {
				meant, m = "…", 3
			}
		}
		if m == 0 {
			meant, m = string(r), n
		}
		p += m
		if meant != "\u00ad" {
			signs = append(signs, sign{meant, p})
		}
	}
	return signs
}

// own is the longest of the font's own sorts that the signs begin with.
func (s slow) ownSort(signs []sign) (id sorts.ID, n int) {
	for n := min(s.longest, len(signs)); n > 0; n-- {
		text := ""
		for _, sign := range signs[:n] {
			text += sign.meant
		}
		if id, ok := s.own[text]; ok {
			return id, n
		}
		if id, ok := s.own["⸺"]; ok && text == "——" {
			return id, n
		}
	}
	return 0, 0
}

// made is what the house sets for a text, ok if all of it can be set.
func (s slow) made(text string) (ids []sorts.ID, ok bool) {
	var signs []sign
	for _, r := range text {
		signs = append(signs, sign{meant: string(r)})
	}
	for len(signs) > 0 {
		id, n := s.ownSort(signs)
		if n > 0 {
			ids = append(ids, id)
		} else if _, more := s.substitute(signs[0].meant); more != nil {
			ids, n = append(ids, more...), 1
		} else {
			return nil, false
		}
		signs = signs[n:]
	}
	return ids, true
}

// substitute is the first rule for a character by which it can be set, and what is set.
func (s slow) substitute(character string) (rule int, ids []sorts.ID) {
	for n, sub := range s.rules {
		if string(sub.Character) == character {
			if ids, ok := s.made(sub.Set); ok {
				return n, ids
			}
		}
	}
	return -1, nil
}

// cut is the whole text in sorts, word after word.
func (s slow) cut(text string) (g sorts.Galley) {
	word := 0 // where in the galley the word in hand begins
	soft := func(from, to int) {
		for p := from; p < to; p++ {
			if strings.HasPrefix(text[p:], "\u00ad") && !strings.HasPrefix(text[p:], "\u00ad\u00ad") && len(g.IDs) > word {
				g.Soft = append(g.Soft, p)
			}
		}
	}
	for p := 0; p < len(text); {
		r, n := utf8.DecodeRuneInString(text[p:])
		if unicode.IsSpace(r) || r == '\u00ad' {
			soft(p, p+n)
			if p += n; r != '\u00ad' {
				word = len(g.IDs)
			}
			continue
		}
		signs, written := s.meant(text, p, true), s.meant(text, p, false)
		first := signs[0]
		next := first.end
		r, _ = utf8.DecodeRuneInString(first.meant)
		if id, n := s.ownSort(signs); n > 0 {
			g.IDs, next = append(g.IDs, id), signs[n-1].end
		} else if rule, ids := s.substitute(first.meant); ids != nil {
			g.Notes = append(g.Notes, sorts.Note{At: len(g.IDs), Character: r, Rule: rule})
			g.IDs = append(g.IDs, ids...)
		} else if id, n := s.ownSort(written); n > 0 && strings.ContainsRune(`"'-.`, rune(text[p])) {
			g.IDs, next = append(g.IDs, id), written[n-1].end
		} else {
			g.Notes = append(g.Notes, sorts.Note{At: len(g.IDs), Character: r, Rule: -1})
			g.IDs = append(g.IDs, s.cases.Missing())
		}
		soft(p+1, next)
		p = next
	}
	return g
}

// someFont is a font of a few of these sorts; those with ~ are small capitals.
var someFont = rapid.Custom(func(t *rapid.T) sorts.Font {
	pool := strings.Fields(`a b c e f i l n o s t x 1 . , - – — ⸺ —— … ‘ ’ “ ” " ' ‚ æ ﬁ ſ é q̃ þ ff fi fl ffi ffl ct st ae f’ f' 't ’t —a -a a. a.. ... .. ,, ‘‘ -- abc ab ~a ~fi ~“`)
	f := sorts.Font{Name: "Ferry Roman 12", Body: body}
	for _, n := range rapid.Permutation(numbers(len(pool))).Draw(t, "order")[:rapid.IntRange(0, len(pool)).Draw(t, "sorts")] {
		text, small := strings.CutPrefix(pool[n], "~")
		f.Sorts = append(f.Sorts, sorts.Sort{Name: pool[n], Text: text, SmallCapital: small, Width: 100 * n})
	}
	return f
})

func numbers(n int) (list []int) {
	for i := range n {
		list = append(list, i)
	}
	return list
}

// someText is a paragraph of such pieces as may be cut in more than one way.
var someText = rapid.Custom(func(t *rapid.T) string {
	signs := rapid.StringOfN(rapid.SampledFrom([]rune("abcefilnostx1.,-–—⸺…‘’“”\"'‚æﬁſéþ \n\u00a0\u00ad\u2003q\u0303𝔄‑⸻―")), 0, 5, -1)
	pieces := rapid.SampledFrom([]string{" ", "ffi", "f", "ff", "i", "f'", "\"", "'", "--", "---", "----", "-----", "------", "—--", "...", "....", "a...", "1--1", "'t", "abc", "ab", "æ", "f\u00adi", "f\u00ad\u00adi", "\u00ad", "ab-ab", "--a", "''", "ct", "—\u00ad—"})
	return strings.Join(rapid.SliceOf(rapid.OneOf(signs, pieces)).Draw(t, "pieces"), "")
})

func handOf2(t rapid.TB, f sorts.Font) hand {
	cases, err := sorts.Lay(f)
	if err != nil {
		t.Fatal(err)
	}
	cutter, err := sorts.NewCutter(cases, 0)
	if err != nil {
		t.Fatal(err)
	}
	return hand{cases, cutter}
}

func compareSlow(t rapid.TB, h hand, text string) {
	got, want := h.cut(t, text, noLimit), slowOf(h).cut(text)
	if !slices.Equal(got.IDs, want.IDs) {
		fast, slow := h.names(got, 0, len(got.IDs)), h.names(cutting{Galley: want}, 0, len(want.IDs))
		t.Fatalf("%q:\nfast %s\nslow %s", text, fast, slow)
	}
	if !slices.Equal(got.Notes, want.Notes) {
		t.Fatalf("%q: notes %v, slow %v", text, got.Notes, want.Notes)
	}
	if !slices.Equal(got.Soft, want.Soft) {
		t.Fatalf("%q: soft hyphens at %v, slow %v", text, got.Soft, want.Soft)
	}
}

func TestCutterAgainstSlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := handOf2(t, someFont.Draw(t, "font"))
		for range 4 {
			compareSlow(t, h, someText.Draw(t, "text"))
		}
	})
}

// Words in = words out: what a font has all sorts for can be read off its sorts again.
func TestWordsInWordsOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := someFont.Draw(t, "font")
		for i, r := range "abcefilnostx1.,–—⸺…‘’“”‚æﬁſéþq\u0303𝔄‑⸻―" {
			f.Sorts = append(f.Sorts, sorts.Sort{Name: "own " + string(r), Text: string(r), Width: i})
		}
		h := handOf2(t, f)
		text := strings.Map(func(r rune) rune {
			if strings.ContainsRune(`"'-`, r) || r == '.' {
				return -1 // turned, these are not what is written
			}
			return r
		}, someText.Draw(t, "text"))
		c := h.cut(t, text, noLimit)
		var out strings.Builder
		from := 0
		for i, w := range c.words {
			for _, id := range c.IDs[from:c.ids[i]] {
				if id == h.cases.Missing() {
					t.Fatalf("%q: a missing sort", text)
				}
				printed := h.cases.Sort(id).Text
				if printed == "⸺" && !strings.Contains(text, "⸺") {
					printed = "——"
				}
				out.WriteString(printed)
			}
			from = c.ids[i]
			if w.Join == sorts.Gap || w.Join == sorts.NoBreak {
				out.WriteString(" ")
			}
		}
		want := strings.Join(strings.Fields(strings.ReplaceAll(text, "\u00ad", "")), " ")
		got := strings.Join(strings.Fields(out.String()), " ")
		if strings.ReplaceAll(got, "⸺", "——") != strings.ReplaceAll(want, "⸺", "——") {
			t.Fatalf("%q is read off as %q", text, got)
		}
	})
}
