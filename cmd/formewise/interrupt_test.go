package main

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// smallShop makes a shop with one font, of as many of each sort as asked for.
func smallShop(t *testing.T, count string) string {
	t.Helper()
	dir := t.TempDir()
	csv, shop := filepath.Join(dir, "sorts.csv"), filepath.Join(dir, "shop.db")
	rows := "sort,text,set,count\na,a,0.5,N\nb,b,0.5,N\nhyphen,-,0.25,N\nem quad,,1,N\nen quad,,1/2,N\nthick,,1/3,N\nmiddle,,1/4,N\nthin,,1/5,N\nhair,,1/10,N\n"
	if err := os.WriteFile(csv, []byte(strings.ReplaceAll(rows, "N", count)), 0o644); err != nil {
		t.Fatal(err)
	}
	if code, _, stderr := ask(t, "font", "add", "Small", "--body", "12pt", "--sorts", csv, "--shop", shop); code != codeDone {
		t.Fatalf("exit code %d, %s", code, stderr)
	}
	return shop
}

// atEnd calls what it is told to when it has been read to its end.
type atEnd struct {
	io.Reader
	call func()
}

func (r *atEnd) Read(p []byte) (int, error) {
	n, err := r.Reader.Read(p)
	if err == io.EOF {
		r.call()
	}
	return n, err
}

// A check is interrupted when its copy has just been read, or some while later: it has either answered in full, or
// says that it was interrupted and nothing else.
func TestInterruptedWhileComposing(t *testing.T) {
	shop := smallShop(t, "1000")
	text := strings.Repeat("ab ba abba baab ab\n", 100_000) + "\n" + strings.Repeat("ba\n\n", 50_000)
	flags := []string{"-", "--font", "Small", "--measure", "22em", "--lines", "30", "--shop", shop}
	for _, command := range [][]string{{"check", "--json"}, {"check"}} {
		args := append(command, flags...)
		var whole bytes.Buffer
		wholeCode := run(t.Context(), args, strings.NewReader(text), &whole, io.Discard)
		if wholeCode != codeShort {
			t.Fatalf("exit code %d, want %d", wholeCode, codeShort)
		}
		interrupted := 0
		for _, turns := range []int{0, 1, 100, 1000, 10_000, 100_000, 1_000_000} {
			ctx, cancel := context.WithCancel(t.Context())
			stop := func() { cancel() }
			if turns > 0 {
				stop = func() {
					go func() { // the work goes on meanwhile, on this core or another
						for range turns {
							runtime.Gosched()
						}
						cancel()
					}()
				}
			}
			var stdout, stderr bytes.Buffer
			code := run(ctx, args, &atEnd{strings.NewReader(text), stop}, &stdout, &stderr)
			cancel()
			switch {
			case code == codeInterrupted:
				interrupted++
				if stdout.Len() > 0 || stderr.String() != "formewise: error: interrupted, nothing half-written was left\n" {
					t.Errorf("%d turns: interrupted, with %d bytes on stdout, stderr %q", turns, stdout.Len(), &stderr)
				}
			case code != wholeCode || stderr.Len() > 0 || !bytes.Equal(stdout.Bytes(), whole.Bytes()):
				t.Errorf("%d turns: exit code %d, stderr %q", turns, code, &stderr)
			}
		}
		if interrupted == 0 {
			t.Error("it was never interrupted, not even when its copy had just been read")
		}
	}
}

// The setting copy ends at the next line when it is interrupted.
func TestInterruptedWhileWriting(t *testing.T) {
	shop := smallShop(t, "1000")
	ms := filepath.Join(t.TempDir(), "ms.txt")
	if err := os.WriteFile(ms, bytes.Repeat([]byte("ab ba abba baab ab\n"), 100_000), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, form := range []string{"--json=true", "--json=false"} {
		ctx, cancel := context.WithCancel(t.Context())
		defer cancel()
		reader, writer := io.Pipe()
		got := make(chan int)
		go func() {
			// Its writes wait for these reads: after the first little it is in the midst of it.
			_, _ = io.ReadFull(reader, make([]byte, 100))
			cancel()
			n, _ := io.Copy(io.Discard, reader)
			got <- int(n)
		}()
		var stderr bytes.Buffer
		code := run(ctx, []string{"lines", ms, "--font", "Small", "--measure", "22em", "--lines", "30", "--shop", shop, form}, strings.NewReader(""), writer, &stderr)
		writer.Close()
		if n := <-got; code != codeInterrupted || stderr.String() != "formewise: error: interrupted, nothing half-written was left\n" || n > 1<<18 {
			t.Errorf("exit code %d, stderr %q, and %d bytes more", code, &stderr, n)
		}
	}
}

// A reader that has seen enough is no error, wherever it stops; of check the code is the answer all the same.
func TestReaderStopsEarly(t *testing.T) {
	shop := smallShop(t, "1000")
	ms := filepath.Join(t.TempDir(), "ms.txt")
	if err := os.WriteFile(ms, bytes.Repeat([]byte("ab ba abba baab ab\n"), 20_000), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		args string
		code int
	}{
		{"lines", codeDone}, {"lines --json", codeDone}, {"check", codeShort}, {"check --json", codeShort}, {"check --all", codeShort},
	} {
		for _, bytes := range []int{0, 1, 79, 500} {
			reader, writer := io.Pipe()
			go func() {
				_, _ = io.ReadFull(reader, make([]byte, bytes))
				reader.Close()
			}()
			var stderr strings.Builder
			args := append(strings.Fields(test.args), ms, "--font", "Small", "--measure", "22em", "--lines", "30", "--shop", shop)
			if code := run(t.Context(), args, strings.NewReader(""), writer, &stderr); code != test.code || stderr.Len() > 0 {
				t.Errorf("%s, %d bytes read: exit code %d, want %d; stderr %q", test.args, bytes, code, test.code, &stderr)
			}
		}
	}
}
