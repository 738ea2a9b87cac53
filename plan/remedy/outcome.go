package remedy

import (
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// outcome is what a timetable is worth to those who wait for it.
type outcome struct {
	serves []time.Time
	late   []int           // minutes, of each course; 0 of one that is served
	broken [plan.Harms]int // minutes of broken rules in each class
	// over are the minutes by which each step is kept longer than liked, by the plan
	// before any remedy.
	over []int
	away int // minutes for which a remedy takes cooks from the table
}

// measure says what a timetable of a run, with a remedy taken or not, comes to.
func (q *Question) measure(st *run.State, t *plan.Timetable) outcome {
	was := q.State.Plan
	o := outcome{serves: t.Serves, late: make([]int, len(t.Serves)), over: make([]int, len(t.Slots))}
	for c := range t.Serves {
		if q.State.Courses[c].Served.IsZero() {
			o.late[c] = plan.Minutes(t.Lateness(was, c))
		}
	}
	for _, b := range q.Verify(st.Plan, t) {
		if b.Kind.Hard() && q.counts(st.Plan, t, b) {
			o.broken[b.Kind.Harm()] += max(1, b.Minutes)
		}
	}
	for _, b := range q.Verify(was, t) {
		if k := was.Steps[max(0, b.Step)].Keeps; k.Kind == plan.Liking && (b.Kind == plan.BreakLiking || b.Kind == plan.BreakKeep) {
			o.over[b.Step] = plan.Minutes(q.kept(b.Step, t) - k.For)
		}
	}
	return o
}

// counts reports whether a break is more than seconds rounded up to a minute at both
// of its ends. A limit is passed by a whole minute or it is not: nothing is given.
func (q *Question) counts(p *plan.Plan, t *plan.Timetable, b plan.Break) bool {
	switch {
	case b.Kind == plan.BreakTouch: // done a minute sooner or later
		return false
	case b.Kind == plan.BreakKeep:
		return q.kept(b.Step, t)-p.Steps[b.Step].Keeps.AtMost >= time.Minute
	}
	return b.Minutes > 1
}

func (o outcome) lateness() int { return sum(o.late) }

// safe reports whether o is no worse than base in food, and in work that cannot be
// done.
func (o outcome) safe(base outcome) bool {
	return o.broken[plan.HarmFood] <= base.broken[plan.HarmFood] && o.broken[plan.HarmWork] <= base.broken[plan.HarmWork]
}

// less reports whether o is safe beside base and costs less.
func (o outcome) less(base outcome) bool {
	gain, price := o.against(base)
	return o.safe(base) && gain > price
}

// against returns what o gains on base and what it costs, in minutes late.
func (o outcome) against(base outcome) (gain, price int) {
	add := func(less int) {
		if less > 0 {
			gain += less
		} else {
			price -= less
		}
	}
	for c := range o.late {
		add(base.late[c] - o.late[c])
	}
	add(sum(base.over) - sum(o.over))
	for h := range plan.Harms {
		add(h.Weight() * (base.broken[h] - o.broken[h]))
	}
	add(-o.away)
	return gain, price
}

func sum(list []int) (n int) {
	for _, x := range list {
		n += x
	}
	return n
}

func minutes(n int) time.Duration { return time.Duration(n) * time.Minute }
