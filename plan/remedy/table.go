package remedy

import (
	"cmp"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// absence is work of a cook who sits with a course, one step after the other, and how
// much of it is while the guests sit.
type absence struct {
	cook     int
	from, to time.Time
	missed   time.Duration
}

// absences lists when those who sit with course c work meanwhile.
func (q *Question) absences(c int, t *plan.Timetable) (out []absence) {
	p := q.State.Plan
	from, to := t.Serves[c], t.Serves[c].Add(p.Courses[c].Seated)
	for i, s := range t.Slots {
		done := s.Progress == plan.Skipped || s.Progress == plan.Done
		if done || s.Cook < 0 || !p.Steps[i].Hands.Working() || !p.Kitchen.Cooks[s.Cook].Sits {
			continue
		}
		if s.Start.Before(to) && s.End.After(from) {
			out = append(out, absence{cook: s.Cook, from: s.Start, to: s.End})
		}
	}
	slices.SortFunc(out, func(a, b absence) int { return cmp.Or(cmp.Compare(a.cook, b.cook), a.from.Compare(b.from)) })
	whole := out[:0]
	for _, a := range out {
		if n := len(whole); n > 0 && whole[n-1].cook == a.cook && !a.from.After(whole[n-1].to) {
			whole[n-1].to = a.to
		} else {
			whole = append(whole, a)
		}
	}
	for k := range whole {
		a, b := whole[k].from, whole[k].to
		if a.Before(from) {
			a = from
		}
		if b.After(to) {
			b = to
		}
		whole[k].missed = b.Sub(a)
	}
	return whole
}

// longest is the length of the longest absence.
func longest(list []absence) (long time.Duration) {
	for _, a := range list {
		long = max(long, a.to.Sub(a.from))
	}
	return long
}

// missed is for how many minutes in all somebody is missed.
func missed(list []absence) (n int) {
	for _, a := range list {
		n += plan.Minutes(a.missed)
	}
	return n
}
