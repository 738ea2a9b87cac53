package verify

import (
	"fmt"

	"example.org/kettledrum/plan"
)

// chores: a step of no dish starts neither before the course it comes after is
// served, nor earlier than it may be done. That it ends by the serve of its course
// holds for it as for any step.
func (c *checker) chores() {
	for i, s := range c.slots {
		d := c.p.Dishes[c.p.Steps[i].Dish]
		if d.Chore == nil || c.skipped(i) {
			continue
		}
		if after := d.Chore.After; after >= 0 && !(c.startIsFact(i) && c.serveIsFact(after)) {
			if over := c.serves[after] - s.from; over > 0 {
				c.stepBreak(plan.BreakOrder, i, s.from, over, fmt.Sprintf("%s starts %s before %s is served", c.p.StepName(i), plan.Spell(over), c.p.Courses[after].Name))
			}
		}
		first := c.off(c.p.CookDay())
		if d.Chore.HasAhead {
			first = c.off(c.p.Asked(d.Course)) - up(d.Chore.Ahead)
		}
		if over := first - s.from; over > 0 && !c.startIsFact(i) {
			c.stepBreak(plan.BreakEarly, i, s.from, over, fmt.Sprintf("%s starts %s before %s, the earliest it may", c.p.StepName(i), plan.Spell(over), c.clock(first)))
		}
	}
}
