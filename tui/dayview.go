package tui

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
)

// The days view shows what is made on which day, and where it is kept until it is
// taken.

// dayLine is a line of it: the head of a day, or a step.
type dayLine struct {
	day  time.Time // of a head
	step int
	at   time.Time
}

// dayLines lists the steps by day, each day under its head.
func (m *Model) dayLines() []dayLine {
	var steps []dayLine
	for i := range m.state.Plan.Steps {
		if at := m.startOf(i); !at.IsZero() && m.state.Steps[i].Status != plan.Skipped {
			steps = append(steps, dayLine{step: i, at: at})
		}
	}
	slices.SortStableFunc(steps, func(a, b dayLine) int { return cmp.Or(a.at.Compare(b.at), cmp.Compare(a.step, b.step)) })
	var out []dayLine
	for i, s := range steps {
		if i == 0 || run.Days(s.at.In(m.zone), steps[i-1].at.In(m.zone)) > 0 {
			out = append(out, dayLine{day: m.midnight(s.at), step: -1})
		}
		out = append(out, s)
	}
	return out
}

func (m *Model) startOf(i int) time.Time {
	if i < len(m.moment.Projection.Start) {
		return m.moment.Projection.Start[i]
	}
	return time.Time{}
}

// openDays shows the days, today's on top.
func (m *Model) openDays() {
	m.enter(Days)
	m.dayTop = 0
	for i, l := range m.dayLines() {
		if l.step < 0 && !l.day.After(m.now) {
			m.dayTop = i
		}
	}
}

// dayHead tells of a day: its name, how much of it is done, how much work it is.
func (m *Model) dayHead(day time.Time, lines []dayLine) string {
	n, done := 0, 0
	var hands time.Duration
	for _, l := range lines {
		if l.step < 0 || !m.midnight(l.at).Equal(day) {
			continue
		}
		n++
		if m.state.Steps[l.step].Status == plan.Done {
			done++
		}
		if s := &m.state.Plan.Steps[l.step]; s.Hands.Working() {
			hands += s.Length.Planned() + m.state.Steps[l.step].Extra
		}
	}
	text := fmt.Sprintf("%d of %d done", done, n)
	if hands > 0 {
		text += ", " + plan.Spell(hands) + " of work"
	}
	return text
}

// viewDays draws them into h lines.
func (m *Model) viewDays(w, h int) []string {
	lines := m.dayLines()
	top := max(0, min(m.dayTop, len(lines)-h))
	var out []string
	for k := top; k < len(lines) && len(out) < h; k++ {
		l := newLine(m.th.Theme, w)
		d := &lines[k]
		if d.step < 0 {
			if k > top && len(out)+2 < h {
				out = append(out, blank(w))
			}
			name := d.day.In(m.zone).Format("Monday 2 January")
			if m.today(d.day) {
				name = "Today, " + name
			}
			text := clean(m.dayHead(d.day, lines), m.th.ASCII)
			l.put(theme.Title, " "+name)
			out = append(out, l.to(w-2-width(text)).put(theme.Dim, text).done())
			continue
		}
		out = append(out, m.dayStep(l, d))
	}
	return out
}

// dayStep is a step of a day: how it stands, when, what, and where it then waits.
func (m *Model) dayStep(l *line, d *dayLine) string {
	p := &m.state.Plan.Steps[d.step]
	tok := theme.Plain
	if m.state.Steps[d.step].Status == plan.Done {
		tok = theme.Done
	}
	l.to(2).field(tok, m.stepSign(d.step), 2).field(theme.Dim, m.clockTime(d.at), 7)
	end := m.moment.Projection.End[d.step]
	rest := "to " + m.clockTime(end)
	if !m.midnight(end).Equal(m.midnight(d.at)) {
		rest = "to " + end.In(m.zone).Format("Mon 15:04")
	}
	if p.Keeps.Place != "" {
		rest = "then " + p.Keeps.Place + ", " + rest
	} else if p.Cold != "" {
		rest = p.Cold + ", " + rest
	}
	rest = clean(rest, m.th.ASCII)
	if t := m.state.Timetable; t != nil && t.Slots[d.step].Cook >= 0 && len(m.state.Plan.Kitchen.Cooks) > 1 {
		rest = m.state.Plan.Kitchen.Cooks[t.Slots[d.step].Cook].Name + ", " + rest
	}
	l.put(tok, trim(run.StepName(m.state.Plan, d.step), l.max-l.w-width(rest)-4, m))
	return l.to(l.max-2-width(rest)).put(theme.Dim, rest).done()
}
