package report

import (
	"bytes"
	"encoding/json"
	"math/big"
	"strings"
)

// JSON is a finished answer as one object, set out to be read, with what would steer a terminal as escapes.
func JSON(answer any) (string, error) {
	var out bytes.Buffer
	encode := json.NewEncoder(&out)
	encode.SetEscapeHTML(false)
	encode.SetIndent("", "  ")
	if err := encode.Encode(answer); err != nil {
		return "", err
	}
	return visibleJSON(out.String()), nil
}

// JSONNumber writes num/den to so many places, rounded half up, without zeros at the end: a number of JSON.
func JSONNumber(num, den, places int) json.Number {
	text := new(big.Rat).SetFrac64(int64(num), int64(den)).FloatString(places)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return json.Number(text)
}
