package debrief

import (
	"cmp"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// Course is how one course came to the table.
type Course struct {
	Asked, Served time.Time
	// Held is by how much it was asked for later in the course of the dinner: guests
	// who come late, a course that is held.
	Held time.Duration
	// PutOff is how much of that was not for the guests: a way out that was taken, or
	// what it was late by already when it was held.
	PutOff time.Duration
	// Late is by how much it missed what was asked then; whole minutes, rounded down.
	Late time.Duration
	// Planned is for how much of that the timetable planned it late from the start.
	Planned time.Duration
	// Why are the steps it was waiting for that took longer than planned, by time; none
	// where it was neither Late nor PutOff.
	Why []Cause
	// Last is the step of the course that ended last, -1 for none, and Later by how much
	// later than planned it began.
	Last  int
	Later time.Duration
}

// late reports whether the course came later than the guests had it wait.
func (c *Course) late() bool { return c.Late+c.PutOff >= time.Minute }

// Cause is a step that took longer than planned, and what came later for it.
type Cause struct {
	Step int
	// Planned and Took are how long it was to take and took; Still is how long it
	// stood still beside that, since its cook was away.
	Planned, Took, Still time.Duration
}

// explained is how much longer all that it waited for took.
func (c *Course) explained() (sum time.Duration) {
	for _, w := range c.Why {
		sum += w.Took + w.Still - w.Planned
	}
	return sum
}

func (d *Dinner) courses() []Course {
	out := make([]Course, len(d.Plan.Courses))
	for c := range out {
		k := Course{Asked: d.Plan.Asked(c), Served: d.Was.Serves[c], Last: d.last(c)}
		if k.Last >= 0 {
			k.Later = d.Was.Slots[k.Last].Start.Sub(d.Planned.Slots[k.Last].Start)
		}
		k.Held = max(0, d.Stood.Asked(c).Sub(k.Asked))
		k.Late = max(0, k.Served.Sub(k.Asked)-k.Held).Truncate(time.Minute)
		k.PutOff = max(0, min(k.Held, k.Served.Sub(k.Asked))-d.guests(c))
		if k.late() { // where the guests had it wait that needs no other cause
			k.Planned = min(k.Late, max(0, d.Planned.Serves[c].Sub(k.Asked)).Truncate(time.Minute))
			k.Why = d.why(c)
		}
		out[c] = k
	}
	return out
}

// guests is how much longer the guests had a course wait.
func (d *Dinner) guests(c int) time.Duration {
	if d.Guests == nil {
		return 0
	}
	return d.Guests.Asked(c).Sub(d.Plan.Asked(c))
}

// last is the step of a course that ended last.
func (d *Dinner) last(course int) int {
	last := -1
	for i, s := range d.Was.Slots {
		if d.Plan.CourseOf(i) == course && s.Progress != plan.Skipped && (last < 0 || s.End.After(d.Was.Slots[last].End)) {
			last = i
		}
	}
	return last
}

// why goes back from a course to what it waited for, to what that waited for, and so
// on, as long as it was later than planned, and gathers what took longer.
func (d *Dinner) why(course int) (out []Cause) {
	i := d.last(course)
	if c := course - 1; c >= 0 && (i < 0 || d.Was.Slots[i].End.Before(d.Was.Serves[course].Add(-time.Minute))) {
		return d.why(c) // the guests sat with the course before
	}
	seen := map[int]bool{}
	for i >= 0 && !seen[i] && d.late(i) >= time.Minute {
		seen[i] = true
		c := Cause{Step: i, Planned: d.Planned.Slots[i].End.Sub(d.Planned.Slots[i].Start), Took: d.took(i), Still: d.Was.Slots[i].Still}
		if over := c.Took - c.Planned + c.Still; over >= time.Minute && !d.Plan.Steps[i].Length.Elastic {
			out = append(out, c)
		}
		i = d.waitedFor(i)
	}
	slices.SortFunc(out, func(a, b Cause) int {
		return cmp.Or(d.Was.Slots[a.Step].Start.Compare(d.Was.Slots[b.Step].Start), cmp.Compare(a.Step, b.Step))
	})
	return out
}

// late is by how much later than planned step i ended.
func (d *Dinner) late(i int) time.Duration { return d.Was.Slots[i].End.Sub(d.Planned.Slots[i].End) }

// heels is how long after something ended what waited for it begins at most: a minute's
// touch or two may lie between.
const heels = 2 * time.Minute

// waitedFor returns what step i began on the heels of: of what it follows and of what
// had its cook, oven, burner, tool or vessel just before, what ended then and was
// latest against the timetable; -1 for nothing.
func (d *Dinner) waitedFor(i int) int {
	start, best := d.Was.Slots[i].Start, -1
	for j := range d.Plan.Steps {
		if j == i || d.Was.Slots[j].Progress == plan.Skipped || d.late(j) < time.Minute {
			continue
		}
		gap, held := d.follows(i, j)
		end := d.Was.Slots[j].End.Add(gap)
		if !held || end.After(start) || start.Sub(end)-length(within(d.absences(), end, start)) > heels {
			continue
		}
		if best < 0 || d.late(j) > d.late(best) {
			best = j
		}
	}
	return best
}

// absences are when some cook was away, as told.
func (d *Dinner) absences() (out []plan.Window) {
	for k, c := range d.Plan.Kitchen.Cooks {
		there := c.Free
		for _, w := range d.Stood.Kitchen.Cooks[k].Free {
			there = without(there, w)
		}
		out = append(out, there...)
	}
	return joined(out)
}

// follows reports whether step i could not begin before step j had ended, and how
// long after it.
func (d *Dinner) follows(i, j int) (gap time.Duration, ok bool) {
	a, b := &d.Plan.Steps[i], &d.Plan.Steps[j]
	for _, l := range a.After {
		if l.Step == j {
			return l.Min, true
		}
	}
	was, is := d.Was.Slots[j], d.Was.Slots[i]
	switch {
	case is.Oven >= 0 && is.Oven == was.Oven:
		return d.heating(i), true
	case is.Cook >= 0 && is.Cook == was.Cook,
		a.Burner != nil && b.Burner != nil && is.Burner == was.Burner:
		return 0, true
	}
	for _, u := range tools(a) {
		if slices.Contains(tools(b), u) {
			return 0, true
		}
	}
	return 0, false
}

// heating is how long the oven took from when it was set for step i.
func (d *Dinner) heating(i int) time.Duration {
	for _, s := range d.Was.Sets {
		if s.For == i && !s.Off {
			return max(0, s.Ready.Sub(s.At))
		}
	}
	return 0
}

// tools are those that a step has in use, its vessel among them.
func tools(s *plan.Step) (out []int) {
	for _, u := range s.Uses {
		out = append(out, u.Tool)
	}
	if s.Vessel != nil {
		out = append(out, s.Vessel.Tool)
	}
	return out
}
