package verify

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// wanted is a touch that the plan and the settings call for, in the minute from at.
type wanted struct {
	what plan.TouchKind
	step int
	oven int // of a setting, else -1
	at   time.Duration
	fact bool // it has been: may be told, need not
}

// wants lists the touches called for from since on.
func (c *checker) wants() []wanted {
	var out []wanted
	want := func(w wanted) {
		if w.at >= c.since {
			out = append(out, w)
		}
	}
	for i, s := range c.slots {
		step := c.p.Steps[i]
		if step.Hands.Working() || c.skipped(i) {
			continue
		}
		if !step.AtOnce {
			want(wanted{plan.TouchStart, i, -1, minuteOf(s.from), c.startIsFact(i)})
		}
		if step.Oven != nil || step.Burner != nil {
			want(wanted{plan.TouchEnd, i, -1, up(s.to) - time.Minute, c.endIsFact(i)})
		}
	}
	for i := range c.slots {
		if c.p.Steps[i].Hands.Working() || c.skipped(i) {
			continue
		}
		for _, at := range c.reminders(i) {
			want(wanted{plan.TouchRemind, i, -1, at, c.endIsFact(i)})
		}
	}
	for _, s := range c.t.Sets {
		if !s.Off {
			want(wanted{plan.TouchSet, s.For, s.Oven, minuteOf(c.off(s.At)), s.Done})
		}
	}
	return out
}

// about reports whether a touch is what is wanted, whenever it is.
func (w wanted) about(t plan.Touch) bool {
	return t.What == w.what && t.Step == w.step && (w.what != plan.TouchSet || t.Oven == w.oven)
}

// touches: each touch that is wanted is there in its minute, and no other is.
// One that is there in another minute is told as misplaced.
func (c *checker) touches() {
	used := make([]bool, len(c.t.Touches))
	find := func(w wanted, fits func(t plan.Touch) bool) int {
		for k, t := range c.t.Touches {
			if !used[k] && w.about(t) && fits(t) {
				used[k] = true
				return k
			}
		}
		return -1
	}
	var missing []wanted
	for _, w := range c.wants() {
		if find(w, func(t plan.Touch) bool { return c.off(t.At) == w.at }) < 0 && !w.fact {
			missing = append(missing, w)
		}
	}
	for _, w := range missing {
		k := find(w, func(t plan.Touch) bool { return c.off(t.At) >= c.since })
		if k < 0 {
			c.stepBreak(plan.BreakTouch, w.step, w.at, 0, fmt.Sprintf("%s: nobody is there to %s at %s", c.p.StepName(w.step), c.deed(w.what), c.clock(w.at)))
			continue
		}
		at := c.off(c.t.Touches[k].At)
		c.stepBreak(plan.BreakTouch, w.step, w.at, (at - w.at).Abs(), fmt.Sprintf("%s: somebody is there to %s at %s, it is due at %s", c.p.StepName(w.step), c.deed(w.what), c.clock(at), c.clock(w.at)))
	}
	for k, t := range c.t.Touches {
		if at := c.off(t.At); !used[k] && at >= c.since {
			c.stepBreak(plan.BreakTouch, t.Step, at, 0, fmt.Sprintf("%s: somebody is there to %s at %s, and need not be", c.p.StepName(t.Step), c.deed(t.What), c.clock(at)))
		}
	}
}

// deed says what a touch is for.
func (c *checker) deed(what plan.TouchKind) string {
	switch what {
	case plan.TouchStart:
		return "start it"
	case plan.TouchEnd:
		return "end it"
	case plan.TouchRemind:
		return "see to it"
	}
	return "set the oven"
}

// touchingCooks: who touches is there, not tied to a step meanwhile, and not at
// table but where a seated cook may slip away.
func (c *checker) touchingCooks() {
	for _, t := range c.t.Touches {
		at := c.off(t.At)
		if at < c.since {
			continue
		}
		who, why := "a cook", "none is named"
		if t.Cook >= 0 {
			who = c.cook(t.Cook)
			switch tied := c.tiedTo(t.Cook, at); {
			case !c.present(t.Cook, minuteOf(at)):
				why = "is not there"
			case tied >= 0:
				why = "is tied to " + c.p.StepName(tied)
			case c.atTable(t.Cook, minuteOf(at)) && c.maySlip(span{minuteOf(at), minuteOf(at) + time.Minute}) <= 0:
				why = "is at table"
			default:
				continue
			}
		}
		c.stepBreak(plan.BreakTouch, t.Step, at, time.Minute, fmt.Sprintf("%s: %s is to %s at %s, but %s", c.p.StepName(t.Step), who, c.deed(t.What), c.clock(at), why))
	}
}

// tiedTo returns the step that a cook cannot leave in the minute of at, or -1.
func (c *checker) tiedTo(cook int, at time.Duration) int {
	for i, s := range c.slots {
		if c.p.Steps[i].Hands == plan.Tied && !c.skipped(i) && s.Cook == cook && s.holds(minuteOf(at)) {
			return i
		}
	}
	return -1
}

// oneTouchAMinute: a cook touches one thing a minute, or two of one dish.
func (c *checker) oneTouchAMinute() {
	var ts []plan.Touch
	for _, t := range c.t.Touches {
		if t.Cook >= 0 && c.off(t.At) >= c.since {
			ts = append(ts, t)
		}
	}
	minute := func(t plan.Touch) time.Duration { return minuteOf(c.off(t.At)) }
	slices.SortStableFunc(ts, func(a, b plan.Touch) int {
		return cmp.Or(cmp.Compare(a.Cook, b.Cook), cmp.Compare(minute(a), minute(b)))
	})
	for i, j := 0, 0; i < len(ts); i = j {
		for j = i; j < len(ts) && ts[j].Cook == ts[i].Cook && minute(ts[j]) == minute(ts[i]); j++ {
		}
		dish := func(t plan.Touch) int { return c.p.Steps[t.Step].Dish }
		if n := j - i; n == 1 || n == 2 && dish(ts[i]) == dish(ts[i+1]) {
			continue
		}
		var steps []int
		for _, t := range ts[i:j] {
			if !slices.Contains(steps, t.Step) {
				steps = append(steps, t.Step)
			}
		}
		c.stepBreak(plan.BreakTouch, ts[j-1].Step, minute(ts[i]), time.Minute,
			fmt.Sprintf("%s: %s is wanted %d times in the minute from %s", c.names(steps), c.cook(ts[i].Cook), j-i, c.clock(minute(ts[i]))))
	}
}

// reminders returns the minutes of a step's reminders, each once: a cook who is
// there for one is there for all. One that would come before the step or after it
// does not come.
func (c *checker) reminders(i int) []time.Duration {
	s, out := c.slots[i], []time.Duration(nil)
	for _, r := range c.p.Steps[i].Reminds {
		switch every := up(r.For); {
		case r.When == plan.Halfway:
			out = append(out, s.from+s.long()/2)
		case r.When == plan.BeforeEnd:
			out = append(out, s.to-every)
		default:
			for at := s.from + every; every > 0 && at < s.to; at += every {
				out = append(out, at)
			}
		}
	}
	for k := range out {
		out[k] = minuteOf(out[k])
	}
	slices.Sort(out)
	return slices.DeleteFunc(slices.Compact(out), func(at time.Duration) bool { return at < minuteOf(s.from) || s.to <= at })
}
