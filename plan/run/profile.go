package run

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// OvenProfile returns the temperature of an oven at some instants: as it was, and
// as it will be if everything goes as projected at now.
//
// Shape: one entry for each instant. Without a timetable it is the room's.
// Cost: a projection, and O(T) an instant for T turns of the dial.
func OvenProfile(s *State, now time.Time, oven int, at []time.Time) []plan.Celsius {
	out := make([]plan.Celsius, len(at))
	if s = s.At(now); s.Timetable == nil {
		for i := range out {
			out[i] = s.Plan.Kitchen.Room
		}
		return out
	}
	pr := projectAt(s, now)
	c := curveOf(pr.order, pr, oven)
	for k := range pr.sets {
		if set, v := &pr.sets[k], pr.set(k); set.Oven == oven && !pr.settled(v) {
			c.turns = append(c.turns, dial{pr.at(v), set.To, set.Off})
		}
	}
	slices.SortStableFunc(c.turns, func(a, b dial) int { return a.at.Compare(b.at) })
	for i, t := range at {
		out[i] = c.at(t)
	}
	return out
}

// toSet are the oven settings that are still to come, as projected.
func (pr *projected) toSet() []plan.OvenSet {
	var out []plan.OvenSet
	for k := range pr.sets {
		if v := pr.set(k); !pr.settled(v) {
			set := pr.sets[k].OvenSet
			set.At = pr.at(v)
			set.Ready = set.At.Add(pr.sets[k].takes)
			out = append(out, set)
		}
	}
	return out
}
