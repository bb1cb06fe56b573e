package divide

import (
	"embed"
	"fmt"
	"sync"
)

// The pattern files are copies, to the byte, of what patterns/LICENCES.md names.
//
//go:embed patterns/*.tex
var patternFiles embed.FS

// languages is the table of languages. German is in the spelling of 2006, Latin in the modern and the medieval one, with
// or without v beside u.
var languages = []language{
	{"en", sync.OnceValues(func() (*Divider, error) { return open("en", "hyphen.tex") })},
	{"en-gb", sync.OnceValues(func() (*Divider, error) { return open("en-gb", "hyph-en-gb.tex") })},
	{"la", sync.OnceValues(func() (*Divider, error) { return open("la", "hyph-la.tex") })},
	{"fr", sync.OnceValues(func() (*Divider, error) { return open("fr", "hyph-fr.tex") })},
	{"de", sync.OnceValues(func() (*Divider, error) { return open("de", "hyph-de-1996.tex") })},
}

type language struct {
	name    string
	divider func() (*Divider, error)
}

// open reads the pattern file of a language and makes its divider.
func open(name, file string) (*Divider, error) {
	source, err := patternFiles.ReadFile("patterns/" + file)
	if err != nil {
		return nil, fmt.Errorf("division patterns of language %q: %w", name, err)
	}
	d, err := newDivider(name, source)
	if err != nil {
		return nil, fmt.Errorf("division patterns of language %q: %s: %w", name, file, err)
	}
	return d, nil
}

func newDivider(name string, source []byte) (*Divider, error) {
	d := &Divider{language: name, alphabet: newAlphabet()}
	var (
		patterns []pattern
		divided  [][]byte
	)
	err := readPatternFile(source, func(word []byte) error {
		p, err := readPattern(d.alphabet, word)
		patterns = append(patterns, p)
		return err
	}, func(word []byte) error {
		divided = append(divided, word)
		return nil
	})
	if err != nil {
		return nil, err
	}
	d.alphabet.finish()
	d.trie = newTrie(patterns)
	for _, word := range divided { // when all letters are known
		if err := d.exceptions.add(d.alphabet, word); err != nil {
			return nil, err
		}
	}
	return d, nil
}
