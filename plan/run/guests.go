package run

import (
	"time"

	"example.org/kettledrum/plan"
)

// Guests returns Base with how much longer the guests alone had its courses wait: without
// the ways out that were taken, and without what a course was late by when it was held.
//
// Errors: none that the plan as it stands did not have; then it is Base.
func (s *State) Guests() *plan.Plan {
	by := make([]time.Duration, len(s.Base.Courses))
	for _, e := range s.Standing() {
		switch c := courseIndex(s.Base, e.Course); e.Kind {
		case Held:
			by[c] += e.By
		case Released:
			by[c] = max(0, upToMinute(e.At).Sub(s.Base.Asked(c)))
		}
	}
	p := s.Base
	for c, d := range by {
		if d == 0 {
			continue
		}
		with, err := p.With(plan.Change{Kind: plan.ServeLater, Course: p.Courses[c].Name, By: d})
		if err != nil {
			return s.Base
		}
		p = with
	}
	return p
}
