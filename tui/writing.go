package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"example.org/kettledrum/plan/run"
	_ "example.org/kettledrum/tui/background" // before bubbletea: see there
)

// What the cook enters is written beside the screen, in order, and waited for.

// write begins to record what the cook entered, at once and after what was entered
// before, and returns the command that waits for the answer. It is not left to the
// terminal library, which drops commands when the screen ends: Run waits for it.
func (s *shell) write(e Record) tea.Cmd {
	return s.writeBy(e.Said, func() (*run.State, error) { return s.opt.Conductor.Record(e.Events...) })
}

// writeBy is write, by any way of writing.
func (s *shell) writeBy(said string, how func() (*run.State, error)) tea.Cmd {
	before, mine, answer := s.last, make(chan struct{}), make(chan tea.Msg, 1)
	s.last = mine
	record := guard(func() tea.Msg {
		state, err := how()
		return RecordedMsg{Instants: s.instants(), State: state, Err: err, Said: said}
	})
	go func() { // guard keeps a panic from leaving it
		defer close(mine)
		if before != nil {
			<-before
		}
		msg := record()
		if r, ok := msg.(RecordedMsg); ok && r.Err != nil {
			s.unwritten.Store(&r.Err)
		}
		answer <- msg
	}()
	return func() tea.Msg { return <-answer }
}
