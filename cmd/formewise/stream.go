package main

import (
	"context"
	"errors"
	"io"
	"runtime"
	"syscall"
)

// errReaderGone says that whoever read stdout has closed it. It is no failure:
// a command that meets it returns it, and the program ends quietly.
var errReaderGone = errors.New("the reader of the output has gone")

// outlet is stdout. It keeps the first error of a write, so that none is lost
// where a library swallows it, and every later write fails with the same.
type outlet struct {
	to     io.Writer
	broken error
}

func (o *outlet) Write(p []byte) (int, error) {
	if o.broken != nil {
		return 0, o.broken
	}
	n, err := o.to.Write(p)
	if err == nil {
		return n, nil
	}
	if isBrokenPipe(err) {
		o.broken = errReaderGone
	} else {
		o.broken = &failure{what: "the result could not be written: " + plainCause(err), cause: err}
	}
	return n, o.broken
}

// isBrokenPipe knows a closed reader on every system: Windows has two numbers
// of its own for it (ERROR_BROKEN_PIPE, ERROR_NO_DATA).
func isBrokenPipe(err error) bool {
	if errors.Is(err, syscall.EPIPE) || errors.Is(err, io.ErrClosedPipe) {
		return true
	}
	var number syscall.Errno
	return runtime.GOOS == "windows" && errors.As(err, &number) && (number == 109 || number == 232)
}

// inlet is stdin. A read that waits for a person or a slow pipe ends as soon
// as ctx is done: the blocking read happens beside it, into a buffer of its own.
type inlet struct {
	ctx  context.Context
	from io.Reader

	buffer  []byte     // of the reading side; free again when rest is empty
	rest    []byte     // read and not yet handed over
	err     error      // what follows rest
	waiting chan chunk // a read under way; nil when there is none
}

type chunk struct {
	data []byte
	err  error
}

func (in *inlet) Read(p []byte) (int, error) {
	if len(p) == 0 {
		return 0, nil
	}
	for len(in.rest) == 0 {
		if in.err != nil {
			return 0, in.err
		}
		if err := in.ctx.Err(); err != nil {
			return 0, err
		}
		if in.waiting == nil {
			if in.buffer == nil {
				in.buffer = make([]byte, 64<<10)
			}
			waiting, buffer := make(chan chunk, 1), in.buffer
			in.waiting = waiting
			go func() {
				n, err := in.from.Read(buffer)
				waiting <- chunk{buffer[:n], err}
			}()
		}
		select {
		case got := <-in.waiting:
			in.rest, in.err, in.waiting = got.data, got.err, nil
		case <-in.ctx.Done():
			return 0, in.ctx.Err()
		}
	}
	n := copy(p, in.rest)
	in.rest = in.rest[n:]
	return n, nil
}
