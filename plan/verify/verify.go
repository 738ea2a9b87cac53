package verify

import (
	"cmp"
	"math"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// Check returns every rule of p that t does not keep, likings included, sorted
// by time, then step. Moments before since are facts; the zero since judges all.
// A timetable that does not fit the plan's shape (a slot too few, a step that is
// not there) is answered with what does not fit, and judged no further.
//
// Cost: O(S² + T² + B) for S steps, T touches and B the minutes that anything is
// in an oven or worked at; days in which nothing happens cost nothing.
func Check(p *plan.Plan, t *plan.Timetable, since time.Time) []plan.Break {
	c := newChecker(p, t, since)
	if c.shape(); len(c.breaks) == 0 {
		for _, rule := range []func(){
			c.wholeMinutes, c.lengths,
			c.gaps, c.orderPassedOn, c.atOnce, c.keeps, c.keepsToServe, c.readyToServe,
			c.notEarly, c.notLate, c.chores,
			c.rightCook, c.presence, c.oneThingAtATime, c.seatedWork, c.absences,
			c.touches, c.touchingCooks, c.oneTouchAMinute,
			c.rightOven, c.temperatures, c.settings, c.space, c.shutDoors, c.grills, c.grillOn,
			c.rightBurner, c.burners, c.tools, c.coldPlaces, c.minding,
		} {
			rule()
		}
	}
	slices.SortStableFunc(c.breaks, func(a, b plan.Break) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.Step, b.Step), cmp.Compare(a.Course, b.Course))
	})
	return c.breaks
}

// Status says what a timetable with these breaks is worth: broken if some break
// is of a rule, late if some course is later than asked, else whole.
func Status(p *plan.Plan, t *plan.Timetable, breaks []plan.Break) plan.Status {
	if slices.ContainsFunc(breaks, func(b plan.Break) bool { return b.Kind.Hard() }) {
		return plan.Broken
	}
	for c := range t.Serves {
		if t.Lateness(p, c) > 0 {
			return plan.Late
		}
	}
	return plan.Whole
}

// checker holds the timetable as lengths of time since base, a whole minute, so
// that all rules work on plain numbers.
type checker struct {
	p         *plan.Plan
	t         *plan.Timetable
	base      time.Time
	since     time.Duration
	slots     []slot
	serves    []time.Duration
	free      [][]span // of each cook, whole minutes
	seats     []seat   // of each course
	followers [][]int  // of each step
	breaks    []plan.Break
}

type span struct{ from, to time.Duration }

// holds reports whether the moment at is in the span, its end excluded.
func (s span) holds(at time.Duration) bool { return s.from <= at && at < s.to }

func (s span) empty() bool         { return s.from >= s.to }
func (s span) long() time.Duration { return s.to - s.from }

// and returns what two spans share; empty where they share nothing.
func (s span) and(o span) span { return span{max(s.from, o.from), min(s.to, o.to)} }

type slot struct {
	span
	plan.Slot
}

func newChecker(p *plan.Plan, t *plan.Timetable, since time.Time) *checker {
	c := &checker{p: p, t: t, base: p.Table.Truncate(time.Minute), since: math.MinInt64, followers: p.Followers()}
	if !since.IsZero() {
		c.since = c.off(since)
	}
	for _, s := range t.Slots {
		c.slots = append(c.slots, slot{span{c.off(s.Start), c.off(s.End)}, s})
	}
	for k, at := range t.Serves {
		c.serves = append(c.serves, c.off(at))
		if k < len(p.Courses) {
			c.seats = append(c.seats, newSeat(c.serves[k], p.Courses[k]))
		}
	}
	for _, cook := range p.Kitchen.Cooks {
		var free []span
		for _, w := range cook.Free {
			free = append(free, span{up(c.off(w.From)), minuteOf(c.off(w.To))})
		}
		c.free = append(c.free, free)
	}
	return c
}

func (c *checker) off(t time.Time) time.Duration { return t.Sub(c.base) }
func (c *checker) at(d time.Duration) time.Time  { return c.base.Add(d) }

// minuteOf returns the start of the minute that holds d.
func minuteOf(d time.Duration) time.Duration {
	m := d.Truncate(time.Minute)
	if m > d {
		m -= time.Minute
	}
	return m
}

// up rounds a length or a moment up to the whole minute.
func up(d time.Duration) time.Duration {
	if d >= plan.Forever-time.Minute {
		return plan.Forever
	}
	if m := minuteOf(d); m < d {
		return m + time.Minute
	}
	return d
}

// count returns a length in minutes, rounded up.
func count(d time.Duration) int { return int(up(d) / time.Minute) }

// stepBreak notes a break of a step.
func (c *checker) stepBreak(kind plan.BreakKind, step int, at, past time.Duration, text string) {
	c.breaks = append(c.breaks, plan.Break{Kind: kind, Step: step, Course: -1, At: c.at(at), Minutes: count(past), Text: text})
}

// allOf notes a break that lasts as long as a step does, from since on.
func (c *checker) allOf(kind plan.BreakKind, step int, text string) {
	from := max(c.slots[step].from, c.since)
	c.stepBreak(kind, step, from, max(0, c.slots[step].to-from), text)
}

// courseBreak notes a break of a course.
func (c *checker) courseBreak(kind plan.BreakKind, course int, past time.Duration, text string) {
	c.breaks = append(c.breaks, plan.Break{Kind: kind, Step: -1, Course: course, At: c.at(c.serves[course]), Minutes: count(past), Text: text})
}

// past reports whether a step leaves nothing to judge: skipped, or over before
// since.
func (c *checker) past(i int) bool {
	s := c.slots[i]
	return s.Progress == plan.Skipped || s.to <= c.since
}

// judged returns the whole minutes of a span from since on; empty where none is
// left.
func (c *checker) judged(s span) span {
	return span{up(max(s.from, c.since)), up(max(s.to, c.since))}
}

func (c *checker) skipped(i int) bool { return c.slots[i].Progress == plan.Skipped }

// startIsFact and endIsFact say whether a moment of a step has happened.
func (c *checker) startIsFact(i int) bool {
	return c.slots[i].Progress == plan.Begun || c.slots[i].Progress == plan.Done
}
func (c *checker) endIsFact(i int) bool        { return c.slots[i].Progress == plan.Done }
func (c *checker) serveIsFact(course int) bool { return c.serves[course] < c.since }
