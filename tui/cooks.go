package tui

import (
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/tui/theme"
)

// task is something a cook is at, or is to do.
type task struct {
	at, end time.Time
	text    string
}

// taskNow is what a cook is at; ok is false for nothing.
func (m *Model) taskNow(cook int) (t task, ok bool) {
	p, slots := m.state.Plan, m.state.Timetable.Slots
	for i := range m.moment.Going {
		if g := &m.moment.Going[i]; g.Step >= 0 && slots[g.Step].Cook == cook && p.Steps[g.Step].Hands.Working() {
			return task{g.Start, g.End, p.Steps[g.Step].Do}, true
		}
	}
	if !p.Kitchen.Cooks[cook].Sits {
		return t, false
	}
	for i := range m.moment.Courses {
		c := &m.moment.Courses[i]
		end := c.Served.Add(p.Courses[c.Course].Seated)
		if !c.Served.IsZero() && end.After(m.now) {
			return task{c.Served, end, "at table"}, true
		}
	}
	return t, false
}

// taskNext is what a cook is to do next: a step, or to put in, take out or set
// something.
func (m *Model) taskNext(cook int) (t task, ok bool) {
	p, tt, pr := m.state.Plan, m.state.Timetable, m.moment.Projection
	if len(pr.Start) == 0 {
		return t, false
	}
	take := func(at time.Time, text string) {
		if at.After(m.now) && (!ok || at.Before(t.at)) {
			t, ok = task{at: at, text: text}, true
		}
	}
	for i := range p.Steps {
		if tt.Slots[i].Cook == cook && p.Steps[i].Hands.Working() && m.state.Steps[i].Status == plan.Ahead {
			take(pr.Start[i], p.Steps[i].Do)
		}
	}
	for _, touch := range tt.Touches {
		at, done, told := m.touchAt(touch)
		if touch.Cook != cook || done || !told {
			continue
		}
		switch touch.What {
		case plan.TouchStart:
			take(at, p.Steps[touch.Step].Do)
		case plan.TouchEnd:
			take(at, "end of: "+p.Steps[touch.Step].Do)
		case plan.TouchSet:
			take(at, "set the "+p.Kitchen.Ovens[touch.Oven].Name)
		}
	}
	return t, ok
}

// presence orders cooks: who is away comes first.
func (m *Model) presence(cook int) int {
	if _, away := m.awayUntil(m.state.Plan.Kitchen.Cooks[cook].Name); away {
		return 0
	}
	return 1
}

// viewCooks says of each cook what they are at and what comes next for them.
func (m *Model) viewCooks(w, h int) []string {
	cooks := m.state.Plan.Kitchen.Cooks
	nameW := 0
	for i := range cooks {
		nameW = max(nameW, width(clean(cooks[i].Name, m.th.ASCII)))
	}
	nameW = min(nameW, 12)
	var out []string
	order := make([]int, len(cooks))
	for c := range order {
		order[c] = c
	}
	if h < len(cooks) { // who is away is told before who is there
		slices.SortStableFunc(order, func(a, b int) int { return m.presence(a) - m.presence(b) })
	}
	for _, c := range order[:min(h, len(cooks))] {
		now, at := m.taskNow(c)
		next, more := m.taskNext(c)
		until, away := m.awayUntil(cooks[c].Name)
		var l *line
		switch {
		case away:
			l = m.grid(w, "", theme.Late, "", time.Time{})
		case at:
			l = m.grid(w, "", theme.Plain, "busy", now.end)
		case more:
			l = m.grid(w, "", theme.Dim, "free", next.at)
		default:
			l = m.grid(w, "", theme.Dim, "free", time.Time{})
		}
		l.field(theme.Hands, cooks[c].Name, nameW).put(theme.Plain, "  ")
		room := w - l.w - 1
		switch {
		case away:
			text := m.awayText(until)
			l.put(theme.Late, trim(text, room, m))
			if left := room - width(text); more && left >= 16 {
				l.put(theme.Dim, cut(clean(fmt.Sprintf(", then %s %s", m.dayTime(next.at), next.text), m.th.ASCII), left, m.th.Set.More))
			}
		case at:
			text := clean(now.text, m.th.ASCII)
			then := ""
			if more {
				then = clean(fmt.Sprintf(", then %s %s", m.dayTime(next.at), next.text), m.th.ASCII)
			}
			l.put(theme.Plain, trim(text, room, m))
			if left := room - width(text); left >= 16 {
				l.put(theme.Dim, cut(then, left, m.th.Set.More))
			}
		case more:
			l.put(theme.Dim, trim("then "+next.text, room, m))
		}
		out = append(out, l.done())
	}
	return out
}
