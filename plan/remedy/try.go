package remedy

import (
	"context"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// tried is a candidate with what comes of it.
type tried struct {
	candidate
	Remedy
	outcome
}

// tolerant is by how much courses may be late while it is sought how late they
// must be.
const tolerant = 4 * time.Hour

// try plans with a candidate and returns what comes of it, nothing where that is
// worth nothing or not safe.
func (q *Question) try(ctx context.Context, c candidate, base outcome) []tried {
	var r *tried
	switch {
	case c.kind == WaitLonger:
		return q.tryLonger(ctx, c, base)
	case c.kind == ServeLater && c.course >= 0:
		r = q.tryLater(ctx, c, base)
	default:
		r = q.tryOnce(ctx, c, base)
	}
	if r == nil {
		return nil
	}
	return []tried{*r}
}

// tryOnce plans with all the leave there is, and takes no more of it than that needs.
func (q *Question) tryOnce(ctx context.Context, c candidate, base outcome) *tried {
	asked := c.changes
	if c.kind == ServeLater {
		asked = q.tolerate()
	}
	st, _, err := q.taken("try", asked)
	if err != nil {
		return nil
	}
	t := q.plan(ctx, st)
	if t == nil {
		return nil
	}
	for _, exact := range q.exact(c, st, t) { // the least of it that does
		c.changes = exact
		if r := q.judged(c, t, base); r != nil {
			return r
		}
		// What was found with more leave may not do with less.
		if st, _, err := q.taken("try", exact); err == nil {
			if t := q.plan(ctx, st); t != nil {
				if r := q.judged(c, t, base); r != nil {
					return r
				}
			}
		}
	}
	return nil
}

// shorter is how many waits are tried that are shorter than the longest.
const shorter = 8

// tryLonger has food wait as long as it may, then less than that took, and so on as
// long as it is worth something: who may wait for long does, though less would do.
func (q *Question) tryLonger(ctx context.Context, c candidate, base outcome) (found []tried) {
	for range 1 + shorter {
		r := q.tryOnce(ctx, c, base)
		if r == nil {
			break
		}
		found = append(found, *r)
		less := r.changes[0]
		if less.By -= time.Minute; less.By <= 0 {
			break
		}
		c.changes = []plan.Change{less}
	}
	return found
}

// latest is the most by which one course is tried to be served later, stride from
// one try to the next.
const (
	latest = time.Hour
	stride = 4 * time.Minute
)

// tryLater finds the least by which a course is to be served later for everything
// to hold: stride by stride, then between the first that does and the one before.
func (q *Question) tryLater(ctx context.Context, c candidate, base outcome) (found *tried) {
	if base.broken == [plan.Harms]int{} {
		return nil
	}
	works := func(by time.Duration) *tried {
		at := c
		at.changes = []plan.Change{{Kind: plan.ServeLater, Course: q.State.Plan.Courses[c.course].Name, By: by}}
		st, _, err := q.taken("try", at.changes)
		if err != nil {
			return nil
		}
		t := q.plan(ctx, st)
		if t == nil || q.measure(st, t).broken != [plan.Harms]int{} {
			return nil
		}
		return q.judged(at, t, base)
	}
	// What food waits for may not come too late either: there can be a most, too.
	low, high := time.Duration(0), time.Duration(0)
	for found == nil && high < latest {
		low, high = high, high+stride
		found = works(high)
	}
	for found != nil && high-low > time.Minute {
		middle := (low + (high-low)/2).Truncate(time.Minute)
		if r := works(middle); r != nil {
			found, high = r, middle
		} else {
			low = middle
		}
	}
	return found
}

// judged returns what comes of a candidate with a timetable, nil where that is
// worth nothing, is not safe, or is late beyond what the candidate allows.
func (q *Question) judged(c candidate, t *plan.Timetable, base outcome) *tried {
	do := q.does(c, t)
	st, e, err := q.taken(do, c.changes)
	if err != nil {
		return nil
	}
	o := q.measure(st, t)
	if !q.needs(c, t, o) {
		return nil
	}
	if c.kind == LeaveTable {
		o.away = max(0, missed(q.absences(c.course, t))-missed(q.absences(c.course, q.AsItIs)))
	}
	if c.kind == ServeLater {
		if o.broken != [plan.Harms]int{} {
			return nil
		}
		o.broken[plan.HarmGuests] = base.broken[plan.HarmGuests] // told, they wait as long as untold
	}
	gain, costs := o.against(base)
	costs += price[c.kind]
	if !o.safe(base) || gain < Worth {
		return nil
	}
	known := *t
	known.Breaks = q.Verify(st.Plan, t)
	return &tried{c, Remedy{Kind: c.kind, Do: do, Gains: gain, Costs: costs, Event: e, Timetable: &known, Serves: t.Serves}, o}
}

// needs reports whether a timetable cannot be without what a candidate gives up. If
// it can, it is a better plan and no remedy.
func (q *Question) needs(c candidate, t *plan.Timetable, with outcome) bool {
	switch c.kind {
	case DropStep, DropDish, WaitLonger: // left out it is; exact has the longer wait
		return true
	}
	without := q.measure(q.State, t)
	return sum(without.broken[:]) > sum(with.broken[:])
}

// exact returns the changes of a candidate with no more leave than a timetable
// takes that was made with as much as there is; then, where that could be less
// than it seems, the whole leave. None where it takes none.
func (q *Question) exact(c candidate, st *run.State, t *plan.Timetable) [][]plan.Change {
	part := func(by time.Duration) [][]plan.Change {
		all := c.changes[0]
		by = time.Duration(plan.Minutes(by)) * time.Minute
		if by <= 0 {
			return nil
		}
		less := all
		less.By = min(by, all.By)
		return [][]plan.Change{{less}}
	}
	switch c.kind {
	case WaitLonger:
		return part(q.kept(c.step, t) - q.State.Plan.Steps[c.step].Keeps.For)
	case LeaveTable:
		by := longest(q.absences(c.course, t))
		if by <= st.Plan.Courses[c.course].SlipsAway && by <= q.State.Plan.Courses[c.course].SlipsAway {
			return nil
		}
		return append(part(by), c.changes)
	case ServeLater: // of all courses
		if later := q.later(t); len(later) > 0 {
			return [][]plan.Change{later}
		}
		return nil
	}
	return [][]plan.Change{c.changes}
}

// tolerate lets every course that is to come be as late as it must.
func (q *Question) tolerate() (out []plan.Change) {
	for c, course := range q.State.Plan.Courses {
		if q.State.Courses[c].Served.IsZero() {
			out = append(out, plan.Change{Kind: plan.TolerateLate, Course: course.Name, By: tolerant})
		}
	}
	return out
}

// later returns by how much each course is to be asked for later so that a
// timetable has none past its tolerance.
func (q *Question) later(t *plan.Timetable) (out []plan.Change) {
	p := q.State.Plan
	for c, course := range p.Courses {
		by := t.Serves[c].Sub(p.Asked(c))
		if !q.State.Courses[c].Served.IsZero() || by <= course.LateOK {
			continue
		}
		change := plan.Change{Kind: plan.ServeLater, Course: course.Name, By: by}
		next, err := p.With(change)
		if err != nil {
			return nil
		}
		out, p = append(out, change), next
	}
	return out
}
