package main

import (
	"cmp"
	"context"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/mishap"
	"example.org/kettledrum/plan/rehearse"
	"example.org/kettledrum/plan/remedy"
	"example.org/kettledrum/plan/run"
)

// The JSON that `rehearse --json` prints, by the same rules as that of `plan --json`:
// see planJSON. The JSON Schema of it all is rehearsal.schema.json.
type rehearsalJSON struct {
	Title     string       `json:"title"`
	Seed      *uint64      `json:"seed"`    // null: nothing was drawn
	Mishaps   []mishapJSON `json:"mishaps"` // by time; those that were never due last
	Cues      []cueJSON    `json:"cues"`    // as they came up
	Replans   []replanJSON `json:"replans"`
	Debrief   debriefJSON  `json:"debrief"`
	Timetable planJSON     `json:"timetable"` // as it truly was
}

type mishapJSON struct {
	At      *time.Time  `json:"at"` // null: never due
	Kind    mishap.Kind `json:"kind"`
	Text    string      `json:"text"`
	Line    int         `json:"line"`    // in the script; 0: drawn
	Took    *string     `json:"took"`    // the remedy that was taken
	Refused *string     `json:"refused"` // why it was not played
}

type cueJSON struct {
	At     time.Time `json:"at"`
	ID     string    `json:"id"`
	Class  string    `json:"class"`
	Text   string    `json:"text"`
	Step   *string   `json:"step"`
	Course *string   `json:"course"`
	Oven   *string   `json:"oven"`
}

type replanJSON struct {
	At       time.Time    `json:"at"`
	Why      []string     `json:"why"`
	Cause    *string      `json:"cause"` // the kind of event that led to it
	Moved    []movedJSON  `json:"moved"`
	Late     []courseJSON `json:"late"`
	Breaks   []breakJSON  `json:"breaks"`
	Remedies []remedyJSON `json:"remedies"` // best first
}

type remedyJSON struct {
	Kind     remedy.Kind `json:"kind"`
	Do       string      `json:"do"`
	Gain     string      `json:"gain"`
	Price    string      `json:"price"`     // empty where it costs nothing else
	GainsMin int         `json:"gains_min"` // both in minutes late
	CostsMin int         `json:"costs_min"`
}

type movedJSON struct {
	Step     string    `json:"step"`
	WasStart time.Time `json:"was_start"`
	WasEnd   time.Time `json:"was_end"`
	Start    time.Time `json:"start"`
	End      time.Time `json:"end"`
	Cook     *string   `json:"cook"`
	Oven     *string   `json:"oven"`
	Burner   *string   `json:"burner"`
}

// report runs the whole dinner without a screen, as tell does, and prints JSON.
func (x *staged) report(ctx context.Context) error {
	p := x.p
	in := inZone(p)
	v := rehearsalJSON{Title: p.Title, Mishaps: []mishapJSON{}, Cues: []cueJSON{}, Replans: []replanJSON{}}
	if x.drawn != nil {
		v.Seed = &x.r.seed
	}
	told := func(m mishap.Mishap, at *time.Time, took, refused string) {
		v.Mishaps = append(v.Mishaps, mishapJSON{at, m.Kind, m.Text(p), m.Pos.Line, orNone(took), orNone(refused)})
	}
	left, err := x.play(ctx, rehearse.Watcher{
		Cue:    func(c run.Cue, at time.Time) { v.Cues = append(v.Cues, viewCue(p, c, in(at))) },
		Mishap: func(m rehearse.Played) { told(m.Mishap, orNull(in(m.At)), m.Took, m.Refused) },
		Replan: func(x rehearse.Replan) { v.Replans = append(v.Replans, viewReplan(x, in)) }, Remedies: true,
	})
	if err != nil {
		return err
	}
	for _, m := range left {
		told(m, nil, "", neverDue(m))
	}
	d, b, tried, err := x.lookBack(ctx)
	if err != nil {
		return fail(exitBroken, err)
	}
	v.Debrief = viewDebrief(d, b, tried, in)
	v.Timetable = viewJSON(x.s.State().Plan, d.Was)
	writeJSON(x.r.w.out, v)
	return nil
}

// orNone returns null for no text.
func orNone(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

func viewCue(p *plan.Plan, c run.Cue, at time.Time) cueJSON {
	v := cueJSON{At: at, ID: c.ID, Class: c.Class.String(), Text: c.Text, Step: stepID(p, c.Step)}
	if c.Course >= 0 {
		v.Course = &p.Courses[c.Course].Name
	}
	if c.Oven >= 0 {
		v.Oven = &p.Kitchen.Ovens[c.Oven].Name
	}
	return v
}

func viewReplan(r rehearse.Replan, in func(time.Time) time.Time) replanJSON {
	v := replanJSON{At: in(r.At), Why: slices.Concat([]string{}, r.Why), Moved: []movedJSON{}, Late: []courseJSON{},
		Breaks: viewBreaks(r.Plan, r.Is.Breaks), Remedies: []remedyJSON{}}
	if r.Cause != nil {
		kind := string(r.Cause.Kind)
		v.Cause = &kind
	}
	for _, i := range r.Moved {
		was, is := r.Was.Slots[i], r.Is.Slots[i]
		m := movedJSON{Step: r.Plan.Steps[i].ID, WasStart: in(was.Start), WasEnd: in(was.End), Start: in(is.Start), End: in(is.End)}
		if is.Cook >= 0 {
			m.Cook = &r.Plan.Kitchen.Cooks[is.Cook].Name
		}
		if is.Oven >= 0 {
			m.Oven = &r.Plan.Kitchen.Ovens[is.Oven].Name
		}
		if is.Burner != plan.AnyBurner {
			size := is.Burner.String()
			m.Burner = &size
		}
		v.Moved = append(v.Moved, m)
	}
	slices.SortStableFunc(v.Moved, func(a, b movedJSON) int { return cmp.Or(a.Start.Compare(b.Start), cmp.Compare(a.Step, b.Step)) })
	for _, x := range r.Remedies {
		v.Remedies = append(v.Remedies, remedyJSON{x.Kind, x.Do, x.Gain, x.Price, x.Gains, x.Costs})
	}
	for _, c := range r.Late {
		v.Late = append(v.Late, viewCourse(r.Plan, r.Is, c, in))
	}
	return v
}
