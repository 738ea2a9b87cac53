package tuitest

import (
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/walk"
	"example.org/kettledrum/tui"
	"example.org/kettledrum/tui/theme"
)

// Memory is a run kept in memory: what the screen records is applied to the
// state, by the same fold as everywhere.
type Memory struct {
	mu    sync.Mutex
	state *run.State
	// Fail is what Record answers while it is set.
	Fail error
	// Told are the events recorded so far.
	Told []run.Event
}

// NewMemory returns a run after some events.
func NewMemory(s *run.State) *Memory { return &Memory{state: s} }

// State returns the state now.
func (m *Memory) State() *run.State {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.state
}

// Record applies events.
func (m *Memory) Record(evs ...run.Event) (*run.State, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.Fail != nil {
		return nil, m.Fail
	}
	s := m.state
	for _, e := range evs {
		e.Noted = e.At
		next, err := s.Apply(e)
		if err != nil {
			return nil, err
		}
		s = next
	}
	m.state, m.Told = s, append(m.Told, evs...)
	return s, nil
}

// Tick changes nothing: a run in memory has no planner.
func (m *Memory) Tick() (*run.State, error) { return m.State(), nil }

// Screen is the screen's model, driven by hand. Its real clock goes two seconds
// between any two keys, as a cook's does.
type Screen struct {
	t         testing.TB
	Model     tui.Model
	Run       *Memory
	Now, Real time.Time
	// Effects are all that came out so far.
	Effects []tui.Effect
	// Deaf keeps Record effects from being answered.
	Deaf  bool
	speed float64 // of a rehearsal's clock, as it was last set
}

// Config is what a Screen starts from.
type Config struct {
	Width, Height int
	Now           time.Time
	Events        []run.Event // after the opening
	Rehearsal     bool
	Through       bool
	Walk          []walk.Stop // of a walk-through
	Sound         tui.Sound
	Theme         *theme.Theme // nil: without any escape sequences
}

// New returns the screen of the dinner at an instant.
func New(t testing.TB, c Config) *Screen {
	t.Helper()
	p, table := Dinner()
	state, err := run.Fold(p, append(Opening(p, table), c.Events...))
	if err != nil {
		t.Fatalf("fold the events of the test: %v", err)
	}
	return NewOf(t, c, state)
}

// NewOf returns the screen of any run.
func NewOf(t testing.TB, c Config, state *run.State) *Screen {
	t.Helper()
	if c.Theme == nil {
		c.Theme = theme.Bare(false)
	}
	if c.Sound.Volume == 0 {
		c.Sound.Volume = 70
	}
	s := &Screen{t: t, speed: 60, Run: NewMemory(state), Now: c.Now, Real: time.Date(2026, 1, 2, 3, 4, 5, 0, time.UTC)}
	s.Model = tui.NewModel(tui.Setup{State: state, Theme: c.Theme, Rehearsal: c.Rehearsal, Resume: "kettledrum cook garden.yaml",
		Sound: c.Sound, Walk: c.Walk, Through: c.Through})
	s.Send(tui.SizeMsg{Width: c.Width, Height: c.Height})
	s.Beat()
	return s
}

// Send gives the model a message and answers the Records that come out of it.
func (s *Screen) Send(msg tui.Msg) {
	s.t.Helper()
	var effects []tui.Effect
	s.Model, effects = tui.Update(s.Model, msg)
	s.Effects = append(s.Effects, effects...)
	for _, e := range effects {
		switch e := e.(type) {
		case tui.Record:
			if s.Deaf {
				continue
			}
			state, err := s.Run.Record(e.Events...)
			s.Send(tui.RecordedMsg{Instants: s.instants(), State: state, Err: err, Said: e.Said})
		case tui.TakeRemedy:
			state, err := s.Run.Record(e.Remedy.Event)
			s.Send(tui.RecordedMsg{Instants: s.instants(), State: state, Err: err, Said: e.Said})
		case tui.Tick:
			state, err := s.Run.Tick()
			s.Send(tui.TickedMsg{Instants: s.instants(), State: state, Err: err})
		case tui.SetSpeed:
			s.speed = e.Speed
		case tui.Jump:
			s.Now = e.To
		}
	}
}

func (s *Screen) instants() tui.Instants { return tui.Instants{At: s.Now, Real: s.Real} }

// Beat sends a heartbeat without any time passing.
func (s *Screen) Beat() { s.Send(tui.BeatMsg{Instants: s.instants(), Speed: s.speed}) }

// Turn lets time pass and sends a heartbeat: d for the kitchen, as much of real
// time but at most half a minute, so that the cook does not count as away.
func (s *Screen) Turn(d time.Duration) {
	s.t.Helper()
	s.Now, s.Real = s.Now.Add(d), s.Real.Add(min(d, 30*time.Second))
	s.Beat()
}

// TurnTo turns the clock to an instant, in steps of half a minute.
func (s *Screen) TurnTo(at time.Time) {
	s.t.Helper()
	for s.Now.Before(at) {
		s.Turn(min(30*time.Second, at.Sub(s.Now)))
	}
}

// Keys presses keys, one word each: "space", "d", "enter", "ctrl+c". Two
// seconds of both clocks pass before each.
func (s *Screen) Keys(keys string) {
	s.t.Helper()
	for _, k := range strings.Fields(keys) {
		s.Turn(2 * time.Second)
		s.Press(k)
	}
}

// Press presses one key at once.
func (s *Screen) Press(key string) {
	s.t.Helper()
	msg := tui.KeyMsg{Instants: s.instants(), Key: key}
	switch {
	case key == "space":
		msg.Text = " "
	case len([]rune(key)) == 1:
		msg.Text = key
	}
	s.Send(msg)
}

// Type types a text.
func (s *Screen) Type(text string) {
	s.t.Helper()
	for _, r := range text {
		if r == ' ' {
			s.Press("space")
			continue
		}
		s.Press(string(r))
	}
}

// Frame returns the screen as plain text, without spaces at the ends of lines.
func (s *Screen) Frame() string {
	lines := strings.Split(ansi.Strip(tui.View(s.Model)), "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return strings.Join(lines, "\n") + "\n"
}
