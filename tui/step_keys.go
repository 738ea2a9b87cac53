package tui

import (
	"fmt"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// What keys do to the step that is opened, or selected in the lanes.

// stepOf is the step that a row is about, -1 for none.
func (r row) stepOf() int {
	switch {
	case r.going != nil:
		return r.going.Step
	case r.cue != nil:
		return r.cue.Step
	}
	return r.step
}

// theStep is the step that keys act on in the lanes and in the step view.
func (m *Model) theStep() (int, bool) {
	switch m.mode {
	case Lanes:
		return m.lanes.step, m.lanes.step >= 0 && m.lanes.step < len(m.state.Plan.Steps)
	case StepView:
		return m.opened, m.opened >= 0 && m.opened < len(m.state.Plan.Steps)
	}
	return -1, false
}

// stepRow is a step as a row that keys act on.
func (m *Model) stepRow(i int) row {
	r := row{id: "step:" + m.state.Plan.Steps[i].ID, step: i}
	for k := range m.moment.Going {
		if g := &m.moment.Going[k]; g.Step == i {
			r.going = g
		}
	}
	return r
}

// openStep shows the step that is marked.
func (m *Model) openStep() {
	i := -1
	if m.mode == Lanes {
		i = m.lanes.step
	} else if r, ok := m.chosen(); ok {
		i = r.stepOf()
	}
	if i < 0 && len(m.moment.Next) > 0 && m.mode != Lanes {
		i = m.moment.Next[0].Cue.Step
	}
	if i < 0 {
		m.tell("that is no step: mark one, or / finds one by its name")
		return
	}
	m.opened = i
	m.enter(StepView)
}

// correct asks when a step really began or ended.
func (m *Model) correct() {
	i, ok := m.theStep()
	if !ok {
		return
	}
	name := run.StepName(m.state.Plan, i)
	switch st := m.state.Steps[i]; st.Status {
	case plan.Done:
		m.ask(prompt{what: forEnd, title: name + ", done when?", hint: "such as " + m.clockTime(st.Finished), step: i})
	case plan.Begun:
		m.ask(prompt{what: forStart, title: name + ", begun when?", hint: "such as " + m.clockTime(st.Started), step: i})
	default:
		m.ask(prompt{what: forStart, title: name + ", begun when?", hint: "such as " + m.clockTime(m.now), step: i})
	}
}

// corrected are the events that give a step another start or end: what was told
// of it is taken back, and told again.
func (m *Model) corrected(i int, end bool, at time.Time) []run.Event {
	id := m.state.Plan.Steps[i].ID
	kind := run.Started
	if end {
		kind = run.Finished
	}
	var out []run.Event
	if e, ok := m.lastStanding(kind, id); ok {
		out = append(out, run.Event{Kind: run.Undone, Undoes: e.Seq})
	}
	return append(out, run.Event{Kind: kind, Step: id, At: at})
}

// lastStanding is the last event of a kind about a step that was not undone.
func (m *Model) lastStanding(kind run.Kind, id string) (run.Event, bool) {
	undone := map[uint64]bool{}
	for i := len(m.state.Events) - 1; i >= 0; i-- {
		e := m.state.Events[i]
		switch {
		case undone[e.Seq]:
		case e.Kind == run.Undone:
			undone[e.Undoes] = true
		case e.Kind == kind && e.Step == id:
			return e, true
		}
	}
	return run.Event{}, false
}

// offStep says why there is no step to act on.
func offStep(m *Model) string {
	if _, ok := m.theStep(); !ok {
		return "no step is selected"
	}
	return offWriting(m)
}

// offCorrect says why the time of a step cannot be told otherwise.
func offCorrect(m *Model) string {
	i, ok := m.theStep()
	if ok && m.state.Steps[i].Status == plan.Skipped {
		return "it was left out: undo that first"
	}
	return offStep(m)
}

// stepSaid is what is said of a time that was corrected.
func (m *Model) stepSaid(i int, end bool, at time.Time) string {
	word := "begun"
	if end {
		word = "done"
	}
	return fmt.Sprintf("%s, %s %s", run.StepName(m.state.Plan, i), word, m.dayTime(at))
}

// canOpen says why nothing can be opened.
func offOpen(m *Model) string {
	if m.mode == Lanes {
		if m.lanes.step < 0 {
			return "no step is selected"
		}
		return ""
	}
	if len(m.rows()) == 0 && len(m.moment.Next) == 0 {
		return "nothing is due and nothing comes next: / finds a step by its name"
	}
	return ""
}
