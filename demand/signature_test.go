package demand

import (
	"strings"
	"testing"

	"formewise/demand/impose"
)

// Common practice, no source: the first half of a gathering's leaves are signed.
func TestSignatures(t *testing.T) {
	for _, c := range []struct {
		plan  impose.Plan
		first string
		pages int
		want  string // of the rectos, a dash for none
	}{
		{impose.Plan{Format: "octavo", In: 1}, "B", 32, "B B2 B3 B4 - - - - C C2 C3 C4 - - - -"},
		{impose.Plan{Format: "quarto", In: 1}, "A", 16, "A A2 - - B B2 - -"},
		{impose.Plan{Format: "folio", In: 3}, "Z", 24, "Z Z2 Z3 - - - Aa Aa2 Aa3 - - -"},
		{impose.Plan{Format: "duodecimo", In: 1}, "B", 24, "B B2 B3 B4 B5 B6 - - - - - -"},
		{impose.Plan{Format: "octavo", In: 1, HalfSheet: true}, "H", 24, "H H2 - - I I2 - - K K2 - -"},
		{impose.Plan{Format: "24mo", In: 1}, "T", 48, "T T2 T3 T4 T5 T6 - - - - - - V V2 V3 V4 V5 V6 - - - - - -"},
	} {
		first, err := FirstSignature(c.first)
		if err != nil {
			t.Fatal(err)
		}
		sign, err := signer(first, c.plan)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for p := 1; p <= c.pages; p++ {
			text := sign(p)
			if p%2 == 0 {
				if text != "" {
					t.Errorf("%v: page %d, a verso, is signed %q", c.plan, p, text)
				}
				continue
			}
			if text == "" {
				text = "-"
			}
			got = append(got, text)
		}
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("%v from %s: %s, want %s", c.plan, c.first, s, c.want)
		}
	}
	for _, bad := range []string{"", "b", "J", "U", "W", "AB", "A2", "é", "Abb"} {
		if _, err := FirstSignature(bad); err == nil {
			t.Errorf("%q was taken for a signature", bad)
		}
	}
	for n := Signature(1); n < 100; n++ {
		if back, err := FirstSignature(n.String()); err != nil || back != n {
			t.Errorf("signature %d is written %s and read %d, %v", n, n, back, err)
		}
	}
	if _, err := signer(1, impose.Plan{Format: "single", In: 1}); err == nil {
		t.Error("single leaves were signed")
	}
}
