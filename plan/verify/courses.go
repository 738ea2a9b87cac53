package verify

import (
	"fmt"

	"example.org/kettledrum/plan"
)

// notEarly: a course comes neither before it is asked for, nor before the guests
// are through with the one before.
func (c *checker) notEarly() {
	for i, at := range c.serves {
		if c.serveIsFact(i) {
			continue
		}
		name := c.p.Courses[i].Name
		if asked := c.off(c.p.Asked(i)); at < asked {
			c.courseBreak(plan.BreakEarly, i, asked-at, fmt.Sprintf("%s is served %s before %s, when it is asked for", name, plan.Spell(asked-at), c.clock(asked)))
		}
		if i == 0 {
			continue
		}
		before := c.p.Courses[i-1]
		if through := c.serves[i-1] + up(before.Seated); at < through {
			c.courseBreak(plan.BreakEarly, i, through-at, fmt.Sprintf("%s is served %s before the guests are through with %s", name, plan.Spell(through-at), before.Name))
		}
	}
}

// notLate: a course is no later than is tolerated.
func (c *checker) notLate() {
	for i, at := range c.serves {
		asked, ok := c.off(c.p.Asked(i)), up(c.p.Courses[i].LateOK)
		if over := at - asked - ok; over > 0 && !c.serveIsFact(i) {
			c.courseBreak(plan.BreakLate, i, over, fmt.Sprintf("%s is served %s late, %s at most", c.p.Courses[i].Name, plan.Spell(at-asked), plan.Spell(ok)))
		}
	}
}
