package main

import (
	"bytes"
	"context"
	"errors"
	"io"
	"strings"
	"syscall"
	"testing"
	"testing/iotest"
)

// failing is a writer that takes some bytes and then fails for good.
type failing struct {
	takes int
	err   error
}

func (f *failing) Write(p []byte) (int, error) {
	n := min(len(p), f.takes)
	f.takes -= n
	if n < len(p) {
		return n, f.err
	}
	return n, nil
}

func TestOutletKeepsTheFirstError(t *testing.T) {
	tests := []struct {
		name string
		err  error
		want string
	}{
		{"reader gone", syscall.EPIPE, errReaderGone.Error()},
		{"pipe in memory", io.ErrClosedPipe, errReaderGone.Error()},
		{"disk full", syscall.ENOSPC, "the result could not be written: no space left on device"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			to := &failing{takes: 4, err: test.err}
			o := &outlet{to: to}
			if n, err := io.WriteString(o, "sort"); n != 4 || err != nil {
				t.Fatalf("first write: %d, %v", n, err)
			}
			if _, err := io.WriteString(o, "s"); err == nil || err.Error() != test.want {
				t.Errorf("second write: %v, want %s", err, test.want)
			}
			// It stays broken, even if there should be room again.
			to.takes = 100
			if n, err := io.WriteString(o, "s"); n != 0 || err != o.broken {
				t.Errorf("third write: %d, %v, want 0, %v", n, err, o.broken)
			}
		})
	}
}

func TestInletReadsAllOfIt(t *testing.T) {
	text := strings.Repeat("Lower Ferry Press\n", 20_000)
	for name, from := range map[string]io.Reader{
		"whole":     strings.NewReader(text),
		"bytewise":  iotest.OneByteReader(strings.NewReader(text)),
		"early end": iotest.DataErrReader(strings.NewReader(text)),
	} {
		t.Run(name, func(t *testing.T) {
			got, err := io.ReadAll(&inlet{ctx: t.Context(), from: from})
			if err != nil || string(got) != text {
				t.Errorf("%d bytes, %v, want all %d", len(got), err, len(text))
			}
		})
	}
	broken := errors.New("broken")
	got, err := io.ReadAll(&inlet{ctx: t.Context(), from: io.MultiReader(strings.NewReader("a"), iotest.ErrReader(broken))})
	if string(got) != "a" || !errors.Is(err, broken) {
		t.Errorf("%q, %v, want what came before the error, and it", got, err)
	}
}

func TestInletStopsWaiting(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	reader, writer := io.Pipe()
	defer writer.Close()
	in := &inlet{ctx: ctx, from: reader}
	go func() {
		_, _ = io.WriteString(writer, "e")
		cancel()
	}()
	// Nothing more ever comes, and nobody closes the pipe.
	got, err := io.ReadAll(in)
	if !errors.Is(err, context.Canceled) || !bytes.HasPrefix([]byte("e"), got) {
		t.Errorf("%q, %v, want at most the letter, and %v", got, err, context.Canceled)
	}
}
