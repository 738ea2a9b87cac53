package remedy

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// does says what is done, as one clause.
func (q *Question) does(c candidate, t *plan.Timetable) string {
	p, change := q.State.Plan, c.changes[0]
	step := func() string { return p.StepName(c.step) }
	switch c.kind {
	case OtherCook:
		return fmt.Sprintf("%s does “%s” instead of %s", change.Cook, step(), p.Kitchen.Cooks[p.Steps[c.step].By].Name)
	case Hotter:
		s := &p.Steps[c.step]
		return fmt.Sprintf("“%s” at %s, about %s instead of %s", step(), p.Units.Temp(s.Oven.Hi), plan.Spell(s.Length.Planned()-change.By), plan.Spell(s.Length.Planned()))
	case OtherPlace:
		if change.Kind == plan.SmallerBurner {
			likely := p.Steps[c.step].Length.Planned()
			return fmt.Sprintf("“%s” on a small burner instead of a large one, about %s instead of %s, if the pot is not too large", step(), plan.Spell(likely+change.By), plan.Spell(likely))
		}
		if change.Oven != "" {
			return fmt.Sprintf("“%s” in the %s instead of the %s", step(), change.Oven, p.Kitchen.Ovens[p.Steps[c.step].Oven.In].Name)
		}
		return fmt.Sprintf("“%s” in the %s instead of the %s, if it is large enough", step(), change.Tool, p.Kitchen.Tools[p.Steps[c.step].Vessel.Tool].Name)
	case WaitLonger:
		liked := p.Steps[c.step].Keeps.For
		return fmt.Sprintf("“%s” waits %s instead of %s", step(), plan.Spell(liked+change.By), plan.Spell(liked))
	case LeaveTable:
		var who []string
		var long time.Duration
		for _, a := range q.absences(c.course, t) {
			if name := p.Kitchen.Cooks[a.cook].Name; a.to.Sub(a.from) > p.Courses[c.course].SlipsAway && !slices.Contains(who, name) {
				who = append(who, name)
			}
			long = max(long, a.missed)
		}
		return fmt.Sprintf("%s may leave the table for %s with the %s", strings.Join(who, " and "), plan.Spell(long), p.Courses[c.course].Name)
	case ServeLater:
		var list []string
		for _, later := range c.changes {
			list = append(list, fmt.Sprintf("%s %s later than asked", later.Course, plan.Spell(later.By)))
		}
		return "serve " + strings.Join(list, " and ")
	case DropStep:
		return fmt.Sprintf("leave out “%s”", step())
	default:
		return "leave out " + p.Dishes[c.dish].Name
	}
}

// words says what an outcome buys and what it costs beside what comes as it is.
func (q *Question) words(as, o outcome, c candidate) (gain, price string) {
	var buys, costs, stay []string
	for k, course := range q.State.Plan.Courses {
		if !q.State.Courses[k].Served.IsZero() {
			continue
		}
		at := fmt.Sprintf("%s at %s", course.Name, q.clock(o, k))
		switch by := o.serves[k].Sub(as.serves[k]); {
		case by < 0:
			buys = append(buys, fmt.Sprintf("%s, %s sooner", at, plan.Spell(-by)))
		case by > 0:
			costs = append(costs, fmt.Sprintf("%s, %s later", at, plan.Spell(by)))
		case o.late[k] > 0:
			if c.kind != ServeLater { // that says so itself
				at += fmt.Sprintf(", still %s late", plan.Spell(minutes(o.late[k])))
			}
			stay = append(stay, at)
		}
	}
	if len(buys) == 0 {
		buys = stay
	}
	switch before, after := sum(as.broken[:plan.HarmGuests]), sum(o.broken[:plan.HarmGuests]); {
	case before > 0 && after == 0:
		buys = append(buys, "all else holds")
	case after < before:
		buys = append(buys, fmt.Sprintf("%s less broken", plan.Spell(minutes(before-after))))
	}
	if less := sum(as.over) - sum(o.over); less > 0 {
		buys = append(buys, fmt.Sprintf("food waits %s less than it would", plan.Spell(minutes(less))))
	}
	if i := worst(as.over, o.over); i >= 0 && (c.kind != WaitLonger || i != c.step) {
		costs = append(costs, fmt.Sprintf("“%s” waits %s longer than liked", q.State.Plan.StepName(i), plan.Spell(minutes(o.over[i]))))
	}
	if o.away > 0 {
		costs = append(costs, fmt.Sprintf("%s away from the guests", plan.Spell(minutes(o.away))))
	}
	return strings.Join(buys, ", "), strings.Join(costs, ", ")
}

// asItIs is to go on and give nothing up.
func (q *Question) asItIs(as outcome) Remedy {
	r := Remedy{Kind: AsItIs, Do: "serve as it is", Event: run.Event{Kind: run.RemedyTaken}, Serves: as.serves}
	var list []string
	for c, course := range q.State.Plan.Courses {
		if past := minutes(as.late[c]) - course.LateOK; past > 0 {
			r.Event.Changes = append(r.Event.Changes, plan.Change{Kind: plan.TolerateLate, Course: course.Name, By: past})
		}
		if as.late[c] > 0 {
			list = append(list, fmt.Sprintf("%s at %s, %s late", course.Name, q.clock(as, c), plan.Spell(minutes(as.late[c]))))
		}
	}
	for _, b := range q.AsItIs.Breaks {
		if b.Kind.Hard() && b.Kind.Harm() != plan.HarmGuests && q.counts(q.State.Plan, q.AsItIs, b) {
			list = append(list, b.Text)
		}
	}
	r.Gain = strings.Join(list[:min(len(list), 3)], ", ")
	r.Event.Text = r.Do
	return r
}

// clock is when course c comes, in the plan's zone.
func (q *Question) clock(o outcome, c int) string {
	return run.DayTime(o.serves[c], q.Now, q.State.Plan.Table.Location())
}

// worst is the step whose over grows most, −1 where none does.
func worst(was, is []int) int {
	grown := make([]int, len(is))
	for i := range is {
		grown[i] = is[i] - was[i]
	}
	if most := slices.Max(grown); most > 0 {
		return slices.Index(grown, most)
	}
	return -1
}
