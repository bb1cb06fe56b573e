// Showhyphens is what showhyphens.sh needs beside TeX:
//
//	showhyphens choose ascii|accents|letters|printed TEXT… … >list   the words of some texts, a line each
//	showhyphens spell <list >words.tex                               the same as TeX is to read them
//	showhyphens read list <log                                       each word, a tab, and the word as TeX divides it
package main

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

func main() {
	if err := run(os.Args[1:], os.Stdin, os.Stdout); err != nil {
		fmt.Fprintf(os.Stderr, "showhyphens: %v\n", err)
		os.Exit(1)
	}
}

func run(args []string, stdin io.Reader, stdout io.Writer) error {
	out := bufio.NewWriter(stdout)
	var err error
	switch {
	case len(args) > 0 && args[0] == "choose":
		err = choose(args[1:], out)
	case len(args) == 1 && args[0] == "spell":
		err = spellAll(stdin, out)
	case len(args) == 2 && args[0] == "read":
		err = read(args[1], stdin, out)
	default:
		err = fmt.Errorf("what to do: choose WHICH TEXT…, spell, or read LIST")
	}
	if err != nil {
		return err
	}
	return out.Flush()
}

// choose writes the different words of some texts, in order of their bytes: those that are long enough to be divided.
// Which words of a text are taken says the last of these names that stands before the text's:
//
//	printed   what stands between spaces and has a letter
//	ascii     the same, if it is all ASCII
//	accents   the same, if it is not
//	letters   what is left without the signs at both ends, if that is nothing but letters
func choose(args []string, out io.Writer) error {
	takes := map[string]func(string) string{
		"printed": func(word string) string { return word },
		"ascii":   func(word string) string { return onlyIf(isASCII(word), word) },
		"accents": func(word string) string { return onlyIf(!isASCII(word), word) },
		"letters": func(word string) string {
			word = strings.TrimFunc(word, isNoLetter)
			return onlyIf(!strings.ContainsFunc(word, isNoLetter), word)
		},
	}
	seen := map[string]bool{}
	take := takes["printed"]
	for _, arg := range args {
		if t, ok := takes[arg]; ok {
			take = t
			continue
		}
		text, err := load(arg)
		if err != nil {
			return err
		}
		for _, word := range strings.Fields(text) {
			word = take(word)
			if _, ok := spell(word); ok && utf8.RuneCountInString(word) >= 5 && strings.ContainsFunc(word, unicode.IsLetter) {
				seen[word] = true
			}
		}
	}
	for _, word := range slices.Sorted(maps.Keys(seen)) {
		fmt.Fprintln(out, word)
	}
	return nil
}

func onlyIf(ok bool, word string) string {
	if !ok {
		return ""
	}
	return word
}

func isNoLetter(r rune) bool { return !unicode.IsLetter(r) }

func isASCII(word string) bool {
	return !strings.ContainsFunc(word, func(r rune) bool { return r > unicode.MaxASCII })
}

func load(name string) (string, error) {
	f, err := os.Open(name)
	if err != nil {
		return "", err
	}
	defer f.Close()
	var r io.Reader = f
	if strings.HasSuffix(name, ".gz") {
		if r, err = gzip.NewReader(f); err != nil {
			return "", fmt.Errorf("%s: %w", name, err)
		}
	}
	text, err := io.ReadAll(r)
	return string(text), err
}

// cork are the bytes and signs that stand in plain TeX with a Cork-encoded font for characters beyond ASCII.
var cork = map[rune]string{
	'‘': "`", '’': "'", '“': "``", '”': "''", '–': "--", '—': "---", '…': "...", '«': "<<", '»': ">>",
	'Œ': "\xd7", 'œ': "\xf7", 'ß': "\xff",
}

// spell writes a word as TeX is to read it; false if it has a character that is not provided for.
func spell(word string) (string, bool) {
	var b strings.Builder
	for _, r := range word {
		s, ok := spellRune(r)
		if !ok {
			return "", false
		}
		b.WriteString(s)
	}
	return b.String(), true
}

func spellRune(r rune) (string, bool) {
	if s, ok := cork[r]; ok {
		return s, true
	}
	switch {
	case ' ' < r && r < unicode.MaxASCII:
		return string(r), true
	case 'À' <= r && r <= 'þ' && unicode.IsLetter(r): // as in Latin-1
		return string([]byte{byte(r)}), true
	}
	return "", false
}

func spellAll(list io.Reader, out io.Writer) error {
	lines := bufio.NewScanner(list)
	for lines.Scan() {
		s, ok := spell(lines.Text())
		if !ok {
			return fmt.Errorf("%q cannot be spelt in TeX", lines.Text())
		}
		fmt.Fprintln(out, s)
	}
	return lines.Err()
}

// read takes from a log what \showhyphens has shown, a line such as “[] \tenrm hy-phen-ation” for each word of the list.
func read(list string, log io.Reader, out io.Writer) error {
	text, err := os.ReadFile(list)
	if err != nil {
		return err
	}
	words := strings.Split(strings.TrimSuffix(string(text), "\n"), "\n")
	n := 0
	lines := bufio.NewScanner(log)
	for lines.Scan() {
		shown, ok := bytes.CutPrefix(lines.Bytes(), []byte(`[] \tenrm `))
		if !ok {
			continue
		}
		if n == len(words) {
			return fmt.Errorf("the log shows more than the list's %d words", n)
		}
		divided, err := match(words[n], decode(shown))
		if err != nil {
			return err
		}
		fmt.Fprintf(out, "%s\t%s\n", words[n], divided)
		n++
	}
	if n < len(words) {
		return fmt.Errorf("the log shows %d words, and the list has %d", n, len(words))
	}
	return lines.Err()
}

// decode reads TeX's way of writing bytes that it takes for unprintable: ^^e9.
func decode(shown []byte) string {
	var b strings.Builder
	for i := 0; i < len(shown); i++ {
		if i+3 < len(shown) && shown[i] == '^' && shown[i+1] == '^' {
			if c, err := strconv.ParseUint(string(shown[i+2:i+4]), 16, 8); err == nil {
				b.WriteByte(byte(c))
				i += 3
				continue
			}
		}
		b.WriteByte(shown[i])
	}
	return b.String()
}

// match finds the hyphens that TeX has added to a word.
func match(word, shown string) (string, error) {
	var b strings.Builder
	rest := shown
	for _, r := range word {
		s, _ := spellRune(r)
		after, ok := strings.CutPrefix(rest, s)
		if !ok {
			if after, ok = strings.CutPrefix(rest, "-"+s); !ok {
				return "", fmt.Errorf("the log shows %q for the word %q", shown, word)
			}
			b.WriteByte('-')
		}
		b.WriteRune(r)
		rest = after
	}
	if rest != "" {
		return "", fmt.Errorf("the log shows %q for the word %q", shown, word)
	}
	return b.String(), nil
}
