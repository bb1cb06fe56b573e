package sorts_test

import (
	"strings"
	"testing"

	"formewise/texts/sorts"
)

const pointed = alphabet + capitals + " 0 1 2 3 4 5 6 7 8 9 . , ! ? ( ) [ ] - – — “ ” ‘ ’ …"

func TestSpaces(t *testing.T) {
	h := handOf(t, fontOf(pointed))
	for _, c := range []struct{ name, text, want string }{
		{"one", "a b", "a _ b"},
		{"several are one", "a  \t\n b", "a _ b"},
		{"a tab is a space", "a\tb", "a _ b"},
		{"line ends are spaces", "a\nb\r\nc\rd", "a _ b _ c _ d"},
		{"before and after", "  a ", "a"},
		{"a line end after", "a\r\n", "a"},
		{"no-break spaces", "a\u00a0b\u202fc\u2007d", "a ~ b ~ c ~ d"},
		{"other spaces", "a\u2003b\u3000c\u1680d\u0085e\u2028f\u205fg", "a _ b _ c _ d _ e _ f _ g"},
		{"a no-break space among others holds", "a \u00a0b\u00a0 c \u00a0 d", "a ~ b ~ c ~ d"},
		{"a no-break space after the last word", "a\u00a0", "a"},
		{"spaces of some bytes are told from signs of the same", "a\u00a2\u2019\u3001b", "a ?U+00A2 ’ ?U+3001 b"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := h.said(t, c.text); got != c.want {
				t.Errorf("%q: %s, want %s", c.text, got, c.want)
			}
		})
	}
}

// Where a line may end after a hyphen or dash of the copy's own: common practice, no source.
func TestDashes(t *testing.T) {
	h := handOf(t, fontOf(pointed))
	for _, c := range []struct{ name, text, want string }{
		{"hyphen", "well-known", "w e l l - / k n o w n"},
		{"several", "out-of-doors", "o u t - / o f - / d o o r s"},
		{"dash", "well—no", "w e l l — / n o"},
		{"dash from hyphens", "well--no", "w e l l — / n o"},
		{"between figures", "1914--18", "1 9 1 4 – / 1 8"},
		{"not at the word's end", "well- and well--", "w e l l - _ a n d _ w e l l —"},
		{"not at its beginning", "-ing --no —no", "- i n g _ — n o _ — n o"},
		{"a dash between spaces", "well -- no", "w e l l _ — _ n o"},
		{"a dash that opens a speech stays with it", "“—no”", "“ — n o ”"},
		{"after a quote or point that closes a word", "“well,”—no?—no", "“ w e l l , ” — / n o ? — / n o"},
		{"and after brackets", "(well)—no", "( w e l l ) — / n o"},
		{"not before the quote that closes", `"well--" "no"`, "“ w e l l — ” _ “ n o ”"},
		{"nor before one as it is meant", "“well—”", "“ w e l l — ”"},
		{"nor before a point", "well--, well--. well—?", "w e l l — , _ w e l l — . _ w e l l — ?"},
		{"nor before a bracket that closes", "(well—)", "( w e l l — )"},
		{"before what opens", `well--"no" well--'no' well--(no) well—“no”`, "w e l l — / “ n o ” _ w e l l — / ‘ n o ’ _ w e l l — / ( n o ) _ w e l l — / “ n o ”"},
		{"before a word with an apostrophe at its head", "well--'tis well—’tis 1887--'88", "w e l l — / ’ t i s _ w e l l — / ’ t i s _ 1 8 8 7 — / ’ 8 8"},
		{"not before one that closes", "‘well--' ‘well—’", "‘ w e l l — ’ _ ‘ w e l l — ’"},
		{"two dashes are not parted", "B----y", "B — — / y"},
		{"nor a hyphen from a dash", "well-—no", "w e l l - — / n o"},
		{"no-break hyphen", "well‑known", "w e l l - k n o w n"},
		{"other hyphens and dashes", "a‐b―c⸺d⸻e", "a - / b — / c — — / d — — — / e"},
		{"a dash with no sort", "a‒b", "a ?U+2012 / b"},
		{"minus is none", "a−b", "a – b"},
		{"three points", "well...no", "w e l l … n o"},
		{"letters of other bytes", "é-é", "?U+00E9 - / ?U+00E9"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := h.said(t, c.text); got != c.want {
				t.Errorf("%q:\ngot  %s\nwant %s", c.text, got, c.want)
			}
		})
	}
}

func TestSoftHyphens(t *testing.T) {
	h := handOf(t, fontOf(pointed+" ff fi ffi f’"))
	for _, c := range []struct {
		name, text, want string // | marks the soft hyphens that allow a division, : those that do not
	}{
		{"between sorts", "wa|ter", "w a t e r"},
		{"several", "fer|ry|man", "f e r r y m a n"},
		{"inside a ligature", "of|fice", "o ffi c e"},
		{"inside a ligature twice", "of|f|ice", "o ffi c e"},
		{"at a ligature's ends", "o|ffi|ce", "o ffi c e"},
		{"where a ligature might be", "of|fer of|", "o ff e r _ o f"},
		{"before a turned quote in a sort", "if|'s", "i f’ s"},
		{"first in the word", ":water :fin", "w a t e r _ fi n"},
		{"the word alone", ":", ""},
		{"two on end are one place, the last", "wa:|ter of:|fice of:|fer:| x", "w a t e r _ o ffi c e _ o ff e r _ x"},
		{"two, first in the word", "::water", "w a t e r"},
		{"beside a hyphen", "wa|-ter", "w a - / t e r"},
		{"after the hyphen of its own", "wa-|ter", "w a - t e r"},
		{"between spaces", "a : b", "a _  _ b"},
		{"inside three points", "a.|..", "a . . ."},
		{"among missing ones", "þ|þ", "?U+00FE ?U+00FE"},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := strings.NewReplacer("|", "\u00ad", ":", "\u00ad").Replace(c.text)
			if got := h.said(t, text); got != c.want {
				t.Errorf("got  %q\nwant %q", got, c.want)
			}
			var want []int
			at := 0
			for _, r := range c.text {
				switch r {
				case '|':
					want = append(want, at)
					fallthrough
				case ':':
					at += len("\u00ad")
				default:
					at += len(string(r))
				}
			}
			got := h.cut(t, text, noLimit).Soft
			if len(got) != len(want) {
				t.Fatalf("%q: soft hyphens at %v, want %v", c.text, got, want)
			}
			for i := range want {
				if got[i] != want[i] {
					t.Errorf("%q: soft hyphens at %v, want %v", c.text, got, want)
				}
			}
		})
	}
}

// A soft hyphen that ends its word allows no division, and can be told from the others by the word's end.
func TestSoftHyphenLast(t *testing.T) {
	h := handOf(t, fontOf(alphabet))
	for _, text := range []string{"wa\u00adter\u00ad", "wa\u00adter\u00ad\u00ad", "wa\u00adter\u00ad no"} {
		var g sorts.Galley
		w := h.cutter.Word(&g, []byte(text), 0, len(text), noLimit)
		if len(g.Soft) != 2 || g.Soft[0] != 2 || g.Soft[1]+len("\u00ad") != w.End {
			t.Errorf("%q: %v, %+v", text, g.Soft, w)
		}
	}
}

// A word divided inside a ligature is cut again on both sides.
func TestDividedLigature(t *testing.T) {
	h := handOf(t, fontOf(alphabet+" ff fi ffi -"))
	text := []byte("of\u00adf\u00adice")
	for _, c := range []struct {
		at            int
		before, after string
	}{
		{1, "o", "ffi c e"},
		{2, "o f", "fi c e"},
		{5, "o ff", "i c e"},
		{8, "o ffi", "c e"},
	} {
		var one, two cutting
		w := h.cutter.Word(&one.Galley, text, 0, c.at, noLimit)
		h.cutter.Word(&two.Galley, text, c.at, len(text), noLimit)
		before, after := h.names(one, 0, len(one.IDs)), h.names(two, 0, len(two.IDs))
		if before != c.before || after != c.after || w.End != c.at || w.Next != c.at || w.Join != sorts.End {
			t.Errorf("at %d: %s and %s, want %s and %s; %+v", c.at, before, after, c.before, c.after, w)
		}
	}
}

// Where the cutting is to end, the word ends, though the text goes on after a hyphen.
func TestDividedAfterHyphen(t *testing.T) {
	h := handOf(t, fontOf(pointed))
	var g sorts.Galley
	if w := h.cutter.Word(&g, []byte("well-known"), 0, 5, noLimit); w.Join != sorts.End || w.End != 5 || len(g.IDs) != 5 {
		t.Errorf("%+v, %d sorts", w, len(g.IDs))
	}
}

// Quotes are turned by the whole text, wherever the cutting begins and ends.
func TestTurnedByTheWholeText(t *testing.T) {
	h := handOf(t, fontOf(pointed))
	text := []byte(`so "no"--'tis`)
	for _, c := range []struct {
		from, to int
		want     string
	}{{3, 4, "“"}, {4, 7, "n o ”"}, {6, 7, "”"}, {7, 9, "—"}, {9, 10, "’"}, {3, 7, "“ n o ”"}} {
		var cut cutting
		h.cutter.Word(&cut.Galley, text, c.from, c.to, noLimit)
		if got := h.names(cut, 0, len(cut.IDs)); got != c.want {
			t.Errorf("%s: %s, want %s", text[c.from:c.to], got, c.want)
		}
	}
}
