//go:build othersolver

package planner_test

import (
	"fmt"
	"math"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// otherDinner is a plan read for testdata/otherdinners/model.mzn: minutes from
// base on, numbers from 1. Whatever the model has no rule for is refused.
type otherDinner struct {
	p       *plan.Plan
	base    time.Time // the first minute in which anybody is free
	horizon int
	waits   []otherWait
	touches []otherTouch
	pots    []int // steps on a burner
	bakes   []otherBake
	heat    otherHeat
}

// otherWait is a wait of what a step made, in minutes: for a step that follows it
// or, with follower -1, for the serve.
type otherWait struct {
	step, follower           int
	shortest, longest, liked int
	hot                      bool
}

type otherTouch struct {
	what  plan.TouchKind
	step  int
	after int // minutes after the start of the step
}

func newOtherDinner(p *plan.Plan) (*otherDinner, error) {
	d := &otherDinner{p: p, base: p.Table}
	for _, c := range p.Kitchen.Cooks {
		for _, w := range c.Free {
			if w.From.Before(d.base) {
				d.base = w.From
			}
		}
	}
	for c := range p.Courses {
		d.horizon = max(d.horizon, d.minute(p.Asked(c))+plan.Minutes(p.Courses[c].LateOK))
	}
	if err := d.refuse(); err != nil {
		return nil, err
	}
	d.readWaits()
	for i := range p.Steps {
		if p.Steps[i].Burner != nil {
			d.pots = append(d.pots, i)
		}
		d.readTouches(i)
	}
	return d, d.readBakes()
}

func (d *otherDinner) minute(t time.Time) int { return plan.Minutes(t.Sub(d.base)) }

// refuse names what the plan says and the model has no rule for.
func (d *otherDinner) refuse() error {
	k := &d.p.Kitchen
	if len(k.Ovens) > 1 || len(k.Cold) > 0 {
		return fmt.Errorf("the model has one oven and no cold places")
	}
	for _, c := range d.p.Courses {
		if c.SlipsAway > 0 {
			return fmt.Errorf("%s: in the model nobody slips away", c.Name)
		}
	}
	for _, c := range k.Cooks {
		// Absences and seats are counted one by one, so they must not overlap.
		if c.Sits && d.minute(c.Free[len(c.Free)-1].To) < d.horizon+60 {
			return fmt.Errorf("%s must be there for an hour more than the last course can be late", c.Name)
		}
	}
	for _, s := range d.p.Steps {
		switch {
		case s.Length.Elastic && (s.Oven != nil || s.Burner != nil || len(s.Reminds) > 0):
			return fmt.Errorf("%s: in the model a wait is off the heat and unattended", s.ID)
		case s.Oven != nil && (s.Oven.Grill || s.Oven.Shut || s.Hands.Working()):
			return fmt.Errorf("%s: the model has no grill, no shut door and nobody who stays at the oven", s.ID)
		case s.Keeps.Warm != nil:
			return fmt.Errorf("%s: the model keeps nothing warm", s.ID)
		}
		for _, l := range s.After {
			if s.AtOnce && s.Oven != nil && d.p.Steps[l.Step].Oven != nil {
				return fmt.Errorf("%s: in the model a bake does not go on from another", s.ID)
			}
		}
	}
	return nil
}

// readWaits finds how long what each step made may wait, and for what. A stated
// greatest gap stands in for a keep that is only assumed, and what comes off the
// heat waits hot all the same (hot).
func (d *otherDinner) readWaits() {
	never, hot := d.horizon, d.hot()
	add := func(i, follower, shortest, longest int, keeps bool) {
		s := &d.p.Steps[i]
		w := otherWait{i, follower, shortest, longest, never, hot[i]}
		switch {
		case !keeps || s.Keeps.Kind == plan.Freely:
		case s.Keeps.Kind == plan.Limit:
			w.longest = min(longest, plan.Minutes(s.Keeps.For))
		default:
			w.longest, w.liked = min(longest, plan.Minutes(s.Keeps.AtMost)), plan.Minutes(s.Keeps.For)
		}
		d.waits = append(d.waits, w)
	}
	followed := map[int]bool{}
	for j, s := range d.p.Steps {
		for _, l := range s.After {
			followed[l.Step] = true
			longest, keeps := never, true
			if l.HasMax {
				longest, keeps = min(never, plan.Minutes(l.Max)), !d.p.Steps[l.Step].Keeps.Assumed
			}
			add(l.Step, j, plan.Minutes(l.Min), longest, keeps)
		}
	}
	for i := range d.p.Steps {
		if !followed[i] {
			add(i, -1, 0, never, true)
		}
	}
}

// hot finds what leaves a step hot: from the heat, which a rest of up to half an
// hour that begins at once and a last step of up to a quarter of an hour hand on;
// not what keeps for more than two hours by the plan, or in a place of its own.
func (d *otherDinner) hot() []bool {
	hot := make([]bool, len(d.p.Steps))
	takers := make([]int, len(d.p.Steps))
	for _, s := range d.p.Steps {
		for _, l := range s.After {
			takers[l.Step]++
		}
	}
	for range d.p.Steps { // until nothing more is handed on
		for i, s := range d.p.Steps {
			heated := s.Oven != nil || s.Burner != nil
			rest := s.Length.Elastic && s.AtOnce && s.Length.Shortest <= 30*time.Minute && s.Cold == ""
			plating := !s.Length.Elastic && takers[i] == 0 && s.Length.Planned() <= 15*time.Minute
			for _, l := range s.After {
				heated = heated || (rest || plating) && hot[l.Step]
			}
			long := s.Keeps.Kind == plan.Freely || s.Keeps.For > 2*time.Hour
			hot[i] = heated && s.Keeps.Place == "" && (s.Keeps.Assumed || !long)
		}
	}
	return hot
}

// readTouches finds the minutes of a cook that a step wants which takes nobody
// from start to end: its start, its reminders, and the last minute on the heat.
func (d *otherDinner) readTouches(i int) {
	s := &d.p.Steps[i]
	if s.Hands.Working() {
		return
	}
	add := func(what plan.TouchKind, after int) { d.touches = append(d.touches, otherTouch{what, i, after}) }
	long := plan.Minutes(s.Length.Likely)
	if !s.AtOnce {
		add(plan.TouchStart, 0)
	}
	if s.Oven != nil || s.Burner != nil {
		add(plan.TouchEnd, long-1)
	}
	var reminders []int
	for _, r := range s.Reminds {
		switch {
		case r.When == plan.Halfway:
			reminders = append(reminders, long/2)
		case r.When == plan.BeforeEnd:
			reminders = append(reminders, long-plan.Minutes(r.For))
		default:
			for at := plan.Minutes(r.For); at < long; at += plan.Minutes(r.For) {
				reminders = append(reminders, at)
			}
		}
	}
	slices.Sort(reminders)
	for _, at := range slices.Compact(reminders) {
		if at >= 0 && at < long {
			add(plan.TouchRemind, at)
		}
	}
}

// otherBake is a bake with the class that all belong to with which it has a
// temperature in common.
type otherBake struct {
	step, class int
	lo, hi      float64 // °C
}

// readBakes sorts the bakes into classes and refuses what the model is not exact
// for: that bakes have a temperature in common with one and not with another of
// their class; a bake so short that the oven cannot drift through all it accepts.
func (d *otherDinner) readBakes() error {
	for i, s := range d.p.Steps {
		if s.Oven != nil {
			d.bakes = append(d.bakes, otherBake{step: i, lo: float64(s.Oven.Lo), hi: float64(s.Oven.Hi)})
		}
	}
	if len(d.bakes) == 0 {
		return nil
	}
	d.heat = newOtherHeat(d.p.Kitchen.Ovens[0], d.p.Kitchen.Room)
	slices.SortStableFunc(d.bakes, func(a, b otherBake) int { return int(math.Copysign(1, a.lo-b.lo)) })
	lo, hi := math.Inf(-1), math.Inf(-1) // common to the class; its highest
	common := math.Inf(1)
	for k := range d.bakes {
		b := &d.bakes[k]
		id := d.p.Steps[b.step].ID
		if b.lo > hi {
			lo, hi, common = b.lo, b.hi, b.hi
			b.class = 1
			if k > 0 {
				b.class = d.bakes[k-1].class + 1
			}
		} else {
			b.class = d.bakes[k-1].class
			lo, hi, common = max(lo, b.lo), max(hi, b.hi), min(common, b.hi)
		}
		if lo > common {
			return fmt.Errorf("%s shares the oven with one bake of its class and not with another", id)
		}
		if need := max(d.heat.between(b.lo, b.hi), d.heat.between(b.hi, b.lo)); need > d.p.Steps[b.step].Length.Likely.Minutes() {
			return fmt.Errorf("%s is shorter than the %.1f min in which the oven drifts through what it accepts", id, need)
		}
	}
	return nil
}
