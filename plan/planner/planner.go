package planner

import (
	"context"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/safety"
	"example.org/kettledrum/plan/solve"
)

// effort is what the search may cost.
type effort struct {
	conflicts int64 // until the answer is proven best
	lesser    int64 // of them, for each objective after lateness; 0: no such limit
	tries     int   // timetables made in search of the least broken, where none is whole
	watch     Watch
}

var (
	atRest = effort{conflicts: 20_000, tries: 3000}            // before the dinner, when nobody waits
	live   = effort{conflicts: 2_000, lesser: 100, tries: 400} // at an event of the run
)

func (e effort) options() solve.Options {
	o := solve.Options{Conflicts: e.conflicts, Lesser: e.lesser, Tries: e.tries, Seed: 1}
	if w := e.watch.Found; w != nil {
		o.Found = func(r *solve.Result) { w(r.Cost.Broken == 0) }
	}
	if w := e.watch.Proven; w != nil {
		o.Proven = func(level int) {
			switch {
			case level == solve.LevelSettings:
				w(Objectives[3])
			case level == solve.LevelFirst:
				w(Objectives[4])
			case level >= 0:
				w(Objectives[level])
			}
		}
	}
	return o
}

// Watch is told how planning goes on, for measuring it.
type Watch struct {
	// Found is called with each better timetable; whole: it breaks nothing.
	Found func(whole bool)
	// Proven is called as each objective is proven to be best, with its name in
	// Objectives.
	Proven func(objective string)
}

// Objectives are the names of what is made small, in order.
var Objectives = []string{"late", "waiting", "moves", "settings", "first"}

// MakeWatched is Make, watched.
func MakeWatched(ctx context.Context, p *plan.Plan, w Watch) *plan.Timetable {
	return makeIn(ctx, p, atRest.watched(w))
}

// AgainWatched is Again, watched.
func AgainWatched(ctx context.Context, s *run.State, now time.Time, w Watch) *plan.Timetable {
	return againIn(ctx, s, now, live.watched(w))
}

func (e effort) watched(w Watch) effort {
	e.watch = w
	return e
}

// Make plans a dinner that has not begun. It always answers: what cannot be met
// is late or broken in the answer, and named. In which order the file has the
// dishes makes no difference.
func Make(ctx context.Context, p *plan.Plan) *plan.Timetable { return makeIn(ctx, p, atRest) }

func makeIn(ctx context.Context, p *plan.Plan, e effort) *plan.Timetable {
	c := canonicalOf(p)
	j := translate(c.plan, facts{})
	opt := e.options()
	opt.Latest = true
	return warned(p, c.timetable(j.read(solve.Solve(ctx, j.prob, opt))))
}

// warned adds what the cook should know of safety.
func warned(p *plan.Plan, t *plan.Timetable) *plan.Timetable {
	t.Cautions = safety.Cautions(p, t)
	return t
}

// From plans a dinner that has not begun, from a timetable of it that may not fit any
// more: the search begins with its order, so that little has to be found anew. Nil where
// it is of another plan.
func From(ctx context.Context, p *plan.Plan, t *plan.Timetable) *plan.Timetable {
	before := p.Table
	for _, slot := range t.Slots {
		before = plan.Earlier(before, slot.Start)
	}
	for _, set := range t.Sets {
		before = plan.Earlier(before, set.At)
	}
	before = before.Add(-time.Hour)
	s, err := run.Fold(p, []run.Event{
		{Seq: 1, Kind: run.Opened, At: before, Plan: &run.PlanCopy{}},
		{Seq: 2, Kind: run.Adopted, At: before, Timetable: t},
	})
	if err != nil {
		return nil
	}
	return Again(ctx, s, before)
}

// Again plans the rest of a dinner under way: what has begun stays as it is,
// what is done is done. It starts from the order of the timetable in force.
func Again(ctx context.Context, s *run.State, now time.Time) *plan.Timetable {
	return againIn(ctx, s, now, live)
}

func againIn(ctx context.Context, s *run.State, now time.Time, e effort) *plan.Timetable {
	s = s.At(now)
	p, c := s.Plan, canonicalOf(s.Plan)
	s = c.state(s)
	j := translate(s.Plan, factsOf(s, now))
	opt := e.options()
	if s.Timetable != nil {
		for i, slot := range s.Timetable.Slots {
			j.still(i, j.tick(slot.Start))
		}
		opt.From = j.answer(s.Timetable)
	}
	return warned(p, c.timetable(j.read(solve.Solve(ctx, j.prob, opt))))
}
