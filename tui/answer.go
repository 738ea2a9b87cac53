package tui

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// What the cook tells of cues and steps becomes events.

// tooSoon guards the space bar, which does different things at different
// moments: it does nothing about what has not been on the screen for a second,
// nor where it is only held down or touched twice.
func (m *Model) tooSoon(k KeyMsg) bool {
	again := k.Real.Sub(m.lastSpace) < Repeat
	m.lastSpace = k.Real
	switch {
	case m.plain: // a line is typed, not touched
	case again:
		return true
	case m.shown != "" && k.Real.Sub(m.shownAt) < ShownFor:
		m.tell("that has only just come up: read it, then press again")
		return true
	}
	return false
}

// record sends events to the journal. Those without a time happened now.
func (m *Model) record(said string, k KeyMsg, events ...run.Event) []Effect {
	if m.following {
		m.tell(onlyFollows)
		return nil
	}
	if len(events) == 0 {
		m.tell("nothing to write down")
		return nil
	}
	events = at(events, k.At)
	m.writing = &writing{since: k.Real, said: said}
	return []Effect{Record{Events: events, Said: said}}
}

// at returns the events with a time for those that have none.
func at(events []run.Event, t time.Time) []run.Event {
	events = slices.Clone(events)
	for i := range events {
		if events[i].At.IsZero() {
			events[i].At = t
		}
	}
	return events
}

// answer does the obvious thing of the most urgent cue.
func (m *Model) answer(k KeyMsg) []Effect {
	if why := offWriting(m); why != "" {
		m.tell(why)
		return nil
	}
	return m.answerCue(m.moment.Cues[0], k)
}

func (m *Model) answerCue(c run.Cue, k KeyMsg) []Effect {
	m.selected = ""
	if len(c.Answer) == 0 {
		return m.record("seen: "+c.Text, k, run.Event{Kind: run.Acknowledged, Cue: c.ID})
	}
	said := c.Label
	if said == "" {
		said = c.Text
	}
	return m.record(said, k, c.Answer...)
}

// finish says that the selected row is done.
func (m *Model) finish(k KeyMsg) []Effect {
	r, _ := m.chosen()
	switch {
	case r.cue != nil:
		return m.answerCue(*r.cue, k)
	case r.going == nil:
		return m.record(run.StepName(m.state.Plan, r.step)+", done", k, run.Event{Kind: run.Finished, Step: m.state.Plan.Steps[r.step].ID})
	case r.going.Step < 0:
		return m.record("timer "+r.going.Label+" stopped", k, run.Event{Kind: run.Acknowledged, Cue: timerCue(r.going.Timer)})
	}
	return m.record(r.going.Label+", done", k, run.Event{Kind: run.Finished, Step: m.state.Plan.Steps[r.going.Step].ID})
}

// more gives something that is going more time. What is over gets it from now on.
func (m *Model) more(g run.Going, by time.Duration, k KeyMsg) []Effect {
	m.selected = m.goingID(&g) // so that the same key again means the same thing
	said := fmt.Sprintf("%s: %s more", g.Label, span(by))
	if k.At.After(g.End) {
		said += " from now"
	}
	if g.Step >= 0 {
		return m.record(said, k, run.Event{Kind: run.Prolonged, Step: m.state.Plan.Steps[g.Step].ID, By: by})
	}
	// A quick timer is stopped and set again.
	left := minutesUp(max(0, g.End.Sub(k.At)) + by)
	return m.record(said, k,
		run.Event{Kind: run.Acknowledged, Cue: timerCue(g.Timer)},
		run.Event{Kind: run.TimerSet, Text: g.Label, By: left})
}

func minutesUp(d time.Duration) time.Duration { return time.Duration(plan.Minutes(d)) * time.Minute }

// notYet answers for a thing on the list that had not happened: what was to
// start or to be set is so now, what was to end goes on from now.
func (m *Model) notYet(u run.Unconfirmed, k KeyMsg) []Effect {
	if strings.HasPrefix(u.Cue.ID, "end:") && u.Cue.Step >= 0 {
		return m.record(run.StepName(m.state.Plan, u.Cue.Step)+": "+span(MoreMinutes)+" more from now", k,
			run.Event{Kind: run.Prolonged, Step: m.state.Plan.Steps[u.Cue.Step].ID, By: MoreMinutes})
	}
	return m.answerCue(u.Cue, k)
}

func (m *Model) askSkip(k KeyMsg) {
	r, _ := m.chosen()
	step, label := -1, ""
	switch {
	case r.going != nil && r.going.Step < 0:
		label = r.going.Label
		m.confirm = question{text: "Stop the timer " + label + "?", yes: "stop it",
			effect: Record{Said: "timer " + label + " stopped", Events: []run.Event{
				{Kind: run.Acknowledged, Cue: timerCue(r.going.Timer), At: k.At}}}}
		m.enter(Confirm)
		return
	case r.going != nil:
		step = r.going.Step
	case r.cue == nil:
		step = r.step
	case strings.HasPrefix(r.cue.ID, "remind:"):
		m.confirm = question{text: "Leave out " + r.cue.Text + "?", yes: "leave it out",
			effect: Record{Said: r.cue.Text + ", left out", Events: at(r.cue.Answer, k.At)}}
		m.enter(Confirm)
		return
	default:
		step = r.cue.Step
	}
	if step < 0 {
		m.tell("only a step can be skipped: select one first")
		return
	}
	label = run.StepName(m.state.Plan, step)
	m.confirm = question{text: "Skip " + label + "?", yes: "skip it", hint: "what follows goes on without it; u takes it back",
		effect: Record{Said: label + ", skipped", Events: []run.Event{
			{Kind: run.SkippedStep, Step: m.state.Plan.Steps[step].ID, At: k.At}}}}
	m.enter(Confirm)
}
