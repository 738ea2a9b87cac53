package tui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// do carries out an action. Its key is on in this mode and at this moment.
func (m *Model) do(a Action, k KeyMsg) []Effect {
	switch a {
	case Answer:
		return m.answer(k)
	case Finish:
		return m.finish(k)
	case More:
		g, _ := m.goingTarget()
		return m.more(g, MoreMinutes, k)
	case MoreBy:
		g, _ := m.goingTarget()
		m.ask(prompt{what: forMinutes, title: g.Label, hint: "minutes more, such as 8", target: g})
	case Skip:
		m.askSkip(k)
	case Undo:
		e, _ := m.state.LastUndoable()
		return m.record("taken back: "+said(m.state.Plan, e), k, run.Event{Kind: run.Undone, Undoes: e.Seq})
	case NewTimer:
		m.ask(prompt{what: forTimer, title: "Timer", hint: "what for, and the minutes: tea 4"})
	case SelectUp, SelectDown:
		m.moveSelection(a)
	case Choose:
		return m.choose(m.choices.at, k)
	case ChooseNth:
		return m.choose(slices.Index(choiceKeys, k.Key), k)
	case Wrong:
		m.askWrong()
	case WaysOut:
		m.showRemedies()
	case Measure:
		m.askInside()
	case Louder:
		return m.louder()
	case Silence:
		m.silence(k)
	case ShowFar:
		m.enter(Far)
	case Larger:
		m.farSize = (m.farSize + 1) % farSizes
	case ShowLanes:
		m.openLanes()
	case Earlier, Later:
		m.moveInLanes(a)
	case HoursBack, HoursOn:
		m.shiftLanes(a == HoursOn)
	case HoursNow:
		m.lanesNow()
	case ZoomIn, ZoomOut:
		m.zoomLanes(a == ZoomIn)
	case OpenStep:
		m.openStep()
	case Correct:
		m.correct()
	case ShowDays:
		m.openDays()
	case ShowFind:
		m.find = finder{}
		m.enter(Finding)
	case ShowLog:
		m.helpTop = 0
		m.enter(Log)
	case ShowList:
		m.listAt = 0
		m.enter(List)
	case AllPlanned:
		return m.record("all as planned", k, run.AllAsPlanned(m.moment)...)
	case AsPlanned:
		one := m.moment
		one.Unconfirmed = one.Unconfirmed[m.listAt : m.listAt+1]
		return m.record("as planned: "+one.Unconfirmed[0].Cue.Text, k, run.AllAsPlanned(one)...)
	case JustNow:
		return m.notYet(m.moment.Unconfirmed[m.listAt], k)
	case WhenAt:
		u := m.moment.Unconfirmed[m.listAt]
		m.ask(prompt{what: forWhen, title: u.Cue.Text, hint: "when it happened, such as " + m.dayTime(u.At), unconf: u})
	case Yes:
		return m.yes()
	case Accept:
		if m.mode == Finding {
			m.openFound()
			return nil
		}
		return m.accept(k)
	case Back:
		m.back()
	case ShowHelp:
		m.helpTop = 0
		m.enter(Help)
	case Leave:
		return m.leave()
	case PauseClock:
		m.paused = !m.paused
		return []Effect{Pause{m.paused}}
	case Faster, Slower:
		return m.changeSpeed(a == Faster)
	case NextCue:
		at, _ := m.nextAt()
		return []Effect{Jump{at}}
	case HoldCues:
		m.hold = !m.hold
		if m.hold {
			m.tell("the clock waits at each cue until you answer it")
		} else {
			m.tell("the clock runs on whether you answer or not")
		}
	case ShowHowItWent:
		m.openDebrief()
	case ReadOn:
		m.readOn()
	case TickThing:
		m.tick()
	case Untick:
		m.untick()
	case TickAll:
		m.tickAll()
	case WalkOn:
		m.goTo(m.walk.at + 1)
	case WalkBack:
		m.goTo(m.walk.at - 1)
	case ShowMissing:
		m.goTo(len(m.walk.stops))
	case EndWalk:
		return []Effect{Quit{}}
	}
	return nil
}

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

// yes does what was asked for.
func (m *Model) yes() []Effect {
	e := m.confirm.effect
	m.confirm = question{}
	m.exit()
	if r, ok := e.(Record); ok {
		m.writing = &writing{since: m.real, said: r.Said}
	}
	return []Effect{e}
}

// leave quits at once where nothing is lost from sight, else it asks.
func (m *Model) leave() []Effect {
	if m.mode == Confirm { // asked twice
		return []Effect{Quit{}}
	}
	if m.rehearsing || m.following || m.moment.Finished || len(m.moment.Cues) == 0 && (len(m.moment.Going) == 0 || m.doneToday()) {
		return []Effect{Quit{}}
	}
	text := "Quit while something is due?"
	switch n := len(m.moment.Going); {
	case n == 1:
		text = "Quit while a step or timer goes on: " + m.moment.Going[0].Label + "?"
	case n > 1:
		text = fmt.Sprintf("Quit while %d steps or timers go on?", n)
	}
	hint := "nothing will ring, and everything is kept"
	if m.resume != "" {
		hint += "\ngo on with: " + m.resume
	}
	m.confirm = question{text: text, yes: "quit", hint: hint, effect: Quit{}}
	m.enter(Confirm)
	return nil
}

// doneToday reports whether nothing more wants the cook today, but does on a later
// day.
func (m *Model) doneToday() bool {
	return len(m.moment.Cues) == 0 && len(m.moment.Next) > 0 && m.days(m.moment.Next[0].At) > 0
}

func (m *Model) back() {
	switch m.mode {
	case List:
		m.listSeen = m.listKey()
		m.exit()
	case Walk:
		if why := offWalkBack(m); why != "" {
			m.tell(why + ": q ends the walk-through")
			return
		}
		m.goTo(m.walk.at - 1)
	default:
		switch m.mode { // what is open beneath stays as it is
		case Prompt:
			m.prompt = prompt{}
		case Confirm:
			m.confirm = question{}
		case Finding:
			m.find = finder{}
		case Choices:
			m.choices = choices{}
		}
		m.exit()
	}
}

func (m *Model) moveSelection(a Action) {
	down, step := a == SelectDown, -1
	if down {
		step = 1
	}
	switch m.mode {
	case Help:
		m.helpTop = max(0, min(m.helpTop+step, 4*len(bindings)))
		return
	case Log:
		m.scrollLog(down)
		return
	case Debrief:
		m.scrollDebrief(step)
		return
	case Walk, WalkEnd:
		m.moveInWalk(step)
		return
	case Days:
		m.dayTop = max(0, min(m.dayTop+step, len(m.dayLines())-1))
		return
	case Choices:
		m.choices.at = max(0, min(m.choices.at+step, len(m.choices.of)-1))
		return
	case Finding:
		m.find.at = max(0, min(m.find.at+step, len(m.found())-1))
		return
	case Lanes:
		m.moveInLanes(a)
		return
	case List:
		m.listAt = max(0, min(m.listAt+step, len(m.moment.Unconfirmed)-1))
		return
	}
	rows := m.rows()
	at := slices.IndexFunc(rows, func(r row) bool { return r.id == m.selected })
	switch {
	case at >= 0:
		at = (at + step + len(rows)) % len(rows)
	case down:
		at = 0
	default:
		at = len(rows) - 1
	}
	m.selected = rows[at].id
}

// speeds are those of a rehearsal's clock that the keys lead through.
var speeds = []float64{1, 2, 5, 10, 30, 60, 120, 300, 600}

func (m *Model) changeSpeed(faster bool) []Effect {
	s := m.speed
	if faster {
		if k := slices.IndexFunc(speeds, func(x float64) bool { return x > s }); k >= 0 {
			s = speeds[k]
		}
	} else {
		for _, x := range speeds {
			if x >= m.speed {
				break
			}
			s = x
		}
	}
	if s == m.speed {
		m.tell(fmt.Sprintf("the keys go from real time to %g times as fast", speeds[len(speeds)-1]))
		return nil
	}
	m.speed = s
	return []Effect{SetSpeed{s}}
}

func timerCue(seq uint64) string { return "timer:" + strconv.FormatUint(seq, 10) }

// goingID names a row of what is going. A timer is known by its label, for one
// that is given more time is a new timer.
func (m *Model) goingID(g *run.Going) string {
	if g.Step >= 0 {
		return "going:" + m.state.Plan.Steps[g.Step].ID
	}
	same := 0
	for i := range m.moment.Going {
		if o := &m.moment.Going[i]; o.Step < 0 && o.Label == g.Label && o.Timer < g.Timer {
			same++
		}
	}
	return fmt.Sprintf("going:timer:%s:%d", g.Label, same)
}
