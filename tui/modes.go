package tui

import "slices"

// Mode says what the keys mean at the moment.
type Mode int

// Modes of the screen.
const (
	Main     Mode = iota // the cook-day
	List                 // what nobody answered while the cook was away
	Confirm              // one question, yes or no
	Prompt               // something is being typed
	Help                 // the keys, in full
	Far                  // one thing and its countdown, for the far counter
	Lanes                // the hours from left to right
	StepView             // one step, opened
	Days                 // what is made on which day
	Log                  // what was told so far
	Finding              // a step by its name
	Choices              // one of several: what went wrong, which way out
	Debrief              // how a rehearsal went
	Walk                 // a cue of the walk-through
	WalkEnd              // what it did not find
)

// String returns the mode's name.
func (m Mode) String() string {
	return [...]string{"main", "list", "confirm", "prompt", "help", "far", "lanes", "step", "days", "log", "find", "choices", "debrief", "walk", "walk-end"}[m]
}

// modes are all of them, for tests and the help.
var modes = []Mode{Main, List, Confirm, Prompt, Help, Far, Lanes, StepView, Days, Log, Finding, Choices, Debrief, Walk, WalkEnd}

// views are the modes in which the cook may stay: what is due is on the screen in
// each, and the space bar answers it.
var views = []Mode{Main, Far, Lanes, StepView, Days}

// view reports whether a mode is one of the views.
func (m Mode) view() bool { return slices.Contains(views, m) }

// enter goes to a mode; Esc leads back. A view that is open beneath is gone back
// to, so that going round does not lead ever deeper.
func (m *Model) enter(mode Mode) {
	if i := slices.Index(m.under, mode); i >= 0 {
		m.under, m.mode = m.under[:i], mode
		return
	}
	if m.mode == mode {
		return
	}
	m.under = append(slices.Clip(m.under), m.mode)
	m.mode = mode
}

// exit goes back to where the mode was entered from.
func (m *Model) exit() {
	m.mode = Main
	if n := len(m.under); n > 0 {
		m.under, m.mode = m.under[:n-1], m.under[n-1]
	}
}

// press handles a key in the mode at hand: what it types, or the action that
// the table of keys has for it.
func (m *Model) press(k KeyMsg) []Effect {
	if m.waits(k) {
		m.lastKey = k.Real
		return nil
	}
	m.lastKey = k.Real
	again := m.unmark && k.Key == "esc"
	m.unmark = false
	m.askFar = m.askFar && (k.Key == "f" || k.Key == "b")
	m.hearing = m.hearing && k.Key == "b"
	if line := m.typing(); line != nil && line.takes(k) {
		*line = line.typed(k)
		m.message = note{}
		return nil
	}
	b := find(m.mode, k.Key)
	if b == nil {
		m.message = note{}
		m.tell(wrongKey(k, m.mode))
		return nil
	}
	if k.Key == "space" && (m.mode.view() || m.mode == List) && m.tooSoon(k) {
		return nil
	}
	m.message = note{}
	if b.Rehearsal && !m.rehearsing {
		m.tell("that key is for rehearsals")
		return nil
	}
	if b.Off != nil {
		if why := b.Off(m); why != "" {
			m.tell(why)
			return nil
		}
	}
	if b.Action == Back && m.mode == Main {
		m.stepBack(again)
		return nil
	}
	return m.do(b.Action, k)
}

// typing is the line that keys type into, nil where they do not.
func (m *Model) typing() *editor {
	switch m.mode {
	case Prompt:
		return &m.prompt.line
	case Finding:
		return &m.find.line
	}
	return nil
}

// wrongKey says that a key means nothing in a mode, and where the keys are told.
func wrongKey(k KeyMsg, mode Mode) string {
	switch {
	case k.Paste:
		return "nothing is being typed here"
	case find(mode, "?") == nil:
		return k.Key + " does nothing here: esc steps back"
	}
	return k.Key + " does nothing here: ? shows the keys"
}

// base is what is on the screen beneath a question or something being typed.
func (m *Model) base() Mode {
	for i := len(m.under); i >= 0; i-- {
		mode := m.mode
		if i < len(m.under) {
			mode = m.under[i]
		}
		if mode != Confirm && mode != Prompt {
			return mode
		}
	}
	return Main
}
