package verify

import (
	"fmt"
	"time"

	"example.org/kettledrum/plan"
)

// farthest is how far from the table any moment may be; beyond it a time is
// taken to be missing, and counting minutes would take for ever.
const farthest = 1000 * 24 * time.Hour

// shape finds what keeps the timetable from being read at all.
func (c *checker) shape() {
	bad := func(step int, format string, args ...any) {
		c.breaks = append(c.breaks, plan.Break{Kind: plan.BreakLength, Step: step, Course: -1, At: c.p.Table, Text: fmt.Sprintf(format, args...)})
	}
	steps, cooks, ovens := len(c.p.Steps), len(c.p.Kitchen.Cooks), len(c.p.Kitchen.Ovens)
	near := func(d time.Duration) bool { return -farthest < d && d < farthest }
	if len(c.slots) != steps {
		bad(-1, "the timetable has %d slots, the plan has %d steps", len(c.slots), steps)
		return
	}
	if len(c.serves) != len(c.p.Courses) {
		bad(-1, "the timetable has %d serves, the plan has %d courses", len(c.serves), len(c.p.Courses))
		return
	}
	for i, s := range c.slots {
		if !near(s.from) || !near(s.to) {
			bad(i, "%s has no time", c.p.StepName(i))
		}
		if s.Cook < -1 || s.Cook >= cooks || s.Oven < -1 || s.Oven >= ovens {
			bad(i, "%s has cook %d and oven %d, the kitchen has %d and %d", c.p.StepName(i), s.Cook, s.Oven, cooks, ovens)
		}
	}
	for i, at := range c.serves {
		if !near(at) {
			bad(-1, "%s has no time", c.p.Courses[i].Name)
		}
	}
	for _, t := range c.t.Touches {
		if t.Step < 0 || t.Step >= steps || t.Cook >= cooks || t.What == plan.TouchSet && (t.Oven < 0 || t.Oven >= ovens) || !near(c.off(t.At)) {
			bad(-1, "a touch is of step %d, cook %d, oven %d: no such thing", t.Step, t.Cook, t.Oven)
		}
	}
	for _, s := range c.t.Sets {
		if s.Oven < 0 || s.Oven >= ovens || s.For >= steps || !s.Off && s.For < 0 || !near(c.off(s.At)) {
			bad(-1, "an oven setting is of oven %d for step %d: no such thing", s.Oven, s.For)
		}
	}
}

// wholeMinutes: a slot starts before it ends; what is still to come does so on
// whole minutes.
func (c *checker) wholeMinutes() {
	for i, s := range c.slots {
		switch {
		case s.Progress == plan.Skipped:
		case s.to < s.from:
			c.stepBreak(plan.BreakLength, i, s.from, s.from-s.to, fmt.Sprintf("%s ends %s before it starts", c.p.StepName(i), plan.Spell(s.from-s.to)))
		case s.Progress == plan.Ahead && (s.from != minuteOf(s.from) || s.to != minuteOf(s.to)):
			c.stepBreak(plan.BreakLength, i, s.from, 0, c.p.StepName(i)+" is not on whole minutes")
		}
	}
}

// lengths: a step that is still to come takes what it is planned to take, and
// waits no shorter and no longer than it may.
func (c *checker) lengths() {
	for i, s := range c.slots {
		if s.Progress != plan.Ahead || s.to < s.from {
			continue
		}
		l, got := c.p.Steps[i].Length, s.to-s.from
		least, most, verb, wanted := up(l.Likely)+up(s.Extra), up(l.Likely)+up(s.Extra), "takes", ""
		if l.Elastic {
			least, verb = up(l.Shortest)+up(s.Extra), "waits"
			most = max(least, up(l.Longest))
		}
		var past time.Duration
		switch {
		case got < least:
			past, wanted = least-got, plan.Spell(least)+" at least"
		case got > most:
			past, wanted = got-most, plan.Spell(most)+" at most"
		default:
			continue
		}
		if !l.Elastic {
			wanted = plan.Spell(least) + " planned"
		}
		c.stepBreak(plan.BreakLength, i, s.from, past, fmt.Sprintf("%s %s %s, %s", c.p.StepName(i), verb, plan.Spell(got), wanted))
	}
}
