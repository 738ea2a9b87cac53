package rehearse

import (
	"fmt"
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
	expected := st.Plan.Steps[m.Step].Length.Planned() + step.Extra
	if m.Kind == mishap.Takes && m.By >= expected && !m.At.IsZero() {
		return m.At, true
	}
	switch step.Status {
	case plan.Begun:
		if m.Kind == mishap.Takes && m.By < expected {
			expected = m.By // done before its time
		}
		return step.Started.Add(expected), true
	case plan.Done, plan.Skipped:
		return step.Finished, true // too late, which Record says
	}
	return time.Time{}, false
}

// events are what the cook tells of a mishap at its time.
func (p *Player) events(m mishap.Mishap, at time.Time) ([]run.Event, error) {
	pl := p.s.State().Plan
	e := run.Event{At: at, By: m.By}
	if m.Step >= 0 {
		e.Step = pl.Steps[m.Step].ID
	}
	if m.Cook >= 0 {
		e.Cook = pl.Kitchen.Cooks[m.Cook].Name
	}
	switch m.Kind {
	case mishap.Silent:
		return nil, nil
	case mishap.Longer:
		e.Kind = run.Prolonged
	case mishap.Takes:
		return p.takes(m, e)
	case mishap.Dropped:
		e.Kind = run.SkippedStep
		if m.Dish >= 0 {
			return p.dropped(m.Dish, e), nil
		}
	default:
		return nil, fmt.Errorf("not yet supported")
	}
	return []run.Event{e}, nil
}

// takes are the events by which a step takes as long as it truly does: it is done,
// or it takes so much longer than expected.
func (p *Player) takes(m mishap.Mishap, e run.Event) ([]run.Event, error) {
	st := p.s.State()
	step := &st.Steps[m.Step]
	more := m.By - st.Plan.Steps[m.Step].Length.Planned() - step.Extra
	over := step.Status == plan.Done || step.Status == plan.Skipped
	switch {
	case more < 0 || over:
		e.Kind, e.By = run.Finished, 0
	case more == 0:
		return nil, nil
	default:
		e.Kind, e.By = run.Prolonged, more
	}
	return []run.Event{e}, nil
}

// dropped are the events by which all of a dish is dropped that is not done.
func (p *Player) dropped(dish int, e run.Event) (out []run.Event) {
	st := p.s.State()
	for _, i := range st.Plan.Dishes[dish].Steps {
		if s := st.Steps[i].Status; s == plan.Ahead || s == plan.Begun {
			e.Step = st.Plan.Steps[i].ID
			out = append(out, e)
		}
	}
	return out
}
