package main

import (
	"encoding/json"
	"math"
	"time"

	"example.org/kettledrum/plan"
)

// The JSON that `plan --json` prints. Lists are never null; times are RFC 3339
// in the plan's zone; temperatures are degrees Fahrenheit whatever the plan's
// units; oven space is in shelves; a need that a step has not is null. The JSON
// Schema of it all is timetable.schema.json.
type planJSON struct {
	Title       string        `json:"title"`
	Table       time.Time     `json:"table"`
	Status      plan.Status   `json:"status"`
	LatestStart *time.Time    `json:"latest_start"`
	Courses     []courseJSON  `json:"courses"`
	Steps       []stepJSON    `json:"steps"`
	Touches     []touchJSON   `json:"touches"`
	Oven        []ovenJSON    `json:"oven"`
	Load        []loadJSON    `json:"load"` // of each cook who has anything to do
	Cautions    []cautionJSON `json:"cautions"`
	Breaks      []breakJSON   `json:"breaks"`
	Sure        *sureJSON     `json:"sure"` // null where --sure was not asked for
}

type courseJSON struct {
	Name      string    `json:"name"`
	ServeAt   time.Time `json:"serve_at"`
	PlannedAt time.Time `json:"planned_at"`
	LateMin   int       `json:"late_min"`
}

type stepJSON struct {
	ID       string         `json:"id"`   // dish/step; of a chore its own id
	Dish     string         `json:"dish"` // empty of a chore
	Do       string         `json:"do"`
	Start    time.Time      `json:"start"`
	End      time.Time      `json:"end"`
	Cooks    []string       `json:"cooks"` // empty for near and free
	Hands    string         `json:"hands"`
	Oven     *bakeJSON      `json:"oven"`
	Burner   *string        `json:"burner"` // the size it stands on
	Tools    map[string]int `json:"tools"`
	Vessel   *string        `json:"vessel"` // holds the food, through the gaps too
	Cold     *string        `json:"cold"`   // the place in which the step stands
	SlackMin int            `json:"slack_min"`
}

type bakeJSON struct {
	Name  string  `json:"name"`
	AtF   float64 `json:"at_f"`  // as the oven is set for it
	Space float64 `json:"space"` // shelves
}

type touchJSON struct {
	Step *string        `json:"step"` // of a set: the step it is for
	Oven *string        `json:"oven"` // of a set
	What plan.TouchKind `json:"what"`
	At   time.Time      `json:"at"`
	Cook *string        `json:"cook"` // null where nobody is free
}

type ovenJSON struct {
	Name    string     `json:"name"`
	At      time.Time  `json:"at"`
	SetF    *float64   `json:"set_f"`    // null is off
	ReadyAt *time.Time `json:"ready_at"` // null when switched off
}

// loadJSON is the busiest ten minutes of a cook.
type loadJSON struct {
	Cook    string    `json:"cook"`
	From    time.Time `json:"from"`
	To      time.Time `json:"to"`
	Calls   int       `json:"calls"`
	WorkMin int       `json:"work_min"`
}

type cautionJSON struct {
	Code     string  `json:"code"`
	Step     *string `json:"step"`
	Text     string  `json:"text"`
	Why      string  `json:"why"`
	Do       string  `json:"do"`
	Source   string  `json:"source"`
	Accepted *string `json:"accepted"` // why; null where it is not
}

type breakJSON struct {
	Kind    plan.BreakKind `json:"kind"`
	Step    string         `json:"step"` // a step id or a course name
	Text    string         `json:"text"`
	Minutes int            `json:"minutes"`
}

// viewJSON turns a plan and its timetable into the printed shape.
func viewJSON(p *plan.Plan, t *plan.Timetable) planJSON {
	in := inZone(p)
	v := planJSON{
		Title: p.Title, Table: p.Table, Status: t.Status, LatestStart: orNull(in(t.LatestStart)),
		Courses: []courseJSON{}, Steps: []stepJSON{}, Touches: []touchJSON{},
		Oven: []ovenJSON{}, Load: []loadJSON{}, Cautions: []cautionJSON{}, Breaks: []breakJSON{},
	}
	for c := range p.Courses {
		v.Courses = append(v.Courses, viewCourse(p, t, c, in))
	}
	for i := range p.Steps {
		v.Steps = append(v.Steps, viewStep(p, t, i, in))
	}
	for _, x := range t.Touches {
		tj := touchJSON{What: x.What, Step: stepID(p, x.Step), At: in(x.At)}
		if x.Oven >= 0 {
			tj.Oven = &p.Kitchen.Ovens[x.Oven].Name
		}
		if x.Cook >= 0 {
			tj.Cook = &p.Kitchen.Cooks[x.Cook].Name
		}
		v.Touches = append(v.Touches, tj)
	}
	for _, s := range t.Sets {
		o := ovenJSON{Name: p.Kitchen.Ovens[s.Oven].Name, At: in(s.At)}
		if !s.Off {
			f := degrees(s.To)
			o.SetF, o.ReadyAt = &f, orNull(in(s.Ready))
		}
		v.Oven = append(v.Oven, o)
	}
	for k, c := range p.Kitchen.Cooks {
		if l, ok := t.Busiest(p, k); ok {
			v.Load = append(v.Load, loadJSON{c.Name, in(l.From), in(l.From.Add(plan.LoadSpan)), l.Calls, plan.Minutes(l.Work)})
		}
	}
	for _, c := range t.Cautions {
		cj := cautionJSON{Code: c.Code, Step: stepID(p, c.Step), Text: c.Text, Why: c.Why, Do: c.Do, Source: c.Source}
		if c.Accepted != "" {
			cj.Accepted = &c.Accepted
		}
		v.Cautions = append(v.Cautions, cj)
	}
	v.Breaks = viewBreaks(p, t.Breaks)
	return v
}

func viewBreaks(p *plan.Plan, breaks []plan.Break) []breakJSON {
	out := []breakJSON{}
	for _, b := range breaks {
		v := breakJSON{Kind: b.Kind, Text: b.Text, Minutes: b.Minutes}
		if id := stepID(p, b.Step); id != nil {
			v.Step = *id
		} else if b.Course >= 0 {
			v.Step = p.Courses[b.Course].Name
		}
		out = append(out, v)
	}
	return out
}

// viewCourse is the row of course c.
func viewCourse(p *plan.Plan, t *plan.Timetable, c int, in func(time.Time) time.Time) courseJSON {
	return courseJSON{
		Name: p.Courses[c].Name, ServeAt: in(p.Asked(c)), PlannedAt: in(t.Serves[c]),
		LateMin: plan.Minutes(t.Lateness(p, c)),
	}
}

// inZone tells instants in the plan's zone.
func inZone(p *plan.Plan) func(time.Time) time.Time {
	return func(t time.Time) time.Time { return t.In(p.Table.Location()) }
}

// viewStep is the row of step i in its slot.
func viewStep(p *plan.Plan, t *plan.Timetable, i int, in func(time.Time) time.Time) stepJSON {
	s, slot := &p.Steps[i], t.Slots[i]
	v := stepJSON{
		ID: s.ID, Dish: p.Dishes[s.Dish].Name, Do: s.Do, Start: in(slot.Start), End: in(slot.End),
		Cooks: []string{}, Hands: s.Hands.String(), Tools: map[string]int{},
		SlackMin: int(slot.Slack / time.Minute),
	}
	if slot.Cook >= 0 {
		v.Cooks = append(v.Cooks, p.Kitchen.Cooks[slot.Cook].Name)
	}
	if s.Oven != nil && slot.Oven >= 0 {
		at := s.Oven.At
		if set := dials(t, i); len(set) > 0 {
			at = set[0]
		}
		v.Oven = &bakeJSON{p.Kitchen.Ovens[slot.Oven].Name, degrees(at), float64(s.Oven.Space) / 2}
	}
	if s.Burner != nil {
		size := slot.Burner.String()
		v.Burner = &size
	}
	if s.Vessel != nil {
		v.Vessel = &p.Kitchen.Tools[s.Vessel.Tool].Name
	}
	if s.Cold != "" {
		v.Cold = &s.Cold
	}
	for _, u := range s.Uses {
		v.Tools[p.Kitchen.Tools[u.Tool].Name] += u.Count
	}
	return v
}

// stepID returns the reference of step i, null for none.
func stepID(p *plan.Plan, i int) *string {
	if i < 0 {
		return nil
	}
	return &p.Steps[i].ID
}

// degrees returns degrees Fahrenheit to a tenth: what is finer is the noise of
// the conversion.
func degrees(c plan.Celsius) float64 { return math.Round(c.Fahrenheit()*10) / 10 }

// orNull returns nil for the zero instant.
func orNull(t time.Time) *time.Time {
	if t.IsZero() {
		return nil
	}
	return &t
}

// writeJSON prints v indented, with the plan's own characters unescaped.
func writeJSON(w *results, v any) {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil && w.err == nil {
		panic("plan --json: " + err.Error()) // the view is plain data
	}
}
