package house

import (
	"unicode"
	"unicode/utf8"
)

// A Pause is what a word ends with, as far as the space after it is concerned.
type Pause uint8

// The pauses that ask for more than the ordinary space in old usage (MacKellar, The American Printer, 1893, pp. 130-131).
const (
	NoPause  Pause = iota // none that does
	Clause                // a colon or semicolon: an en
	Sentence              // the full point, or mark of question or exclamation, that ends a sentence: an em
)

// PauseAfter tells what the word that ends at text[:end] ends with, the next beginning at next. A full point ends a sentence
// where a capital or an opening quote follows and neither an abbreviation nor an initial goes before: not in “Mr. Tansy” or “J. Creel”.
// Closing quotes and brackets may stand behind the point.
func PauseAfter(text []byte, end, next int) Pause {
	p := end
	for range reach {
		r, n := utf8.DecodeLastRune(text[:p])
		if r != '"' && r != '\'' && !unicode.In(r, unicode.Pf, unicode.Pe) {
			break
		}
		p -= n
	}
	if p == 0 {
		return NoPause
	}
	switch text[p-1] {
	case ':', ';':
		return Clause
	case '?', '!':
		if beginsSentence(text, next) {
			return Sentence
		}
	case '.':
		if beginsSentence(text, next) && !abbreviated(text[:p-1]) {
			return Sentence
		}
	}
	return NoPause
}

func beginsSentence(text []byte, next int) bool {
	for range reach {
		r, n := utf8.DecodeRune(text[next:])
		switch {
		case unicode.IsUpper(r):
			return true
		case r == '"' || r == '\'' || unicode.In(r, unicode.Pi, unicode.Ps, unicode.Pd) || unicode.IsDigit(r):
			next += n
			if unicode.IsDigit(r) {
				return true
			}
		default:
			return false
		}
	}
	return false
}

// The abbreviations that are followed by a capital as a rule. Common practice, no source.
var abbreviations = map[string]bool{
	"Mr": true, "Mrs": true, "Ms": true, "Dr": true, "St": true, "Messrs": true, "Mme": true, "Mlle": true, "Rev": true,
	"Hon": true, "Prof": true, "Capt": true, "Col": true, "Gen": true, "Lieut": true, "Lt": true, "Sergt": true, "Sgt": true,
	"Maj": true, "Adm": true, "Gov": true, "Pres": true, "Sen": true, "Esq": true, "Jr": true, "Sr": true, "No": true, "Nos": true,
	"Vol": true, "vol": true, "Ch": true, "ch": true, "p": true, "pp": true, "Fig": true, "fig": true, "Sec": true, "sec": true, "cf": true, "viz": true,
}

// abbreviated tells whether what stands before a full point is an abbreviation or a single letter, but for the word I.
func abbreviated(text []byte) bool {
	p, letters := len(text), 0
	for p > 0 && letters < reach {
		r, n := utf8.DecodeLastRune(text[:p])
		if !unicode.IsLetter(r) {
			break
		}
		p -= n
		letters++
	}
	word := string(text[p:])
	return letters == 1 && word != "I" || abbreviations[word]
}
