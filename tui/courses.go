package tui

import (
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
)

// When each course is on the table, and whether that holds.

// courseTime is when a course is or was on the table.
func (m *Model) courseTime(c *run.CourseMoment) time.Time {
	for _, at := range []time.Time{c.Served, c.Projected, c.Planned} {
		if !at.IsZero() {
			return at
		}
	}
	return c.Asked
}

// viewCourses shows when each course is on the table and whether that holds.
func (m *Model) viewCourses(w, h int) []string {
	at := slices.IndexFunc(m.moment.Courses, func(c run.CourseMoment) bool { return c.Served.IsZero() })
	var out []string
	nameW := 0
	for i := range m.state.Plan.Courses {
		nameW = max(nameW, width(clean(m.state.Plan.Courses[i].Name, m.th.ASCII)))
	}
	nameW = min(nameW, max(8, (w-m.gridCells())/2))
	n := len(m.moment.Courses)
	from := 0
	if n > h { // what is served gives way first
		from = max(0, min(at, n-h))
	}
	for i := from; i < min(n, from+h); i++ {
		c := &m.moment.Courses[i]
		course := &m.state.Plan.Courses[c.Course]
		var l *line
		state, allowed, tok := "on time", "", theme.Done
		switch {
		case !c.Served.IsZero():
			l = m.grid(w, "", theme.Done, "served", c.Served)
			state = m.th.Set.Done
		default:
			when := m.courseTime(c)
			left := countdown(when.Sub(m.now))
			if !when.After(m.now) {
				left = "due"
			}
			switch {
			case c.Misses:
				tok, state = theme.Danger, fmt.Sprintf("%s %s late", m.th.Set.Classes[run.LateCue], span(c.Late))
				allowed = fmt.Sprintf(", more than the %s allowed", span(course.LateOK))
			case c.Late > 0:
				tok, state = theme.Late, span(c.Late)+" late"
				allowed = fmt.Sprintf(", %s allowed", span(course.LateOK))
			case m.now.Sub(when) >= run.UnconfirmedAfter:
				tok, state = theme.Waiting, m.th.Set.Assumed+" not answered"
			default:
				if why := m.atRisk(c.Course); why != "" {
					tok, state, allowed = theme.Look, "at risk", ": "+clean(why, m.th.ASCII)
				}
			}
			l = m.grid(w, "", theme.Plain, left, when)
		}
		l.field(theme.Plain, course.Name, nameW).put(theme.Plain, "  ")
		if l.w+width(state+allowed) < w { // else only how late it is
			state += allowed
		}
		out = append(out, l.put(tok, trim(state, w-l.w-1, m)).done())
	}
	return out
}
