package main

import (
	"context"
	"os"
	"runtime"
	"sync"
)

// readFile is readWhole, but that it ends as soon as ctx is done: a pipe with a name may be waited for without end.
func readFile(ctx context.Context, name string) ([]byte, error) {
	done := make(chan chunk, 1)
	go func() {
		data, err := readWhole(name)
		done <- chunk{data, err}
	}()
	select {
	case got := <-done:
		return got.data, got.err
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// sharedFrom is the size from which on a file is read by every core at once: most of the time goes on the pages of memory that it
// is read into.
const sharedFrom = 1 << 22

// readWhole is os.ReadFile, shared out over the cores where the file is large.
func readWhole(name string) ([]byte, error) {
	info, err := os.Stat(name)
	if err != nil || !info.Mode().IsRegular() || info.Size() < sharedFrom {
		return os.ReadFile(name) // a pipe, too, which is opened only once
	}
	file, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer func() { _ = file.Close() }() // it was only read
	data := make([]byte, info.Size())
	shares := runtime.GOMAXPROCS(0)
	short := make([]bool, shares)
	var wait sync.WaitGroup
	for i := range shares {
		wait.Go(func() {
			from, to := len(data)*i/shares, len(data)*(i+1)/shares
			n, _ := file.ReadAt(data[from:to], int64(from))
			short[i] = n < to-from
		})
	}
	wait.Wait()
	for _, is := range short {
		if is { // it was cut short, or could not be read: one reader finds out which
			return os.ReadFile(name)
		}
	}
	return data, nil
}
