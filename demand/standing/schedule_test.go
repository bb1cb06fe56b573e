package standing

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"formewise/demand/impose"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// tell writes a schedule as "2 3 6 7 -1 ...": pages that are set, and with a minus formes that are distributed.
func tell(formes []impose.Forme, s Schedule) string {
	var words []string
	for e := range Play(formes, s) {
		if e.Page > 0 {
			words = append(words, fmt.Sprint(e.Page))
		} else {
			words = append(words, fmt.Sprint(-e.Forme))
		}
	}
	return strings.Join(words, " ")
}

func TestPlay(t *testing.T) {
	pulled := quarto()
	pulled.Pull = 2
	quired := impose.Plan{Format: "folio", In: 2}
	for _, c := range []struct {
		name  string
		pages int
		plan  impose.Plan
		s     Schedule
		want  string
	}{
		{"no pages", 0, quarto(), Schedule{}, ""},
		{"quarto by formes", 8, quarto(), Schedule{}, "2 3 6 7 -1 1 4 5 8 -2"},
		{"quarto seriatim", 8, quarto(), Schedule{Seriatim: true}, "1 2 3 4 5 6 7 -1 8 -2"},
		{"released by sheets", 8, quarto(), Schedule{SheetRelease: true}, "2 3 6 7 1 4 5 8 -1 -2"},
		{"a fellow with no pages is not waited for", 1, quarto(), Schedule{SheetRelease: true}, "1 -1"},
		{"one left standing", 10, quarto(), Schedule{Standing: 1}, "2 3 6 7 1 4 5 8 -1 10 -2 9 -3"},
		{"all left standing", 8, quarto(), Schedule{Standing: All}, "2 3 6 7 1 4 5 8"},
		{"one left standing, by sheets: both go", 10, quarto(), Schedule{Standing: 1, SheetRelease: true}, "2 3 6 7 1 4 5 8 -1 -2 10 9 -3 -4"},
		{"at pulls of two pages", 8, pulled, Schedule{}, "2 3 -1 6 7 -2 1 4 -3 5 8 -4"},
		{"pulls of a sheet go together", 8, pulled, Schedule{SheetRelease: true}, "2 3 6 7 1 4 5 8 -1 -2 -3 -4"},
		{"quired, by formes", 8, quired, Schedule{}, "4 5 -1 3 6 -2 2 7 -3 1 8 -4"},
		{"quired, seriatim: formes are finished from the middle", 8, quired, Schedule{Seriatim: true}, "1 2 3 4 5 -1 6 -2 7 -3 8 -4"},
		{"by sheets, seriatim: in the order in which they were finished", 8, impose.Plan{Format: "quarto", In: 1, OuterFirst: true},
			Schedule{Seriatim: true, SheetRelease: true}, "1 2 3 4 5 6 7 8 -2 -1"},
		{"leaves", 3, impose.Plan{Format: "single", In: 1}, Schedule{}, "1 -1 2 -2 3 -3"},
		{"leaves, both sides released together", 3, impose.Plan{Format: "single", In: 1}, Schedule{SheetRelease: true}, "1 2 -1 -2 3 -3"},
	} {
		if got := tell(impose.Formes(c.pages, c.plan), c.s); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// A reader may stop at any step.
func TestPlayStops(t *testing.T) {
	for _, s := range []Schedule{{}, {Seriatim: true}, {SheetRelease: true}} {
		formes := impose.Formes(20, quarto())
		var all []Event
		for e := range Play(formes, s) {
			all = append(all, e)
		}
		for n := range all {
			var some []Event
			for e := range Play(formes, s) {
				if some = append(some, e); len(some) > n {
					break
				}
			}
			if d := cmp.Diff(all[:n+1], some); d != "" {
				t.Fatalf("stopped after %d steps:\n%s", n+1, d)
			}
		}
	}
}

// playByLooking is the slow twin of Play. It keeps no counts: after every page it looks at all that was set and at all that
// stands, in the words of Play's comment.
func playByLooking(formes []impose.Forme, s Schedule) []Event {
	var order []int
	for _, forme := range formes {
		order = append(order, forme.Pages...)
	}
	if s.Seriatim {
		slices.Sort(order)
	}
	set := map[int]bool{}
	printed := func(f int) bool {
		return !slices.ContainsFunc(formes[f].Pages, func(page int) bool { return !set[page] })
	}
	var events []Event
	var standing []int // the longest first
	for _, page := range order {
		of := slices.IndexFunc(formes, func(f impose.Forme) bool { return slices.Contains(f.Pages, page) })
		set[page] = true
		events = append(events, Event{Page: page, Forme: of + 1})
		if printed(of) {
			standing = append(standing, of)
		}
		for s.Standing != All && len(standing) > s.Standing {
			goes := []int{standing[0]}
			if s.SheetRelease {
				waits := false
				for f := range formes {
					waits = waits || formes[f].Sheet == formes[standing[0]].Sheet && !printed(f)
				}
				if waits {
					break
				}
				goes = nil
				for _, f := range standing {
					if formes[f].Sheet == formes[standing[0]].Sheet {
						goes = append(goes, f)
					}
				}
			}
			for _, f := range goes {
				events = append(events, Event{Forme: f + 1})
			}
			standing = slices.DeleteFunc(standing, func(f int) bool { return slices.Contains(goes, f) })
		}
	}
	return events
}

func TestPlayAgainstLooking(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWork(t, 70)
		var got []Event
		for e := range Play(w.formes, w.schedule) {
			got = append(got, e)
		}
		if d := cmp.Diff(playByLooking(w.formes, w.schedule), got); d != "" {
			t.Fatalf("twin (-), ours (+):\n%s", d)
		}
	})
}
