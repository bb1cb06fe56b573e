package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/exec"
	"strconv"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"
)

type scriptCommand = func(ts *testscript.TestScript, neg bool, args []string)

// scriptCommands are the commands that scripts have of our own.
//
//	exits CODE formewise ARGS…      runs it and wants exactly this exit code; stdout and stderr as after exec
//	interrupts formewise ARGS…      feeds it text on stdin without end, sends Ctrl-C once it reads, wants 130
//	unread CODE formewise ARGS…     its stdout is closed before it writes; wants the code, and a silent stderr
//	remember FILE…, unchanged FILE… wants the files byte for byte as they were remembered
//	bytes FILE HEX…                 writes a file of these bytes
//	fill FILE COUNT TEXT            writes TEXT COUNT times; \n in it is a line end
//	json PATH VALUE                 wants VALUE at PATH (sorts.0.on_hand) of the JSON on stdout, a string without its quotes
func scriptCommands() map[string]scriptCommand {
	return map[string]scriptCommand{
		"exits":      exits,
		"interrupts": interrupts,
		"unread":     unread,
		"remember":   remember,
		"unchanged":  unchanged,
		"bytes":      writeBytes,
		"fill":       fill,
		"json":       jsonAt,
	}
}

// wellUsed ends a script whose command is put wrongly.
func wellUsed(ts *testscript.TestScript, neg bool, right bool, usage string) {
	if neg || !right {
		ts.Fatalf("usage: %s (and never with !)", usage)
	}
}

func wantCode(ts *testscript.TestScript, want string, err error) {
	code := 0
	var exit *exec.ExitError
	switch {
	case errors.As(err, &exit):
		code = exit.ExitCode()
	case err != nil:
		ts.Fatalf("not run: %v", err)
	}
	if strconv.Itoa(code) != want {
		ts.Fatalf("exit code %d, want %s", code, want)
	}
}

func exits(ts *testscript.TestScript, neg bool, args []string) {
	wellUsed(ts, neg, len(args) >= 2, "exits CODE PROGRAM ARGS…")
	wantCode(ts, args[0], ts.Exec(args[1], args[2:]...))
}

// program makes a process of a script's program that runs where the script is.
func program(ts *testscript.TestScript, args []string) (cmd *exec.Cmd, stderr *bytes.Buffer) {
	cmd = exec.Command(args[0], args[1:]...)
	cmd.Dir = ts.MkAbs(".")
	cmd.Env = os.Environ()
	for _, name := range []string{"HOME", "USERPROFILE", "XDG_DATA_HOME", "FORMEWISE_SHOP"} {
		cmd.Env = append(cmd.Env, name+"="+ts.Getenv(name))
	}
	stderr = new(bytes.Buffer)
	cmd.Stderr = stderr
	return cmd, stderr
}

func interrupts(ts *testscript.TestScript, neg bool, args []string) {
	wellUsed(ts, neg, len(args) >= 1, "interrupts PROGRAM ARGS…")
	cmd, stderr := program(ts, args)
	stdin, err := cmd.StdinPipe()
	ts.Check(err)
	ts.Check(cmd.Start())
	// Far more than a pipe holds: once it is written, the program is reading,
	// and listens. No clock is asked.
	line := strings.Repeat("the ferry and the tide ", 8) + "\n"
	_, err = io.WriteString(stdin, strings.Repeat(line, 10_000))
	if err == nil {
		err = cmd.Process.Signal(os.Interrupt)
	}
	wait := cmd.Wait()
	ts.Logf("[stderr]\n%s", stderr)
	ts.Check(err)
	wantCode(ts, strconv.Itoa(codeInterrupted), wait)
}

func unread(ts *testscript.TestScript, neg bool, args []string) {
	wellUsed(ts, neg, len(args) >= 2, "unread CODE PROGRAM ARGS…")
	reader, writer, err := os.Pipe()
	ts.Check(err)
	ts.Check(reader.Close())
	cmd, stderr := program(ts, args[1:])
	cmd.Stdout = writer
	err = cmd.Run()
	ts.Check(writer.Close())
	wantCode(ts, args[0], err)
	if stderr.Len() > 0 {
		ts.Fatalf("stderr is not silent:\n%s", stderr)
	}
}

// remembered keys the hashes of a script's files, by name.
type remembered struct{}

func remember(ts *testscript.TestScript, neg bool, args []string) {
	wellUsed(ts, neg, len(args) >= 1, "remember FILE…")
	for _, name := range args {
		ts.Value(remembered{}).(map[string][32]byte)[name] = sha256.Sum256([]byte(ts.ReadFile(name)))
	}
}

func unchanged(ts *testscript.TestScript, neg bool, args []string) {
	wellUsed(ts, neg, len(args) >= 1, "unchanged FILE…")
	for _, name := range args {
		before, known := ts.Value(remembered{}).(map[string][32]byte)[name]
		if !known {
			ts.Fatalf("%s was not remembered", name)
		}
		if sha256.Sum256([]byte(ts.ReadFile(name))) != before {
			ts.Fatalf("%s has changed", name)
		}
	}
}

func writeBytes(ts *testscript.TestScript, neg bool, args []string) {
	wellUsed(ts, neg, len(args) >= 1, "bytes FILE HEX…")
	data, err := hex.DecodeString(strings.Join(args[1:], ""))
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), data, 0o644))
}

func fill(ts *testscript.TestScript, neg bool, args []string) {
	wellUsed(ts, neg, len(args) == 3, "fill FILE COUNT TEXT")
	count, err := strconv.Atoi(args[1])
	ts.Check(err)
	text := strings.ReplaceAll(args[2], `\n`, "\n")
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), bytes.Repeat([]byte(text), count), 0o644))
}

func jsonAt(ts *testscript.TestScript, neg bool, args []string) {
	wellUsed(ts, neg, len(args) == 2, "json PATH VALUE")
	decoder := json.NewDecoder(strings.NewReader(ts.ReadFile("stdout")))
	decoder.UseNumber()
	var value any
	ts.Check(decoder.Decode(&value))
	for _, step := range strings.Split(args[0], ".") {
		switch holder := value.(type) {
		case map[string]any:
			next, there := holder[step]
			if !there {
				ts.Fatalf("%s: there is no %q", args[0], step)
			}
			value = next
		case []any:
			i, err := strconv.Atoi(step)
			if err != nil || i < 0 || i >= len(holder) {
				ts.Fatalf("%s: there is no element %q of %d", args[0], step, len(holder))
			}
			value = holder[i]
		default:
			ts.Fatalf("%s: nothing is below %q", args[0], step)
		}
	}
	got, isText := value.(string)
	if !isText {
		data, err := json.Marshal(value)
		ts.Check(err)
		got = string(data)
	}
	if got != args[1] {
		ts.Fatalf("%s is %s, want %s", args[0], got, args[1])
	}
}
