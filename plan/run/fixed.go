package run

import (
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/network"
)

// Fixed is the order of a timetable on every resource as a network, before
// anything has happened: what Project moves along, for whoever runs a dinner many
// times (package risk). Points and weights are as in order; ticks are nanoseconds
// after the plan's table.
type Fixed struct {
	// Arcs are those that the timetable keeps. Back tells of each whether it only
	// keeps two points together and holds nobody up.
	Arcs []network.Arc
	Back []bool
	// Lower is when each point may come at the earliest: as planned.
	Lower []int64
	// Leads is, of a step that starts at once, the step whose end it starts with; −1
	// for none.
	Leads []int
	// Asks reports of each wait that its end is for the cook to tell.
	Asks []bool

	steps, sets int
}

// FixedOf returns the order of a timetable whose steps are all ahead.
func FixedOf(p *plan.Plan, t *plan.Timetable) *Fixed {
	s := blank(p)
	s.Timetable = t
	pr := &projected{order: orderOf(s, true), base: p.Table}
	lower := pr.lower()
	// What the timetable itself breaks is no order: times drops it.
	if _, err := pr.times(func(n *network.Network) ([]int64, error) { return n.Earliest(lower) }); err != nil {
		pr.order = orderOf(s, false)
		lower = pr.lower()
	}
	f := &Fixed{Lower: lower, steps: len(p.Steps), sets: len(pr.sets)}
	for _, a := range pr.net.Arcs() {
		f.Arcs, f.Back = append(f.Arcs, a), append(f.Back, a.Tag == back)
	}
	for i := range p.Steps {
		f.Leads = append(f.Leads, pr.leads(i))
		f.Asks = append(f.Asks, pr.ends(i))
	}
	return f
}

// Start returns the point at which step i starts; End, at which it ends; Set, at
// which setting k of the timetable is done; Serve, at which course c is served.
func (f *Fixed) Start(i int) int { return 2 * i }

// End is described with Start.
func (f *Fixed) End(i int) int { return 2*i + 1 }

// Set is described with Start.
func (f *Fixed) Set(k int) int { return 2*f.steps + k }

// Serve is described with Start.
func (f *Fixed) Serve(c int) int { return 2*f.steps + f.sets + c }

// SetLag returns how long after an oven's dial is turned the oven suits a bake, when
// it has a temperature then; as planned, ready after the time planned, where it never
// does. As lag of the order has it.
func SetLag(p *plan.Plan, set plan.OvenSet, bake *plan.Bake, temp plan.Celsius) time.Duration {
	return readyAfter(ovenOf(p, set.Oven), bake, temp, max(0, set.Ready.Sub(set.At)))
}
