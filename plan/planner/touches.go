package planner

import (
	"cmp"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// Who touches, as far as it is all the same to the search: it asks only that
// somebody is there. Nothing here moves a step or a touch.

// touchTimes are the touches of a timetable under way of being read.
type touchTimes struct {
	p     *plan.Plan
	t     *plan.Timetable
	since time.Time // what lies before is past
}

// reminders makes the reminders' touches those of the steps as long as they are.
// The search has them at a fixed distance from the start or the end of a step, and
// knows of those within its least length: a wait that is longer wants more of
// them, and the one in its middle later. Whoever is free then sees to these;
// nobody (-1) where all have their hands full.
func (x *touchTimes) reminders() {
	for i := range x.p.Steps {
		s, slot := &x.p.Steps[i], x.t.Slots[i]
		if len(s.Reminds) == 0 || s.Hands.Working() || slot.Progress == plan.Done || slot.Progress == plan.Skipped {
			continue
		}
		var due []time.Time // each minute once: who is there for one is there for all
		for _, r := range run.Reminders(whole(s), slot.Start, slot.End) {
			if at := r.At.Truncate(time.Minute); !at.Before(x.since) {
				due = append(due, at)
			}
		}
		due = slices.CompactFunc(due, time.Time.Equal)
		x.t.Touches = slices.DeleteFunc(x.t.Touches, func(t plan.Touch) bool {
			if t.What != plan.TouchRemind || t.Step != i {
				return false
			}
			k := slices.IndexFunc(due, t.At.Equal)
			if k >= 0 {
				due = slices.Delete(due, k, k+1)
			}
			return k < 0
		})
		for _, at := range due {
			t := plan.Touch{What: plan.TouchRemind, Step: i, Oven: -1, At: at, Cook: -1}
			t.Cook = x.pick(t)
			x.t.Touches = append(x.t.Touches, t)
		}
	}
}

// whole returns the reminders of a step in whole minutes, rounded up, as all that
// a timetable plans with.
func whole(s *plan.Step) *plan.Step {
	w := &plan.Step{Reminds: slices.Clone(s.Reminds)}
	for k := range w.Reminds {
		w.Reminds[k].For = time.Duration(plan.Minutes(w.Reminds[k].For)) * time.Minute
	}
	return w
}

// hands gives each touch to come to the cook who is best placed for it, of those
// who are free for it and the one that the search had.
func (x *touchTimes) hands() {
	sortTouches(x.t.Touches)
	for k, t := range x.t.Touches {
		if t.Cook >= 0 && !t.At.Before(x.since) {
			x.t.Touches[k].Cook = x.pick(t)
		}
	}
	sortTouches(x.t.Touches)
}

// pick returns the best placed cook for a touch: one who is not at work then before
// one who leaves it for a minute, who had the dish in hand last before others, and
// whoever sits at table last; of equals the one it has, then the first.
func (x *touchTimes) pick(t plan.Touch) int {
	had := x.had(t)
	rank := func(c int) int {
		r := 0
		if c != t.Cook {
			r++
		}
		if c != had {
			r += 2
		}
		if x.atWork(c, t.At, plan.Busy) {
			r += 4
		}
		if x.atTable(c, t.At) {
			r += 8
		}
		return r
	}
	best := t.Cook
	for c := range x.p.Kitchen.Cooks {
		if c != t.Cook && x.free(c, t) && (best < 0 || rank(c) < rank(best)) {
			best = c
		}
	}
	return best
}

// had returns the cook who ended the step before in the dish of a touch, the last
// of several; -1 where that was nobody.
func (x *touchTimes) had(t plan.Touch) int {
	last := -1
	for _, l := range x.p.Steps[t.Step].After {
		if x.p.Steps[l.Step].Dish == x.p.Steps[t.Step].Dish && (last < 0 || x.t.Slots[l.Step].End.After(x.t.Slots[last].End)) {
			last = l.Step
		}
	}
	if last < 0 {
		return -1
	}
	if c := x.t.Slots[last].Cook; c >= 0 {
		return c
	}
	for _, e := range x.t.Touches {
		if e.What == plan.TouchEnd && e.Step == last {
			return e.Cook
		}
	}
	return -1
}

// free reports whether a cook can take a touch: there, not at table, not tied, and
// with no other touch in that minute, but for one of the same dish.
func (x *touchTimes) free(c int, t plan.Touch) bool {
	end := t.At.Add(time.Minute)
	there := slices.ContainsFunc(x.p.Kitchen.Cooks[c].Free, func(w plan.Window) bool {
		return !w.From.After(t.At) && !w.To.Before(end)
	})
	if !there || x.atTable(c, t.At) || x.atWork(c, t.At, plan.Tied) {
		return false
	}
	n := 0
	for _, o := range x.t.Touches {
		if o.Cook != c || !o.At.Equal(t.At) {
			continue
		}
		if n++; n > 1 || x.p.Steps[o.Step].Dish != x.p.Steps[t.Step].Dish {
			return false
		}
	}
	return true
}

// atWork reports whether a cook works on a step in a minute that asks for so much
// of a cook at least.
func (x *touchTimes) atWork(c int, at time.Time, least plan.Hands) bool {
	for i, slot := range x.t.Slots {
		if slot.Cook == c && x.p.Steps[i].Hands >= least && slot.Progress != plan.Skipped &&
			slot.Start.Before(at.Add(time.Minute)) && slot.End.After(at) {
			return true
		}
	}
	return false
}

// atTable reports whether a cook who sits is at table in a minute.
func (x *touchTimes) atTable(c int, at time.Time) bool {
	if !x.p.Kitchen.Cooks[c].Sits {
		return false
	}
	for k, serve := range x.t.Serves {
		if serve.Before(at.Add(time.Minute)) && serve.Add(x.p.Courses[k].Seated).After(at) {
			return true
		}
	}
	return false
}

func sortTouches(s []plan.Touch) {
	slices.SortStableFunc(s, func(a, b plan.Touch) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.Cook, b.Cook), cmp.Compare(a.Step, b.Step))
	})
}
