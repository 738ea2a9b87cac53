package run

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
)

// dial is one turn of an oven's dial.
type dial struct {
	at  time.Time
	to  plan.Celsius
	off bool
}

// curve is what an oven's dial did, by time. It starts cold.
type curve struct {
	model heat.Oven
	turns []dial
}

// curveOf gathers what was told of an oven, what follows from the steps that
// have begun, and, with a projection, what is assumed of what nobody answered.
func curveOf(o *order, pr *projected, oven int) curve {
	c := curve{model: ovenOf(o.s.Plan, oven)}
	for _, f := range o.s.Sets {
		if f.Oven == oven {
			c.turns = append(c.turns, dial{f.At, f.To, f.Off})
		}
	}
	for k := range o.sets {
		set := &o.sets[k]
		if set.Oven != oven || !set.told.IsZero() {
			continue
		}
		switch {
		case set.moot && set.For >= 0 && o.skipped(set.For):
		case set.moot:
			at := set.At
			if set.For >= 0 && o.s.Steps[set.For].Started.Before(at) {
				at = o.s.Steps[set.For].Started
			}
			if !o.s.broken(oven, at) {
				c.turns = append(c.turns, dial{at, set.To, set.Off})
			}
		case pr != nil && pr.isAssumed(o.set(k)):
			c.turns = append(c.turns, dial{pr.at(o.set(k)), set.To, set.Off})
		}
	}
	slices.SortStableFunc(c.turns, func(a, b dial) int { return a.at.Compare(b.at) })
	return c
}

// at returns the oven's temperature at an instant.
func (c curve) at(now time.Time) plan.Celsius {
	temp := c.model.Room
	for i, t := range c.turns {
		until := now
		if i+1 < len(c.turns) && c.turns[i+1].at.Before(now) {
			until = c.turns[i+1].at
		}
		if !t.at.Before(until) {
			continue
		}
		temp = c.model.After(temp, t.to, t.off, until.Sub(t.at))
	}
	return temp
}

// last returns the dial as it stands at an instant.
func (c curve) last(now time.Time) (dial, bool) {
	for _, t := range slices.Backward(c.turns) {
		if !t.at.After(now) {
			return t, true
		}
	}
	return dial{}, false
}

// oven tells what one oven is doing now and next.
func (pr *projected) oven(i int) OvenMoment {
	m := OvenMoment{Oven: i}
	c := curveOf(pr.order, pr, i)
	m.Temp = c.at(pr.now)
	if d, ok := c.last(pr.now); ok && !d.off {
		m.On, m.Set = true, d.to
		if left := c.model.Change(m.Temp, m.Set); left > 0 && left != heat.Never {
			m.Ready = pr.now.Add(left)
		}
	}
	for j := range pr.s.Steps {
		if pr.s.Plan.Steps[j].Oven != nil && pr.s.Timetable.Slots[j].Oven == i && !pr.skipped(j) &&
			pr.settled(pr.start(j)) && !pr.settled(pr.end(j)) {
			m.Inside = append(m.Inside, j)
		}
	}
	for k := range pr.sets {
		if v := pr.set(k); pr.sets[k].Oven == i && !pr.settled(v) {
			next := pr.sets[k].OvenSet
			next.At = pr.at(v)
			next.Ready = next.At.Add(pr.sets[k].takes)
			m.Next = &next
			break
		}
	}
	return m
}
