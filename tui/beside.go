package tui

import (
	"context"
	"errors"
	"sync/atomic"
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

// seekFor is how long ways out are looked for: then those found are offered.
const seekFor = 8 * time.Second

// seeking is a search for ways out under way, or over.
type seeking struct {
	after int // events that it knows of
	stop  context.CancelFunc
	over  atomic.Bool
}

// seek looks for ways out, and gives up the search before it where that knew less.
func (s *shell) seek() tea.Cmd {
	if s.opt.Remedies == nil {
		none := RemediesMsg{After: len(s.m.state.Events)}
		return func() tea.Msg { return none }
	}
	after := len(s.m.state.Events)
	if s.seeking != nil && s.seeking.after == after && !s.seeking.over.Load() {
		return nil // a minute later the same is sought still
	}
	if s.seeking != nil {
		s.seeking.stop()
	}
	ctx, stop := context.WithTimeout(context.Background(), seekFor)
	seek := &seeking{after: after, stop: stop}
	s.seeking = seek
	return guard(func() tea.Msg {
		defer stop()
		defer seek.over.Store(true)
		if !s.opt.Remedies.NeedsRemedy() {
			return RemediesMsg{After: after}
		}
		found := s.opt.Remedies.Remedies(ctx)
		if errors.Is(ctx.Err(), context.Canceled) {
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
