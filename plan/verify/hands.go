package verify

import (
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// rightCook: a step that takes a cook has one, and the one it asks for; a step
// that takes none has none.
func (c *checker) rightCook() {
	for i, s := range c.slots {
		step := c.p.Steps[i]
		if c.past(i) {
			continue
		}
		text := ""
		switch {
		case step.Hands.Working() && s.Cook < 0:
			text = c.p.StepName(i) + " has nobody to do it"
		case step.Hands.Working() && step.By >= 0 && s.Cook != step.By:
			text = fmt.Sprintf("%s is done by %s, it asks for %s", c.p.StepName(i), c.cook(s.Cook), c.cook(step.By))
		case !step.Hands.Working() && s.Cook >= 0:
			text = fmt.Sprintf("%s takes no cook, yet has %s", c.p.StepName(i), c.cook(s.Cook))
		default:
			continue
		}
		c.allOf(plan.BreakHands, i, text)
	}
}

// present reports whether a cook is there for the minute from m, at table or not.
func (c *checker) present(cook int, m time.Duration) bool {
	return slices.ContainsFunc(c.free[cook], func(w span) bool { return w.holds(m) })
}

// works reports whether step i takes a cook in minutes that are judged.
func (c *checker) works(i int) bool {
	return !c.past(i) && c.p.Steps[i].Hands.Working() && c.slots[i].Cook >= 0
}

// presence: whoever does a step is there from its start to its end, but for as long
// as it stands still.
func (c *checker) presence() {
	for i, s := range c.slots {
		if !c.works(i) {
			continue
		}
		still := up(s.Still)
		missed := stretches(s.span, func(m time.Duration) bool {
			if c.present(s.Cook, m) {
				return false
			}
			still -= time.Minute
			return still < 0
		})
		for _, away := range missed {
			if away = c.judged(away); away.empty() {
				continue
			}
			c.stepBreak(plan.BreakHands, i, away.from, away.long(),
				fmt.Sprintf("%s: %s is not there for %s from %s", c.p.StepName(i), c.cook(s.Cook), plan.Spell(away.long()), c.clock(away.from)))
		}
	}
}

// oneThingAtATime: a cook does one step at a time.
func (c *checker) oneThingAtATime() {
	for i := range c.slots {
		for j := range i {
			if !c.works(i) || !c.works(j) || c.slots[i].Cook != c.slots[j].Cook {
				continue
			}
			both := c.judged(c.slots[i].span).and(c.judged(c.slots[j].span))
			if both.empty() {
				continue
			}
			first, later := j, i
			if c.slots[i].from < c.slots[j].from {
				first, later = i, j
			}
			c.stepBreak(plan.BreakHands, later, both.from, both.long(),
				fmt.Sprintf("%s: %s is at %s for %s more", c.p.StepName(later), c.cook(c.slots[i].Cook), c.p.NameBeside(first, later), plan.Spell(both.long())))
		}
	}
}

// stretches returns the maximal stretches of minutes in s for which bad holds.
func stretches(s span, bad func(m time.Duration) bool) []span {
	var out []span
	for m := s.from; m < s.to; m += time.Minute {
		switch {
		case !bad(m):
		case len(out) > 0 && out[len(out)-1].to == m:
			out[len(out)-1].to = m + time.Minute
		default:
			out = append(out, span{m, m + time.Minute})
		}
	}
	return out
}
