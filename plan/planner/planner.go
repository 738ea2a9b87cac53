package planner

import (
	"context"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/solve"
)

// How many timetables the search generates.
const (
	triesAtRest = 3000 // before the dinner, when nobody waits
	triesLive   = 1000 // at an event of the run
)

// Make plans a dinner that has not begun. It always answers: what cannot be met
// is late or broken in the answer, and named. In which order the file has the
// dishes makes no difference.
func Make(ctx context.Context, p *plan.Plan) *plan.Timetable { return makeIn(ctx, p, triesAtRest) }

func makeIn(ctx context.Context, p *plan.Plan, tries int) *plan.Timetable {
	c := canonicalOf(p)
	j := translate(c.plan, facts{})
	return c.timetable(j.read(solve.Solve(ctx, j.prob, solve.Options{Tries: tries, Seed: 1})))
}

// Again plans the rest of a dinner under way: what has begun stays as it is,
// what is done is done. It starts from the order of the timetable in force.
func Again(ctx context.Context, s *run.State, now time.Time) *plan.Timetable {
	return againIn(ctx, s, now, triesLive)
}

func againIn(ctx context.Context, s *run.State, now time.Time, tries int) *plan.Timetable {
	c := canonicalOf(s.Plan)
	s = c.state(s)
	j := translate(s.Plan, factsOf(s, now))
	opt := solve.Options{Tries: tries, Seed: 1}
	if s.Timetable != nil {
		for i, slot := range s.Timetable.Slots {
			opt.Hint = append(opt.Hint, j.tick(slot.End))
			j.still(i, j.tick(slot.Start))
		}
		for _, t := range s.Timetable.Serves {
			opt.Hint = append(opt.Hint, j.tick(t))
		}
		for _, a := range sortedKeys(j.warmOf) {
			opt.Hint = append(opt.Hint, j.tick(s.Timetable.Slots[j.warmOf[a]].End))
		}
	}
	return c.timetable(j.read(solve.Solve(ctx, j.prob, opt)))
}
