package main

import (
	"fmt"
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// TestMain lets the test binary be the program too: a script that says
// `formewise check …` runs it as a process of its own, through main.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"formewise": main})
}

// TestScripts tries the command line as a printer types it, a file a subject,
// in testdata/script at the top of the repository. Next to the usual commands
// (exec, stdin, stdout, stderr, cmp, exists, env, cd …) a script has those of
// scriptCommands and the condition [root], true where permissions hold nobody
// back. Scripts start in an empty folder of their own, $WORK, with a home
// folder $HOME in it and no shop. $ESC and $CSI are the characters that begin a
// command to a terminal.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                "../../testdata/script",
		RequireUniqueNames: true,
		Cmds:               scriptCommands(),
		Setup: func(env *testscript.Env) error {
			env.Values[remembered{}] = map[string][32]byte{}
			home := env.WorkDir + "/home"
			env.Setenv("HOME", home)
			env.Setenv("USERPROFILE", home)
			env.Setenv("ESC", "\x1b")
			env.Setenv("CSI", "\u009b")
			return os.Mkdir(home, 0o755)
		},
		Condition: func(condition string) (bool, error) {
			if condition == "root" {
				return os.Geteuid() == 0, nil
			}
			return false, fmt.Errorf("unknown condition %q (root)", condition)
		},
	})
}
