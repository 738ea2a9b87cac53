package planner

import (
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/solve"
)

// What still counts as hot off the heat; common practice.
const (
	// hotRest is the longest least rest after which a roast is still hot.
	hotRest = 30 * time.Minute
	// hotPlating is the longest last step of a dish that hands it on hot.
	hotPlating = 15 * time.Minute
	// coldKeep is how long a keep is written of food that is not meant to be
	// eaten hot.
	coldKeep = 2 * time.Hour
)

// hot counts the minutes that hot food waits until it is taken, whatever is
// written of how long it may.
func (j *job) hot(i int, taken solve.Point) {
	if j.isHot(i) {
		j.liked(solve.EndOf(i), taken, hotWait, 1)
	}
}

// isHot reports whether what step i made is hot and would suffer from standing:
// it comes off the heat, or has only rested or been plated since. What keeps for
// hours, or in a place of its own, is not.
func (j *job) isHot(i int) bool {
	s := &j.p.Steps[i]
	k := &s.Keeps
	switch {
	case k.Place != "", !k.Assumed && (k.Kind == plan.Freely || k.For > coldKeep):
		return false
	case s.Oven != nil || s.Burner != nil:
		return true
	case s.Length.Elastic:
		if !s.AtOnce || s.Cold != "" || s.Length.Shortest > hotRest {
			return false
		}
	case !j.last[i] || s.Length.Planned() > hotPlating:
		return false
	}
	for _, l := range s.After {
		if j.isHot(l.Step) {
			return true
		}
	}
	return false
}

// lastOfDishes tells which steps nothing follows.
func lastOfDishes(p *plan.Plan) []bool {
	last := make([]bool, len(p.Steps))
	for i := range last {
		last[i] = true
	}
	for i := range p.Steps {
		for _, l := range p.Steps[i].After {
			last[l.Step] = false
		}
	}
	return last
}

// Hot tells of each step whether what it made is hot and would suffer from standing:
// the minutes that it waits are what a timetable makes small, once nothing is late.
func Hot(p *plan.Plan) []bool {
	j := &job{p: p, last: lastOfDishes(p)}
	out := make([]bool, len(p.Steps))
	for i := range out {
		out[i] = j.isHot(i)
	}
	return out
}
