package tui

import (
	"context"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// Work beside the screen, as commands of the terminal library.

// watchEvery is how often the journal of a run that another program conducts is
// looked at: what is told there is to be seen here within a second.
const watchEvery = 250 * time.Millisecond

// watchMsg answers a look at the journal; news is nil where nothing is new.
type watchMsg struct{ news tea.Msg }

// watch looks at the journal after a while, nil where there is none to follow.
func (s *shell) watch() tea.Cmd {
	if s.opt.Watch == nil {
		return nil
	}
	look := guard(func() tea.Msg {
		state, err := s.opt.Watch()
		if state == nil && err == nil {
			return watchMsg{}
		}
		return watchMsg{FollowedMsg{Instants: s.instants(), State: state, Err: err}}
	})
	return tea.Tick(watchEvery, func(time.Time) tea.Msg { return look() })
}

// seek looks for ways out, and gives up the search before it.
func (s *shell) seek() tea.Cmd {
	if s.opt.Remedies == nil {
		none := RemediesMsg{After: len(s.m.state.Events)}
		return func() tea.Msg { return none }
	}
	if s.giveUp != nil {
		s.giveUp()
	}
	ctx, stop := context.WithCancel(context.Background())
	s.giveUp = stop
	after := len(s.m.state.Events)
	return guard(func() tea.Msg {
		defer stop()
		if !s.opt.Remedies.NeedsRemedy() {
			return RemediesMsg{After: after}
		}
		found := s.opt.Remedies.Remedies(ctx)
		if ctx.Err() != nil {
			return nil
		}
		return RemediesMsg{Found: found, After: after}
	})
}

// notify has the terminal tell of something: OSC 9, which iTerm2 began and many
// terminals know (from memory); others ignore it.
func (s *shell) notify(text string) {
	_, _ = s.opt.Out.Write([]byte("\x1b]9;" + text + "\x07"))
}

// hint asks what is to be told at the start.
func (s *shell) hint() tea.Cmd {
	if s.opt.Hint == nil {
		return nil
	}
	return guard(func() tea.Msg {
		if text := s.opt.Hint(); text != "" {
			return HintMsg{Instants: s.instants(), Text: text}
		}
		return nil
	})
}
