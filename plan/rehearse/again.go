package rehearse

import (
	"context"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock"
	"example.org/kettledrum/plan/debrief"
	"example.org/kettledrum/plan/mishap"
	"example.org/kettledrum/plan/session"
)

// Stage is what a rehearsal needs to be played without a screen.
type Stage struct {
	// Make finds the first timetable of a plan.
	Make func(context.Context, *plan.Plan) *plan.Timetable
	// Open opens a session of it that goes as planned up to an instant, on a clock
	// that stands there and jumps.
	Open func(ctx context.Context, p *plan.Plan, t *plan.Timetable, from time.Time) (*session.Session, clock.Jumper, error)
	// Until is when a dinner that goes nowhere is given up, after its last serve.
	Until time.Duration
	// Before is how long before its first step a dinner is begun.
	Before time.Duration
}

// Try plays a dinner again once with each idea: what was told of it happens again,
// and each step takes as long as it took.
//
// Errors: of the context and of the session. Cost: one timetable and one dinner, all
// its re-planning included, for each idea.
func (s *Stage) Try(ctx context.Context, d debrief.Dinner, told []mishap.Mishap, ideas []debrief.Idea) ([]debrief.Tried, error) {
	var out []debrief.Tried
	script := d.Again(told)
	for _, x := range ideas {
		tried, err := s.try(ctx, d, x, script)
		if err != nil {
			return nil, err
		}
		out = append(out, tried)
	}
	return out, nil
}

func (s *Stage) try(ctx context.Context, d debrief.Dinner, x debrief.Idea, script []mishap.Mishap) (out debrief.Tried, err error) {
	t := d.Planned
	if x.Plan != d.Plan {
		t = s.Make(ctx, x.Plan)
	}
	out.Do, out.Start = x.Do, t.FirstOn(d.Plan.CookDay())
	from := plan.Earlier(d.From, out.Start.Add(-s.Before))
	run, c, err := s.Open(ctx, x.Plan, t, from)
	if err != nil {
		return out, err
	}
	player := New(ctx, run, slices.Concat(x.Drop, script), from, Watcher{})
	if err := session.Play(ctx, run, c, t.LastServe().Add(s.Until), player); err != nil {
		return out, err
	}
	st := run.State()
	for k, course := range st.Courses {
		served := course.Served
		if served.IsZero() { // given up
			served, out.Unserved = c.Now(), append(out.Unserved, k)
		}
		out.Late = append(out.Late, max(0, served.Sub(st.Plan.Asked(k))).Truncate(time.Minute))
	}
	for _, b := range run.Happened().Breaks {
		if b.Kind.Hard() {
			out.Broken++
		}
	}
	return out, nil
}
