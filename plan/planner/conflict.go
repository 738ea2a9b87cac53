package planner

import (
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
	"example.org/kettledrum/plan/run"
)

// OvenConflict says that two steps want one oven at unlike temperatures at a time
// when, each made as late as it may be, both would be in it or too close, and
// somebody would be there to make them.
type OvenConflict struct {
	Oven   int
	A, B   int // steps; A is the one that the timetable has in the oven first
	Change time.Duration
	// Solved: the timetable keeps them apart. What that costs stands in Text.
	Solved bool
	Text   string
}

// Conflicts names every oven temperature conflict of a plan, and how t, its
// timetable, answers it.
func Conflicts(p *plan.Plan, t *plan.Timetable) []OvenConflict {
	late := latest(p, t)
	var out []OvenConflict
	for a := range p.Steps {
		for b := range p.Steps {
			x, y := p.Steps[a].Oven, p.Steps[b].Oven
			if x == nil || y == nil || !first(t, a, b) || t.Slots[a].Oven != t.Slots[b].Oven || continues(p, a, b) {
				continue
			}
			if x.Lo <= y.Hi && y.Lo <= x.Hi {
				continue
			}
			o := t.Slots[a].Oven
			change := heat.Of(p.Kitchen.Ovens[o], p.Kitchen.Room).Between(x.Lo, x.Hi, y.Lo, y.Hi)
			change = time.Duration(plan.Minutes(change)) * time.Minute
			wa, wb := late[a], late[b]
			if !wa.From.Before(wb.To.Add(change)) || !wb.From.Before(wa.To.Add(change)) {
				continue
			}
			c := OvenConflict{Oven: o, A: a, B: b, Change: change, Solved: solved(t, a, b)}
			if c.Solved && !(manned(p, wa) && manned(p, wb)) {
				continue // at such an hour nobody would have made it
			}
			c.Text = c.words(p, t, wa, wb)
			out = append(out, c)
		}
	}
	return out
}

func (c OvenConflict) words(p *plan.Plan, t *plan.Timetable, wa, wb plan.Window) string {
	name := func(i int) string {
		return fmt.Sprintf("%s (%s)", p.StepName(i), p.Units.Temp(p.Steps[i].Oven.At))
	}
	span := func(w plan.Window) string {
		zone := p.Table.Location()
		return run.DayTime(w.From, p.Table, zone) + "–" + run.DayTime(w.To, w.From, zone)
	}
	text := fmt.Sprintf("%s and %s want the %s at unlike temperatures: as late as they may be made they are in it %s and %s, and changing over takes %d min",
		name(c.A), name(c.B), p.Kitchen.Ovens[c.Oven].Name, span(wa), span(wb), plan.Minutes(c.Change))
	if !c.Solved {
		return text + "; no timetable was found that keeps them apart"
	}
	sa, sb := t.Slots[c.A], t.Slots[c.B]
	return fmt.Sprintf("%s; the timetable has %s, then %s", text, span(plan.Window{From: sa.Start, To: sa.End}), span(plan.Window{From: sb.Start, To: sb.End}))
}

// manned reports whether some cook is there for a part of w.
func manned(p *plan.Plan, w plan.Window) bool {
	return slices.ContainsFunc(p.Kitchen.Cooks, func(c plan.Cook) bool {
		return slices.ContainsFunc(c.Free, func(f plan.Window) bool { return f.From.Before(w.To) && w.From.Before(f.To) })
	})
}

func first(t *plan.Timetable, a, b int) bool {
	if c := t.Slots[a].Start.Compare(t.Slots[b].Start); c != 0 {
		return c < 0
	}
	return a < b
}

func continues(p *plan.Plan, a, b int) bool {
	s := &p.Steps[b]
	for _, l := range s.After {
		if s.AtOnce && l.Step == a && p.Steps[a].Dish == s.Dish {
			return true
		}
	}
	return false
}

func solved(t *plan.Timetable, a, b int) bool {
	for _, br := range t.Breaks {
		if br.Kind == plan.BreakOven && (br.Step == a || br.Step == b) {
			return false
		}
	}
	return !t.Slots[b].Start.Before(t.Slots[a].End)
}

// latest returns when each step would be made if it were alone in the kitchen:
// as late as its followers and its course allow.
func latest(p *plan.Plan, t *plan.Timetable) []plan.Window {
	out := make([]plan.Window, len(p.Steps))
	followers := p.Followers()
	var find func(i int) plan.Window
	find = func(i int) plan.Window {
		if !out[i].To.IsZero() {
			return out[i]
		}
		end := t.Serves[p.CourseOf(i)]
		for _, j := range followers[i] {
			for _, l := range p.Steps[j].After {
				if at := find(j).From.Add(-l.Min); l.Step == i && at.Before(end) {
					end = at
				}
			}
		}
		out[i] = plan.Window{From: end.Add(-p.Steps[i].Length.Planned()), To: end}
		return out[i]
	}
	for i := range p.Steps {
		find(i)
	}
	return out
}
