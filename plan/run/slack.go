package run

import (
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/network"
)

// Slacks returns the total float of every step: how much later than planned it
// may start with no course later, on the order that the timetable gives each
// resource.
//
// Courses are taken as the timetable has them. How long things keep, how long
// a wait may last, presence, minding and touches are not considered: they ask
// for a new timetable, not for an order. Zero for a skipped step, and for all
// steps where the timetable breaks the order of its own resources.
// Unit: whole minutes wherever the timetable is. Source: total float, Kelley and
// Walker, Critical-path planning and scheduling, 1959 (from memory).
func Slacks(p *plan.Plan, t *plan.Timetable) []time.Duration {
	s := blank(p)
	s.Timetable = t
	for i, slot := range t.Slots {
		if slot.Progress == plan.Skipped {
			s.Steps[i].Status = plan.Skipped
		}
	}
	o := orderOf(s, true)
	upper := make([]int64, o.net.Points())
	for v := range upper {
		upper[v] = network.NoUpper
	}
	for c, serve := range t.Serves {
		upper[o.serve(c)] = int64(serve.Sub(p.Table))
	}
	out := make([]time.Duration, len(p.Steps))
	latest, err := o.times(func(n *network.Network) ([]int64, error) { return n.Latest(upper) })
	if err != nil {
		return out
	}
	for i, slot := range t.Slots {
		if l := latest[o.start(i)]; l != network.NoUpper && !o.skipped(i) {
			out[i] = max(0, time.Duration(l)-slot.Start.Sub(p.Table))
		}
	}
	return out
}
