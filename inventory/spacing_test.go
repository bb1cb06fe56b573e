package inventory

import "testing"

func TestSpacingFor(t *testing.T) {
	own := roman()
	own.Name = "Own"
	own.Sorts = append(own.Sorts, Sort{Name: "thick", Kind: Space, Set: 333_333})
	small := roman()
	small.Name, small.Body = "Small", 8_500
	for _, c := range []struct {
		name         string
		fonts        []Font
		font, choose string
		want         string   // the font the spaces come from
		words        []string // else what the error says
		hint         string
	}{
		{"its own", []Font{own, spaces("S", 12_000)}, "Own", "", "Own", nil, ""},
		{"its own, of which there is none, all the same", []Font{own}, "Own", "", "Own", nil, ""},
		{"the one of its body", []Font{roman(), spaces("S", 12_000), spaces("T", 10_000), own}, ferry, "", "S", nil, ""},
		{"chosen of two", []Font{roman(), spaces("S", 12_000), spaces("T", 12_000)}, ferry, "T", "T", nil, ""},
		{"chosen against its own", []Font{own, spaces("S", 12_000)}, "Own", "S", "S", nil, ""},
		{"chosen from a font with letters", []Font{own, roman()}, ferry, "Own", "Own", nil, ""},
		{"none", []Font{small, spaces("S", 12_000), own}, "Small", "", "",
			[]string{`font "Small" has no spaces of its own`, "no spacing font of 8.5pt"}, "`formewise font add \"Spacing 8.5pt\" --body 8.5pt --spacing --sorts FILE` adds one"},
		{"two and no choice", []Font{roman(), spaces("S", 12_000), spaces("T", 12_000)}, ferry, "", "",
			[]string{"2 spacing fonts of 12pt", `"S", "T"`}, `choose one of them, e.g. --spaces "S"`},
		{"chosen of another body", []Font{roman(), spaces("T", 10_000)}, ferry, "T", "",
			[]string{`font "T" is of 10pt`, `"Ferry Roman 12", which is of 12pt`}, "choose spaces of the same body with --spaces"},
		{"chosen without spaces", []Font{roman(), own}, "Own", ferry, "",
			[]string{`font "Ferry Roman 12" has no spaces`}, "choose a font that has spaces with --spaces"},
		{"chosen and not there", []Font{roman()}, ferry, "S", "", []string{`font "S": no such font`},
			"`formewise font list` shows them all, and `formewise font add NAME --body 12pt --sorts FILE` enters another"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := openRead(t, newShopFile(t, c.fonts...))
			got, err := s.SpacingFor(t.Context(), fontOf(t, s, c.font), c.choose)
			if c.want == "" {
				refused(t, err, c.hint != "", c.words...)
				if e, _ := err.(*Error); e == nil || e.Hint != c.hint {
					t.Errorf("error %#v, want the hint %q", err, c.hint)
				}
			} else if err != nil || got.Name != c.want {
				t.Errorf("spaces from %q, error %v; want %q", got.Name, err, c.want)
			}
		})
	}
}

// A spacing font whose spaces are all retired has none to give.
func TestSpacingRetired(t *testing.T) {
	s := openChange(t, newShopFile(t, roman(), spaces("S", 12_000)), false)
	for _, name := range []string{"thick", "em quad"} {
		if err := s.RetireSort(t.Context(), "S", name); err != nil {
			t.Fatal(err)
		}
	}
	_, err := s.SpacingFor(t.Context(), fontOf(t, s, ferry), "")
	refused(t, err, true, "no spacing font of 12pt")
	if f := fontOf(t, s, "S"); f.Sorts != nil || len(f.Retired) != 2 || f.Pieces() != 0 {
		t.Errorf("font %+v, want all retired", f)
	}
	refused(t, s.RetireSort(t.Context(), "S", "x"), false, "all its sorts are retired")
}
