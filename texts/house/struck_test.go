package house_test

import (
	"testing"
	"unicode/utf8"

	"formewise/texts/house"
)

// Common practice, no source.
func TestStruck(t *testing.T) {
	struck := house.Struck()
	for _, r := range "ibhklíìîïįḅĥḱĺł’”'\")]?!" {
		if want := r != 'ł'; struck(r) != want { // ł is a letter of its own, not an l with an accent
			t.Errorf("%q: struck %v, want %v", r, struck(r), want)
		}
	}
	for _, r := range "acdefgjmnopqrstuvwxyzıæœéàABCILTÍ0127.,;:‘“-–—([&¿¡" {
		if struck(r) {
			t.Errorf("%q is struck", r)
		}
	}
	if struck(utf8.RuneError) || struck(0) || struck(' ') {
		t.Error("what is no character is struck")
	}
}
