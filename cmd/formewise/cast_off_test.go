package main

import (
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"
)

// TestWaysToCastOff gives every set of the flags of each number: it is a way, or refused in a sentence that names a flag.
func TestWaysToCastOff(t *testing.T) {
	for _, w := range []ways{waysOfCopy(), waysOfPage()} {
		var all []string
		for _, one := range w.list {
			all = append(all, one.flags()...)
		}
		slices.Sort(all)
		all = slices.Compact(all)
		complete := 0
		for set := range 1 << len(all) {
			cmd := &cobra.Command{Use: "cast-off"}
			new(castOffFlags).add(cmd)
			root := &cobra.Command{Use: "formewise"}
			root.AddCommand(cmd)
			var given []string
			for i, name := range all {
				if set&(1<<i) == 0 {
					continue
				}
				given = append(given, name)
				value := "1"
				if name == "measure" || name == "body" {
					value = "1pt"
				}
				if err := cmd.Flags().Set(name, value); err != nil {
					t.Fatal(err)
				}
			}
			// The slow twin: exactly the needed flags, and any of the allowed.
			var want []string
			for _, one := range w.list {
				if within(one.needs, given) && within(given, one.flags()) {
					want = append(want, one.basis)
				}
			}
			got, err := w.basis(cmd)
			switch {
			case len(want) > 1:
				t.Errorf("%v are two ways: %v", given, want)
			case len(want) == 1:
				complete++
				if err != nil || got != want[0] {
					t.Errorf("%v: %q, %v, want %s", given, got, err, want[0])
				}
			case err == nil:
				t.Errorf("%v: taken for %q", given, got)
			case len(given) > 0 && !strings.Contains(err.Error(), "--"), adviceOf(err) != w.advice:
				t.Errorf("%v: %v, hint %q", given, err, adviceOf(err))
			case strings.Contains(err.Error(), "do not go together"):
				t.Errorf("%v: no two of them are told apart: %v", given, err)
			}
		}
		if complete < len(w.list) {
			t.Errorf("%s: %d sets of flags are complete, and there are %d ways", w.what, complete, len(w.list))
		}
		for _, name := range all {
			if name != "added" && name != "body" && !strings.Contains(w.advice, "--"+name) {
				t.Errorf("the advice does not name --%s", name)
			}
		}
	}
}
