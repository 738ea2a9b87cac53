package run

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// claim is the hold of one step on units of a resource, from one point to
// another: while it lasts, or, of a vessel and of what keeps in a cold place,
// until another step takes over.
type claim struct {
	step     int
	count    int
	from, to int // points
	// taker is the step whose start lets go, -1 where the step's own end does or a
	// serve.
	taker int
	// wash is how long the units are out of use before another dish has them.
	wash        time.Duration
	begin, over time.Time // as expected
}

// lasting is the claim of a step from its start to its end.
func (o *order) lasting(i, count int) claim {
	return claim{step: i, count: count, from: o.start(i), to: o.end(i), taker: -1, begin: o.begins[i], over: o.expected[i]}
}

// used are the claims of the steps with a demand, while they last. It uses memory that
// the next call uses again.
func (o *order) used(demand func(i int) int) []claim {
	out := o.claims[:0]
	for i := range o.s.Steps {
		if n := demand(i); n > 0 && !o.skipped(i) {
			out = append(out, o.lasting(i, n))
		}
	}
	o.claims = out[:0]
	return out
}

// ofTool are the claims on a tool: of the steps that use it, and of those whose
// food is in it, which hold it until the next of the dish with that vessel starts.
func (o *order) ofTool(tool int) []claim {
	steps := o.s.Plan.Steps
	out := o.used(func(i int) (n int) {
		for _, u := range steps[i].Uses {
			if u.Tool == tool {
				n += u.Count
			}
		}
		return n
	})
	for i := range o.s.Steps {
		v := steps[i].Vessel
		if v == nil || v.Tool != tool || o.skipped(i) {
			continue
		}
		c := o.lasting(i, v.Count)
		if next := o.pouredInto(i, i, tool, map[int]bool{}); next >= 0 {
			c.until(o, next)
		}
		out = append(out, c)
	}
	for k := range out {
		out[k].wash = o.s.Plan.Kitchen.Tools[tool].Wash
	}
	return out
}

// pouredInto is the first step after i, in the dish of step of, with its food in
// a vessel; −1 if none.
func (o *order) pouredInto(i, of, tool int, seen map[int]bool) int {
	steps := o.s.Plan.Steps
	first := -1
	for _, j := range o.next[i] {
		if seen[j] || steps[j].Dish != steps[of].Dish {
			continue
		}
		seen[j] = true
		if v := steps[j].Vessel; v == nil || v.Tool != tool {
			j = o.pouredInto(j, of, tool, seen)
		}
		if j >= 0 && (first < 0 || o.begins[j].After(o.begins[first])) {
			first = j
		}
	}
	return first
}

// ofCold are the claims on a cold place: of the waits that stand in it, and of
// what keeps in it until the last step that takes it starts, or it is served.
func (o *order) ofCold(place string) []claim {
	out := o.claims[:0]
	for i := range o.s.Steps {
		step := &o.s.Plan.Steps[i]
		if o.skipped(i) {
			continue
		}
		if step.Cold == place {
			out = append(out, o.lasting(i, max(1, step.ColdPlaces)))
		}
		if step.Keeps.Place != place {
			continue
		}
		c := o.lasting(i, max(1, step.Keeps.Places))
		c.from, c.begin = c.to, c.over
		if planned := o.planned(c.to); planned.Before(c.begin) { // as begins has it
			c.begin = planned
		}
		if last := o.takenBy(i); last >= 0 {
			c.until(o, last)
		} else {
			course := o.s.Plan.CourseOf(i)
			c.to, c.over = o.serve(course), o.s.Timetable.Serves[course]
		}
		out = append(out, c)
	}
	return out
}

// takenBy is the step that takes what step i made, of several the last; −1 if none.
func (o *order) takenBy(i int) int {
	last := -1
	for _, j := range o.next[i] {
		if last < 0 || o.begins[j].After(o.begins[last]) {
			last = j
		}
	}
	return last
}

// until has a claim last until step j starts.
func (c *claim) until(o *order, j int) { c.to, c.taker, c.over = o.start(j), j, o.begins[j] }

// pass adds that claim b waits for claim a to let go, unless the timetable has
// them overlap all the same or it is no longer so.
func (o *order) pass(a, b *claim) {
	lag := time.Duration(0)
	if a.wash > 0 && o.s.Plan.Steps[a.step].Dish != o.s.Plan.Steps[b.step].Dish {
		lag = a.wash
	}
	switch {
	case a.step == b.step || a.taker == b.step:
		return
	case o.s.Steps[b.step].Status != plan.Ahead:
		return
	case o.auto(b.step) && o.leads(b.step) < 0:
		return // what it follows is going: it starts with that one's end, come what may
	}
	ends, starts := o.planned(a.to), o.planned(b.from)
	going := a.taker < 0 && o.s.Steps[a.step].Status == plan.Begun && a.to == o.end(a.step)
	if going || o.fewer || !ends.After(starts) {
		o.arc(a.to, b.from, lag)
	}
}

// planned is when a point is in the timetable in force.
func (o *order) planned(v int) time.Time {
	switch i := v / 2; {
	case v >= o.serve(0):
		return o.s.Timetable.Serves[v-o.serve(0)]
	case v >= o.set(0):
		return o.sets[v-o.set(0)].At
	case v == o.start(i):
		return o.s.Timetable.Slots[i].Start
	default:
		return o.s.Timetable.Slots[i].End
	}
}

// seats adds that a cook who sits goes back to work when the guests are through
// with the last course before it, where the timetable has it so.
func (o *order) seats() {
	t := o.s.Timetable
	for i := range o.s.Steps {
		cook := t.Slots[i].Cook
		if cook < 0 || o.skipped(i) || o.s.Steps[i].Status != plan.Ahead || !o.s.Plan.Steps[i].Hands.Working() ||
			!o.s.Plan.Kitchen.Cooks[cook].Sits || o.auto(i) && o.leads(i) < 0 {
			continue
		}
		for c, serve := range slices.Backward(t.Serves) {
			seated := o.s.Plan.Courses[c].Seated
			if serve.Add(seated).After(t.Slots[i].Start) || o.mayLeave(i, c) {
				continue
			}
			o.arc(o.serve(c), o.start(i), seated)
			break
		}
	}
}

// mayLeave reports whether a step is short enough to leave the table for.
func (o *order) mayLeave(i, course int) bool {
	slips := o.s.Plan.Courses[course].SlipsAway
	return slips > 0 && o.s.length(i) <= slips
}
