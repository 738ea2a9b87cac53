package verify

import (
	"fmt"
	"math"

	"example.org/kettledrum/plan"
)

// grills: what is under the grill shares the oven with nothing but that.
func (c *checker) grills() {
	for oven := range c.p.Kitchen.Ovens {
		in := c.inOven(oven)
		for k, a := range in {
			for _, b := range in[:k] {
				both := c.judged(a.span).and(c.judged(b.span))
				if a.bake.Grill == b.bake.Grill || both.empty() {
					continue
				}
				later, first := a, b
				if a.from < b.from {
					later, first = b, a
				}
				c.stepBreak(plan.BreakOven, later.step, both.from, both.long(), fmt.Sprintf("%s is in %s with %s for %s, a grill shares with nothing",
					c.shown(later), c.oven(oven), c.shown(first), plan.Spell(both.long())))
			}
		}
	}
}

// grillOn: the dial stands on the grill for what is under it, and on a
// temperature for all else. What is in with what the dial is set for is told by
// grills.
func (c *checker) grillOn() {
	for oven := range c.p.Kitchen.Ovens {
		sets, inside := c.sets(oven), c.inOven(oven)
		for k, s := range sets {
			if s.Off || s.For < 0 || c.skipped(s.For) {
				continue
			}
			bake := c.setFor(s)
			if bake == nil {
				continue
			}
			on := span{c.off(s.At), math.MaxInt64}
			if k+1 < len(sets) {
				on.to = c.off(sets[k+1].At)
			}
			before, after := on, span{on.to, on.to}
			for _, in := range inside {
				if in.step == s.For && in.bake.Grill == bake.Grill {
					before.to, after.from = min(on.to, in.from), max(on.from, in.to)
				}
			}
			kind := "not to grill"
			if bake.Grill {
				kind = "to grill"
			}
			for _, in := range inside {
				for _, part := range []span{before, after} {
					both := c.judged(in.span).and(part)
					if in.bake.Grill == bake.Grill || both.empty() {
						continue
					}
					c.stepBreak(plan.BreakOven, in.step, both.from, both.long(), fmt.Sprintf("%s has %s set for %s, %s, for %s",
						c.shown(in), c.oven(oven), c.p.StepName(s.For), kind, plan.Spell(both.long())))
				}
			}
		}
	}
}
