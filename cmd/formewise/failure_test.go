package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

// advised stands in for an inner room's error with a hint.
type advised struct{ what, advice string }

func (a *advised) Error() string  { return a.what }
func (a *advised) Advice() string { return a.advice }

func TestSettle(t *testing.T) {
	interrupted, cancel := context.WithCancel(t.Context())
	cancel()
	full := &failure{what: "the result could not be written: no space left on device"}
	tests := []struct {
		name        string
		ctx         context.Context
		err, broken error
		code        int
		stderr      string
	}{
		{"done", t.Context(), nil, nil, 0, ""},
		{"answered", t.Context(), answered(1), nil, 1, ""},
		{"refused", t.Context(), refuse("font %q: no sort %q (it has a, b)", "Ferry Roman 12", "þ"), nil, 2,
			"formewise: error: font \"Ferry Roman 12\": no sort \"þ\" (it has a, b)\n"},
		{"refused with a hint", t.Context(), refuseWith("add it", "no such font"), nil, 2,
			"formewise: error: no such font\nformewise: hint: add it\n"},
		{"a code of its own", t.Context(), &failure{what: "short", code: 1}, nil, 1,
			"formewise: error: short\n"},
		{"an inner room's hint, wrapped", t.Context(), fmt.Errorf("the shop: %w", &advised{"no shop", "make one"}), nil, 2,
			"formewise: error: the shop: no shop\nformewise: hint: make one\n"},
		{"not there yet", t.Context(), notYet("--html"), nil, 2,
			"formewise: error: --html is not there yet\n"},
		{"controls", t.Context(), errors.New("file \x1b[31mred\u009b2J\u202e\x07\n"), nil, 2,
			"formewise: error: file <U+001B>[31mred<U+009B>2J<U+202E><U+0007><U+000A>\n"},
		{"interrupted", interrupted, fmt.Errorf("reading: %w", context.Canceled), nil, 130,
			"formewise: error: interrupted, nothing half-written was left\n"},
		{"interrupted too late", interrupted, nil, nil, 0, ""},
		{"interrupted after the answer", interrupted, answered(1), nil, 1, ""},
		{"reader gone", t.Context(), fmt.Errorf("lines: %w", errReaderGone), errReaderGone, 0, ""},
		{"reader gone, answer known", t.Context(), answered(1), errReaderGone, 1, ""},
		{"reader gone while cobra wrote", t.Context(), nil, errReaderGone, 0, ""},
		{"reader gone, then refused", t.Context(), refuse("no"), errReaderGone, 2, "formewise: error: no\n"},
		{"disk full while cobra wrote", t.Context(), nil, full, 2, "formewise: error: " + full.what + "\n"},
		{"disk full after an answer", t.Context(), answered(1), full, 2, "formewise: error: " + full.what + "\n"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var stderr bytes.Buffer
			if code := settle(test.ctx, test.err, test.broken, &stderr); code != test.code {
				t.Errorf("exit code %d, want %d", code, test.code)
			}
			if stderr.String() != test.stderr {
				t.Errorf("stderr %q, want %q", stderr.String(), test.stderr)
			}
		})
	}
}

func TestAnswer(t *testing.T) {
	tests := []struct {
		name string
		to   *failing
		want error // of errors.Is
	}{
		{"written", &failing{takes: 100}, answered(1)},
		{"reader gone", &failing{err: syscall.EPIPE}, answered(1)},
		{"disk full", &failing{err: syscall.ENOSPC}, syscall.ENOSPC},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c := &counter{stdout: &outlet{to: test.to}}
			if err := c.answer("short of e\n", codeShort); !errors.Is(err, test.want) {
				t.Errorf("%v, want %v", err, test.want)
			}
		})
	}
}

func TestWarn(t *testing.T) {
	var stderr bytes.Buffer
	c := &counter{stderr: &stderr}
	c.warn("column %s is not read", "a\x1bb")
	if want := "formewise: warning: column a<U+001B>b is not read\n"; stderr.String() != want {
		t.Errorf("%q, want %q", stderr.String(), want)
	}
}

func TestUnreadable(t *testing.T) {
	_, missing := os.ReadFile(filepath.Join(t.TempDir(), "gone.txt"))
	_, folder := os.ReadFile(t.TempDir())
	tests := []struct {
		name string
		err  error
		want string
	}{
		{"missing", missing, `manuscript "gone.txt": there is no such file`},
		{"forbidden", &fs.PathError{Op: "open", Path: "gone.txt", Err: fs.ErrPermission}, `manuscript "gone.txt": permission denied`},
		{"there already", fs.ErrExist, `manuscript "gone.txt": it is there already`},
		{"the system's own words", &fs.PathError{Op: "read", Path: "gone.txt", Err: errors.New("input/output error")}, `manuscript "gone.txt": input/output error`},
		{"no path", errors.New("odd"), `manuscript "gone.txt": odd`},
	}
	for _, test := range tests {
		if got := unreadable("manuscript", "gone.txt", test.err); got.Error() != test.want || !errors.Is(got, test.err) {
			t.Errorf("%s: %v, want %s", test.name, got, test.want)
		}
	}
	// How a system words it differs; that a folder is no file it says.
	if folder == nil {
		t.Fatal("a folder was read as a file")
	}
}
