package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"formewise/cmd/formewise/report"
)

// The exit codes, as the contract has them.
const (
	codeDone        = 0   // done; or: the type carries the work
	codeShort       = 1   // check, standing, order only: it does not
	codeRefused     = 2   // not answered, nothing changed
	codeInterrupted = 130 // Ctrl-C or SIGTERM, nothing half-written
)

// failure is an error as a printer reads it: one lower-case sentence that says
// what, which and what is allowed; a hint apart, or ""; and the exit code,
// where 0 stands for 2. cause, if any, is for errors.Is alone and is not shown.
type failure struct {
	what  string
	hint  string
	code  int
	cause error
}

func (f *failure) Error() string  { return f.what }
func (f *failure) Advice() string { return f.hint }
func (f *failure) Unwrap() error  { return f.cause }

// refuse is the usual failure: exit code 2, and no hint.
func refuse(format string, args ...any) error {
	return &failure{what: fmt.Sprintf(format, args...)}
}

// refuseWith is refuse with a hint before the sentence.
func refuseWith(hint, format string, args ...any) error {
	return &failure{what: fmt.Sprintf(format, args...), hint: hint}
}

// notYet refuses a flag or a form of input that the contract has and this
// program does not read yet.
func notYet(thing string) error {
	return refuse("%s is not there yet", thing)
}

// answered ends a command that has said all it has to say with an exit code.
// It is an error only so that it travels back through cobra; nothing is shown.
type answered int

func (a answered) Error() string { return fmt.Sprintf("answered with exit code %d", int(a)) }

// answer writes a finished result to stdout in one piece and ends the command
// with code. The code is the answer and stays the same when the reader of the
// result has gone.
func (c *counter) answer(result string, code int) error {
	if _, err := io.WriteString(c.stdout, result); err != nil && !errors.Is(err, errReaderGone) {
		return err
	}
	return answered(code)
}

// warn says on stderr what the printer should know, and goes on.
func (c *counter) warn(format string, args ...any) {
	fmt.Fprintf(c.stderr, "formewise: warning: %s\n", report.Clean(fmt.Sprintf(format, args...)))
}

// unreadable words an error of the file system about a file that was to be
// read: kind says what it was to be, e.g. "manuscript".
func unreadable(kind, name string, err error) error {
	why := plainCause(err)
	// Every system has words of its own for a folder read as a file.
	if info, failed := os.Stat(name); failed == nil && info.IsDir() {
		why = "it is a folder"
	}
	return &failure{what: fmt.Sprintf("%s %q: %s", kind, name, why), cause: err}
}

// plainCause says in a few words why the system refused a file.
func plainCause(err error) string {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "there is no such file"
	case errors.Is(err, fs.ErrPermission):
		return "permission denied"
	case errors.Is(err, fs.ErrExist):
		return "it is there already"
	}
	// The operation and the name are in the sentence round it already.
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err.Error()
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err.Error()
	}
	return err.Error()
}

// settle is the one place where an error becomes words on stderr and an exit
// code. err is what the command returned, broken the first error of stdout.
func settle(ctx context.Context, err, broken error, stderr io.Writer) int {
	var code answered
	if err == nil || errors.As(err, &code) {
		// What cobra printed by itself (help) passes on no error of a write.
		if broken == nil || errors.Is(broken, errReaderGone) {
			return int(code)
		}
		err = broken
	}
	if ctx.Err() != nil {
		complain(stderr, "interrupted, nothing half-written was left", "")
		return codeInterrupted
	}
	if errors.Is(err, errReaderGone) {
		return codeDone
	}
	complain(stderr, err.Error(), adviceOf(err))
	var f *failure
	if errors.As(err, &f) && f.code != 0 {
		return f.code
	}
	return codeRefused
}

// complain writes the sentence and, where there is one, the hint. Names of
// files and fonts come from outside, so nothing goes out uncleaned.
func complain(stderr io.Writer, what, hint string) {
	lines := "formewise: error: " + report.Clean(what) + "\n"
	if hint != "" {
		lines += "formewise: hint: " + report.Clean(hint) + "\n"
	}
	// Nobody is left to be told that stderr cannot be written.
	_, _ = io.WriteString(stderr, lines)
}

// adviceOf finds the hint that some error in the chain carries, or "".
func adviceOf(err error) string {
	var advised interface {
		error
		Advice() string
	}
	if errors.As(err, &advised) {
		return advised.Advice()
	}
	return ""
}
