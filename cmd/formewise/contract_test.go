package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestContract holds `lines --json` against `check --json` on works of random copy and random flags. What check says of a
// work is reckoned again from the lines, slowly and from the contract alone (contract_model_test.go), so that nothing of
// package demand judges itself.
func TestContract(t *testing.T) {
	shop := contractShop(t)
	for _, kind := range []string{"prose", "verse", "furnished"} {
		t.Run(kind, func(t *testing.T) {
			ms := filepath.Join(t.TempDir(), "ms.txt")
			rapid.Check(t, func(t *rapid.T) {
				text := someCopy(t, kind == "verse")
				if err := os.WriteFile(ms, []byte(text), 0o644); err != nil {
					t.Fatal(err)
				}
				a := someAsked(t)
				args := append([]string{ms, "--json", "--shop", shop}, a.flags...)
				switch kind {
				case "verse":
					args = append(args, "--verse")
				case "furnished":
					a.uneven = true
					args = append(args, someFurniture(t, a, text)...)
				}
				t.Logf("%q\n%q", args, text)
				lines := contractLines(t, args)
				code, check := contractCheck(t, args)
				m := newModel(t, a, check, lines)
				m.holdsLines(t)
				if kind == "prose" && !strings.Contains(text, "\f") {
					m.holdsFullPages(t)
				}
				m.holdsSorts(t)
				m.holdsMissing(t)
				m.holdsStanding(t)
				m.holdsSections(t)
				m.holdsVerdict(t, code)
			})
		})
	}
}

// contractShop has fonts that carry anything, next to nothing, and something between; one of them borrows its spaces.
func contractShop(t *testing.T) string {
	t.Helper()
	// The thin is a true fifth: one a little narrower lies more than a twentieth of an em under the middle, and then no piece
	// fills a line whose one gap falls between them. The hair tells rounding its thousandths from cutting them off.
	const spaces = "em quad,,1,%[1]d\nen quad,,1/2,%[1]d\nthick,,1/3,%[1]d\nmiddle,,1/4,%[1]d\nthin,,1/5,%[1]d\nhair,,0.0836,%[1]d\n3-em quad,,3,%[1]d\nbrass space,,1/24,%[1]d\n"
	letters := func(count, capitals int) string {
		var b strings.Builder
		for i, c := range "abcdefghi" {
			fmt.Fprintf(&b, "%c,%c,0.%d,%d\n", c, c, 27+5*i, count)
		}
		fmt.Fprintf(&b, "W,W,1.0625,%d\nfi,fi,0.5,%d\nhyphen,-,0.3,%d\ncomma,\",\",0.25,%d\n‘,‘,0.25,%d\n’,’,0.25,%d\n", capitals, capitals, count, count, capitals, count)
		return b.String()
	}
	dir := t.TempDir()
	shop := filepath.Join(dir, "shop.db")
	for _, f := range []struct {
		name, body, sorts string
		spacing           bool
	}{
		{"Ample 12", "12pt", letters(9000, 9000) + fmt.Sprintf(spaces, 9000), false},
		{"Middling 11", "11pt", letters(160, 25) + fmt.Sprintf(spaces, 150), false},
		{"Scant 8", "8.5pt", letters(30, 4) + fmt.Sprintf(spaces, 9), false},
		{"Lent 10", "10pt", letters(60, 9), false},
		{"Spacing 10", "10pt", fmt.Sprintf(spaces, 60), true},
	} {
		csv := filepath.Join(dir, "sorts.csv")
		if err := os.WriteFile(csv, []byte("sort,text,set,count\n"+f.sorts), 0o644); err != nil {
			t.Fatal(err)
		}
		args := []string{"font", "add", f.name, "--body", f.body, "--sorts", csv, "--shop", shop}
		if f.spacing {
			args = append(args, "--spacing")
		}
		if code, _, stderr := ask(t, args...); code != codeDone {
			t.Fatalf("%q: exit code %d, %s", args, code, stderr)
		}
	}
	return shop
}

// someCopy is copy with ligatures, quotes, dashes, hyphens of both kinds, characters without a sort, and form feeds.
func someCopy(t *rapid.T, verse bool) string {
	word := rapid.Custom(func(t *rapid.T) string {
		w := rapid.StringOfN(rapid.SampledFrom([]rune("aabcdeefghiiW")), 1, 9, -1).Draw(t, "letters")
		switch rapid.IntRange(0, 30).Draw(t, "turn") {
		case 0:
			return "\"" + w + ",\""
		case 1:
			return w + "-" + w
		case 2:
			return w + "--" + w
		case 3:
			return w + "\u00ad" + w
		case 4:
			return w + "þ"
		case 5:
			return "æ" + w
		case 6:
			return w + "\u00a0" + w
		case 7:
			return strings.Repeat(w, 12)
		case 8:
			return w + ","
		}
		return w
	})
	between := []string{" ", " ", " ", " ", " ", " ", " ", "\n", "\n\n"}
	if verse {
		between = []string{" ", " ", " ", "\n", "\n\n", "\n\n\n"}
	}
	var b strings.Builder
	b.WriteString(word.Draw(t, "first word"))
	for range rapid.IntRange(0, 160).Draw(t, "words") {
		if rapid.IntRange(0, 120).Draw(t, "feed") == 0 {
			b.WriteString("\f")
		}
		b.WriteString(rapid.SampledFrom(between).Draw(t, "between"))
		b.WriteString(word.Draw(t, "word"))
	}
	return b.String()
}

// A contractAsked is what a work was asked for, in the terms of the contract.
type contractAsked struct {
	flags     []string
	lines     int
	firstPage int
	format    string
	measure   string
	in        int
	seriatim  bool
	standing  int // -1: all
	bySheet   bool
	num, den  int // the allowance
	ofPage    bool
	body      int  // of the font, thousandths of a point
	uneven    bool // a page may have a line more or less
}

func someAsked(t *rapid.T) contractAsked {
	a := contractAsked{in: 1, firstPage: 1}
	give := func(flag, value string) { a.flags = append(a.flags, "--"+flag, value) }
	pick := func(flag string, values ...string) string {
		v := rapid.SampledFrom(values).Draw(t, flag)
		give(flag, v)
		return v
	}
	maybe := func(label string) bool { return rapid.IntRange(0, 2).Draw(t, label) == 0 }

	a.body = map[string]int{"Ample 12": 12000, "Middling 11": 11000, "Scant 8": 8500, "Lent 10": 10000}[pick("font", "Ample 12", "Middling 11", "Scant 8", "Lent 10")]
	a.measure = pick("measure", "6em", "10em", "90pt", "35mm", "22em")
	a.lines = rapid.IntRange(1, 8).Draw(t, "lines")
	give("lines", strconv.Itoa(a.lines))
	give("divide", rapid.SampledFrom([]string{"none", "none", "en", "la"}).Draw(t, "divide"))
	give("spacing", rapid.SampledFrom([]string{"even", "even", "old"}).Draw(t, "spacing"))
	a.format = pick("format", "single", "folio", "quarto", "octavo", "duodecimo", "16mo", "24mo", "32mo")
	switch {
	case slices.Contains([]string{"folio", "quarto", "octavo"}, a.format) && maybe("quired"):
		a.in = rapid.IntRange(1, 4).Draw(t, "in")
		give("in", strconv.Itoa(a.in))
	case a.format != "single" && a.format != "folio" && maybe("half sheet"):
		a.flags = append(a.flags, "--half-sheet")
	}
	if maybe("pull") {
		give("pull", strconv.Itoa(rapid.IntRange(1, 5).Draw(t, "pages to a pull")))
	}
	a.seriatim = pick("setting", "by-formes", "by-formes", "seriatim") == "seriatim"
	pick("first", "inner", "outer")
	a.standing = rapid.IntRange(-1, 3).Draw(t, "standing")
	if a.standing < 0 {
		give("standing", "all")
	} else {
		give("standing", strconv.Itoa(a.standing))
	}
	a.bySheet = pick("release", "forme", "sheet") == "sheet"
	switch rapid.IntRange(0, 3).Draw(t, "allowance") {
	case 0: // the default
		a.num, a.den = 3, 100
	case 1:
		a.num, a.den = 0, 1
		give("allowance", "0%")
	case 2:
		a.num, a.den = 125, 1000
		give("allowance", "12.5%")
	case 3:
		a.num, a.den, a.ofPage = 3, 4, true
		give("allowance", "0.75page")
	}
	if maybe("numbered") {
		a.firstPage = rapid.IntRange(1, 400).Draw(t, "first page")
		give("first-page", strconv.Itoa(a.firstPage))
	}
	return a
}

// someFurniture is what a page may have beside its lines of text; whatever it is, it is sorts like any other.
func someFurniture(t *rapid.T, a contractAsked, text string) []string {
	longest := 0
	for _, word := range strings.Fields(text) {
		longest = max(longest, len([]rune(word)))
	}
	var flags []string
	for _, f := range [][]string{{"--title", "ba fi"}, {"--catchwords"}, {"--no-widow"}, {"--drop", "2"}, {"--signatures", "B"}} {
		switch {
		case f[0] == "--signatures" && a.format == "single": // leaves have none
			continue
		case (f[0] == "--drop" || f[0] == "--no-widow") && a.lines < 4: // there has to be a page left
			continue
		case f[0] == "--catchwords" && (longest > 18 || a.measure != "22em"): // it has to go into the line
			continue
		}
		if rapid.Bool().Draw(t, f[0]) {
			flags = append(flags, f...)
		}
	}
	return flags
}

// A contractLine is a line of `lines --json`, all of it.
type contractLine struct {
	Page, Line          int
	Kind                string
	Measure, Set, Wants int
	Runs                []struct {
		Font  string
		Sorts []string
	}
	Broken bool
}

func contractLines(t *rapid.T, args []string) []contractLine {
	code, stdout := carryOut(t, "lines", args)
	if code != codeDone {
		t.Fatalf("lines: exit code %d", code)
	}
	var list []contractLine
	d := json.NewDecoder(bytes.NewReader(stdout))
	d.DisallowUnknownFields()
	for d.More() {
		var l contractLine
		if err := d.Decode(&l); err != nil {
			t.Fatal(err)
		}
		list = append(list, l)
	}
	return list
}

// A contractAnswer is what the contract has in `check --json`, but for what repeats the question; there may be more in it.
type contractAnswer struct {
	CastOff struct {
		Lines, Pages, Formes int
	} `json:"cast_off"`
	Formes   []contractForme
	Sorts    []contractSort
	Missing  []contractMissing
	CanStand contractStand `json:"can_stand"`
	Sections *contractSections
	Verdict  string
}

type contractForme struct {
	Forme, Sheet int
	Side         string
	Pages        []int
}

type contractSort struct {
	Font, Sort, Kind string
	Set              json.Number
	OnHand           int            `json:"on_hand"`
	KeptBack         int            `json:"kept_back"`
	Available        int            `json:"available"`
	PerThousand      json.Number    `json:"per_thousand"`
	Total            int            `json:"demand_total"`
	PageMax          int            `json:"demand_page_max"`
	FormeMean        json.Number    `json:"demand_forme_mean"`
	FormeMax         int            `json:"demand_forme_max"`
	Peak             int            `json:"demand_peak"`
	PeakForme        int            `json:"peak_forme"`
	Short            int            `json:"short"`
	RunsOut          *contractPlace `json:"runs_out"`
	Straight         *contractPlace `json:"runs_out_straight"`
}

// A contractPlace has no forme where nothing is distributed.
type contractPlace struct{ Forme, Page, Line int }

type contractMissing struct {
	Character, Code   string
	Count, Page, Line int
}

type contractLimit struct{ Font, Sort string }

type contractStand struct {
	PagesAnywhere  int            `json:"pages_anywhere"`
	PagesFromStart int            `json:"pages_from_start"`
	LinesFromStart int            `json:"lines_from_start"`
	Formes         int            `json:"formes"`
	LimitedBy      *contractLimit `json:"limited_by"`
}

type contractSections struct {
	Unit string
	List []contractSection
}

type contractSection struct {
	Pages     []int
	LimitedBy *contractLimit `json:"limited_by"`
}

func contractCheck(t *rapid.T, args []string) (int, contractAnswer) {
	code, stdout := carryOut(t, "check", args)
	if code != codeDone && code != codeShort {
		t.Fatalf("check: exit code %d", code)
	}
	var a contractAnswer
	if err := json.Unmarshal(stdout, &a); err != nil {
		t.Fatal(err)
	}
	return code, a
}

// carryOut runs a command in this process; it wants a silent stderr.
func carryOut(t *rapid.T, command string, args []string) (code int, stdout []byte) {
	var out, complaints bytes.Buffer
	code = run(t.Context(), append([]string{command}, args...), strings.NewReader(""), &out, &complaints)
	if complaints.Len() > 0 {
		t.Fatalf("%s: %s", command, &complaints)
	}
	return code, out.Bytes()
}
