package tui

import (
	"time"

	"example.org/kettledrum/plan"
)

// riskAt is the share of dinners in which a step takes no longer than what is
// looked at to say that a course is at risk: the one that cautious planning uses.
const riskAt = plan.CautiousAt

// atRisk says which step puts a course at risk that is on time as projected: one
// that is over, one that nobody told of, or one that goes on and in one dinner of
// five takes longer than its course can stand. Empty: none.
func (m *Model) atRisk(course int) string {
	t := m.state.Timetable
	if t == nil {
		return ""
	}
	for i := range m.state.Plan.Steps {
		if m.state.Plan.CourseOf(i) != course {
			continue
		}
		p, ok := m.pieceOf(i)
		if !ok || p.how == pieceAhead || p.how == pieceDone {
			continue
		}
		room := t.Slots[i].Slack - m.moment.Projection.End[i].Sub(t.Slots[i].End)
		step := &m.state.Plan.Steps[i]
		longer := step.Length.Percentile(riskAt) - step.Length.Planned() // beyond what was told, too
		elastic := step.Length.Elastic                                   // ends when the cook says so
		switch {
		case elastic:
		case p.how == pieceOver && room < 5*time.Minute,
			p.how == pieceAssumed && room < 5*time.Minute,
			p.how == pieceGoing && longer > room && longer >= time.Minute:
			return step.Do
		}
	}
	return ""
}
