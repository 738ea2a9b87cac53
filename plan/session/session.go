package session

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"sync"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock"
	"example.org/kettledrum/plan/run"
)

// Log is where events go: a journal on disk, or one in memory. Append returns
// once the payload is safe, with its number, from 1.
type Log interface {
	Append(payload []byte) (uint64, error)
}

// Config is what a session is made of.
type Config struct {
	Log   Log
	Plan  *plan.Plan
	Copy  run.PlanCopy // of Plan, for the journal; unused where there is a Past
	Past  []run.Event  // what the journal holds; empty for a new run
	Clock clock.Clock
	// Made: what the first timetable of a new run has before this instant went as
	// planned, and is written so. Zero: nothing has happened.
	Made time.Time
	// Make finds a timetable before anything has happened.
	Make func(context.Context, *plan.Plan) *plan.Timetable
	// Again finds one for what is left; what has happened stays. Nil where it
	// finds none.
	Again func(context.Context, *run.State, time.Time) *plan.Timetable
	// Hold: the first timetable stays in force, whatever happens, and nothing is
	// planned again. What that loses is what planning again gains.
	Hold bool
	// Verify lists the rules that a timetable breaks from an instant on.
	Verify func(p *plan.Plan, t *plan.Timetable, since time.Time) []plan.Break
}

// NotWrittenError is returned when the journal could not take an event.
type NotWrittenError struct {
	Kind run.Kind
	Err  error
}

// Error says what was not written, why, and what is safe.
func (e *NotWrittenError) Error() string {
	if e.Kind == run.Adopted {
		return fmt.Sprintf("what you entered is written, the new timetable is not: %v", e.Err)
	}
	return fmt.Sprintf("not written: %s: %v; nothing you entered before is lost", e.Kind, e.Err)
}

// Unwrap returns why.
func (e *NotWrittenError) Unwrap() error { return e.Err }

// Session is one run under way. Its methods may be called from several
// goroutines; one that writes waits for another.
type Session struct {
	cfg Config
	ctx context.Context // ends the search for timetables

	writing sync.Mutex // held while events are written and timetables sought
	looked  look       // the projection that was last looked at
	planned *plan.Plan // the plan as it stood then
	mu      sync.Mutex // guards state
	state   *run.State
}

// Open begins a new run, which makes its first timetable, or goes on with one
// that has a past: then nothing is written and every deadline is as it was. The
// context ends searches for timetables.
//
// Errors: a past that does not fold; *NotWrittenError.
func Open(ctx context.Context, cfg Config) (*Session, error) {
	state, err := run.Fold(cfg.Plan, cfg.Past)
	if err != nil {
		return nil, fmt.Errorf("the journal does not fit the plan: %w", err)
	}
	s := &Session{cfg: cfg, ctx: ctx, state: state, planned: state.Plan}
	now := cfg.Clock.Now()
	switch {
	case len(cfg.Past) == 0:
		opened := run.Event{Kind: run.Opened, At: now, Noted: now, Plan: &cfg.Copy}
		if err := s.write(opened); err != nil {
			return nil, err
		}
	case cfg.Past[0].Kind != run.Opened:
		return nil, fmt.Errorf("the journal begins with %q and should begin with %q", cfg.Past[0].Kind, run.Opened)
	}
	if s.State().Timetable == nil { // new, or ended before it had one
		if err := s.begin(now); err != nil {
			return nil, err
		}
	}
	return s, nil
}

// begin makes the first timetable.
func (s *Session) begin(now time.Time) error {
	t := s.cfg.Make(s.ctx, s.cfg.Plan)
	made := !s.cfg.Made.IsZero()
	if t != nil && made {
		if err := s.adopt(s.verified(t, time.Time{}), nil, 0, now); err != nil {
			return err
		}
		if _, err := s.FastForward(s.cfg.Made); err != nil {
			return err
		}
	}
	since := time.Time{}
	if t != nil && !s.cfg.Copy.Rehearse && begins(t, s.cfg.Made).Before(now) {
		// Opened too late for the best: what is planned must still lie ahead.
		t, since, made = s.cfg.Again(s.ctx, s.State(), now), now, false
	}
	switch {
	case t == nil:
		return errors.New("no timetable was found")
	case made:
		return nil
	}
	return s.adopt(s.verified(t, since), nil, 0, now)
}

// begins returns the first moment, at or after an instant, at which a timetable
// wants somebody.
func begins(t *plan.Timetable, since time.Time) time.Time {
	first := t.Serves[0]
	for _, at := range append([]time.Time{t.LatestStart}, t.Serves...) {
		if at.Before(first) && !at.Before(since) {
			first = at
		}
	}
	for _, touch := range t.Touches {
		if touch.At.Before(first) && !touch.At.Before(since) {
			first = touch.At
		}
	}
	return first
}

// State returns what is known now. It is never changed once returned.
func (s *Session) State() *run.State {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.state
}

// Record writes what happened: events without Noted get the present, those
// without At too. It returns the state with all of them, and perhaps with
// another timetable, once they are safe in the journal.
//
// Errors: that of run.State.Apply, when one of the events cannot be; then none
// is written. *NotWrittenError, when the journal took none or not all; the
// state then has what it took.
func (s *Session) Record(evs ...run.Event) (*run.State, error) {
	s.writing.Lock()
	defer s.writing.Unlock()
	now := s.cfg.Clock.Now()
	for i := range evs {
		if evs[i].Noted.IsZero() {
			evs[i].Noted = now
		}
		if evs[i].At.IsZero() {
			evs[i].At = now
		}
	}
	if err := s.writeAll(evs); err != nil {
		return s.State(), err
	}
	if err := s.rebalance(s.lastSeq(), now); err != nil {
		return s.State(), err
	}
	return s.State(), nil
}

// Tick is to be called once a minute of the session's time. It writes nothing and
// adopts nothing: what drifts without a word is for run.Project to show.
func (s *Session) Tick() (*run.State, error) { return s.State(), nil }

// writeAll writes the events if all of them can have been and the state takes them.
func (s *Session) writeAll(evs []run.Event) error {
	try, states := s.State(), make([]*run.State, 0, len(evs))
	for _, e := range evs {
		if err := try.Possible(e); err != nil {
			return err
		}
		next, err := try.Apply(e)
		if err != nil {
			return err
		}
		try, states = next, append(states, next)
	}
	for _, next := range states {
		if err := s.append(next); err != nil {
			return err
		}
	}
	return nil
}

// write puts one event into the journal and then into the state.
func (s *Session) write(e run.Event) error {
	next, err := s.State().Apply(e)
	if err != nil {
		return err
	}
	return s.append(next)
}

// append writes the newest event of the next state, and then has that state.
func (s *Session) append(next *run.State) error {
	e := next.Events[len(next.Events)-1]
	payload, err := json.Marshal(e)
	if err != nil {
		return fmt.Errorf("event %s: %w", e.Kind, err)
	}
	seq, err := s.cfg.Log.Append(payload)
	if err == nil && seq != e.Seq {
		err = fmt.Errorf("the journal numbers it %d, the run %d: something else writes to it", seq, e.Seq)
	}
	if err != nil {
		return &NotWrittenError{Kind: e.Kind, Err: err}
	}
	s.mu.Lock()
	s.state = next
	s.mu.Unlock()
	return nil
}

// lastSeq returns the number of the newest event, 0 without any.
func (s *Session) lastSeq() uint64 {
	evs := s.State().Events
	if len(evs) == 0 {
		return 0
	}
	return evs[len(evs)-1].Seq
}
