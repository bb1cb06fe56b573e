package report

import (
	"encoding/json"

	"formewise/demand"
)

type pageEndsJSON struct {
	Schema  string           `json:"schema"`
	CastOff pagesCastOffJSON `json:"cast_off"`
	Pages   []pageEndJSON    `json:"pages"`
	Formes  []formeJSON      `json:"formes"`
	Ended   []endedJSON      `json:"ended"`
	Moved   movedJSON        `json:"moved"`
	Widths  *widthsJSON      `json:"correction"`
}

type pagesCastOffJSON struct {
	Pages  int `json:"pages"`
	Before int `json:"pages_before"` // any end was reported
	Formes int `json:"formes"`
}

type pageEndJSON struct {
	Page     int    `json:"page"`
	Forme    int    `json:"forme"`
	First    string `json:"first_words"`
	Last     string `json:"last_words"`
	Lines    int    `json:"lines"`
	GetIn    int    `json:"get_in"`
	DriveOut int    `json:"drive_out"`
	Over     int    `json:"lines_too_many"` // those got in that can be
}

type endedJSON struct {
	Page    int         `json:"page"`
	CastOff string      `json:"cast_off_last_words"`
	Last    string      `json:"last_words"`
	More    json.Number `json:"lines_more"` // of text
	Far     bool        `json:"far"`
}

type movedJSON struct {
	Pages  []int `json:"pages"`
	Formes []int `json:"formes"`
}

type widthsJSON struct {
	Pages  int           `json:"pages"`
	Times  json.Number   `json:"widths_times"`
	Best   json.Number   `json:"best_times"` // widths_times, unless beyond or no_gain
	Beyond bool          `json:"beyond"`
	NoGain bool          `json:"no_gain"`
	Before meanErrorJSON `json:"error_before"`
	After  meanErrorJSON `json:"error_after"`
}

// meanErrorJSON is in lines a page.
type meanErrorJSON struct {
	Mean     json.Number `json:"mean"`
	Absolute json.Number `json:"mean_absolute"`
}

// PageEndsJSON is the marked copy as one object.
func PageEndsJSON(e *demand.PageEnds) (string, error) {
	o := pageEndsJSON{
		Schema:  "formewise.page-ends/1",
		CastOff: pagesCastOffJSON{len(e.Pages), e.Before, len(e.Formes)},
		Pages:   make([]pageEndJSON, len(e.Pages)),
		Formes:  make([]formeJSON, len(e.Formes)),
		Ended:   make([]endedJSON, len(e.Reported)),
		Moved:   movedJSON{append([]int{}, e.Moved...), append([]int{}, e.MovedFormes...)},
	}
	for i, p := range e.Pages {
		o.Pages[i] = pageEndJSON{p.Page, p.Forme, p.First, p.Last, p.Lines, p.In, p.Out, p.Over}
	}
	for i, f := range e.Formes {
		o.Formes[i] = formeJSON{i + 1, f.Sheet, f.Side, f.Pages}
	}
	for i, r := range e.Reported {
		o.Ended[i] = endedJSON{r.Page, r.CastOff, r.Ended, JSONNumber(r.Off, 1000, 3), r.Far}
	}
	if c := e.Correction; c != nil {
		o.Widths = &widthsJSON{c.Pages, JSONNumber(c.Widths, 10_000, 4), JSONNumber(c.Best, 10_000, 4), c.Beyond, c.NoGain, meanError(c.Before), meanError(c.After)}
	}
	return JSON(o)
}

func meanError(m demand.MeanError) meanErrorJSON {
	return meanErrorJSON{JSONNumber(m.Mean, 1000, 3), JSONNumber(m.Absolute, 1000, 3)}
}
