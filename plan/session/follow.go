package session

import (
	"errors"
	"fmt"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// ErrFollows is returned by a Follower for what only the conductor may do.
var ErrFollows = errors.New("this screen only follows: tell it where the dinner is conducted")

// Follower is a run that another program conducts, read from its journal. It
// writes nothing. Its methods are for one goroutine, but for State.
type Follower struct {
	plan  *plan.Plan
	load  func() ([]run.Event, error)
	state *run.State
}

// Follow returns a run as it stands in a journal. load returns the events in it;
// nil with no error where the journal is as it was when it was last looked at.
//
// Errors: those of load; a journal that is empty, or does not fit the plan.
func Follow(p *plan.Plan, load func() ([]run.Event, error)) (*Follower, error) {
	events, err := load()
	if err != nil {
		return nil, err
	}
	if len(events) == 0 {
		return nil, errors.New("the journal is empty")
	}
	s, err := run.Fold(p, events)
	if err != nil {
		return nil, fmt.Errorf("the journal does not fit the plan: %w", err)
	}
	return &Follower{plan: p, load: load, state: s}, nil
}

// Watch returns the state with what was written since the last look, nil where
// nothing was.
//
// Errors: those of load, and of events that do not fit what is known.
func (f *Follower) Watch() (*run.State, error) {
	events, err := f.load()
	if err != nil {
		return nil, err
	}
	known := len(f.state.Events)
	switch {
	case len(events) == known || events == nil:
		return nil, nil
	case len(events) < known: // mended: from the start
		s, err := run.Fold(f.plan, events)
		if err != nil {
			return nil, fmt.Errorf("the journal does not fit the plan: %w", err)
		}
		f.state = s
		return s, nil
	}
	s := f.state
	for _, e := range events[known:] {
		if s, err = s.Apply(e); err != nil {
			return nil, fmt.Errorf("event %d of the journal does not fit what came before: %w", e.Seq, err)
		}
	}
	f.state = s
	return s, nil
}

// State returns the state as it was last seen.
func (f *Follower) State() *run.State { return f.state }

// Record refuses: a follower writes nothing.
//
// Errors: ErrFollows.
func (f *Follower) Record(...run.Event) (*run.State, error) { return nil, ErrFollows }

// Tick changes nothing.
func (f *Follower) Tick() (*run.State, error) { return nil, nil }
