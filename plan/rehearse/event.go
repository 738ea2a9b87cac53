package rehearse

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/mishap"
	"example.org/kettledrum/plan/run"
)

// due returns when a mishap happens, as far as the run tells yet.
func (p *Player) due(m mishap.Mishap) (time.Time, bool) {
	if m.Kind != mishap.Takes && !m.At.IsZero() {
		return m.At, true
	}
	st := p.s.State()
	step := &st.Steps[m.Step]
	expected, takes := st.Expected(m.Step), m.By+still(st, m.Step)
	if m.Kind == mishap.Takes && takes >= expected && !m.At.IsZero() {
		return m.At, true
	}
	switch step.Status {
	case plan.Begun:
		if m.Kind == mishap.Takes && takes < expected {
			expected = takes // done before its time
		}
		return step.Started.Add(expected), true
	case plan.Done, plan.Skipped:
		return step.Finished, true // too late, which Record says
	}
	return time.Time{}, false
}

// still is for how long a step stands still since its cook is away, or stood. It ends
// later by as much, however long it takes.
func still(st *run.State, i int) (sum time.Duration) {
	for _, w := range st.StandsStill(i) {
		sum += w.To.Sub(w.From)
	}
	return sum
}

// events are what the cook tells of a mishap at its time.
func (p *Player) events(m mishap.Mishap, at time.Time) []run.Event {
	pl := p.s.State().Plan
	e := run.Event{At: at, By: m.By}
	names(pl, m, &e)
	switch m.Kind {
	case mishap.Longer:
		e.Kind = run.Prolonged
	case mishap.Takes:
		return p.takes(m, e)
	case mishap.Reading:
		temp := float64(m.Temp)
		e.Kind, e.Temp = run.Reading, &temp
	case mishap.Burnt:
		return p.burnt(m, e)
	case mishap.Dropped:
		e.Kind = run.SkippedStep
		if m.Dish >= 0 {
			e.Kind = run.Dropped
		}
	case mishap.GivenTo:
		e.Kind = run.Reassigned
	case mishap.PutOn:
		e.Kind = run.Put
	case mishap.Away:
		e.Kind = run.Away
	case mishap.Back:
		e.Kind = run.Back
	case mishap.Fails:
		e.Kind, e.Step = run.Failed, p.underneath(m)
	case mishap.Works:
		e.Kind = run.Works
	case mishap.Hold:
		e.Kind = run.Held
	case mishap.Release:
		e.Kind = run.Released
	case mishap.GuestsLate: // nobody can be served before they are there
		e.Kind, e.Course = run.Held, pl.Courses[0].Name
	}
	return []run.Event{e}
}

// names puts into an event what the mishap is about, by its name.
func names(p *plan.Plan, m mishap.Mishap, e *run.Event) {
	if m.Step >= 0 {
		e.Step = p.Steps[m.Step].ID
	}
	if m.Dish >= 0 {
		e.Dish = p.Dishes[m.Dish].ID
	}
	if m.Cook >= 0 {
		e.Cook = p.Kitchen.Cooks[m.Cook].Name
	}
	if m.Oven >= 0 {
		e.Oven = p.Kitchen.Ovens[m.Oven].Name
	}
	if m.Course >= 0 {
		e.Course = p.Courses[m.Course].Name
	}
	if m.Burner != plan.AnyBurner {
		e.Burner = m.Burner.String()
	}
}

// takes are the events by which a step takes as long as it truly does: it is done,
// or it takes so much longer than expected.
func (p *Player) takes(m mishap.Mishap, e run.Event) []run.Event {
	st := p.s.State()
	step := &st.Steps[m.Step]
	more := m.By + still(st, m.Step) - st.Expected(m.Step)
	over := step.Status == plan.Done || step.Status == plan.Skipped
	switch {
	case more < 0 || over:
		e.Kind, e.By = run.Finished, 0
		if r, ok := run.AtTarget(st.Plan, m.Step); ok && !over && !step.Inside.Reached(st.Plan.Steps[m.Step].Until.Temp) {
			r.At = e.At // it is done since it is at its temperature
			return []run.Event{r, e}
		}
	case more == 0:
		return nil
	default:
		e.Kind, e.By = run.Prolonged, more
	}
	return []run.Event{e}
}

// burnt are the events by which a dish is given up, or begun again: from a step
// on, or from all of its beginnings that have begun.
func (p *Player) burnt(m mishap.Mishap, e run.Event) (out []run.Event) {
	st := p.s.State()
	if !m.Again {
		e.Kind, e.Step = run.Dropped, ""
		if m.Step >= 0 {
			e.Dish = st.Plan.Dishes[st.Plan.Steps[m.Step].Dish].ID
		}
		return []run.Event{e}
	}
	e.Kind, e.Dish = run.Redone, ""
	if m.Step >= 0 {
		return []run.Event{e}
	}
	for _, i := range st.Plan.Dishes[m.Dish].Steps {
		within := func(l plan.Link) bool { return st.Plan.Steps[l.Step].Dish == m.Dish }
		e.Step = st.Plan.Steps[i].ID
		if s := st.Steps[i].Status; (s == plan.Begun || s == plan.Done) && !slices.ContainsFunc(st.Plan.Steps[i].After, within) {
			out = append(out, e)
		}
	}
	if len(out) == 0 { // refused, with the reason
		out = []run.Event{e}
	}
	return out
}

// underneath is the step that stands on the burner that fails: the one named; else,
// where all of the size are in use, the one that has stood there longest. Empty
// where it is a free one that fails.
func (p *Player) underneath(m mishap.Mishap) string {
	st := p.s.State()
	has := st.Plan.Kitchen.Burners.Large
	if m.Burner == plan.Small {
		has = st.Plan.Kitchen.Burners.Small
	}
	oldest, used := m.Step, 0
	for i := range st.Steps {
		if b := st.Plan.Steps[i].Burner; m.Step < 0 && m.Oven < 0 && b != nil && st.Steps[i].Status == plan.Begun && st.Timetable.Slots[i].Burner == m.Burner {
			used += b.Count
			if oldest < 0 || st.Steps[i].Started.Before(st.Steps[oldest].Started) {
				oldest = i
			}
		}
	}
	if oldest < 0 || m.Step < 0 && used < has {
		return ""
	}
	return st.Plan.Steps[oldest].ID
}
