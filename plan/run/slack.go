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
// What keeps warm in an oven finds it as it is to be: a bake before it may not end so
// late that the oven is still changing over. Courses are taken as the timetable has them. How long things keep, how long
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
	o.warm()
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

// warm has the bakes that an oven is set to something else after end before that has
// changed over to what keeps warm there.
func (o *order) warm() {
	p, t := o.s.Plan, o.s.Timetable
	for i, step := range p.Steps {
		w := step.Keeps.Warm
		if w == nil || o.skipped(i) {
			continue
		}
		in := w.In
		if in < 0 {
			in = max(0, t.Slots[i].Oven)
		}
		oven := ovenOf(p, in)
		for b, bake := range p.Steps {
			if bake.Oven == nil || o.skipped(b) || t.Slots[b].Oven != in || t.Slots[b].End.After(t.Slots[i].End) {
				continue
			}
			at := dialOf(p, t, b)
			takes := (oven.Change(at, min(max(at, w.Lo), w.Hi)) + time.Minute - 1).Truncate(time.Minute)
			if takes > 0 {
				o.arc(o.end(b), o.end(i), min(takes, t.Slots[i].End.Sub(t.Slots[b].End)))
			}
		}
	}
}
