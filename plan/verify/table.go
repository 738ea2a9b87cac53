package verify

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// seat is the time that a course keeps at table whoever sits, whole minutes.
type seat struct {
	span
	slips time.Duration // how long they may be away from it at once; 0: not at all
}

func newSeat(serve time.Duration, c plan.Course) seat {
	return seat{span{minuteOf(serve), up(serve + up(c.Seated))}, c.SlipsAway}
}

// atTable reports whether a cook has a seat in the minute from m, away from it or
// not.
func (c *checker) atTable(cook int, m time.Duration) bool {
	return c.p.Kitchen.Cooks[cook].Sits && slices.ContainsFunc(c.seats, func(s seat) bool { return s.holds(m) })
}

// maySlip returns how long whoever sits may be away at once in a span: the least
// of what the courses in it allow.
func (c *checker) maySlip(s span) time.Duration {
	least := plan.Forever
	for _, seat := range c.seats {
		if !seat.and(s).empty() {
			least = min(least, seat.slips)
		}
	}
	return least
}

// seatedWork: a cook who is at table does no step that is longer than they may be
// away.
func (c *checker) seatedWork() {
	for i, s := range c.slots {
		if !c.works(i) || up(s.long()) <= c.maySlip(s.span) {
			continue
		}
		for _, at := range stretches(c.judged(s.span), func(m time.Duration) bool { return c.atTable(s.Cook, m) }) {
			c.stepBreak(plan.BreakHands, i, at.from, at.long(),
				fmt.Sprintf("%s: %s is at table for %s from %s", c.p.StepName(i), c.cook(s.Cook), plan.Spell(at.long()), c.clock(at.from)))
		}
	}
}

// errand is what a seated cook leaves the table for.
type errand struct {
	kind plan.BreakKind // of the rule that is broken where it may not be
	step int
	span
}

// absence is an unbroken time away from the table.
type absence struct {
	span
	errands []errand // by time
}

// absences: a seated cook is away no longer at once than the course allows, and
// goes away again no sooner than plan.SlipEvery after having gone the last time.
// Time between two seats is no absence.
func (c *checker) absences() {
	for cook := range c.p.Kitchen.Cooks {
		if !c.p.Kitchen.Cooks[cook].Sits {
			continue
		}
		for _, seated := range c.seated() {
			last := absence{}
			for k, a := range c.away(cook, seated) {
				c.tooLong(cook, a)
				if k > 0 {
					c.tooSoon(cook, last, a)
				}
				last = a
			}
		}
	}
}

// tooLong judges one absence, from since on.
func (c *checker) tooLong(cook int, a absence) {
	most := c.maySlip(a.span)
	at := max(a.from+most, c.since)
	if at >= a.to {
		return
	}
	e := a.errands[0] // what is done when it has been long enough
	for _, x := range a.errands {
		if x.from <= at {
			e = x
		}
	}
	c.stepBreak(e.kind, e.step, at, a.to-at, fmt.Sprintf("%s: %s is away from the table for %s from %s, %s at most",
		c.p.StepName(e.step), c.cook(cook), plan.Spell(a.long()), c.clock(a.from), plan.Spell(most)))
}

// tooSoon judges one absence after another.
func (c *checker) tooSoon(cook int, last, a absence) {
	since := a.from - last.from
	if since >= plan.SlipEvery || a.from < c.since {
		return
	}
	e := a.errands[0]
	c.stepBreak(e.kind, e.step, a.from, plan.SlipEvery-since, fmt.Sprintf("%s: %s leaves the table at %s, %s after the last time, %s at least",
		c.p.StepName(e.step), c.cook(cook), c.clock(a.from), plan.Spell(since), plan.Spell(plan.SlipEvery)))
}

// seated returns the time at table as few spans: courses that follow each other
// without a gap are one sitting.
func (c *checker) seated() []span {
	var all []span
	for _, s := range c.seats {
		all = append(all, s.span)
	}
	slices.SortFunc(all, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	var out []span
	for _, s := range all {
		if n := len(out); n > 0 && s.from <= out[n-1].to {
			out[n-1].to = max(out[n-1].to, s.to)
		} else if !s.empty() {
			out = append(out, s)
		}
	}
	return out
}

// away returns the absences of a cook in one sitting, by time: maximal runs of
// minutes with a touch or a step that are short enough to leave the table for.
func (c *checker) away(cook int, sitting span) []absence {
	var errands []errand
	add := func(kind plan.BreakKind, step int, s span) {
		if s = s.and(sitting); !s.empty() {
			errands = append(errands, errand{kind, step, s})
		}
	}
	for _, t := range c.t.Touches {
		m := minuteOf(c.off(t.At))
		if s := (span{m, m + time.Minute}); t.Cook == cook && c.maySlip(s) > 0 {
			add(plan.BreakTouch, t.Step, s)
		}
	}
	for i, s := range c.slots {
		if c.p.Steps[i].Hands.Working() && s.Cook == cook && !c.skipped(i) && up(s.long()) <= c.maySlip(s.span) {
			add(plan.BreakHands, i, span{minuteOf(s.from), up(s.to)})
		}
	}
	slices.SortStableFunc(errands, func(a, b errand) int { return cmp.Compare(a.from, b.from) })
	var out []absence
	for _, e := range errands {
		n := len(out)
		if n == 0 || e.from > out[n-1].to {
			out = append(out, absence{span: e.span})
			n++
		}
		out[n-1].to = max(out[n-1].to, e.to)
		out[n-1].errands = append(out[n-1].errands, e)
	}
	return out
}
