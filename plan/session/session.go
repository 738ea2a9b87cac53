package session

import (
	"context"
	"errors"
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
	// Make finds a timetable before anything has happened.
	Make func(context.Context, *plan.Plan) *plan.Timetable
	// Again finds one for what is left; what has happened stays.
	Again func(context.Context, *run.State, time.Time) *plan.Timetable
	// Verify lists the rules that a timetable breaks from an instant on.
	Verify func(p *plan.Plan, t *plan.Timetable, since time.Time) []plan.Break
}

// Session is one run under way. Its methods may be called from several
// goroutines.
type Session struct {
	cfg   Config
	mu    sync.Mutex
	state *run.State
}

var errSoon = errors.New("not built yet")

// Open begins a new run or goes on with one that has a past.
func Open(ctx context.Context, cfg Config) (*Session, error) { return nil, errSoon }

// State returns what is known now. It is never changed once returned.
func (s *Session) State() *run.State {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.state
}

// Record writes what happened into the journal, then into the state.
func (s *Session) Record(evs ...run.Event) (*run.State, error) { return s.State(), errSoon }

// Tick is to be called once a minute of the session's time.
func (s *Session) Tick() (*run.State, error) { return s.State(), errSoon }

// FastForward records everything that the timetable has before to as having
// gone as planned.
func (s *Session) FastForward(to time.Time) (*run.State, error) { return s.State(), errSoon }

// Simulate cooks the run without a screen: it answers each cue the moment it
// is due and moves the clock from one to the next, until the last course is
// served or the clock passes until. It calls each for every cue it comes to.
func Simulate(ctx context.Context, s *Session, c clock.Jumper, until time.Time, each func(run.Cue, time.Time)) error {
	return errSoon
}
