package tui

import (
	"fmt"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// secondsBelow is the time left under which seconds are shown.
const secondsBelow = 10 * time.Minute

// countdown says how long d is, in at most ten cells: "4:12", "42 min",
// "1 h 05 min", "2 d 3 h". Rounded up, so that what is shown is never more than
// what is left to do something in; d below zero counts as zero.
func countdown(d time.Duration) string {
	d = max(0, d)
	if d < secondsBelow {
		s := int((d + time.Second - 1) / time.Second)
		if s < 600 {
			return fmt.Sprintf("%d:%02d", s/60, s%60)
		}
	}
	return span(d)
}

// longestSpan is what any greater length is shown as: ten years.
const longestSpan = 10 * 365 * 24 * time.Hour

// span says how long d is in whole minutes, rounded up.
func span(d time.Duration) string {
	m := plan.Minutes(max(0, min(d, longestSpan)))
	switch {
	case m < 60:
		return fmt.Sprintf("%d min", m)
	case m < 24*60:
		return fmt.Sprintf("%d h %02d", m/60, m%60)
	case m < 100*24*60:
		return fmt.Sprintf("%d d %d h", m/60/24, m/60%24)
	}
	return fmt.Sprintf("%d d", m/60/24)
}

// ago says how long something has been over: "0:40", "12 min", rounded down.
func ago(d time.Duration) string {
	d = max(0, d)
	if d < secondsBelow {
		s := int(d / time.Second)
		return fmt.Sprintf("%d:%02d", s/60, s%60)
	}
	return span(d.Truncate(time.Minute))
}

// clockTime is the time of day as the cook reads it, in the plan's zone.
func (m *Model) clockTime(t time.Time) string {
	t = t.In(m.zone)
	return fmt.Sprintf("%02d:%02d", t.Hour(), t.Minute())
}

// dayTime is the time of day, with the weekday where it is another day than now.
func (m *Model) dayTime(t time.Time) string {
	if m.today(t) {
		return m.clockTime(t)
	}
	return run.DayTime(t, m.now, m.zone)
}

// today reports whether a time is on the day that it is now.
func (m *Model) today(t time.Time) bool { return m.days(t) == 0 }

// days is how many days of the calendar a time is from now.
func (m *Model) days(t time.Time) int { return run.Days(t.In(m.zone), m.now.In(m.zone)) }

// gridTime is a time in the column of the panes: as dayTime, but for a time that
// is weeks away only the date, for that is as wide.
func (m *Model) gridTime(t time.Time) string {
	s := m.dayTime(t)
	if len(s) > dayCells {
		return t.In(m.zone).Format("Mon 2 Jan")
	}
	return s
}

// nameOf is the step of a reference, or the reference where there is none.
func nameOf(p *plan.Plan, id string) string {
	if i := p.StepIndex(id); i >= 0 {
		return run.StepName(p, i)
	}
	return id
}

// said puts an event in the cook's words, for the line that tells what undo
// took back or what was just written.
func said(p *plan.Plan, e run.Event) string {
	switch e.Kind {
	case run.Started:
		return nameOf(p, e.Step) + ", started"
	case run.Finished:
		return nameOf(p, e.Step) + ", done"
	case run.Prolonged:
		return fmt.Sprintf("%s, %s more", nameOf(p, e.Step), span(e.By))
	case run.Paused:
		return nameOf(p, e.Step) + ", paused"
	case run.Resumed:
		return nameOf(p, e.Step) + ", going on"
	case run.SkippedStep:
		return nameOf(p, e.Step) + ", skipped"
	case run.OvenTurned:
		if e.Temp == nil {
			return e.Oven + " switched off"
		}
		return e.Oven + " set to " + p.Units.Temp(plan.Celsius(*e.Temp))
	case run.Served:
		return e.Course + " is on the table"
	case run.TimerSet:
		return fmt.Sprintf("timer %s, %s", e.Text, span(e.By))
	case run.Acknowledged:
		if strings.HasPrefix(e.Cue, "remind:") {
			return "a reminder answered"
		}
		return "a note seen"
	case run.Noted:
		if e.Step != "" {
			return nameOf(p, e.Step) + ", note: " + e.Text
		}
		return "note: " + e.Text
	case run.Reading:
		return nameOf(p, e.Step) + ", inside " + p.Units.Temp(plan.Celsius(*e.Temp))
	case run.Held:
		if e.By > 0 {
			return fmt.Sprintf("%s held back, %s", e.Course, span(e.By))
		}
		return e.Course + " held back until released"
	case run.Released:
		return e.Course + " held back no longer"
	case run.Away:
		if e.By > 0 && !e.At.IsZero() {
			return fmt.Sprintf("%s away until %s", e.Cook, run.DayTime(e.At.Add(e.By), e.At, p.Table.Location()))
		}
		if e.By > 0 {
			return fmt.Sprintf("%s away for %s", e.Cook, span(e.By))
		}
		return e.Cook + " away until back"
	case run.Added:
		return fmt.Sprintf("%s, for %s", e.Text, span(e.By))
	case run.Back:
		return e.Cook + " is back"
	case run.Failed:
		return "failed: " + e.Oven + burnerName(e.Burner)
	case run.Works:
		return "works again: " + e.Oven + burnerName(e.Burner)
	case run.Reassigned:
		return fmt.Sprintf("%s, given to %s", nameOf(p, e.Step), e.Cook)
	case run.Put:
		return fmt.Sprintf("%s, now on %s", nameOf(p, e.Step), e.Oven+burnerName(e.Burner)+e.Tool)
	case run.Redone:
		return nameOf(p, e.Step) + ", begun again"
	case run.Dropped:
		return e.Dish + ", left out"
	case run.RemedyTaken:
		return e.Text
	}
	return string(e.Kind)
}

func burnerName(size string) string {
	if size == "" {
		return ""
	}
	return "a " + size + " burner"
}
