package verify

import (
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// need is what one step takes of something countable, from its start to its end.
type need struct {
	step, amount int
}

// tooMuch is a maximal stretch of minutes in which more is needed than there is.
type tooMuch struct {
	span
	steps         []int // going on in its first minute
	worst, allows int   // in the minute that is farthest over
}

// lastOf returns the step to name for a stretch: the last to start.
func (c *checker) lastOf(steps []int) int {
	return slices.MaxFunc(steps, func(a, b int) int {
		if d := c.slots[a].from - c.slots[b].from; d != 0 {
			return int(d / time.Second)
		}
		return a - b
	})
}

// over counts minute by minute and returns where the needs of the steps exceed
// what there is.
func (c *checker) over(needs []need, there func(m time.Duration) int) []tooMuch {
	var all span
	for k, n := range needs {
		s := c.judged(c.slots[n.step])
		if k == 0 {
			all = s
		}
		all = span{min(all.from, s.from), max(all.to, s.to)}
	}
	taken := make([]int, (all.to-all.from)/time.Minute+1)
	for _, n := range needs {
		s := c.judged(c.slots[n.step])
		for m := s.from; m < s.to; m += time.Minute {
			taken[(m-all.from)/time.Minute] += n.amount
		}
	}
	at := func(m time.Duration) int { return taken[(m-all.from)/time.Minute] }
	var out []tooMuch
	for _, s := range stretches(all, func(m time.Duration) bool { return at(m) > 0 && at(m) > there(m) }) {
		o := tooMuch{span: s, worst: at(s.from), allows: there(s.from)}
		for _, n := range needs {
			if c.slots[n.step].holds(s.from) && !slices.Contains(o.steps, n.step) {
				o.steps = append(o.steps, n.step)
			}
		}
		for m := s.from; m < s.to; m += time.Minute {
			if at(m)-there(m) > o.worst-o.allows {
				o.worst, o.allows = at(m), there(m)
			}
		}
		out = append(out, o)
	}
	return out
}

// needs collects what the steps that are still to be judged need.
func (c *checker) needs(amount func(i int) int) []need {
	var out []need
	for i := range c.slots {
		if c.past(i) {
			continue
		}
		if n := amount(i); n > 0 {
			out = append(out, need{i, n})
		}
	}
	return out
}

// report notes each stretch as a break of its last step.
func (c *checker) report(kind plan.BreakKind, overs []tooMuch, text func(o tooMuch) string) {
	for _, o := range overs {
		long := o.to - o.from
		c.stepBreak(kind, c.lastOf(o.steps), o.from, long, fmt.Sprintf("%s, for %s from %s", text(o), length(long), c.clock(o.from)))
	}
}

func fixed(n int) func(time.Duration) int { return func(time.Duration) int { return n } }

// rightBurner: a step that needs a burner stands on one that is large enough,
// any other step on none.
func (c *checker) rightBurner() {
	for i, s := range c.slots {
		text, use := "", c.p.Steps[i].Burner
		switch {
		case c.past(i):
		case use == nil && s.Burner != plan.AnyBurner:
			text = fmt.Sprintf("%s needs no burner, yet stands on a %s one", c.name(i), s.Burner)
		case use != nil && s.Burner == plan.AnyBurner:
			text = c.name(i) + " stands on no burner"
		case use != nil && use.Size == plan.Large && s.Burner != plan.Large:
			text = fmt.Sprintf("%s needs a large burner, it stands on a %s one", c.name(i), s.Burner)
		}
		if text != "" {
			c.allOf(plan.BreakBurner, i, text)
		}
	}
}

// burners: no more pots stand on the burners of a size than there are.
func (c *checker) burners() {
	there := map[plan.BurnerSize]int{plan.Small: c.p.Kitchen.Burners.Small, plan.Large: c.p.Kitchen.Burners.Large}
	for _, size := range []plan.BurnerSize{plan.Small, plan.Large} {
		needs := c.needs(func(i int) int {
			if use := c.p.Steps[i].Burner; use != nil && c.slots[i].Burner == size {
				return use.Count
			}
			return 0
		})
		c.report(plan.BreakBurner, c.over(needs, fixed(there[size])), func(o tooMuch) string {
			return fmt.Sprintf("%s: %d %s burners wanted, the kitchen has %d", c.names(o.steps), o.worst, size, there[size])
		})
	}
}

// tools: no more of a tool is in use than there is.
func (c *checker) tools() {
	for t, tool := range c.p.Kitchen.Tools {
		needs := c.needs(func(i int) int {
			sum := 0
			for _, u := range c.p.Steps[i].Uses {
				if u.Tool == t {
					sum += u.Count
				}
			}
			return sum
		})
		c.report(plan.BreakTool, c.over(needs, fixed(tool.Count)), func(o tooMuch) string {
			return fmt.Sprintf("%s: %d of %s wanted, the kitchen has %d", c.names(o.steps), o.worst, tool.Name, tool.Count)
		})
	}
}

// minding: no more pots are going than the cooks who are there can mind; a cook
// who is tied to a step minds all the same.
func (c *checker) minding() {
	needs := c.needs(func(i int) int {
		if c.p.Steps[i].Hands == plan.Near {
			return 1
		}
		return 0
	})
	minds := func(m time.Duration) int {
		sum := 0
		for cook := range c.free {
			if c.present(cook, m) {
				sum += c.p.Kitchen.Minds
			}
		}
		return sum
	}
	c.report(plan.BreakMinding, c.over(needs, minds), func(o tooMuch) string {
		return fmt.Sprintf("%s: %d to mind, whoever is there can mind %d", c.names(o.steps), o.worst, o.allows)
	})
}
