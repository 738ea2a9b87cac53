package verify

import (
	"fmt"
	"time"

	"example.org/kettledrum/plan"
)

// eachLink calls f for every link that is judged: neither of its steps is
// skipped, nor are both of its moments facts. gap is from the end of the step
// before to the start of step j.
func (c *checker) eachLink(f func(j int, l plan.Link, gap time.Duration)) {
	for j, s := range c.p.Steps {
		for _, l := range s.After {
			if c.skipped(j) || c.skipped(l.Step) || c.startIsFact(j) && c.endIsFact(l.Step) {
				continue
			}
			f(j, l, c.slots[j].from-c.slots[l.Step].to)
		}
	}
}

// gaps: a step starts no sooner after another, and no later, than the plan says.
func (c *checker) gaps() {
	c.eachLink(func(j int, l plan.Link, gap time.Duration) {
		at, before := c.slots[j].from, c.p.NameBeside(l.Step, j)
		switch least, most := up(l.Min), up(l.Max); {
		case gap < 0:
			c.stepBreak(plan.BreakOrder, j, at, least-gap, fmt.Sprintf("%s starts %s before %s ends", c.p.StepName(j), plan.Spell(-gap), before))
		case gap < least:
			c.stepBreak(plan.BreakOrder, j, at, least-gap, fmt.Sprintf("%s starts %s after %s, %s at least", c.p.StepName(j), plan.Spell(gap), before, plan.Spell(least)))
		case l.HasMax && gap > most:
			c.stepBreak(plan.BreakGap, j, at, gap-most, fmt.Sprintf("%s starts %s after %s, %s at most", c.p.StepName(j), plan.Spell(gap), before, plan.Spell(most)))
		}
	})
}

// orderPassedOn: a step that follows a skipped one still starts no sooner than
// those end that the skipped one follows.
func (c *checker) orderPassedOn() {
	for j := range c.p.Steps {
		seen := map[int]bool{}
		for _, l := range c.p.Steps[j].After {
			seen[l.Step] = !c.skipped(l.Step) // judged by gaps
		}
		var look func(i int)
		look = func(i int) {
			for _, l := range c.p.Steps[i].After {
				before := l.Step
				if seen[before] {
					continue
				}
				seen[before] = true
				switch {
				case c.skipped(before):
					look(before)
				case !c.startIsFact(j) || !c.endIsFact(before):
					if over := c.slots[before].to - c.slots[j].from; over > 0 {
						c.stepBreak(plan.BreakOrder, j, c.slots[j].from, over, fmt.Sprintf("%s starts %s before %s ends", c.p.StepName(j), plan.Spell(over), c.p.NameBeside(before, j)))
					}
				}
			}
		}
		if !c.skipped(j) {
			look(j)
		}
	}
}

// atOnce: a step that follows at once starts the moment the last before it ends.
// Starting sooner is a matter of order.
func (c *checker) atOnce() {
	for j, s := range c.p.Steps {
		last, judged := -1, !c.startIsFact(j)
		for _, l := range s.After {
			if c.skipped(l.Step) {
				continue
			}
			judged = judged || !c.endIsFact(l.Step)
			if last < 0 || c.slots[l.Step].to > c.slots[last].to {
				last = l.Step
			}
		}
		if !s.AtOnce || last < 0 || !judged || c.skipped(j) {
			continue
		}
		if gap := c.slots[j].from - c.slots[last].to; gap > 0 {
			c.stepBreak(plan.BreakGap, j, c.slots[j].from, gap, fmt.Sprintf("%s starts %s after %s, it is to start at once", c.p.StepName(j), plan.Spell(gap), c.p.NameBeside(last, j)))
		}
	}
}

// keeps: what a step made waits for a follower no longer than it may. A stated
// greatest gap stands in for a keep that is only assumed.
func (c *checker) keeps() {
	c.eachLink(func(j int, l plan.Link, gap time.Duration) {
		if !l.HasMax || !c.p.Steps[l.Step].Keeps.Assumed {
			c.keep(l.Step, gap, c.p.NameBeside(j, l.Step))
		}
	})
}

// keepsToServe: what nothing follows waits for the serve of its course.
func (c *checker) keepsToServe() {
	for i, followers := range c.p.Followers() {
		course := c.p.CourseOf(i)
		if len(followers) > 0 || c.skipped(i) || c.endIsFact(i) && c.serveIsFact(course) {
			continue
		}
		c.keep(i, c.serves[course]-c.slots[i].to, c.p.Courses[course].Name)
	}
}

// keep judges one wait of what step i made.
func (c *checker) keep(i int, wait time.Duration, until string) {
	k := c.p.Steps[i].Keeps
	liked, most := up(k.For), up(k.AtMost)
	if k.Kind == plan.Limit {
		most = liked
	}
	report := func(kind plan.BreakKind, over time.Duration, words string) {
		limit := plan.Spell(over) + " " + words
		if over == 0 {
			limit = "and may not wait"
		}
		text := fmt.Sprintf("%s waits %s for %s, %s", c.p.StepName(i), plan.Spell(wait), until, limit)
		c.stepBreak(kind, i, c.slots[i].to+over, wait-over, text)
	}
	switch {
	case k.Kind == plan.Freely:
	case wait > most:
		report(plan.BreakKeep, most, "at most")
	case wait > liked:
		report(plan.BreakLiking, liked, "liked")
	}
}

// readyToServe: a step ends by the planned serve of its course.
func (c *checker) readyToServe() {
	for i, s := range c.slots {
		course := c.p.CourseOf(i)
		if c.skipped(i) || c.endIsFact(i) && c.serveIsFact(course) {
			continue
		}
		if over := s.to - c.serves[course]; over > 0 {
			c.stepBreak(plan.BreakOrder, i, c.serves[course], over, fmt.Sprintf("%s ends %s after %s is served", c.p.StepName(i), plan.Spell(over), c.p.Courses[course].Name))
		}
	}
}
