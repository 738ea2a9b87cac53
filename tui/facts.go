package tui

import (
	"fmt"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
)

// What is told of one step: in the step view all of it, beneath the lanes a part.

// fact is a line of it, with a word for what it tells.
type fact struct {
	label, text string
	tok         theme.Token
}

// stepStatus says how a step stands: "going, 1 h 23 left".
func (m *Model) stepStatus(i int) (string, theme.Token) {
	st := &m.state.Steps[i]
	switch st.Status {
	case plan.Done:
		return "done " + m.dayTime(st.Finished), theme.Done
	case plan.Skipped:
		return "left out", theme.Dim
	}
	p, ok := m.pieceOf(i)
	switch {
	case !ok:
		return "not planned", theme.Dim
	case p.how == pieceAssumed:
		return "nobody said so: taken to go as planned", theme.Waiting
	case p.how == pieceOver:
		return "over " + ago(m.now.Sub(m.moment.Projection.End[i])), theme.Look
	case p.how == pieceGoing:
		return "going, " + countdown(p.to.Sub(m.now)) + " left", theme.Going
	}
	if d := p.from.Sub(m.now); d > 0 {
		return "in " + countdown(d), theme.Plain
	}
	return "due", theme.Act
}

// stepWhen says from when to when a step goes and how long that is by the plan.
func (m *Model) stepWhen(i int) string {
	p, ok := m.pieceOf(i)
	if !ok {
		return ""
	}
	to := m.moment.Projection.End[i]
	text := m.fromTo(p.from, to)
	if t := m.state.Timetable; t != nil && m.state.Steps[i].Status != plan.Done {
		if slot := t.Slots[i]; minutesUp(slot.Start.Sub(p.from).Abs()) >= 2*time.Minute || minutesUp(slot.End.Sub(to).Abs()) >= 2*time.Minute {
			text += ", planned " + m.fromTo(slot.Start, slot.End)
		}
	}
	return text
}

// fromTo is a stretch of time, with the weekday of its end where that is another
// day than its start.
func (m *Model) fromTo(from, to time.Time) string {
	return m.dayTime(from) + " to " + run.DayTime(to, from, m.zone)
}

func lengthText(l plan.Length) string {
	switch {
	case l.Elastic && l.Longest == plan.Forever:
		return "waits at least " + plan.Spell(l.Shortest)
	case l.Elastic:
		return "waits " + plan.Spell(l.Shortest) + " to " + plan.Spell(l.Longest)
	case l.Shortest == l.Longest:
		return "takes " + plan.Spell(l.Likely)
	}
	return fmt.Sprintf("takes %s, from %s to %s", plan.Spell(l.Likely), plan.Spell(l.Shortest), plan.Spell(l.Longest))
}

// stepPlace is where a step happens, and who does it.
func (m *Model) stepPlace(i int) string {
	p, step := m.state.Plan, &m.state.Plan.Steps[i]
	var parts []string
	if t := m.state.Timetable; t != nil {
		slot := t.Slots[i]
		if slot.Cook >= 0 {
			parts = append(parts, p.Kitchen.Cooks[slot.Cook].Name)
		}
		if step.Oven != nil && slot.Oven >= 0 {
			parts = append(parts, p.Kitchen.Ovens[slot.Oven].Name+" at "+p.Units.Temp(step.Oven.At))
		}
		if step.Burner != nil && slot.Burner != plan.AnyBurner {
			parts = append(parts, slot.Burner.String()+" burner")
		}
	}
	if step.Cold != "" {
		parts = append(parts, "in the "+step.Cold)
	}
	for _, u := range step.Uses {
		name := p.Kitchen.Tools[u.Tool].Name
		if u.Count > 1 {
			name = fmt.Sprintf("%d × %s", u.Count, name)
		}
		parts = append(parts, name)
	}
	if step.Vessel != nil {
		parts = append(parts, p.Kitchen.Tools[step.Vessel.Tool].Name)
	}
	return strings.Join(parts, ", ")
}

// beside names a step next to another, with when it is.
func (m *Model) beside(i, other int) string {
	name := m.state.Plan.Steps[i].Do
	if m.state.Plan.Steps[i].Dish != m.state.Plan.Steps[other].Dish {
		name = run.StepName(m.state.Plan, i)
	}
	switch st := m.state.Steps[i]; {
	case st.Status == plan.Done:
		return name + ", done " + m.dayTime(st.Finished)
	case st.Status == plan.Skipped:
		return name + ", left out"
	}
	return name + ", to " + m.dayTime(m.moment.Projection.End[i])
}

// waitsFor is what a step waits for.
func (m *Model) waitsForStep(i int) string {
	var parts []string
	for _, l := range m.state.Plan.Steps[i].After {
		parts = append(parts, m.beside(l.Step, i))
	}
	if s := m.setFor(i); s != nil {
		parts = append(parts, fmt.Sprintf("the oven, %s ready %s", m.state.Plan.Units.Temp(s.To), m.dayTime(s.Ready)))
	}
	return strings.Join(parts, "; ")
}

// setFor is the oven setting to come that a step needs.
func (m *Model) setFor(i int) *plan.OvenSet {
	for _, s := range m.moment.Sets {
		if s.For == i && !s.Off {
			return &s
		}
	}
	return nil
}

// waitForIt is what waits for a step.
func (m *Model) waitForIt(i int) string {
	var parts []string
	for _, j := range m.state.Plan.Followers()[i] {
		name := m.state.Plan.Steps[j].Do
		if m.state.Plan.Steps[j].Dish != m.state.Plan.Steps[i].Dish {
			name = run.StepName(m.state.Plan, j)
		}
		at := m.dayTime(m.moment.Projection.Start[j])
		if m.state.Plan.Steps[j].AtOnce {
			parts = append(parts, name+", at once")
		} else {
			parts = append(parts, name+", "+at)
		}
	}
	if c := m.state.Plan.CourseOf(i); len(parts) == 0 {
		cm := &m.moment.Courses[c]
		parts = append(parts, m.state.Plan.Courses[c].Name+" on the table, "+m.dayTime(m.courseTime(cm)))
	}
	return strings.Join(parts, "; ")
}

// mayWait says how late a step may start.
func (m *Model) mayWait(i int) string {
	p, ok := m.pieceOf(i)
	if !ok || m.state.Steps[i].Status != plan.Ahead || p.how != pieceAhead {
		return ""
	}
	if p.slack < time.Minute {
		return "may not start later: its course would be late"
	}
	return "may start " + span(p.slack) + " later"
}

// stepFacts is all that is told of a step.
func (m *Model) stepFacts(i int) []fact {
	p, step := m.state.Plan, &m.state.Plan.Steps[i]
	var out []fact
	add := func(label, text string) {
		if text != "" {
			out = append(out, fact{label, text, theme.Plain})
		}
	}
	add("WHEN", m.stepWhen(i))
	length := lengthText(step.Length)
	if extra := m.state.Steps[i].Extra; extra > 0 {
		length += ", " + span(extra) + " more as told"
	}
	add("", length)
	add("WHERE", m.stepPlace(i))
	add("UNTIL", strings.Join(m.state.Plan.Steps[i].Until.Signs(m.state.Plan.Units), ", "))
	for _, r := range m.reminders(i) {
		add("REMIND", r)
	}
	add("AFTER", m.waitsForStep(i))
	add("THEN", m.waitForIt(i))
	add("SLACK", m.mayWait(i))
	add("KEEPS", m.keepText(i))
	if n := len(m.state.Steps[i].Inside.Readings); n > 0 {
		add("HEAT", m.insideText(i))
	}
	if t := m.state.Timetable; t != nil {
		for _, c := range t.Cautions {
			if c.Step == i {
				out = append(out, fact{"CAUTION", c.Text + " (" + c.Source + ")", theme.Late})
			}
		}
	}
	for _, b := range m.broken() {
		if b.Step == i {
			out = append(out, fact{"BROKEN", b.Text, theme.Late})
		}
	}
	add("NOTE", step.Note)
	if d := &p.Dishes[step.Dish]; d.Note != "" {
		add("DISH", d.Note)
	}
	return mergeLabels(out)
}

// insideText is what the last reading says.
func (m *Model) insideText(i int) string {
	in, u := &m.state.Steps[i].Inside, m.state.Plan.Units
	last := in.Readings[len(in.Readings)-1]
	text := fmt.Sprintf("%s inside at %s", u.Temp(last.Temp), m.dayTime(last.At))
	f := in.Forecast
	switch {
	case f == nil:
	case f.Basis == heat.Reached:
		text += ", as hot as it is to be"
	case f.Moves():
		text += fmt.Sprintf(", done about %s, between %s and %s", m.dayTime(f.Done), m.dayTime(f.Early), m.dayTime(f.Late))
	default:
		text += ", too little to tell when it is done"
	}
	return text
}

// mergeLabels names a label once where several lines have it.
func mergeLabels(facts []fact) []fact {
	for i := len(facts) - 1; i > 0; i-- {
		if facts[i].label == facts[i-1].label {
			facts[i].label = ""
		}
	}
	return facts
}

// reminders are those of a step that are still to come, or are due.
func (m *Model) reminders(i int) []string {
	prefix := "remind:" + m.state.Plan.Steps[i].ID + ":"
	var out []string
	for k := range m.moment.Cues {
		if c := &m.moment.Cues[k]; strings.HasPrefix(c.ID, prefix) {
			out = append(out, m.dayTime(c.Due)+" "+c.Text+", due")
		}
	}
	for k := range m.moment.Next {
		if u := &m.moment.Next[k]; strings.HasPrefix(u.Cue.ID, prefix) {
			out = append(out, m.dayTime(u.At)+" "+u.Cue.Text)
		}
	}
	return out
}

func (m *Model) keepText(i int) string {
	k := m.state.Plan.Steps[i].Keeps
	var text string
	switch {
	case k.Kind == plan.Freely:
		return ""
	case k.For == 0:
		return ""
	case k.Kind == plan.Limit || k.AtMost <= k.For:
		text = spellDays(k.For)
	default:
		text = spellDays(k.For) + ", " + spellDays(k.AtMost) + " at most"
	}
	if k.Place != "" {
		text += ", in the " + k.Place
	}
	if k.Assumed {
		text += " (assumed)"
	}
	return text
}

// spellDays is plan.Spell, with days where they are whole.
func spellDays(d time.Duration) string {
	if const24 := 24 * time.Hour; d >= const24 && d%const24 == 0 {
		if d == const24 {
			return "1 day"
		}
		return fmt.Sprintf("%d days", d/const24)
	}
	return plan.Spell(d)
}
