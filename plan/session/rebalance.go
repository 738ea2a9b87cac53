package session

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/safety"
	"example.org/kettledrum/plan/verify"
)

// What counts as a change.
const (
	// Tolerance is what a break may measure without counting: seconds rounded up
	// to a minute at both of its ends.
	Tolerance = time.Minute
	// ServeMoves is how much later than planned a course must come for the
	// timetable to be looked at: less is not worth a word to the cook.
	ServeMoves = 2 * time.Minute
)

// look is what a rebalancing saw, and in which minute.
type look struct {
	saw    string
	minute time.Time
}

// rebalance adopts another timetable where the one in force no longer holds;
// the package comment has the rule. Cause is the event that led to it.
func (s *Session) rebalance(cause uint64, now time.Time) error {
	st := s.State().At(now)
	if st.Timetable == nil || s.cfg.Hold {
		return nil
	}
	projected := s.projected(st, now)
	later := later(st, projected)
	stands, comes := cost(st, st.Timetable, st.Timetable.Breaks), cost(st, projected, projected.Breaks)
	dearer := comes-stands >= WorthMoving
	// While something is late every event may gain; likings that the timetable
	// has had from the start are no reason to move things about.
	mayGain := cost(st, projected, nil) >= WorthMoving
	otherwise := s.State().Plan != s.planned // a plan that says something else may allow what it did not
	s.planned = s.State().Plan
	if !later && !dearer && !mayGain && !otherwise && len(fresh(projected.Breaks, st.Timetable.Breaks)) == 0 {
		return nil
	}
	see := look{fingerprint(projected), now.Truncate(time.Minute)}
	if !otherwise && see.saw == s.looked.saw && (projected.Status != plan.Broken || see.minute.Equal(s.looked.minute)) {
		return nil
	}
	s.looked = see
	if again := s.again(s.ctx, st, now); again != nil {
		again = s.verified(again, now)
		if worth(st, now, again, s.counting(st.Plan, again, now), projected) {
			return s.adopt(again, why(st, again, now), cause, now)
		}
	}
	if later {
		projected.Breaks = s.cfg.Verify(st.Plan, projected, now) // and the small ones
		projected.Cautions = safety.Cautions(st.Plan, projected) // how long things are out has moved with the rest
		return s.adopt(projected, why(st, projected, now), cause, now)
	}
	return nil
}

// again plans the rest of a run, nil where no answer is found that leaves what has
// happened as it was.
func (s *Session) again(ctx context.Context, st *run.State, now time.Time) *plan.Timetable {
	t := s.cfg.Again(ctx, st, now)
	if t == nil || !keepsFacts(st, run.Project(st, now), t, now) {
		return nil
	}
	return t
}

// keepsFacts reports whether a timetable leaves what has happened as it was and
// puts nothing into the past. Verify cannot know: it has only the timetable.
func keepsFacts(st *run.State, pr run.Projection, t *plan.Timetable, now time.Time) bool {
	near := func(a, b time.Time) bool { return a.Sub(b).Abs() <= Tolerance }
	for i := range st.Steps {
		step, slot := &st.Steps[i], t.Slots[i]
		ok := true
		switch step.Status {
		case plan.Ahead:
			unconfirmed := !pr.Start[i].After(now)
			ok = unconfirmed || slot.Start.Add(Tolerance).After(now)
		case plan.Begun:
			least := step.Started.Add(st.Expected(i))
			ok = near(slot.Start, step.Started) && !slot.End.Add(Tolerance).Before(least)
		case plan.Done:
			ok = near(slot.Start, step.Started) && near(slot.End, step.Finished)
		}
		if !ok {
			return false
		}
	}
	for c, course := range st.Courses {
		if !course.Served.IsZero() && !near(t.Serves[c], course.Served) {
			return false
		}
	}
	return true
}

// verified returns the timetable with its true breaks and status.
func (s *Session) verified(t *plan.Timetable, since time.Time) *plan.Timetable {
	v, p := *t, s.State().At(s.cfg.Clock.Now()).Plan
	v.Breaks = s.cfg.Verify(p, t, since)
	v.Status = verify.Status(p, &v, v.Breaks)
	return &v
}

// counting returns the breaks of a timetable that count while cooking.
func (s *Session) counting(p *plan.Plan, t *plan.Timetable, since time.Time) []plan.Break {
	return slices.DeleteFunc(s.cfg.Verify(p, t, since), func(b plan.Break) bool {
		return b.Kind == plan.BreakTouch || time.Duration(b.Minutes)*time.Minute <= Tolerance
	})
}

// adopt writes that a timetable is in force from now on. As long as it goes so it
// need not be looked at again.
func (s *Session) adopt(t *plan.Timetable, why []string, cause uint64, now time.Time) error {
	if err := s.write(run.Event{Kind: run.Adopted, At: now, Noted: now, Timetable: t, Why: why, Cause: cause}); err != nil {
		return err
	}
	st := s.State().At(now)
	s.looked = look{fingerprint(s.projected(st, now)), now.Truncate(time.Minute)}
	return nil
}

// later reports whether a course that is not served comes later in t than in
// the timetable in force.
func later(st *run.State, t *plan.Timetable) bool {
	for c := range t.Serves {
		if st.Courses[c].Served.IsZero() && t.Serves[c].Sub(st.Timetable.Serves[c]) >= ServeMoves {
			return true
		}
	}
	return false
}

// fingerprint tells one projection from another: what comes when, in minutes, and
// what it breaks.
func fingerprint(t *plan.Timetable) string {
	var b strings.Builder
	for _, slot := range t.Slots {
		fmt.Fprint(&b, slot.Start.Truncate(time.Minute).Unix(), " ", slot.End.Truncate(time.Minute).Unix(), " ")
	}
	for _, at := range t.Serves {
		fmt.Fprint(&b, at.Truncate(time.Minute).Unix(), " ")
	}
	for _, br := range t.Breaks {
		fmt.Fprint(&b, br.Kind, br.Step, br.Course, " ")
	}
	return b.String()
}
