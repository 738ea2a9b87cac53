package tui

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// What is not there now, as the cook told: who is away, what has failed.

// awayUntil reports whether a cook is away now, and until when; the zero time is
// without end.
func (m *Model) awayUntil(cook string) (until time.Time, away bool) {
	for _, c := range m.state.Changes {
		if c.Kind != plan.NotThere || c.Cook != cook || c.From.After(m.now) {
			continue
		}
		switch {
		case c.To.IsZero():
			return c.To, true
		case c.To.After(m.now) && c.To.After(until):
			until, away = c.To, true
		}
	}
	return until, away
}

// awayText says that a cook is away, and until when.
func (m *Model) awayText(until time.Time) string {
	if until.IsZero() {
		return "away until back"
	}
	return "away until " + m.dayTime(until)
}

// ovenFailed reports whether an oven has failed.
func (m *Model) ovenFailed(name string) bool {
	return slices.ContainsFunc(m.state.Changes, func(c plan.Change) bool { return c.Kind == plan.OvenFails && c.Oven == name })
}

// burnersFailed counts the burners of a size that have failed.
func (m *Model) burnersFailed(size plan.BurnerSize) int {
	n := 0
	for _, c := range m.state.Changes {
		if c.Kind == plan.BurnerFails && c.Burner == size.String() {
			n++
		}
	}
	return n
}

// cooksAway counts the cooks who are away.
func (m *Model) cooksAway() int {
	n := 0
	for _, k := range m.state.Plan.Kitchen.Cooks {
		if _, away := m.awayUntil(k.Name); away {
			n++
		}
	}
	return n
}

// sizesFailed counts the sizes of which burners have failed.
func (m *Model) sizesFailed() int {
	return min(1, m.burnersFailed(plan.Large)) + min(1, m.burnersFailed(plan.Small))
}
