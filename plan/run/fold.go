package run

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// ErrNotYet is wrapped by the error for an event whose record format is settled
// and which the fold does not understand yet.
var ErrNotYet = errors.New("not yet supported")

// Fold returns the state of a run of p after the events, in their order: that
// of applying them one by one. The error names the event that cannot be.
func Fold(p *plan.Plan, events []Event) (*State, error) {
	s := blank(p)
	for i := range events {
		next, err := s.Apply(events[i])
		if err != nil {
			return nil, fmt.Errorf("event %d (%s): %w", seqOf(events[i], s), events[i].Kind, err)
		}
		s = next
	}
	return s, nil
}

// Apply returns the state after one more event. s stays as it is. An event
// without a number gets the next one.
//
// Errors: a sentence for the cook where the event contradicts what is known
// (serving a course twice), an error naming what is unknown in it, or ErrNotYet.
func (s *State) Apply(e Event) (*State, error) {
	e.Seq = seqOf(e, s)
	if last := s.lastSeq(); e.Seq <= last {
		return nil, fmt.Errorf("event number %d after %d, must be greater", e.Seq, last)
	}
	if err := check(s.Plan, &e); err != nil {
		return nil, err
	}
	if e.Kind == Undone {
		events, on := s.with(e)
		next, err := refold(s.Base, events)
		if err != nil {
			return nil, err
		}
		next.shelf = on
		return next, nil
	}
	next := s.clone()
	if err := next.take(&e); err != nil {
		return nil, err
	}
	next.Events, next.shelf = s.with(e)
	return next, nil
}

// LastUndoable returns the newest event that undo takes back: told by the cook,
// and not undone already.
func (s *State) LastUndoable() (Event, bool) {
	stands := standing(s.Events)
	for i := len(s.Events) - 1; i >= 0; i-- {
		switch e := s.Events[i]; e.Kind {
		case Opened, Adopted, Undone:
		default:
			if stands[i] {
				return e, true
			}
		}
	}
	return Event{}, false
}

// Standing returns the events that count, oldest first: those that no undo took
// back, without the undos. Folded, they give the same steps and courses.
func (s *State) Standing() []Event {
	var out []Event
	for i, ok := range standing(s.Events) {
		if ok && s.Events[i].Kind != Undone {
			out = append(out, s.Events[i])
		}
	}
	return out
}

// refold takes an undo into account: the events that stand, from the start.
func refold(p *plan.Plan, events []Event) (*State, error) {
	undo := events[len(events)-1]
	target := slices.IndexFunc(events, func(e Event) bool { return e.Seq == undo.Undoes })
	before := standing(events[:len(events)-1])
	switch {
	case target < 0 || events[target].Seq == undo.Seq:
		return nil, fmt.Errorf("event %d to undo is not in the journal", undo.Undoes)
	case events[target].Kind == Opened:
		return nil, fmt.Errorf("event %d opened the run, that cannot be undone", undo.Undoes)
	case !before[target]:
		return nil, fmt.Errorf("event %d (%s) is undone already", undo.Undoes, events[target].Kind)
	}
	s := blank(p)
	for i, ok := range standing(events) {
		if !ok || events[i].Kind == Undone {
			continue
		}
		if err := s.take(&events[i]); err != nil {
			return nil, fmt.Errorf("undoing event %d is not possible, event %d (%s) came after it: %w",
				undo.Undoes, events[i].Seq, events[i].Kind, err)
		}
	}
	s.Events = events
	return s, nil
}

// standing says of each event whether it counts: no undo that itself stands
// takes it back, nor, of an adoption, what caused it.
func standing(events []Event) []bool {
	out := make([]bool, len(events))
	undone := make(map[uint64]bool)
	for i := len(events) - 1; i >= 0; i-- { // an undo is newer than what it undoes
		e := &events[i]
		out[i] = !undone[e.Seq]
		if out[i] && e.Kind == Undone {
			undone[e.Undoes] = true
		}
	}
	gone := undone
	for i := range events { // a cause is older than what it causes
		e := &events[i]
		if e.Kind == Adopted && e.Cause != 0 && gone[e.Cause] {
			out[i] = false
		}
		if !out[i] {
			gone[e.Seq] = true
		}
	}
	return out
}

func blank(p *plan.Plan) *State {
	names := make([]string, len(p.Steps)) // no change of a plan alters them
	for i := range names {
		names[i] = StepName(p, i)
	}
	return &State{
		names:   names,
		Plan:    p,
		Base:    p,
		Steps:   make([]StepState, len(p.Steps)),
		Courses: make([]CourseState, len(p.Courses)),
		Acked:   map[string]time.Time{},
	}
}

func (s *State) clone() *State {
	c := *s
	c.Steps = slices.Clone(s.Steps)
	c.Courses = slices.Clone(s.Courses)
	c.Changes = slices.Clone(s.Changes)
	c.Sets = slices.Clone(s.Sets)
	c.Timers = slices.Clone(s.Timers)
	c.Acked = maps.Clone(s.Acked)
	return &c
}

func (s *State) lastSeq() uint64 {
	if len(s.Events) == 0 {
		return 0
	}
	return s.Events[len(s.Events)-1].Seq
}

func seqOf(e Event, s *State) uint64 {
	if e.Seq == 0 {
		return s.lastSeq() + 1
	}
	return e.Seq
}
