package planner

import (
	"context"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/solve"
)

// effort is what the search may cost.
type effort struct {
	conflicts int64 // until the answer is proven best
	tries     int   // timetables made in search of the least broken, where none is whole
}

var (
	atRest = effort{20_000, 3000} // before the dinner, when nobody waits
	live   = effort{2_000, 1000}  // at an event of the run
)

func (e effort) options() solve.Options {
	return solve.Options{Conflicts: e.conflicts, Tries: e.tries, Seed: 1}
}

// Make plans a dinner that has not begun. It always answers: what cannot be met
// is late or broken in the answer, and named. In which order the file has the
// dishes makes no difference.
func Make(ctx context.Context, p *plan.Plan) *plan.Timetable { return makeIn(ctx, p, atRest) }

func makeIn(ctx context.Context, p *plan.Plan, e effort) *plan.Timetable {
	c := canonicalOf(p)
	j := translate(c.plan, facts{})
	return c.timetable(j.read(solve.Solve(ctx, j.prob, e.options())))
}

// Again plans the rest of a dinner under way: what has begun stays as it is,
// what is done is done. It starts from the order of the timetable in force.
func Again(ctx context.Context, s *run.State, now time.Time) *plan.Timetable {
	return againIn(ctx, s, now, live)
}

func againIn(ctx context.Context, s *run.State, now time.Time, e effort) *plan.Timetable {
	c := canonicalOf(s.Plan)
	s = c.state(s)
	j := translate(s.Plan, factsOf(s, now))
	opt := e.options()
	if s.Timetable != nil {
		for i, slot := range s.Timetable.Slots {
			j.still(i, j.tick(slot.Start))
		}
		opt.From = j.answer(s.Timetable)
	}
	return c.timetable(j.read(solve.Solve(ctx, j.prob, opt)))
}
