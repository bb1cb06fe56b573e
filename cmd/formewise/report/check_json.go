package report

import (
	"encoding/json"
	"fmt"

	"formewise/demand"
	"formewise/demand/standing"
)

// A Check is the answer to a check, ready to be said, with what was asked as it was given.
type Check struct {
	Answer    *demand.Answer
	Format    string
	Setting   string
	Release   string
	Allowance string
	Divide    string
	Divided   string // the file of words divided by hand; empty: none
	All       bool   // say every sort
}

type checkJSON struct {
	Schema     string        `json:"schema"`
	Manuscript copyJSON      `json:"manuscript"`
	Work       workJSON      `json:"work"`
	CastOff    castOffJSON   `json:"cast_off"`
	Formes     []formeJSON   `json:"formes"`
	Sorts      []sortJSON    `json:"sorts"`
	Missing    []missingJSON `json:"missing"`
	MadeUp     []madeUpJSON  `json:"made_up"`
	Kerned     []kernJSON    `json:"kerned"`
	CanStand   canStandJSON  `json:"can_stand"`
	Sections   *sectionsJSON `json:"sections"`
	Verdict    string        `json:"verdict"`
}

type copyJSON struct {
	Name       string `json:"name"`
	SHA256     string `json:"sha256"`
	Characters int    `json:"characters"`
	Words      int    `json:"words"`
	Paragraphs int    `json:"paragraphs"`
}

type workJSON struct {
	Measure       json.Number `json:"measure_pt"`
	LinesPerPage  int         `json:"lines_per_page"`
	Format        string      `json:"format"`
	PagesPerForme int         `json:"pages_per_forme"`
	Setting       string      `json:"setting"`
	Standing      *int        `json:"standing"`
	Release       string      `json:"release"`
	Allowance     string      `json:"allowance"`
}

type castOffJSON struct {
	Lines  int         `json:"lines"`
	Pages  int         `json:"pages"`
	Formes int         `json:"formes"`
	Sheets json.Number `json:"sheets"`
	Leads  *leadsJSON  `json:"leads"`
}

// leadsJSON are the leads between the lines; null where the work is set solid.
type leadsJSON struct {
	Thickness json.Number `json:"thickness_pt"`
	PageMax   int         `json:"page_max"`
	Peak      int         `json:"peak"`
}

type formeJSON struct {
	Forme int    `json:"forme"`
	Sheet int    `json:"sheet"`
	Side  string `json:"side"`
	Pages []int  `json:"pages"`
}

type sortJSON struct {
	Font            string       `json:"font"`
	Sort            string       `json:"sort"`
	Text            string       `json:"text"`
	Kind            string       `json:"kind"`
	Set             json.Number  `json:"set"`
	Basis           string       `json:"basis"`
	OnHand          int          `json:"on_hand"`
	Standing        int          `json:"standing"`
	KeptBack        int          `json:"kept_back"`
	Available       int          `json:"available"`
	PerThousand     json.Number  `json:"per_thousand"`
	DemandTotal     int          `json:"demand_total"`
	DemandPageMax   int          `json:"demand_page_max"`
	DemandFormeMean json.Number  `json:"demand_forme_mean"`
	DemandFormeMax  int          `json:"demand_forme_max"`
	DemandPeak      int          `json:"demand_peak"`
	PeakForme       int          `json:"peak_forme"`
	Short           int          `json:"short"`
	RunsOut         *runsOutJSON `json:"runs_out"`
	Straight        *placeJSON   `json:"runs_out_straight"`
}

type runsOutJSON struct {
	Forme int `json:"forme"`
	Page  int `json:"page"`
	Line  int `json:"line"`
}

type placeJSON struct {
	Page int `json:"page"`
	Line int `json:"line"`
}

type missingJSON struct {
	Character string `json:"character"`
	Code      string `json:"code"`
	Count     int    `json:"count"`
	Page      int    `json:"page"`
	Line      int    `json:"line"`
}

type madeUpJSON struct {
	Character string `json:"character"`
	Code      string `json:"code"`
	Set       string `json:"set"`
	Note      string `json:"note"`
	Count     int    `json:"count"`
	Page      int    `json:"page"`
	Line      int    `json:"line"`
}

// kernJSON is a kerned sort beside what it would strike; eased_by is null where no space was narrow enough to part them.
type kernJSON struct {
	Font    string     `json:"font"`
	Sort    string     `json:"sort"`
	EasedBy *limitJSON `json:"eased_by"`
	Count   int        `json:"count"`
	Page    int        `json:"page"`
	Line    int        `json:"line"`
}

type limitJSON struct {
	Font string `json:"font"`
	Sort string `json:"sort"`
}

type canStandJSON struct {
	PagesAnywhere  int        `json:"pages_anywhere"`
	PagesFromStart int        `json:"pages_from_start"`
	LinesFromStart int        `json:"lines_from_start"`
	Formes         int        `json:"formes"`
	LimitedBy      *limitJSON `json:"limited_by"`
}

type sectionsJSON struct {
	Unit string        `json:"unit"`
	List []sectionJSON `json:"list"`
}

type sectionJSON struct {
	Pages     []int      `json:"pages"`
	LimitedBy *limitJSON `json:"limited_by"`
}

// JSON is the answer as one object, as the contract has it; "made_up", what was set from other sorts, and
// "kerned" are beyond it.
func (c Check) JSON() (string, error) {
	a := c.Answer
	o := checkJSON{
		Schema:     "formewise.check/1",
		Manuscript: copyJSON{a.Copy.Name, a.Copy.SHA256(), a.Copy.Characters, a.Copy.Words, a.Copy.Count},
		Work: workJSON{
			Measure: JSONNumber(a.Plan.Measure, 1000, 3), LinesPerPage: a.Plan.Lines, Format: c.Format, PagesPerForme: a.PagesPerForme(),
			Setting: c.Setting, Release: c.Release, Allowance: c.Allowance,
		},
		CastOff: castOffJSON{Lines: a.CastOff.Lines, Pages: a.CastOff.Pages, Formes: len(a.Formes), Sheets: JSONNumber(a.CastOff.HalfSheets, 2, 1)},
		Formes:  make([]formeJSON, len(a.Formes)),
		Sorts:   make([]sortJSON, len(a.Sorts)),
		Missing: make([]missingJSON, len(a.Missing)),
		MadeUp:  make([]madeUpJSON, len(a.MadeUp)),
		Kerned:  make([]kernJSON, len(a.Kerned)),
		CanStand: canStandJSON{
			a.Stand.PagesAnywhere, a.Stand.PagesFromStart, a.Stand.LinesFromStart, a.Stand.Formes, limit(a.Stand.LimitedBy),
		},
		Verdict: string(a.Verdict),
	}
	if a.CastOff.LeadsPage > 0 {
		o.CastOff.Leads = &leadsJSON{JSONNumber(a.Plan.Page.Leading, 1000, 3), a.CastOff.LeadsPage, a.CastOff.LeadsPeak}
	}
	if n := a.Plan.Schedule.Standing; n != standing.All {
		o.Work.Standing = &n
	}
	for i, f := range a.Formes {
		o.Formes[i] = formeJSON{i + 1, f.Sheet, f.Side, f.Pages}
	}
	printing := a.Printing()
	for i, s := range a.Sorts {
		o.Sorts[i] = sortJSON{
			Font: s.Font, Sort: s.Name, Text: s.Text, Kind: s.Kind, Set: JSONNumber(s.Set, 1_000_000, 6), Basis: s.Basis,
			OnHand: s.OnHand, Standing: s.Standing, KeptBack: s.KeptBack, Available: s.Available,
			PerThousand: JSONNumber(1000*s.Total, max(printing, 1), 2), DemandTotal: s.Total, DemandPageMax: s.PageMax,
			DemandFormeMean: JSONNumber(s.Total, max(len(a.Formes), 1), 2), DemandFormeMax: s.FormeMax,
			DemandPeak: s.Peak, PeakForme: s.PeakForme, Short: s.Short,
		}
		if at := s.RunsOut; at != nil {
			o.Sorts[i].RunsOut = &runsOutJSON{at.Forme, at.Page, at.Line}
		}
		if at := s.Straight; at != nil {
			o.Sorts[i].Straight = &placeJSON{at.Page, at.Line}
		}
	}
	for i, u := range a.Missing {
		o.Missing[i] = missingJSON{string(u.Character), code(u.Character), u.Count, u.Page, u.Line}
	}
	for i, u := range a.MadeUp {
		o.MadeUp[i] = madeUpJSON{string(u.Character), code(u.Character), u.Set, u.Note, u.Count, u.Page, u.Line}
	}
	for i, k := range a.Kerned {
		o.Kerned[i] = kernJSON{Font: k.Font, Sort: k.Sort, Count: k.Count, Page: k.Page, Line: k.Line}
		if k.Space != "" {
			o.Kerned[i].EasedBy = &limitJSON{k.SpaceFont, k.Space}
		}
	}
	if a.Sections != nil {
		o.Sections = &sectionsJSON{Unit: a.Sections.Unit, List: make([]sectionJSON, len(a.Sections.List))}
		for i, s := range a.Sections.List {
			o.Sections.List[i] = sectionJSON{s.Pages, limit(s.LimitedBy)}
		}
	}
	return JSON(o)
}

func limit(l *standing.Limit) *limitJSON {
	if l == nil {
		return nil
	}
	return &limitJSON{l.Font, l.Sort}
}

func code(r rune) string { return fmt.Sprintf("U+%04X", r) }
