package verify

import (
	"fmt"
	"time"

	"example.org/kettledrum/plan"
)

// takers returns the steps that take what step i made: those that follow it, and
// in place of a skipped one those that follow that.
func (c *checker) takers(i int) []int {
	var out []int
	for _, j := range c.followers[i] {
		if c.skipped(j) {
			out = append(out, c.takers(j)...)
		} else {
			out = append(out, j)
		}
	}
	return out
}

// kept returns the span in which what step i made is kept: from its end until the
// last that follows starts, until the planned serve where nothing does.
func (c *checker) kept(i int) span {
	out := span{c.slots[i].to, c.slots[i].to}
	takers := c.takers(i)
	for _, j := range takers {
		out.to = max(out.to, c.slots[j].from)
	}
	if len(takers) == 0 {
		out.to = max(out.to, c.serves[c.p.CourseOf(i)])
	}
	return out
}

// coldPlaces: a cold place that the kitchen counts holds all that stands in it:
// what is kept there, and what waits there.
func (c *checker) coldPlaces() {
	for _, cold := range c.p.Kitchen.Cold {
		needs := c.whileItLasts(func(i int) int {
			if s := c.p.Steps[i]; s.Cold == cold.Name {
				return s.ColdPlaces
			}
			return 0
		})
		for i, s := range c.p.Steps {
			if s.Keeps.Place == cold.Name && !c.skipped(i) {
				needs = append(needs, need{i, s.Keeps.Places, c.kept(i)})
			}
		}
		c.report(plan.BreakCold, c.over(needs, fixed(cold.Places)), func(o tooMuch) string {
			return fmt.Sprintf("%s: %s in the %s wanted, it has %d", c.names(o.steps), plan.Several(o.worst, "place"), cold.Name, cold.Places)
		})
	}
}

// inside is something in an oven: a step that bakes, or what a step made that is
// kept warm.
type inside struct {
	step int
	bake plan.Bake
	warm bool
	span
}

// inOven returns all that is in an oven at any time, by step.
func (c *checker) inOven(oven int) []inside {
	var out []inside
	for i, s := range c.slots {
		step := c.p.Steps[i]
		if c.skipped(i) {
			continue
		}
		if step.Oven != nil && s.Oven == oven {
			out = append(out, inside{i, *step.Oven, false, s.span})
		}
		if kept := c.kept(i); c.warmIn(i) == oven && !kept.empty() {
			out = append(out, inside{i, *step.Keeps.Warm, true, kept})
		}
	}
	return out
}

// warmIn returns the oven that keeps warm what step i made: the one the keep
// names, else the one the step is in, else the first; -1 where none is to.
func (c *checker) warmIn(i int) int {
	warm := c.p.Steps[i].Keeps.Warm
	switch {
	case warm == nil:
		return -1
	case warm.In >= 0:
		return warm.In
	}
	return max(c.slots[i].Oven, 0)
}

// shown is what is in an oven, as the cook reads it.
func (c *checker) shown(in inside) string {
	if in.warm {
		return c.p.StepName(in.step) + ", kept warm,"
	}
	return c.p.StepName(in.step)
}

// needsOf turns what is in an oven into needs of its space.
func needsOf(in []inside) []need {
	var out []need
	for _, x := range in {
		out = append(out, need{x.step, x.bake.Space, x.span})
	}
	return out
}

// shutDoors: while a step wants the door shut, nothing else goes in or out but in
// the moments in which that step does.
func (c *checker) shutDoors() {
	for oven := range c.p.Kitchen.Ovens {
		in := c.inOven(oven)
		for _, shut := range in {
			if !shut.bake.Shut {
				continue
			}
			for _, x := range in {
				if stays := x.warm && c.slots[x.step].Oven == oven; !stays {
					c.through(oven, shut, x, x.from, "goes into", !x.warm && c.startIsFact(x.step) || x.warm && c.endIsFact(x.step))
				}
				c.through(oven, shut, x, x.to, "comes out of", !x.warm && c.endIsFact(x.step))
			}
		}
	}
}

// through judges one opening of a door. Minutes are those to the nearer moment at
// which it may be opened.
func (c *checker) through(oven int, shut, x inside, at time.Duration, how string, fact bool) {
	if fact || at < c.since || at <= shut.from || shut.to <= at {
		return
	}
	c.stepBreak(plan.BreakOven, x.step, at, min(at-shut.from, shut.to-at), fmt.Sprintf("%s %s %s at %s, while %s wants its door shut from %s to %s",
		c.shown(x), how, c.oven(oven), c.clock(at), c.p.StepName(shut.step), c.clock(shut.from), c.clock(shut.to)))
}
