package run

import (
	"fmt"
	"time"

	"example.org/kettledrum/plan"
)

// Possible refuses what cannot have been at its time: that a step began before what
// it follows did, that a course came before what is on it was begun. It is for what
// is told now, before it is written. What is in a journal is taken as it is: it was
// told once, and a run that was cooked must open.
//
// Errors: a sentence for the cook.
func (s *State) Possible(e Event) error {
	switch i := s.Plan.StepIndex(e.Step); e.Kind {
	case Started, Finished, Prolonged:
		beforehand := e.Kind == Prolonged && i >= 0 && s.beforehand(i, e.At)
		if i >= 0 && s.Steps[i].Status == plan.Ahead && !beforehand {
			return s.possible(i, e.At)
		}
	case Served:
		if c := courseIndex(s.Plan, e.Course); c >= 0 && s.Courses[c].Served.IsZero() {
			return s.servable(c, e.At)
		}
	}
	return nil
}

// possible refuses that step i began at a time before what it follows did.
func (s *State) possible(i int, at time.Time) error {
	for _, l := range s.Plan.Steps[i].After {
		st, do := &s.Steps[l.Step], s.Plan.Steps[l.Step].Do
		switch {
		case st.Status == plan.Skipped:
		case st.Status != plan.Ahead && st.Started.After(at):
			return fmt.Errorf("%q, which comes before, began at %s; %q cannot have been begun by %s", do, s.when(st.Started, at), s.Plan.Steps[i].Do, s.when(at, st.Started))
		case st.Status == plan.Ahead:
			if err := s.possible(l.Step, at); err != nil {
				return err
			}
		}
	}
	return nil
}

// servable refuses that a course was served at a time before something on it began.
func (s *State) servable(c int, at time.Time) error {
	for i := range s.Steps {
		if st := &s.Steps[i]; s.Plan.CourseOf(i) == c && s.Plan.Dishes[s.Plan.Steps[i].Dish].Chore == nil &&
			(st.Status == plan.Begun || st.Status == plan.Done) && st.Started.After(at) {
			return fmt.Errorf("%q began at %s, %s cannot be on the table since %s", s.Plan.Steps[i].Do, s.when(st.Started, at), s.Plan.Courses[c].Name, s.when(at, st.Started))
		}
	}
	return nil
}
