package verify

import (
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// need is what is taken of something countable for the sake of a step: while it
// lasts, or longer.
type need struct {
	step, amount int
	span
}

// tooMuch is a maximal stretch of minutes in which more is needed than there is.
type tooMuch struct {
	span
	steps         []int // whose needs are there in its first minute
	last          int   // the last of them to begin
	worst, allows int   // where it is farthest over
}

// whileItLasts collects what each step needs from its start to its end.
func (c *checker) whileItLasts(amount func(i int) int) []need {
	var out []need
	for i, s := range c.slots {
		if n := amount(i); n > 0 && !c.skipped(i) {
			out = append(out, need{i, n, s.span})
		}
	}
	return out
}

// over counts from since on and returns where the needs exceed what there is.
// What there is may be another only from each moment of changes on. All numbers
// hold still between two moments at which a need begins or ends or there is more
// or less, so each such span is looked at once, however long it is.
func (c *checker) over(needs []need, there func(m time.Duration) int, changes ...time.Duration) []tooMuch {
	cuts := slices.Clone(changes)
	var live []need
	for _, n := range needs {
		if n.span = c.judged(n.span); !n.empty() {
			live, cuts = append(live, n), append(cuts, n.from, n.to)
		}
	}
	slices.Sort(cuts)
	cuts = slices.Compact(cuts)
	var out []tooMuch
	for k := range max(0, len(cuts)-1) {
		s := span{cuts[k], cuts[k+1]}
		taken, allows := 0, there(s.from)
		for _, n := range live {
			if n.holds(s.from) {
				taken += n.amount
			}
		}
		switch {
		case taken == 0 || taken <= allows:
			continue
		case len(out) == 0 || out[len(out)-1].to != s.from:
			out = append(out, beginning(s, live))
		}
		o := &out[len(out)-1]
		o.to = s.to
		if taken-allows > o.worst-o.allows {
			o.worst, o.allows = taken, allows
		}
	}
	return out
}

// beginning starts a stretch with the steps whose needs are there at its start.
func beginning(s span, needs []need) tooMuch {
	o := tooMuch{span: s}
	var last need
	for _, n := range needs {
		if !n.holds(s.from) || slices.Contains(o.steps, n.step) {
			continue
		}
		if len(o.steps) == 0 || n.from > last.from || n.from == last.from && n.step > last.step {
			last = n
		}
		o.steps = append(o.steps, n.step)
	}
	slices.Sort(o.steps)
	o.last = last.step
	return o
}

// report notes each stretch as a break of the last step in it to begin.
func (c *checker) report(kind plan.BreakKind, overs []tooMuch, text func(o tooMuch) string) {
	for _, o := range overs {
		c.stepBreak(kind, o.last, o.from, o.long(), fmt.Sprintf("%s, for %s from %s", text(o), plan.Spell(o.long()), c.clock(o.from)))
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
			text = fmt.Sprintf("%s needs no burner, yet stands on a %s one", c.p.StepName(i), s.Burner)
		case use != nil && s.Burner == plan.AnyBurner:
			text = c.p.StepName(i) + " stands on no burner"
		case use != nil && use.Size == plan.Large && s.Burner != plan.Large:
			text = fmt.Sprintf("%s needs a large burner, it stands on a %s one", c.p.StepName(i), s.Burner)
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
		needs := c.whileItLasts(func(i int) int {
			if use := c.p.Steps[i].Burner; use != nil && c.slots[i].Burner == size {
				return use.Count
			}
			return 0
		})
		c.report(plan.BreakBurner, c.over(needs, fixed(there[size])), func(o tooMuch) string {
			return fmt.Sprintf("%s: %s wanted, the kitchen has %d", c.names(o.steps), plan.Several(o.worst, size.String()+" burner"), there[size])
		})
	}
}

// minding: no more pots are going than the cooks who are there and not at table
// can mind; a cook who is tied to a step minds all the same.
func (c *checker) minding() {
	needs := c.whileItLasts(func(i int) int {
		if c.p.Steps[i].Hands == plan.Near {
			return 1
		}
		return 0
	})
	minds := func(m time.Duration) int {
		sum := 0
		for cook := range c.free {
			if c.present(cook, m) && !c.atTable(cook, m) {
				sum += c.p.Kitchen.Minds
			}
		}
		return sum
	}
	var changes []time.Duration
	for _, free := range c.free {
		for _, w := range free {
			changes = append(changes, w.from, w.to)
		}
	}
	for _, s := range c.seats {
		changes = append(changes, s.from, s.to)
	}
	c.report(plan.BreakMinding, c.over(needs, minds, changes...), func(o tooMuch) string {
		return fmt.Sprintf("%s: %d to mind, whoever is there can mind %d", c.names(o.steps), o.worst, o.allows)
	})
}
