package tui

import (
	"fmt"
	"strings"
	"time"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/sounds/ring"
)

// Update returns the model after a message, and what is to be done outside.
func Update(m Model, msg Msg) (Model, []Effect) {
	switch msg := msg.(type) {
	case SizeMsg:
		m.width, m.height = max(0, msg.Width), max(0, msg.Height)
		return m, nil
	case BeatMsg:
		m.speed, m.paused, m.soundless = msg.Speed, msg.Paused, msg.Soundless
		if m.onWalk() { // no clock, and nothing rings
			m.now, m.real, m.beaten = msg.At, msg.Real, true
			return m, nil
		}
		if len(msg.News) > 0 && !m.message.err { // an error stays; what befell is in the log
			m.message = note{text: strings.Join(msg.News, "; "), since: msg.Real}
		}
		if m.message.text != "" && !m.message.err && msg.Real.Sub(m.message.since) > MessageStays {
			m.message = note{}
		}
		effects := m.refresh(msg.Instants)
		if t := msg.At.Truncate(time.Minute); !m.following && !m.ticking && t.After(m.lastTick) {
			m.ticking, m.lastTick = true, t
			effects = append(effects, Tick{})
		}
		effects = append(effects, m.endUnanswered(msg.Instants)...)
		effects = append(effects, m.holdClock()...)
		return m, append(effects, m.seekDebrief()...)
	case KeyMsg:
		if m.onWalk() {
			m.now, m.real = msg.At, msg.Real
			var effects []Effect
			for _, k := range msg.apart() {
				effects = append(effects, m.press(k)...)
			}
			return m, effects
		}
		effects := m.refresh(msg.Instants)
		for _, k := range msg.apart() {
			effects = append(effects, m.press(k)...)
			m.watchShown()
		}
		return m, append(effects, m.holdClock()...)
	case RecordedMsg:
		m.writing = nil
		before := len(m.state.Events)
		m.take(msg.State) // with an error too: it has what was written
		m.message = note{text: msg.Said, since: msg.Real}
		if msg.Err != nil {
			text := msg.Err.Error()
			if len(m.state.Events) == before && !strings.HasPrefix(text, notWritten) {
				text = notWritten + text
			}
			if len(m.queue) > 0 {
				text += "; keys that waited were dropped: " + spelledKeys(m.queue)
			}
			m.queue, m.refused = nil, false
			m.message = note{text: text, err: true, since: msg.Real}
		}
		effects := append(m.refresh(msg.Instants), m.seekRemedies()...)
		return m, append(effects, m.pressWaiting()...)
	case FollowedMsg:
		known := len(m.state.Events)
		m.take(msg.State)
		var news []string // several may have come since the last look
		for _, e := range m.state.Events[min(known, len(m.state.Events)):] {
			if e.Kind != run.Adopted {
				news = append(news, m.logText(&e))
			}
		}
		if len(news) > 0 {
			m.message = note{text: strings.Join(news, "; "), since: msg.Real}
		}
		if msg.Err != nil {
			m.message = note{text: msg.Err.Error(), err: true, since: msg.Real}
		}
		return m, m.refresh(msg.Instants)
	case RemediesMsg:
		m.takeRemedies(msg)
		return m, nil
	case DebriefMsg:
		return m, m.takeDebrief(msg)
	case HintMsg:
		if m.message.text == "" {
			m.message = note{text: msg.Text, since: msg.Real}
		}
		return m, nil
	case FocusMsg:
		m.behind = !msg.Front
		return m, nil
	case TickedMsg:
		m.ticking = false
		if msg.Err != nil {
			m.message = note{text: "the timetable could not be brought up to date: " + msg.Err.Error(), err: true, since: msg.Real}
		}
		before := len(m.state.Events)
		m.take(msg.State)
		effects := m.refresh(msg.Instants)
		if len(m.state.Events) > before || !m.seeking { // else the search would never end where minutes are short
			effects = append(effects, m.seekRemedies()...)
		}
		return m, effects
	}
	return m, nil
}

// notWritten begins what is said of an entry that the journal does not have.
const notWritten = "not written: "

// take makes a state the one shown, unless it is older: answers of work beside
// the screen may come in any order, and events are only ever added.
func (m *Model) take(s *run.State) {
	if s != nil && (m.following || len(s.Events) >= len(m.state.Events)) {
		m.state = s
	}
}

// refresh brings the model to an instant.
func (m *Model) refresh(t Instants) []Effect {
	away := m.beaten && t.Real.Sub(m.real) > Gap
	m.now, m.real = t.At, t.Real
	m.moment = run.Conduct(m.state, t.At)
	open := ring.Open(m.state, m.moment)
	m.moment.Cues = withoutNotes(m.moment.Cues)
	m.clockCells = m.clockColumn()
	var effects []Effect
	if !m.beaten {
		m.lastKey, m.started = t.Real, t.Real
		effects = m.greet()
	}
	m.offerList(!m.beaten || away)
	m.listAt = max(0, min(m.listAt, len(m.moment.Unconfirmed)-1))
	if m.mode == List && len(m.moment.Unconfirmed) == 0 {
		m.exit()
	}
	m.keepMark()
	m.dropStaleWays()
	m.watchShown()
	m.beaten = true
	effects = append(append(effects, m.ring(open)...), m.retitle()...)
	return append(effects, m.holdClock()...)
}

// watchShown notices when what the space bar would do has changed.
func (m *Model) watchShown() {
	if what := m.obvious(); what != m.shown {
		m.shown, m.shownAt = what, m.real
	}
}

// withoutNotes leaves out notes that are not the first cue: what moved has its
// own pane.
func withoutNotes(cues []run.Cue) []run.Cue {
	for i := 1; i < len(cues); i++ {
		if cues[i].Class == run.Note { // the last class: only notes follow
			return cues[:i]
		}
	}
	return cues
}

// obvious names what the space bar would do, so that a change is noticed.
func (m *Model) obvious() string {
	var c *run.Cue
	switch {
	case m.mode == List && m.listAt < len(m.moment.Unconfirmed):
		c = &m.moment.Unconfirmed[m.listAt].Cue
	case len(m.moment.Cues) > 0:
		c = &m.moment.Cues[0]
	default:
		return ""
	}
	return fmt.Sprintf("%v %s %v %s", m.mode == List, c.ID, c.Class, c.Label)
}

// offerList opens the list of what nobody answered for a cook who has been
// away, unless the cook has closed it with the same things on it.
func (m *Model) offerList(returned bool) {
	if m.plain || m.following || m.mode != Main && m.mode != Far || len(m.moment.Unconfirmed) == 0 {
		return
	}
	away := returned || m.real.Sub(m.lastKey) >= AwayAfter
	if away && m.listKey() != m.listSeen {
		m.listAt = 0
		m.enter(List)
	}
}

// listKey names what is on the list.
func (m *Model) listKey() string {
	var s string
	for i := range m.moment.Unconfirmed {
		s += m.moment.Unconfirmed[i].Cue.ID + "\n"
	}
	return s
}

// holdClock keeps a rehearsal's clock from running past a cue that needs hands.
func (m *Model) holdClock() []Effect {
	if !m.rehearsing || !m.beaten {
		return nil
	}
	at := m.endedAt
	if at.IsZero() && m.hold {
		if c := m.waitsFor(); c != nil {
			at = c.Due
		} else if next, ok := m.nextAt(); ok {
			at = next
		}
	}
	if at.Equal(m.heldAt) {
		return nil
	}
	m.heldAt = at
	return []Effect{HoldAt{at}}
}

// waitsFor is the first open cue that needs hands.
func (m *Model) waitsFor() *run.Cue {
	for i := range m.moment.Cues {
		if c := &m.moment.Cues[i]; c.Class <= run.Act && len(c.Answer) > 0 {
			return c
		}
	}
	return nil
}

// held reports whether the clock of a rehearsal stands because of a cue.
func (m *Model) held() bool { return m.rehearsing && m.hold && m.waitsFor() != nil }

// nextAt is when the next cue that needs hands comes up.
func (m *Model) nextAt() (time.Time, bool) {
	var at time.Time
	for i := range m.moment.Next {
		u := &m.moment.Next[i]
		if u.Cue.Class != run.Note && u.At.After(m.now) && (at.IsZero() || u.At.Before(at)) {
			at = u.At
		}
	}
	return at, !at.IsZero()
}
