package tui

import (
	"slices"
	"strings"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// The mark stays where the cook put it, for as long as there is anything to be done
// there. A step that was found may be marked before it has a row of its own; from
// when it has one, that row is.

const markedStep = "step:"

// markStep marks a step on the main screen.
func (m *Model) markStep(i int) {
	m.selected = markedStep + m.state.Plan.Steps[i].ID
	m.keepMark()
}

// keepMark moves the mark from a step to its row, once it has one.
func (m *Model) keepMark() {
	i := m.markedStep()
	if i < 0 {
		return
	}
	rows := m.rows()
	for _, going := range []bool{true, false} { // what goes on before what asks about it
		at := slices.IndexFunc(rows, func(r row) bool { return (r.going != nil) == going && r.stepOf() == i })
		if at >= 0 {
			m.selected = rows[at].id
			return
		}
	}
}

// markedStep is the step that is marked and has no row, -1 for none. Where nothing
// is left to be done about it, it is marked no more.
func (m *Model) markedStep() int {
	id, ok := strings.CutPrefix(m.selected, markedStep)
	if !ok {
		return -1
	}
	i := m.state.Plan.StepIndex(id)
	if i >= 0 && (m.state.Steps[i].Status == plan.Done || m.state.Steps[i].Status == plan.Skipped) {
		return -1
	}
	return i
}

// markLine tells which step is marked where no row shows it; empty: the row does.
func (m *Model) markLine() string {
	i := m.markedStep()
	if i < 0 || m.mode != Main {
		return ""
	}
	status, _ := m.stepStatus(i)
	return "marked: " + run.StepName(m.state.Plan, i) + ", " + status
}

// stepBack is Esc on the main screen: the mark stays, but for a second press.
func (m *Model) stepBack(again bool) {
	r, ok := m.chosen()
	switch {
	case m.selected == "" || !ok || r.id != m.selected:
		m.selected = ""
	case again:
		m.selected = ""
		m.tell("the mark is off: it follows what is most urgent")
	default:
		m.unmark = true
		m.tell("the mark stays on " + m.rowText(&r) + ": esc again takes it off")
	}
}

// rowText is what a row is about.
func (m *Model) rowText(r *row) string {
	if s := rowName(r); s != "" {
		return s
	}
	return run.StepName(m.state.Plan, r.step)
}
