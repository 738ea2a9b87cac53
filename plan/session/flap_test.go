package session_test

import (
	"context"
	"math"
	"sync"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
	"example.org/kettledrum/plan/verify"
)

// suppers are the dinners of the long random runs, each planned once.
var suppers = sync.OnceValue(func() (out []struct {
	p     *plan.Plan
	first *plan.Timetable
}) {
	builders := []*plantest.Builder{supper(), limited(), liking()}
	for seed := range uint64(5) {
		builders = append(builders, made(seed, 4))
	}
	for _, b := range builders {
		out = append(out, struct {
			p     *plan.Plan
			first *plan.Timetable
		}{&b.Plan, planner.Make(context.Background(), &b.Plan)})
	}
	return out
})

// fickle plans for a cook who changes her mind: each time it is asked, food may wait
// some minutes longer or shorter than the plan likes. Its timetables are as good as
// any for somebody, and each differs from the one before.
func fickle(draw func(label string, least, most int) int) again {
	return func(ctx context.Context, s *run.State, now time.Time) *plan.Timetable {
		if draw("mind", 0, 2) == 0 {
			return planner.Again(ctx, s, now)
		}
		other, p := *s, *s.Plan
		p.Steps = append([]plan.Step(nil), p.Steps...)
		for i := range p.Steps {
			if k := &p.Steps[i].Keeps; k.Kind == plan.Liking {
				k.For = min(k.AtMost, max(0, k.For+time.Duration(draw("likes", -6, 6))*time.Minute))
			}
		}
		for i := range p.Steps { // and hands it to whoever
			if step := &p.Steps[i]; step.Hands.Working() && step.By < 0 && len(p.Kitchen.Cooks) > 1 && ahead(s, i, now) {
				step.By = draw("by", -1, len(p.Kitchen.Cooks)-1)
			}
		}
		other.Plan = &p
		return planner.Again(ctx, &other, now)
	}
}

// ahead reports whether a step is to come, and by all that is known.
func ahead(s *run.State, i int, now time.Time) bool {
	return s.Steps[i].Status == plan.Ahead && s.Timetable.Slots[i].Start.After(now)
}

// mishap draws something that goes wrong, or right sooner than thought.
func mishap(draw func(label string, least, most int) int, c *clocktest.Manual, s *session.Session, cue run.Cue) {
	p, step, minute := s.State().Plan, "", time.Minute
	if cue.Step >= 0 {
		step = p.Steps[cue.Step].ID
	}
	tell := func(e run.Event) { _, _ = s.Record(e) } // what cannot be is refused
	switch what := draw("what", 0, 99); {
	case what < 20:
		c.Advance(time.Duration(draw("seconds", 1, 240)) * time.Second)
	case what < 24:
		c.Advance(12 * minute)
	case what < 44 && step != "" && cue.Class == run.Look:
		tell(run.Event{Kind: run.Prolonged, Step: step, By: time.Duration(draw("by", 2, 20)) * minute})
	case what < 52: // something that goes is done already
		for i, st := range s.State().Steps {
			if st.Status == plan.Begun {
				tell(run.Event{Kind: run.Finished, Step: p.Steps[i].ID})
				break
			}
		}
	case what < 56:
		tell(run.Event{Kind: run.Held, Course: p.Courses[draw("course", 0, len(p.Courses)-1)].Name, By: time.Duration(draw("by", 2, 15)) * minute})
	case what < 59:
		tell(run.Event{Kind: run.Away, Cook: p.Kitchen.Cooks[draw("cook", 0, len(p.Kitchen.Cooks)-1)].Name, By: time.Duration(draw("by", 5, 20)) * minute})
	case what < 62 && step != "":
		tell(run.Event{Kind: run.SkippedStep, Step: step})
	case what < 70:
		if e, ok := s.State().LastUndoable(); ok && e.Kind != run.Served && e.Kind != run.Finished && e.Kind != run.Started {
			tell(run.Event{Kind: run.Undone, Undoes: e.Seq})
		}
	}
}

// TestNoTwoPlansUndoEachOther: in long random runs with a planner that changes its
// mind, every timetable that is adopted mends a break or gains more than it moves,
// by the formula worked out a second time here, or tells nothing but what comes
// anyway. So within ten minutes none takes back what another did for less.
func TestNoTwoPlansUndoEachOther(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		draw := func(label string, least, most int) int { return rapid.IntRange(least, most).Draw(t, label) }
		dinner := suppers()[draw("dinner", 0, len(suppers())-1)]
		p := dinner.p
		log, c := &journal.Memory{}, clocktest.New(p.CookDay().Add(14*time.Hour))
		cfg := config(p, log, c)
		cfg.Make = func(context.Context, *plan.Plan) *plan.Timetable { return dinner.first }
		cfg.Again = fickle(draw)
		s, err := session.Open(context.Background(), cfg)
		if err != nil {
			t.Fatal(err)
		}
		err = session.Simulate(context.Background(), s, c, p.CookDay().Add(24*time.Hour-time.Minute), func(cue run.Cue, _ time.Time) {
			mishap(draw, c, s, cue)
		})
		if err != nil {
			t.Fatal(err)
		}
		st, err := run.Fold(p, nil)
		if err != nil {
			t.Fatal(err)
		}
		var last *adoption
		for _, e := range s.State().Events {
			if e.Kind == run.Adopted && st.Timetable != nil {
				a := adoptionOf(s, st, e)
				if a.chosen && !a.worth() {
					t.Errorf("%s: adopted for %v gained, %v moved, harm %v of %v: %q", e.At.Format("15:04:05"), a.gain, a.moves, a.harm, a.without, e.Why)
				}
				if last != nil && a.chosen && e.At.Sub(last.at) <= 10*time.Minute && a.takesBack(last) && a.harm == a.without && a.gain < session.WorthMoving {
					t.Errorf("%s: takes back what was adopted at %s, for %v: %q", e.At.Format("15:04:05"), last.at.Format("15:04:05"), a.gain, e.Why)
				}
				last = a
			}
			if st, err = st.Apply(e); err != nil {
				t.Fatal(err)
			}
		}
	})
}

// adoption is one timetable put into force in place of another.
type adoption struct {
	at            time.Time
	chosen        bool // it is not merely what comes anyway
	old, new      *plan.Timetable
	gain, moves   time.Duration
	harm, without [3]int // minutes broken with it, and without
}

func adoptionOf(s *session.Session, st *run.State, e run.Event) *adoption {
	st = st.At(e.At)
	a := &adoption{at: e.At, old: st.Timetable, new: e.Timetable}
	comes := session.Projected(s, st, e.At)
	for i := range comes.Slots {
		a.chosen = a.chosen || st.Steps[i].Status == plan.Ahead && comes.Slots[i].Progress == plan.Ahead && !comes.Slots[i].Start.Equal(e.Timetable.Slots[i].Start)
	}
	for c := range comes.Serves {
		a.chosen = a.chosen || !comes.Serves[c].Equal(e.Timetable.Serves[c])
	}
	var with, without time.Duration
	with, a.harm = counted(st, e.Timetable, e.At)
	without, a.without = counted(st, comes, e.At)
	a.gain = without - with
	a.moves = moved(st, e.Timetable, e.At) - moved(st, comes, e.At)
	return a
}

// worth is the rule as the package comment has it.
func (a *adoption) worth() bool {
	for k := range a.harm {
		switch less := a.without[k] - a.harm[k]; {
		case less < 0:
			return false
		case less > 0 && (a.harm[k] == 0 || k < 2 && less >= 3):
			return true
		}
	}
	return a.gain >= 3*time.Minute && a.gain > a.moves
}

// takesBack reports whether more than half of what another adoption moved is moved
// back.
func (a *adoption) takesBack(o *adoption) bool {
	var did, back time.Duration
	for i := range a.new.Slots {
		was, is := o.new.Slots[i].Start.Sub(o.old.Slots[i].Start), a.new.Slots[i].Start.Sub(a.old.Slots[i].Start)
		did += was.Abs()
		if (was < 0) != (is < 0) {
			back += min(was.Abs(), is.Abs())
		}
	}
	return back > 0 && 2*back > did
}

// counted is what late courses and long waits cost in a timetable, and the minutes
// that it breaks: of food, of work, of guests' patience.
func counted(st *run.State, t *plan.Timetable, now time.Time) (cost time.Duration, harm [3]int) {
	for c, at := range t.Serves {
		if late := at.Sub(st.Plan.Asked(c)); late > 0 && st.Courses[c].Served.IsZero() {
			cost += late + 2*max(0, late-st.Plan.Courses[c].LateOK)
		}
	}
	for _, b := range verify.Check(st.Plan, t, now) {
		switch {
		case b.Minutes <= 1 || b.Kind == plan.BreakTouch:
		case b.Kind == plan.BreakLiking:
			cost += time.Duration(b.Minutes) * time.Minute
		case b.Kind == plan.BreakKeep || b.Kind == plan.BreakLength || b.Kind == plan.BreakOven:
			harm[0] += b.Minutes
		case b.Kind == plan.BreakLate || b.Kind == plan.BreakEarly:
			harm[2] += b.Minutes
		default:
			harm[1] += b.Minutes
		}
	}
	return cost, harm
}

// moved is by how much a timetable moves what is ahead, the near more than the far.
func moved(st *run.State, t *plan.Timetable, now time.Time) (sum time.Duration) {
	for i := range t.Slots {
		a, b := st.Timetable.Slots[i], t.Slots[i]
		if st.Steps[i].Status != plan.Ahead || b.Progress == plan.Skipped {
			continue
		}
		by := math.Abs(b.Start.Sub(a.Start).Minutes())
		if a.Cook != b.Cook || a.Oven != b.Oven || a.Burner != b.Burner {
			by += 5
		}
		ahead := math.Max(0, math.Min(a.Start.Sub(now).Minutes(), b.Start.Sub(now).Minutes()))
		sum += time.Duration(by / 4 * math.Pow(2, -ahead/10) * float64(time.Minute))
	}
	return sum
}
