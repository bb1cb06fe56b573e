package demand_test

import (
	"reflect"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"formewise/demand"
	"formewise/demand/impose"
	"formewise/demand/internal/trial"
	"formewise/demand/standing"
	"formewise/texts/read"
)

// ferry is the demo's roman of 12 points with its spaces, as a shop has them.
func ferry(t testing.TB) demand.Stock {
	t.Helper()
	var stock demand.Stock
	for _, name := range []string{"ferry-roman-12", "spacing-12"} {
		font, counts := trial.Font(t, name, 12_000)
		f := demand.Font{Name: name, Body: font.Body}
		for i, s := range font.Sorts {
			kind := "lower"
			switch {
			case s.Space:
				kind = "space"
			case s.SmallCapital:
				kind = "small capital"
			}
			f.Sorts = append(f.Sorts, demand.Sort{Name: s.Name, Text: s.Text, Kind: kind, Set: (s.Width*1_000_000 + 6000) / 12_000, OnHand: counts[i]})
		}
		stock = append(stock, f)
	}
	return stock
}

// with gives a stock with other counts.
func with(stock demand.Stock, count func(demand.Sort) int) demand.Stock {
	out := slices.Clone(stock)
	for i := range out {
		out[i].Sorts = slices.Clone(out[i].Sorts)
		for n := range out[i].Sorts {
			out[i].Sorts[n].OnHand = count(out[i].Sorts[n])
		}
	}
	return out
}

// A question is a plan, a stock and a copy.
type question struct {
	plan  demand.Plan
	stock demand.Stock
	copy  *read.Copy
}

// drawQuestion draws a work of a page to some sixty, and type that is now ample for it and now next to nothing.
func drawQuestion(t *rapid.T, stock demand.Stock, emma []byte) question {
	from := rapid.IntRange(0, len(emma)-8000).Draw(t, "from")
	size := rapid.SampledFrom([]int{100, 1000, 3000, 8000}).Draw(t, "size")
	text := append([]byte("þ"), emma[from:from+size]...)
	copy, err := read.Plain([]read.File{{Name: "emma", Data: text}}, rapid.Bool().Draw(t, "verse"))
	if err != nil {
		t.Fatalf("read: %v", err)
	}
	plan := demand.Plan{
		Measure: rapid.IntRange(100, 300).Draw(t, "measure") * 1000, Lines: rapid.IntRange(2, 20).Draw(t, "lines"), FirstPage: 1,
		Imposing: impose.Plan{Format: rapid.SampledFrom([]string{"single", "folio", "quarto", "octavo"}).Draw(t, "format"), In: 1, Pull: rapid.SampledFrom([]int{0, 0, 1, 3}).Draw(t, "pull")},
		Schedule: demand.Schedule{
			Seriatim: rapid.Bool().Draw(t, "seriatim"), SheetRelease: rapid.Bool().Draw(t, "sheet release"),
			Standing: rapid.SampledFrom([]int{standing.All, 0, 0, 1, 2, 4}).Draw(t, "standing"),
		},
		Allowance: rapid.SampledFrom([]demand.Allowance{{Den: 1}, {Num: 3, Den: 100}, {Num: 15, Den: 100}, {Num: 1, Den: 2, OfPage: true}}).Draw(t, "allowance"),
	}
	// Per cent of the font as it is, and some of every sort, so that the rare ones do not decide everything.
	share, least := rapid.SampledFrom([]int{0, 3, 8, 13, 20, 30, 60, 300}).Draw(t, "share"), rapid.SampledFrom([]int{0, 5, 15}).Draw(t, "least")
	q := question{plan, with(stock, func(s demand.Sort) int { return s.OnHand*share/100 + least }), copy}
	for range rapid.IntRange(0, 3).Draw(t, "in other works") {
		font := q.stock[rapid.IntRange(0, 1).Draw(t, "font")]
		s := &font.Sorts[rapid.IntRange(0, len(font.Sorts)-1).Draw(t, "sort")]
		s.Standing = rapid.IntRange(0, s.OnHand).Draw(t, "standing")
	}
	return q
}

func (q question) check(t failing) *demand.Answer { return check(t, q.plan, q.stock, q.copy) }

// laws runs a law over questions.
func laws(t *testing.T, law func(t *rapid.T, q question)) {
	stock, emma := ferry(t), trial.Text(t, "en-prose-austen-emma")
	rapid.Check(t, func(rt *rapid.T) { law(rt, drawQuestion(rt, stock, emma)) })
}

// The setting copy, summed up, is the demand; every line is accounted for.
func TestLinesSumToDemand(t *testing.T) {
	laws(t, func(t *rapid.T, q question) {
		a := q.check(t)
		type key struct{ font, sort string }
		sum := map[key]int{}
		missing, lines := 0, 0
		for l := range a.Lines(1, a.CastOff.Pages) {
			width := 0
			for _, p := range l.Pieces {
				if p.Missing != 0 {
					missing++
					width += 6000
					continue
				}
				sum[key{p.Font, p.Sort}]++
				width += q.width(p)
			}
			if l.Blank != (len(l.Pieces) == 0) || !l.Blank && (width != l.Set || l.Set+l.Wants != q.plan.Measure || l.Wants < 0) {
				t.Fatalf("page %d, line %d: pieces of %d, set %d, wants %d of %d", l.Page, l.Number, width, l.Set, l.Wants, l.Measure)
			}
			if !l.Blank {
				lines++
			}
		}
		for _, s := range a.Sorts {
			if got := sum[key{s.Font, s.Name}]; got != s.Total {
				t.Fatalf("%s: %d in the lines, %d in all", s.Name, got, s.Total)
			}
		}
		noted := 0
		for _, u := range a.Missing {
			noted += u.Count
		}
		if lines != a.CastOff.Lines || missing != noted {
			t.Fatalf("%d lines and %d missing characters, cast off %d, noted %d", lines, missing, a.CastOff.Lines, noted)
		}
	})
}

// width of a piece, thousandths of a point.
func (q question) width(p demand.Piece) int {
	for _, f := range q.stock {
		for _, s := range f.Sorts {
			if f.Name == p.Font && s.Name == p.Sort {
				return (s.Set*f.Body + 500_000) / 1_000_000
			}
		}
	}
	return 0
}

// Once what is wanting has been bought, no sort is short; with a piece less of any, that one is.
func TestWantingIsWhatIsWanted(t *testing.T) {
	laws(t, func(t *rapid.T, q question) {
		a := q.check(t)
		wanting := a.Wanting()
		var short []string
		for _, s := range a.Sorts {
			if s.Short > 0 {
				short = append(short, s.Font+" "+s.Name)
			}
		}
		bought := func(less int) *demand.Answer {
			more := map[string]int{}
			for i, w := range wanting {
				if w.Pieces < 1 {
					t.Fatalf("%d %s wanting", w.Pieces, w.Sort)
				}
				more[w.Font+" "+w.Sort] = w.Pieces
				if i == less {
					more[w.Font+" "+w.Sort]--
				}
			}
			p := q
			p.stock = slices.Clone(q.stock)
			for i, f := range p.stock {
				p.stock[i].Sorts = slices.Clone(f.Sorts)
				for n, s := range f.Sorts {
					p.stock[i].Sorts[n].OnHand += more[f.Name+" "+s.Name]
				}
			}
			return p.check(t)
		}
		var names []string
		for _, w := range wanting {
			names = append(names, w.Font+" "+w.Sort)
		}
		if !slices.Equal(names, short) {
			t.Fatalf("wanting %v, short %v", names, short)
		}
		for _, s := range bought(-1).Sorts {
			if s.Short > 0 {
				t.Fatalf("%s is short by %d after %+v were bought", s.Name, s.Short, wanting)
			}
		}
		if len(wanting) == 0 {
			return
		}
		less := rapid.IntRange(0, len(wanting)-1).Draw(t, "less")
		for _, s := range bought(less).Sorts {
			if is := s.Font == wanting[less].Font && s.Name == wanting[less].Sort; s.Short > 0 != is {
				t.Fatalf("a %s less was bought, and %s is short by %d", wanting[less].Sort, s.Name, s.Short)
			}
		}
	})
}

// rank of a verdict, 0 the best.
func rank(v demand.Verdict) int {
	return slices.Index([]demand.Verdict{demand.Stands, demand.Distribute, demand.InSections, demand.Short}, v)
}

// kinds of section, the largest first, and none.
func kind(s *standing.Sections) int {
	if s == nil {
		return 3
	}
	return slices.Index([]string{"sheet", "forme", "pull"}, s.Unit)
}

// More type never makes anything worse.
func TestMoreTypeIsNeverWorse(t *testing.T) {
	laws(t, func(t *rapid.T, q question) {
		before := q.check(t)
		share := rapid.IntRange(0, 5).Draw(t, "more")
		q.stock = with(q.stock, func(s demand.Sort) int { return s.OnHand + rapid.IntRange(0, share*60).Draw(t, s.Name) })
		after := q.check(t)
		for i, s := range after.Sorts {
			was := before.Sorts[i]
			if s.Available < was.Available || s.Short > was.Short || s.RunsOut != nil && was.RunsOut == nil || s.Straight != nil && was.Straight == nil {
				t.Fatalf("of %d %s: %s\nof %d: %s", was.OnHand, s.Name, row(was), s.OnHand, row(s))
			}
		}
		a, b := after.Stand, before.Stand
		if a.PagesAnywhere < b.PagesAnywhere || a.PagesFromStart < b.PagesFromStart || a.LinesFromStart < b.LinesFromStart || a.Formes < b.Formes || b.Whole && !a.Whole {
			t.Fatalf("could stand %+v, and with more type %+v", b, a)
		}
		if rank(after.Verdict) > rank(before.Verdict) {
			t.Fatalf("verdict %s, with more type %s", before.Verdict, after.Verdict)
		}
		if now, then := kind(after.Sections), kind(before.Sections); now > then || now == then && now < 3 && len(after.Sections.List) > len(before.Sections.List) {
			t.Fatalf("sections %+v, with more type %+v", before.Sections, after.Sections)
		}
	})
}

// A number of the first page shifts every page by as much, once, and changes nothing else.
func TestFirstPageOnlyNumbers(t *testing.T) {
	laws(t, func(t *rapid.T, q question) {
		want := q.check(t)
		more := rapid.IntRange(1, 5000).Draw(t, "more")
		q.plan.FirstPage += more
		got := q.check(t)
		pages := func(list []int) {
			for i := range list {
				list[i] += more
			}
		}
		for i := range want.Formes {
			want.Formes[i].Pages = slices.Clone(want.Formes[i].Pages)
			pages(want.Formes[i].Pages)
		}
		for i := range want.Sorts {
			for _, at := range []*standing.Place{want.Sorts[i].RunsOut, want.Sorts[i].Straight} {
				if at != nil {
					at.Page += more
				}
			}
		}
		for _, uses := range [][]demand.Use{want.Missing, want.MadeUp} {
			for i := range uses {
				uses[i].Page += more
			}
		}
		for i := range want.Forced {
			want.Forced[i].Page += more
		}
		if want.Sections != nil {
			for i := range want.Sections.List {
				pages(want.Sections.List[i].Pages)
			}
		}
		want.Plan.FirstPage += more
		ignored := []cmp.Option{cmpopts.IgnoreUnexported(demand.Answer{}), cmpopts.IgnoreFields(demand.Answer{}, "Copy", "Stock")}
		if d := cmp.Diff(want, got, ignored...); d != "" {
			t.Fatalf("from page %d on, want (-), got (+):\n%s", 1+more, d)
		}
		if d := cmp.Diff(want.Wanting(), got.Wanting()); d != "" {
			t.Fatalf("wanting, want (-), got (+):\n%s", d)
		}
		if d := cmp.Diff(want.Eased(), got.Eased()); d != "" {
			t.Fatalf("eased, want (-), got (+):\n%s", d)
		}
		n := want.CastOff.Pages
		a, b := slices.Collect(want.Lines(1, n)), slices.Collect(got.Lines(1+more, n+more))
		for i := range a {
			a[i].Page += more
		}
		if !reflect.DeepEqual(a, b) {
			t.Fatalf("lines, want (-), got (+):\n%s", cmp.Diff(a, b))
		}
	})
}

// Against trying every schedule that is easier: of the changes that its comment names, in their order, the first with which the type
// holds, and of that one the most formes standing.
func TestEasedAgainstAllSchedules(t *testing.T) {
	laws(t, func(t *rapid.T, q question) {
		a := q.check(t)
		asked := q.plan.Schedule
		holds := func(s demand.Schedule) bool {
			p := q
			p.plan.Schedule = s
			v := p.check(t).Verdict
			return v == demand.Stands || v == demand.Distribute
		}
		most := asked.Standing
		if most == standing.All || most >= len(a.Formes) {
			most = len(a.Formes) - 1
		}
		var want []demand.Schedule
		changes := []demand.Schedule{asked}
		if asked.Seriatim {
			changes = append(changes, demand.Schedule{SheetRelease: asked.SheetRelease})
		}
		if asked.SheetRelease {
			changes = append(changes, demand.Schedule{})
		}
		for i, s := range changes {
			for n := most; n >= 0 && want == nil; n-- {
				s.Standing = n
				if i == 0 && n == asked.Standing {
					continue // as many as were asked for
				}
				if holds(s) {
					want = []demand.Schedule{s}
				}
			}
		}
		if d := cmp.Diff(want, a.Eased(), cmpopts.EquateEmpty()); d != "" {
			t.Fatalf("%d formes, asked for %+v, want (-), got (+):\n%s", len(a.Formes), asked, d)
		}
	})
}
