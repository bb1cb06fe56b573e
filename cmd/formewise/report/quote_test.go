package report

import (
	"encoding/json"
	"testing"
)

func TestQuoted(t *testing.T) {
	for _, c := range []struct{ word, want string }{
		{"shop.db", "shop.db"}, {"--font", "--font"}, {"5%", "5%"},
		{"", `""`}, {"Ferry Roman 12", `"Ferry Roman 12"`}, {"þ", `"þ"`}, {";", `";"`}, {"'", `"'"`}, {"*", `"*"`},
		{"$", "'$'"}, {`"`, `'"'`}, {"`", "'`'"}, {`\`, `'\'`}, {`it's "so"`, `'it'\''s "so"'`},
	} {
		if got := Quoted(c.word); got != c.want {
			t.Errorf("%q: %s, want %s", c.word, got, c.want)
		}
	}
}

func TestVisibleJSON(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"{\n \"a\": \"é þ\"\n}\n", "{\n \"a\": \"é þ\"\n}\n"},
		{"\"\u009b2J\x7f\u202e\u00a0\"", `"\u009b2J\u007f\u202e\u00a0"`},
		{"\"\U000E0001\"", `"\udb40\udc01"`},
	} {
		got := visibleJSON(c.text)
		if got != c.want {
			t.Errorf("%q: %s, want %s", c.text, got, c.want)
		}
		var before, after any
		if err := json.Unmarshal([]byte(c.text), &before); err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal([]byte(got), &after); err != nil {
			t.Fatal(err)
		}
		if a, ok := after.(string); ok && a != before {
			t.Errorf("%q has come to %q", before, a)
		}
	}
}
