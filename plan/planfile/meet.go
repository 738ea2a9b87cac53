package planfile

import (
	"fmt"
	"time"

	"example.org/kettledrum/plan"
)

// span is when a step may be going, as far as times alone tell.
type span struct {
	earliest time.Time // start; zero: whenever
	latest   time.Time // end
}

// meet checks that a step which must be done by one cook can fall into that
// cook's windows. It looks at times only, not at what else the cook has to do:
// what it refuses, no timetable can mend. The steps must be free of circles.
func (d *decoder) meet() {
	spans := d.spans()
	for i := range d.p.Steps {
		s, sp := &d.p.Steps[i], spans[i]
		if s.By < 0 || !s.Hands.Working() && s.AtOnce {
			continue
		}
		c := d.p.Kitchen.Cooks[s.By]
		if len(c.Free) == 0 || meets(c.Free, s, sp) {
			continue
		}
		const form = "Mon 2 Jan 15:04"
		loc := d.p.Table.Location()
		text := fmt.Sprintf("must end by %s at the latest", sp.latest.In(loc).Format(form))
		if !sp.earliest.IsZero() {
			text = fmt.Sprintf("may start from %s on and must end by %s", sp.earliest.In(loc).Format(form), sp.latest.In(loc).Format(form))
		}
		hint := fmt.Sprintf("give %s another window, or the step to somebody else", short(c.Name))
		if s.Hands.Working() {
			hint = fmt.Sprintf("it takes %s: give %s a longer or another window, or the step to somebody else", written(s.Length.Shortest), short(c.Name))
		}
		d.fail(d.raw[i].f.get("by"), "windows-never-meet", fmt.Sprintf("%s is never free for the step %s, which %s", short(c.Name), quote(s.Do), text), hint)
	}
}

// meets tells whether s fits into one of the windows within sp. A step that
// takes no hands wants its cook for the start only.
func meets(free []plan.Window, s *plan.Step, sp span) bool {
	whole := time.Duration(plan.Minutes(s.Length.Shortest)) * time.Minute
	for _, w := range free {
		start := w.From
		if sp.earliest.After(start) {
			start = sp.earliest
		}
		inside := whole
		if !s.Hands.Working() {
			inside = min(whole, time.Minute)
		}
		if !start.Add(inside).After(w.To) && !start.Add(whole).After(sp.latest) {
			return true
		}
	}
	return false
}

// spans returns for every step the widest span that serves, keeps, gaps and
// lengths leave it:
//
//	latest end    = min over followers j (latest end j − shortest j − least gap); else the course's serve + late_ok
//	earliest start = max over followers j (earliest start j − keep or greatest gap) − longest; else serve − keep − longest
func (d *decoder) spans() []span {
	p := d.p
	followers := p.Followers()
	out := make([]span, len(p.Steps))
	// A step comes before its followers: count those not yet seen.
	left := make([]int, len(p.Steps))
	var todo []int
	for i := range p.Steps {
		if left[i] = len(followers[i]); left[i] == 0 {
			todo = append(todo, i)
		}
	}
	for len(todo) > 0 {
		i := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		out[i] = d.span(i, followers[i], out)
		for _, l := range p.Steps[i].After {
			if left[l.Step]--; left[l.Step] == 0 {
				todo = append(todo, l.Step)
			}
		}
	}
	return out
}

func (d *decoder) span(i int, followers []int, out []span) span {
	p, s := d.p, &d.p.Steps[i]
	course, chore := p.CourseOf(i), p.Dishes[s.Dish].Chore
	served := p.Asked(course)
	sp := span{latest: served.Add(p.Courses[course].LateOK)}
	if chore == nil && len(followers) > 0 {
		sp.latest = out[followers[0]].latest // what follows may be of a later course
	}
	// from is told the earliest start of what follows and how long s may wait for it.
	from := func(next time.Time, wait time.Duration, free bool) {
		if free || next.IsZero() || s.Length.Longest == plan.Forever {
			return
		}
		if t := next.Add(-wait - s.Length.Longest); t.After(sp.earliest) {
			sp.earliest = t
		}
	}
	if chore == nil && len(followers) == 0 || chore != nil {
		from(served, s.Keeps.AtMost, s.Keeps.Kind == plan.Freely)
	}
	for _, j := range followers {
		next := out[j]
		for _, l := range p.Steps[j].After {
			if l.Step != i {
				continue
			}
			if t := next.latest.Add(-p.Steps[j].Length.Shortest - l.Min); t.Before(sp.latest) {
				sp.latest = t
			}
			if l.HasMax && (s.Keeps.Assumed || s.Keeps.Kind == plan.Freely || l.Max < s.Keeps.AtMost) {
				from(next.earliest, l.Max, false)
			} else {
				from(next.earliest, s.Keeps.AtMost, s.Keeps.Kind == plan.Freely)
			}
		}
	}
	if chore != nil {
		first := p.CookDay()
		if chore.HasAhead {
			first = served.Add(-chore.Ahead)
		}
		if chore.After >= 0 && p.Asked(chore.After).After(first) {
			first = p.Asked(chore.After)
		}
		if first.After(sp.earliest) {
			sp.earliest = first
		}
	}
	return sp
}
