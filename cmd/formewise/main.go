// Formewise tells a printer who sets books by hand whether the type in the
// cases carries a manuscript, where it runs out, and what then.
//
// This package is the counter: it reads what was asked, fetches what the
// question needs, asks the inner rooms, and shows the answer. It reckons
// nothing itself. A walk through it, for
//
//	formewise check chapter.txt --font "Ferry Roman 12" --measure 22em --lines 30
//
// main.go starts it, root.go finds the command, the command's own file reads
// the flags and asks texts, inventory and demand, package report words the
// finished answer, and failure.go turns whatever went wrong into a sentence, a
// hint and an exit code.
package main

import (
	"context"
	"io"
	"os"
	"os/signal"
	"syscall"
	"time"
)

func main() {
	// A reader that has seen enough (`formewise lines … | head`) is no error:
	// with the signal ignored, the write fails instead and stream.go sees it.
	signal.Ignore(syscall.SIGPIPE)
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	// A second Ctrl-C ends at once, should something not listen to the first.
	context.AfterFunc(ctx, stop)
	code := run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}

// run is the whole program: args without the program's name, results to
// stdout, all else to stderr. It returns the exit code (see failure.go).
// When ctx is done it stops, leaves nothing half-written, and returns 130.
func run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	out := &outlet{to: stdout}
	c := &counter{
		stdin:  &inlet{ctx: ctx, from: stdin},
		stdout: out,
		stderr: stderr,
		env:    os.Getenv,
		now:    time.Now,
	}
	root := newRoot(c)
	root.SetArgs(append([]string{}, args...)) // never nil: cobra would read os.Args
	err := root.ExecuteContext(ctx)
	if err == nil {
		err = c.helpless
	}
	return settle(ctx, err, out.broken, stderr)
}
