package stick_test

import (
	"errors"
	"slices"
	"strconv"
	"strings"
	"testing"

	"formewise/demand/stick"
	"formewise/texts/read"
	"formewise/texts/sorts"
)

const square = 45000 // the em of blocks: fifths, ninths and twentieths of it are whole numbers

// blocks is a font to reckon with by hand. An m is an em wide, a hyphen a fifteenth of one, an i a twentieth, an x seven forty-fifths.
func blocks(t testing.TB, measure int) *stick.Stick {
	t.Helper()
	letters := sorts.Font{Name: "Blocks", Body: square, Sorts: []sorts.Sort{
		{Name: "m", Text: "m", Width: square}, {Name: "hyphen", Text: "-", Width: square / 15},
		{Name: "i", Text: "i", Width: square / 20}, {Name: "x", Text: "x", Width: 7 * square / 45},
	}}
	spaces := sorts.Font{Name: "Spaces", Body: square}
	for _, s := range spacings["full"] {
		spaces.Sorts = append(spaces.Sorts, sorts.Sort{Name: s, Space: true, Width: setWidths[s] * (square / 1000) / (em / 1000)})
	}
	cases, err := sorts.Lay(letters, spaces)
	if err != nil {
		t.Fatal(err)
	}
	s, err := stick.New(cases, 0, 1, measure)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// m writes words of so many m.
func m(ems ...int) string {
	words := make([]string, len(ems))
	for i, n := range ems {
		words[i] = strings.Repeat("m", n)
	}
	return strings.Join(words, " ")
}

// tell writes a line as its words, m as their number, with a bar for an indent and at the end of a line that is quadded out.
func tell(s *stick.Stick, setting stick.Setting) string {
	var b strings.Builder
	ms, space := 0, false
	flush := func() {
		if ms > 0 {
			b.WriteString(strconv.Itoa(ms))
			ms = 0
		}
	}
	for i, id := range setting.Pieces {
		switch sort := s.Cases().Sort(id); {
		case sort.Space:
			flush()
			space = true
			if i == len(setting.Pieces)-1 {
				b.WriteString("|")
			}
		default:
			if space && b.Len() == 0 {
				b.WriteString("|")
			} else if space {
				b.WriteString(" ")
			}
			space = false
			if sort.Text == "m" {
				ms++
			} else {
				flush()
				b.WriteString(sort.Text)
			}
		}
	}
	flush()
	return b.String()
}

// The rule for the ends of lines, case by case, reckoned by hand: S is what the words leave, g the gaps, s = S/g in ems, and the
// cost max(3s, 1/3s), with 0.15 more for a division.
func TestRule(t *testing.T) {
	const soft = "\u00ad"
	ten := m(1, 1, 1, 1, 1, 1, 1, 1, 1, 1) // words of one m
	for _, c := range []struct {
		name    string
		measure int
		text    string
		want    string // lines set apart by " / "
	}{
		{"the package's example: after 5, S 11, cost 33; after 3, S 8, g 2, cost 12; after 4, S 4, g 3, cost 4; 6 does not go in",
			20 * square, m(4, 5, 3, 4, 6), "4 5 3 4 / |6|"},
		{"after 9, S 5/9, cost 5/3; after x, S 2/5, g 2, s 1/5, cost 5/3: the later of equals",
			19*square + 5*square/9, m(10, 9) + " x " + m(12), "10 9 x / |12|"},
		{"a thousandth of a point less, and x has less than a thin space: out",
			19*square + 5*square/9 - 1, m(10, 9) + " x " + m(12), "10 9 / |x 12|"},
		{"after ten, S 3.45, g 9, cost 1.15; divided after i, S 10/3, g 10, cost 1 + 0.15: the later of equals",
			10*square + 345*square/100, ten + " i" + soft + "m " + m(9), "1 1 1 1 1 1 1 1 1 1 i- / |1 9|"},
		{"a thousandth less: cost 1.15 less a trace against 1 and a trace + 0.15",
			10*square + 345*square/100 - 1, ten + " i" + soft + "m " + m(9), "1 1 1 1 1 1 1 1 1 1 / |i1 9|"},
		{"whole, 3.45 wide S 1.4 for g 2, cost 2.1; divided S 1/3 for g 3, s 1/9: below the thin space",
			10*square + 14*square/10, m(5, 5, 1)[:11] + " " + m(9), "5 5 / |9|"},
		{"a line with no word space, where nothing else will go", 20 * square, m(17, 17, 4), "17| / |17| / |4|"},
		{"and not where a division would, though its cost is 15: 20 - 15 - 1/15, g 1", 20 * square, m(10, 5) + soft + m(13, 1), "10 5- / |13 1|"},
		{"a word of 50 to 20: 19 and a hyphen go in, 17 and a hyphen after two ems; 14/15 are quadded out", 20 * square, m(50), "19-| / |17-| / |14|"},
		{"after a hyphen of the copy's own the line may end, and no other is set: S 1/15 less than 20, g 1", 20 * square, m(9, 10) + "-" + m(4), "9 10- / |4|"},
		{"after a no-break space it may not: 9 is alone, though 9 and 8 would go in, S 3",
			20 * square, m(9, 8) + "\u00a0" + m(6), "9| / |8 6|"},
		{"a soft hyphen that is not wanted is nothing", 20 * square, m(5) + soft + m(5), "10|"},
		{"nor is one before a last i, which the hyphen would take more room than", 20 * square, m(10, 8) + soft + "i " + m(17), "10 8i / |17|"},
		{"the rest goes in: it is the last line, though it is tight", 20*square + 3*square/5, m(5, 5, 5, 5), "5 5 5 5"},
		{"a thousandth less, and it is not: 5 5 5, S 5.6, g 2", 20*square + 3*square/5 - 1, m(5, 5, 5, 5), "5 5 5 / |5|"},
	} {
		s := blocks(t, c.measure)
		h := s.NewHand()
		h.Arrange = true
		if _, _, err := h.Paragraph(read.Paragraph{Text: []byte(c.text), Kind: read.Verse}, stick.Place{}, 0); err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		var lines []string
		for _, setting := range h.Settings {
			lines = append(lines, tell(s, setting))
		}
		if got := strings.Join(lines, " / "); got != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

// The last line has thick spaces if they go in, and else spaces as wide as will, to a twentieth of an em.
func TestLastLine(t *testing.T) {
	for _, c := range []struct {
		name     string
		left     int // of the measure beside three words
		low, all int // the narrowest gap, and both together, at least
	}{
		{"ample", 10 * square, square / 3, 2 * square / 3},
		{"two thicks, and nothing over", 2 * square / 3, square / 3, 2 * square / 3},
		{"two thicks less a trace", 2*square/3 - 1, square / 5, 2*square/3 - 1 - square/20},
		{"two middles", square / 2, square / 5, square/2 - square/20},
		{"a thin and a middle", 9 * square / 20, square / 5, 2 * square / 5},
		{"two thins", 2 * square / 5, square / 5, 2 * square / 5},
	} {
		s := blocks(t, 15*square+c.left)
		h := s.NewHand()
		h.Arrange = true
		_, done, err := h.Paragraph(read.Paragraph{Text: []byte(m(5, 5, 5)), Kind: read.Verse}, stick.Place{}, 0)
		if err != nil || !done || len(h.Lines) != 1 || !h.Lines[0].Last {
			t.Fatalf("%s: %+v, done %t, error %v", c.name, h.Lines, done, err)
		}
		gaps := h.Settings[0].Gaps
		if low, all := slices.Min(gaps), gaps[0]+gaps[1]; len(gaps) != 2 || low < c.low || all < c.all || all > max(c.left, c.all) {
			t.Errorf("%s: gaps %v, want two of at least %d, together at least %d of %d", c.name, gaps, c.low, c.all, c.left)
		}
		if c.left >= 2*square/3 && (gaps[0] != square/3 || gaps[1] != square/3) {
			t.Errorf("%s: gaps %v, want thick spaces", c.name, gaps)
		}
		if wants := int(h.Lines[0].Wants); wants > square/20 {
			t.Errorf("%s: %d left over", c.name, wants)
		}
	}
}

// Prose is indented one em, verse turned over two; the rest of a paragraph of prose begins at the margin.
func TestIndents(t *testing.T) {
	for _, c := range []struct {
		kind read.Kind
		want string
	}{
		{read.Prose, "|9 9 / 9|"},
		{read.Verse, "9 9 / |9|"},
	} {
		s := blocks(t, 20*square)
		h := s.NewHand()
		h.Arrange = true
		if _, _, err := h.Paragraph(read.Paragraph{Text: []byte(m(9, 9, 9)), Kind: c.kind}, stick.Place{}, 0); err != nil {
			t.Fatal(err)
		}
		var lines []string
		for _, setting := range h.Settings {
			lines = append(lines, tell(s, setting))
		}
		if got := strings.Join(lines, " / "); got != c.want {
			t.Errorf("kind %d: %s, want %s", c.kind, got, c.want)
		}
		indent := 0
		for _, id := range h.Settings[int(c.kind)].Pieces { // prose: the first line, verse: the second
			if sort := s.Cases().Sort(id); !sort.Space {
				break
			}
			indent += s.Cases().Sort(id).Width
		}
		if want := (1 + int(c.kind)) * square; indent != want {
			t.Errorf("kind %d: indent %d, want %d", c.kind, indent, want)
		}
	}
}

// A measure in which not even part of a word goes is refused, with what it would have to be.
func TestTooNarrow(t *testing.T) {
	for _, c := range []struct {
		name    string
		kind    read.Kind
		measure int
		at      int // where the line begins that does not go, -1: all go
		indent  int
	}{
		{"the first line of prose: an indent, an m and a hyphen", read.Prose, 2*square + square/15 - 1, 0, square},
		{"just enough", read.Prose, 2*square + square/15, -1, 0},
		{"verse turned over: two ems, an m and a hyphen", read.Verse, 3*square + square/15 - 1, 2, 2 * square},
		{"just enough", read.Verse, 3*square + square/15, -1, 0},
	} {
		s := blocks(t, c.measure)
		_, done, err := s.NewHand().Paragraph(read.Paragraph{Text: []byte(m(9)), Kind: c.kind}, stick.Place{Paragraph: 4}, 0)
		if c.at < 0 {
			if err != nil || !done {
				t.Errorf("%s: done %t, error %v", c.name, done, err)
			}
			continue
		}
		var narrow *stick.TooNarrow
		if !errors.As(err, &narrow) {
			t.Errorf("%s: error %v, want a TooNarrow", c.name, err)
			continue
		}
		if narrow.Place.Paragraph != 4 || narrow.Place.At != c.at || narrow.Needs != c.measure+1 || narrow.Indent != c.indent || s.Cases().Sort(narrow.Sort).Name != "m" {
			t.Errorf("%s: %+v", c.name, narrow)
		}
	}
}

func TestNoSpaces(t *testing.T) {
	letters := sorts.Font{Name: "Blocks", Body: square, Sorts: []sorts.Sort{{Name: "m", Text: "m", Width: square}, {Name: "brass", Space: true, Width: 100}}}
	cases, err := sorts.Lay(letters)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := stick.New(cases, 0, 0, 20*square); err == nil || !strings.Contains(err.Error(), `"Blocks"`) {
		t.Errorf("a font with no space for composing: error %v", err)
	}
}
