//go:build unix

package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// someoneElse is a user and group that own nothing; 65534 is nobody on most systems, and any number serves.
const someoneElse = 65534

// TestReadOnlyFolder works in a folder that its user may read and not write. Root may write anywhere, so as root the
// program is run by another user.
func TestReadOnlyFolder(t *testing.T) {
	// Not t.TempDir: its parent is closed to others.
	dir, err := os.MkdirTemp("", "formewise-readonly-*")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = os.Chmod(filepath.Join(dir, "closed"), 0o755) // else its owner could not empty it
		if err := os.RemoveAll(dir); err != nil {
			t.Error(err)
		}
	})
	program := filepath.Join(dir, "formewise") // by this name the test binary is the program
	binary, err := os.ReadFile(testBinary(t))
	if err != nil {
		t.Fatal(err)
	}
	closed := filepath.Join(dir, "closed")
	for _, err := range []error{
		os.Chmod(dir, 0o755),
		os.WriteFile(program, binary, 0o755),
		os.Mkdir(closed, 0o755),
		os.WriteFile(filepath.Join(closed, "ms.txt"), []byte("ab ba\n"), 0o644),
		os.WriteFile(filepath.Join(closed, "sorts.csv"), []byte("sort,text,set,count\na,a,0.5,9\nb,b,0.5,9\nem quad,,1,99\nen quad,,1/2,9\nthick,,1/3,9\n"), 0o644),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}

	carryOut := func(args ...string) (code int, stdout, stderr string) {
		t.Helper()
		var out, complaints bytes.Buffer
		cmd := exec.Command(program, args...)
		cmd.Dir, cmd.Stdout, cmd.Stderr = closed, &out, &complaints
		cmd.Env = append(os.Environ(), "HOME="+closed, "XDG_DATA_HOME=", "FORMEWISE_SHOP=")
		if os.Geteuid() == 0 {
			cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: someoneElse, Gid: someoneElse}}
		}
		err := cmd.Run()
		var exit *exec.ExitError
		if err != nil && !errors.As(err, &exit) {
			t.Skipf("run as root, and the program cannot be run by another user here: %v", err)
		}
		return cmd.ProcessState.ExitCode(), out.String(), complaints.String()
	}
	if code, _, stderr := ask(t, "font", "add", "Small", "--body", "12pt", "--sorts", filepath.Join(closed, "sorts.csv"), "--shop", filepath.Join(closed, "shop.db")); code != codeDone {
		t.Fatalf("exit code %d, %s", code, stderr)
	}
	if err := errors.Join(os.Chmod(filepath.Join(closed, "shop.db"), 0o644), os.Chmod(closed, 0o555)); err != nil {
		t.Fatal(err)
	}
	before := folder(t, closed)

	check := []string{"check", "ms.txt", "--font", "Small", "--measure", "22em", "--lines", "30", "--shop", "shop.db"}
	if code, stdout, stderr := carryOut(check...); code != codeDone || stderr != "" || !strings.HasPrefix(stdout, "Yes. ") {
		t.Errorf("what only reads: exit code %d, %q, %q", code, stdout, stderr)
	}
	for _, test := range []struct {
		name string
		args []string
		want string // the sentence begins so
	}{
		{"a font into the shop", []string{"font", "add", "Big", "--body", "12pt", "--sorts", "sorts.csv", "--shop", "shop.db"}, `shop file "shop.db": it cannot be written`},
		{"a correction", []string{"font", "edit", "Small", "--retire", "a", "--shop", "shop.db"}, `shop file "shop.db": it cannot be written`},
		{"a new shop", []string{"font", "add", "Big", "--body", "12pt", "--sorts", "sorts.csv", "--shop", "new.db"}, `shop file "new.db": it cannot be opened`},
		{"a new folder for it", []string{"font", "add", "Big", "--body", "12pt", "--sorts", "sorts.csv", "--shop", "new/shop.db"}, `shop file "new/shop.db": its folder cannot be made: permission denied`},
		{"the user's own", []string{"font", "add", "Big", "--body", "12pt", "--sorts", "sorts.csv"}, `shop file "` + closed + `/.local/share/formewise/shop.db": its folder cannot be made: permission denied`},
		{"the demo", []string{"demo", "here"}, `demo: the folder "here" cannot be made: permission denied`},
	} {
		t.Run(test.name, func(t *testing.T) {
			code, stdout, stderr := carryOut(test.args...)
			if code != codeRefused || stdout != "" || !strings.HasPrefix(stderr, "formewise: error: "+test.want+"\n") || !strings.Contains(stderr, "\nformewise: hint: ") {
				t.Errorf("exit code %d, %q, %q, want %s and a hint", code, stdout, stderr, test.want)
			}
		})
	}
	// A manuscript that may not be read.
	if err := os.Chmod(filepath.Join(closed, "ms.txt"), 0); err != nil {
		t.Fatal(err)
	}
	if code, _, stderr := carryOut(check...); code != codeRefused || stderr != "formewise: error: manuscript \"ms.txt\": permission denied\n" {
		t.Errorf("exit code %d, %q", code, stderr)
	}
	if err := os.Chmod(filepath.Join(closed, "ms.txt"), 0o644); err != nil {
		t.Fatal(err)
	}
	if after := folder(t, closed); after != before {
		t.Errorf("the folder was\n%sand is now\n%s", before, after)
	}
}

// testBinary is the file this test runs from.
func testBinary(t *testing.T) string {
	t.Helper()
	name, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	return name
}

// folder lists what a folder holds, byte for byte.
func folder(t *testing.T, dir string) string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		b.WriteString(e.Name() + " " + string(data) + "\n")
	}
	return b.String()
}
