package tui

import (
	"fmt"
	"time"

	"example.org/kettledrum/plan/run"
)

// Ways out of what is late.

// seekRemedies has ways out looked for after something has changed. What was known
// before is out of date.
func (m *Model) seekRemedies() []Effect {
	if m.following || m.moment.Finished {
		return nil
	}
	return []Effect{SeekRemedies{}}
}

// takeRemedies notes the ways out that were found, unless something was told
// meanwhile.
func (m *Model) takeRemedies(msg RemediesMsg) {
	if msg.After != len(m.state.Events) {
		return
	}
	m.remedies = msg.Found
}

// lateCourse names the first course that will be late, and by how much.
func (m *Model) lateCourse() (name string, late time.Duration) {
	for i := range m.moment.Courses {
		if c := &m.moment.Courses[i]; c.Served.IsZero() && c.Late >= time.Minute {
			return m.state.Plan.Courses[c.Course].Name, c.Late
		}
	}
	return "", 0
}

// showRemedies offers them.
func (m *Model) showRemedies() {
	title := "Ways out"
	if name, late := m.lateCourse(); name != "" {
		title = fmt.Sprintf("%s will be %s late: what to give up?", name, span(late))
	}
	var of []choice
	for i := range m.remedies {
		r := &m.remedies[i]
		more := r.Gain
		if r.Price != "" {
			more += "\nbut " + r.Price
		}
		of = append(of, choice{text: r.Do, more: more, remedy: r})
	}
	m.offer(title, of)
}

// remediesKnown is the line that tells of ways out, empty for none.
func (m *Model) remediesKnown() string {
	n := len(m.remedies)
	name, late := m.lateCourse()
	switch {
	case n == 0:
		return ""
	case name == "":
		return fmt.Sprintf("%d ways out: ", n)
	case n == 1:
		return fmt.Sprintf("%s %s late, 1 way out: ", name, span(late))
	}
	return fmt.Sprintf("%s %s late, %d ways out: ", name, span(late), n)
}

// askInside asks what the thermometer shows inside a step's food.
func (m *Model) askInside() {
	i := m.measured()
	m.ask(prompt{what: forHeat, title: run.StepName(m.state.Plan, i), hint: "inside, such as " + m.state.Plan.Units.Temp(m.state.Plan.Steps[i].Until.Temp), step: i})
}

// measured is the step whose inside the thermometer is in: the marked one, else the
// only one that goes on until a temperature; -1 for none.
func (m *Model) measured() int {
	has := func(i int) bool { return i >= 0 && m.state.Plan.Steps[i].Until.HasTemp }
	if r, ok := m.chosen(); ok && has(r.stepOf()) {
		return r.stepOf()
	}
	if _, one := m.theStep(); one {
		return -1
	}
	only := -1
	for k := range m.moment.Going {
		if i := m.moment.Going[k].Step; has(i) {
			if only >= 0 {
				return -1
			}
			only = i
		}
	}
	return only
}

func offMeasure(m *Model) string {
	if m.measured() < 0 {
		return "mark the step whose food the thermometer is in: it must go on until a temperature"
	}
	return offWriting(m)
}
