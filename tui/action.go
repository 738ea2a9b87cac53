package tui

import (
	"fmt"
	"slices"
	"strconv"
	"time"

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
	case WriteNote:
		m.askNote()
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

// night is how far away the next thing is, at least, where the cook-day is over:
// a dinner that runs past midnight is not.
const night = 4 * time.Hour

// doneToday reports whether nothing more wants the cook today, but does on a later
// day.
func (m *Model) doneToday() bool {
	if len(m.moment.Cues) > 0 || len(m.moment.Next) == 0 {
		return false
	}
	at := m.moment.Next[0].At
	return m.days(at) > 0 && at.Sub(m.now) >= night
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
