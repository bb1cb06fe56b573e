//go:build linux || darwin

package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// A named pipe that nobody writes to is waited for no longer than the printer waits.
func TestInterruptedWhileOpening(t *testing.T) {
	shop := smallShop(t, "1000")
	pipe := filepath.Join(t.TempDir(), "pipe")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Skipf("no named pipe can be made here: %v", err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan int)
	var stdout, stderr bytes.Buffer
	go func() {
		done <- run(ctx, []string{"check", pipe, "--font", "Small", "--measure", "22em", "--lines", "30", "--shop", shop}, strings.NewReader(""), &stdout, &stderr)
	}()
	// Once it can be opened for writing, the program is at its other end and waits for more.
	writer, err := os.OpenFile(pipe, os.O_WRONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer writer.Close()
	cancel()
	if code := <-done; code != codeInterrupted || stdout.Len() > 0 || stderr.String() != "formewise: error: interrupted, nothing half-written was left\n" {
		t.Errorf("exit code %d, %q, %q", code, &stdout, &stderr)
	}
}
