package verify

import (
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// near is how far a computed temperature may be past what is accepted: rounding,
// far below what a dial can do.
const near = 0.05

// rightOven: a step that needs an oven has one, and the one it asks for; any
// other step has none.
func (c *checker) rightOven() {
	for i, s := range c.slots {
		text, bake := "", c.p.Steps[i].Oven
		switch {
		case c.past(i):
		case bake == nil && s.Oven >= 0:
			text = fmt.Sprintf("%s needs no oven, yet is in %s", c.p.StepName(i), c.oven(s.Oven))
		case bake != nil && s.Oven < 0:
			text = c.p.StepName(i) + " is in no oven"
		case bake != nil && bake.In >= 0 && bake.In != s.Oven:
			text = fmt.Sprintf("%s is in %s, it asks for %s", c.p.StepName(i), c.oven(s.Oven), c.oven(bake.In))
		case bake != nil && c.p.Kitchen.Ovens[s.Oven].Shelves == 0:
			text = fmt.Sprintf("%s is in %s, which does not work", c.p.StepName(i), c.oven(s.Oven))
		}
		if text != "" {
			c.allOf(plan.BreakOven, i, text)
		}
	}
}

// space: an oven holds all that is in it, baking or kept warm. Of one that does not
// work it is told elsewhere.
func (c *checker) space() {
	for oven, o := range c.p.Kitchen.Ovens {
		if o.Shelves == 0 {
			continue
		}
		c.report(plan.BreakSpace, c.over(needsOf(c.inOven(oven)), fixed(o.Shelves)), func(t tooMuch) string {
			return fmt.Sprintf("%s: %s wanted, %s has %s", c.names(t.steps), plan.SpellShelves(t.worst), o.Name, plan.SpellShelves(o.Shelves))
		})
	}
}

// temperatures: an oven is at a temperature that suits each step in it, from its
// start to its end, and all that it keeps warm.
func (c *checker) temperatures() {
	for oven := range c.p.Kitchen.Ovens {
		v := c.curve(oven)
		for _, in := range c.inOven(oven) {
			if in.to > c.since {
				c.temperature(v, oven, in)
			}
		}
	}
}

// temperature looks at every minute in an oven, and at every setting meanwhile,
// for between two of those the curve has no peak.
func (c *checker) temperature(v *curve, oven int, in inside) {
	var bad []time.Duration // a stretch of moments that do not suit
	report := func(good time.Duration) {
		if len(bad) == 0 {
			return
		}
		at, long := bad[0], max(good-bad[0], time.Minute)
		c.stepBreak(plan.BreakOven, in.step, at, long, fmt.Sprintf("%s wants %s: %s is at %s at %s, wrong for %s",
			c.shown(in), c.temps(in.bake.Lo, in.bake.Hi), c.oven(oven), c.p.Units.Temp(plan.Celsius(v.temp(at))), c.clock(at), plan.Spell(long)))
		bad = nil
	}
	for _, at := range c.moments(v, in.span) {
		if c.suits(v, oven, in, at) {
			report(at)
		} else {
			bad = append(bad, at)
		}
	}
	report(in.to)
}

// moments are those at which what is in an oven is looked at, by time.
func (c *checker) moments(v *curve, s span) []time.Duration {
	from := max(s.from, c.since)
	out := []time.Duration{from}
	for m := up(from); m < s.to; m += time.Minute {
		out = append(out, m)
	}
	for _, l := range v.legs {
		if from <= l.at && l.at <= s.to {
			out = append(out, l.at)
		}
	}
	out = append(out, s.to)
	slices.Sort(out)
	return slices.Compact(out)
}

// suits reports whether what is in an oven accepts its temperature at a moment. A
// bake that follows another of its dish at once stays in the oven, as does what is
// kept warm where it was baked: it accepts what lies between the two as long as
// the oven is on its way from one to the other.
func (c *checker) suits(v *curve, oven int, in inside, at time.Duration) bool {
	b, temp := in.bake, v.temp(at)
	if within(temp, b.Lo, b.Hi) {
		return true
	}
	l, on := v.leg(at)
	if at == in.to { // the dial may be turned the moment it comes out
		l, on = v.leg(at - 1)
	}
	if !on || !within(l.to, b.Lo, b.Hi) {
		return false
	}
	return slices.ContainsFunc(c.phasesBefore(in), func(before int) bool {
		a := c.p.Steps[before].Oven
		return a != nil && c.slots[before].Oven == oven && within(temp, min(a.Lo, b.Lo), max(a.Hi, b.Hi))
	})
}

// phasesBefore returns the steps out of whose oven this goes on, if it is the same.
func (c *checker) phasesBefore(in inside) []int {
	step := c.p.Steps[in.step]
	var out []int
	switch {
	case in.warm:
		out = []int{in.step}
	case step.AtOnce:
		for _, l := range step.After {
			if !c.skipped(l.Step) && c.p.Steps[l.Step].Dish == step.Dish {
				out = append(out, l.Step)
			}
		}
	}
	return out
}

func within(temp float64, lo, hi plan.Celsius) bool {
	return float64(lo)-near <= temp && temp <= float64(hi)+near
}

// longestRamp is how far ahead the time is looked for at which an oven is ready.
const longestRamp = 24 * time.Hour

// settings: a setting is for a step that bakes or is kept warm in that oven, and says rightly
// when the oven is ready for it.
func (c *checker) settings() {
	for oven := range c.p.Kitchen.Ovens {
		v := c.curve(oven)
		for _, s := range c.sets(oven) {
			at := c.off(s.At)
			if s.Off || at < c.since || c.skipped(s.For) {
				continue
			}
			bake := c.setFor(s)
			if bake == nil {
				c.stepBreak(plan.BreakOven, s.For, at, 0, fmt.Sprintf("%s is set at %s for %s, which is not in it", c.oven(oven), c.clock(at), c.p.StepName(s.For)))
				continue
			}
			c.ready(v, s, *bake)
		}
	}
}

// setFor returns what a setting is for: the bake of its step in that oven, or, once
// that is over or where there is none, the warmth it is kept at; nil for neither.
func (c *checker) setFor(s plan.OvenSet) *plan.Bake {
	step, slot := c.p.Steps[s.For], c.slots[s.For]
	bakes := step.Oven != nil && slot.Oven == s.Oven
	switch {
	case c.warmIn(s.For) == s.Oven && (!bakes || c.off(s.At) >= slot.to):
		return step.Keeps.Warm
	case bakes:
		return step.Oven
	}
	return nil
}

// ready judges OvenSet.Ready: the first whole minute at which the step's range
// is reached. A crossing within rounding of a whole minute may be told either way.
func (c *checker) ready(v *curve, s plan.OvenSet, b plan.Bake) {
	at, told := c.off(s.At), c.off(s.Ready)
	start := v.temp(at)
	for m := up(at); m <= at+longestRamp; m += time.Minute {
		temp := v.after(start, float64(s.To), m-at)
		if !within(temp, b.Lo, b.Hi) {
			continue
		}
		narrow := within(temp, b.Lo+2*near, b.Hi-2*near)
		if told != m && (narrow || told != m+time.Minute) {
			c.stepBreak(plan.BreakOven, s.For, at, (told - m).Abs(), fmt.Sprintf("%s: %s is said to be ready at %s, it is at %s", c.p.StepName(s.For), c.oven(s.Oven), c.clock(told), c.clock(m)))
		}
		return
	}
	c.stepBreak(plan.BreakOven, s.For, at, 0, fmt.Sprintf("%s: %s is set to %s at %s, %s wanted", c.p.StepName(s.For), c.oven(s.Oven), c.p.Units.Temp(s.To), c.clock(at), c.temps(b.Lo, b.Hi)))
}
