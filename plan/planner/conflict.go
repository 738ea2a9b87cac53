package planner

import (
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
	"example.org/kettledrum/plan/run"
)

// OvenConflict says that two things want one oven at unlike temperatures at a time
// when, each made as late as it may be, and kept warm for as long, both would be in
// it or too close, and somebody would be there to make them.
type OvenConflict struct {
	Oven   int
	A, B   int // steps; A is the one that the timetable has in the oven first
	Change time.Duration
	// Solved: the timetable keeps them apart. What that costs stands in Text.
	Solved bool
	Text   string
}

// inOven is a bake, or what is kept warm after its step, in one oven.
type inOven struct {
	step int
	warm bool
	*plan.Bake
	oven   int
	late   plan.Window // as late as it may be, and as long
	is     plan.Window // by the timetable; without length where it is not kept there
	manned bool        // some cook is there meanwhile
}

// Conflicts names every oven temperature conflict of a plan, of bakes and of what
// keeps warm, and how t, its timetable, answers it.
func Conflicts(p *plan.Plan, t *plan.Timetable) []OvenConflict {
	var out []OvenConflict
	in := inOvens(p, t)
	for k, a := range in {
		for l, b := range in {
			if a.oven != b.oven || !a.before(&b, k < l) || goesOn(p, &a, &b) || a.Lo <= b.Hi && b.Lo <= a.Hi {
				continue
			}
			change := heat.Of(p.Kitchen.Ovens[a.oven], p.Kitchen.Room).Between(a.Lo, a.Hi, b.Lo, b.Hi)
			change = time.Duration(plan.Minutes(change)) * time.Minute
			if !a.late.From.Before(b.late.To.Add(change)) || !b.late.From.Before(a.late.To.Add(change)) {
				continue
			}
			c := OvenConflict{Oven: a.oven, A: a.step, B: b.step, Change: change, Solved: solved(t, &a, &b)}
			if c.Solved && !(a.manned && b.manned) {
				continue // at such an hour nobody would have made it
			}
			c.Text = c.words(p, &a, &b)
			out = append(out, c)
		}
	}
	return out
}

// inOvens lists what bakes and what keeps warm, by step.
func inOvens(p *plan.Plan, t *plan.Timetable) (out []inOven) {
	late, followers := latest(p), p.Followers()
	add := func(in inOven) {
		in.manned = manned(p, in.late)
		out = append(out, in)
	}
	for i := range p.Steps {
		s, slot := &p.Steps[i], t.Slots[i]
		if s.Oven != nil && slot.Oven >= 0 {
			add(inOven{step: i, Bake: s.Oven, oven: slot.Oven, late: late[i], is: plan.Window{From: slot.Start, To: slot.End}})
		}
		if s.Keeps.Warm == nil {
			continue
		}
		in := inOven{step: i, warm: true, Bake: s.Keeps.Warm, oven: max(0, slot.Oven)}
		if in.In >= 0 {
			in.oven = in.In
		}
		in.is, in.late.To = plan.Window{From: slot.End, To: slot.End}, late[i].To
		for _, j := range followers[i] {
			in.late.To, in.is.To = plan.Later(in.late.To, late[j].From), plan.Later(in.is.To, t.Slots[j].Start)
		}
		if len(followers[i]) == 0 {
			in.is.To = plan.Later(in.is.To, t.Serves[p.CourseOf(i)])
		}
		in.late.From = in.late.To.Add(-s.Keeps.For)
		add(in)
	}
	return out
}

// before reports whether the timetable has a in the oven before b.
func (a *inOven) before(b *inOven, listed bool) bool {
	c := a.is.From.Compare(b.is.From)
	return c < 0 || c == 0 && listed
}

// unused: it is taken the moment it is done.
func (a *inOven) unused() bool { return a.warm && a.is.From.Equal(a.is.To) }

// goesOn reports whether b goes on in the oven where a was: it rides the change.
func goesOn(p *plan.Plan, a, b *inOven) bool {
	return a.step == b.step || !a.warm && !b.warm && continues(p, a.step, b.step)
}

func (c OvenConflict) words(p *plan.Plan, a, b *inOven) string {
	name := func(in *inOven) string {
		if in.warm {
			return fmt.Sprintf("%s, kept warm (%s)", p.StepName(in.step), run.HeatOf(in.Bake, p.Units))
		}
		return fmt.Sprintf("%s (%s)", p.StepName(in.step), run.HeatOf(in.Bake, p.Units))
	}
	span := func(w plan.Window) string {
		zone := p.Table.Location()
		return run.DayTime(w.From, p.Table, zone) + "–" + run.DayTime(w.To, w.From, zone)
	}
	long := ""
	if a.warm || b.warm {
		long = ", and kept warm for as long as they may be,"
	}
	text := fmt.Sprintf("%s and %s want the %s at unlike temperatures: as late as they may be made%s they are in it %s and %s, and changing over takes %d min",
		name(a), name(b), p.Kitchen.Ovens[c.Oven].Name, long, span(a.late), span(b.late), plan.Minutes(c.Change))
	switch {
	case !c.Solved:
		return text + "; no timetable was found that keeps them apart"
	case a.unused():
		return fmt.Sprintf("%s; by the timetable “%s” need not be kept warm", text, p.StepName(c.A))
	case b.unused():
		return fmt.Sprintf("%s; by the timetable “%s” need not be kept warm", text, p.StepName(c.B))
	}
	return fmt.Sprintf("%s; the timetable has %s, then %s", text, span(a.is), span(b.is))
}

// manned reports whether some cook is there for a part of w.
func manned(p *plan.Plan, w plan.Window) bool {
	return slices.ContainsFunc(p.Kitchen.Cooks, func(c plan.Cook) bool {
		return slices.ContainsFunc(c.Free, func(f plan.Window) bool { return f.From.Before(w.To) && w.From.Before(f.To) })
	})
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

func solved(t *plan.Timetable, a, b *inOven) bool {
	for _, br := range t.Breaks {
		if br.Kind == plan.BreakOven && (br.Step == a.step || br.Step == b.step) {
			return false
		}
	}
	return a.unused() || b.unused() || !b.is.From.Before(a.is.To)
}

// latest returns when each step would be made if it were alone in the kitchen:
// as late as its followers allow, and its course, were that on time: that it is late
// may be what the conflict costs.
func latest(p *plan.Plan) []plan.Window {
	out := make([]plan.Window, len(p.Steps))
	followers := p.Followers()
	var find func(i int) plan.Window
	find = func(i int) plan.Window {
		if !out[i].To.IsZero() {
			return out[i]
		}
		end := p.Asked(p.CourseOf(i))
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
