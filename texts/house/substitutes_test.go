package house_test

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/text/unicode/norm"

	"formewise/texts/house"
)

// The list is what the file says, row for row: nothing of a row is lost in reading it.
func TestSubstitutesAreTheFile(t *testing.T) {
	data, err := os.ReadFile("substitutes.csv")
	if err != nil {
		t.Fatal(err)
	}
	r := csv.NewReader(strings.NewReader(string(data)))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	got := [][]string{{"character", "set", "note"}}
	for _, s := range house.Substitutes() {
		got = append(got, []string{string(s.Character), s.Set, s.Note})
	}
	if d := cmp.Diff(rows, got); d != "" {
		t.Errorf("(-file +list):\n%s", d)
	}
	if len(rows) < 40 {
		t.Errorf("%d rows are too few", len(rows))
	}
	if !strings.HasPrefix(string(data), "#") {
		t.Error("the file does not say where its rows are from")
	}
}

func TestSubstitutesAreSound(t *testing.T) {
	rows := house.Substitutes()
	seen := map[string]bool{}
	for _, s := range rows {
		name := string(s.Character) + " as " + s.Set
		switch {
		case s.Character == utf8.RuneError || !norm.NFC.IsNormalString(string(s.Character)):
			t.Errorf("%s: the character is never met with in a text that was read", name)
		case s.Set == "" || !utf8.ValidString(s.Set) || !norm.NFC.IsNormalString(s.Set):
			t.Errorf("%s: what is set is not text in NFC", name)
		case strings.TrimSpace(s.Note) != s.Note || s.Note == "":
			t.Errorf("%s: the note is %q", name, s.Note)
		case strings.ContainsRune(s.Set, s.Character):
			t.Errorf("%s: it is set from itself", name)
		case seen[name]:
			t.Errorf("%s: twice", name)
		}
		seen[name] = true
	}
	// Whoever goes from what is set to its own substitutes, and so on, comes to an end.
	var depth func(text string, on string) int
	depth = func(text, on string) int {
		most := 0
		for _, r := range text {
			for _, s := range rows {
				if s.Character != r {
					continue
				}
				if strings.ContainsRune(on, r) {
					t.Fatalf("%c comes round to itself: %s", r, on)
				}
				most = max(most, 1+depth(s.Set, on+string(r)))
			}
		}
		return most
	}
	for _, s := range rows {
		if n := depth(string(s.Character), ""); n > 4 {
			t.Errorf("%c: %d substitutes one upon another are more than are followed", s.Character, n)
		}
	}
}

// Design, "Sorts": no letter is put for another, and nothing is reduced by compatibility forms (NFKC) but ligatures to their
// letters, which are the same letters.
func TestSubstitutesKeepTheWord(t *testing.T) {
	for _, s := range house.Substitutes() {
		if strings.ContainsRune("ſ²³¹½¼¾ªº™", s.Character) {
			t.Errorf("%c is a sort of its own, and nothing stands for it but %q", s.Character, s.Set)
		}
	}
}
