package session

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan/clock"
	"example.org/kettledrum/plan/run"
)

// ErrStuck is returned by Play when a run goes nowhere: a cue stays open
// whatever is answered, or nothing is ever due again. It means a bug.
var ErrStuck = errors.New("the run goes nowhere")

// answersAMoment is how many cues one moment can have for each step: an end, a
// start, an oven setting, and as much again to be safe.
const answersAMoment = 6

// Part is what goes on in a simulated run beside the answering of its cues. What
// it does not record goes as projected.
type Part interface {
	// Cue is told of each cue once while it is there, before it is answered. It may record events of
	// its own, and turn the clock on to answer late: what went unconfirmed meanwhile
	// went as planned.
	Cue(c run.Cue, now time.Time)
	// Play is called at each instant at which anything is due, before any of its cues
	// is answered and after each answer. It may record events.
	Play(now time.Time) error
	// Next returns when, after now, Play wants to be called though no cue is due.
	Next(now time.Time) (at time.Time, ok bool)
	// Silent reports whether nobody answers.
	Silent(now time.Time) bool
}

// Simulate cooks the run without a screen and without mishaps: Play with a Part
// that does nothing but to call each, which may be nil, for every cue.
func Simulate(ctx context.Context, s *Session, c clock.Jumper, until time.Time, each func(run.Cue, time.Time)) error {
	return Play(ctx, s, c, until, onlyCues(each))
}

// onlyCues is a Part that is told of the cues.
type onlyCues func(run.Cue, time.Time)

func (f onlyCues) Cue(c run.Cue, now time.Time) {
	if f != nil {
		f(c, now)
	}
}
func (onlyCues) Play(time.Time) error                  { return nil }
func (onlyCues) Next(time.Time) (at time.Time, _ bool) { return at, false }
func (onlyCues) Silent(time.Time) bool                 { return false }

// Play cooks the run without a screen: it answers each cue the moment it is due,
// but while the part is silent, and moves the clock from one to the next, until the
// last course is served or the clock passes until. The clock must be the session's.
//
// Errors: ErrStuck, that of the context, those of Record and of the part.
func Play(ctx context.Context, s *Session, c clock.Jumper, until time.Time, part Part) error {
	seen := map[string]bool{}
	left := answersAMoment * (len(s.cfg.Plan.Steps) + len(s.cfg.Plan.Courses) + 1)
	for answers := left; ; {
		if err := ctx.Err(); err != nil {
			return err
		}
		now := c.Now()
		if err := part.Play(now); err != nil {
			return err
		}
		m := run.Conduct(s.State(), now)
		if m.Finished || now.After(until) {
			return nil
		}
		for id := range seen { // one that went and comes back is another
			if !slices.ContainsFunc(m.Cues, func(c run.Cue) bool { return c.ID == id }) {
				delete(seen, id)
			}
		}
		silent := part.Silent(now)
		if cue, ok := nextCue(m, seen, silent); ok {
			if answers--; answers < 0 {
				return fmt.Errorf("%w: at %s cue %q is open again and again", ErrStuck, now.Format(time.RFC3339), cue.ID)
			}
			if !seen[cue.ID] {
				part.Cue(cue, now)
			}
			seen[cue.ID] = true
			if silent {
				continue
			}
			// What the part recorded may have answered it.
			open := run.Conduct(s.State(), now).Cues
			if k := slices.IndexFunc(open, func(o run.Cue) bool { return o.ID == cue.ID }); k >= 0 && due(open[k]) {
				if _, err := s.Record(measured(s.State(), open[k].Answer)...); err != nil {
					return fmt.Errorf("answer cue %q: %w", cue.ID, err)
				}
			}
			continue
		}
		if len(m.Unconfirmed) > 0 && !silent { // somebody came back too late to a cue
			if answers--; answers < 0 {
				return fmt.Errorf("%w: at %s %q stays unconfirmed", ErrStuck, now.Format(time.RFC3339), m.Unconfirmed[0].Cue.ID)
			}
			if _, err := s.Record(run.AllAsPlanned(m)...); err != nil {
				return fmt.Errorf("all as planned: %w", err)
			}
			continue
		}
		at, ok := nextDue(m)
		if silent { // time passes, and what nobody answers drifts with it
			at, ok = now.Truncate(time.Minute).Add(time.Minute), true
		}
		if next, more := part.Next(now); more && (!ok || next.Before(at)) {
			at, ok = next, true
		}
		if !ok {
			return fmt.Errorf("%w: at %s nothing is due any more and %d courses are not served", ErrStuck, now.Format(time.RFC3339), unserved(m))
		}
		if !c.Jump(at).After(now) {
			return fmt.Errorf("%w: the clock stands at %s", ErrStuck, now.Format(time.RFC3339))
		}
		if _, err := s.Tick(); err != nil {
			return err
		}
		answers = left
	}
}

// measured is an answer with what a thermometer shows: what is called done is at its
// temperature, unless it was read to be.
func measured(st *run.State, answer []run.Event) []run.Event {
	var out []run.Event
	for _, e := range answer {
		if e.Kind == run.Finished {
			i := st.Plan.StepIndex(e.Step)
			if r, ok := run.AtTarget(st.Plan, i); ok && !st.Steps[i].Inside.Reached(st.Plan.Steps[i].Until.Temp) {
				out = append(out, r)
			}
		}
		out = append(out, e)
	}
	return out
}

// due reports whether a cue wants an answer now. A standby is answered when what
// it announces is due.
func due(c run.Cue) bool { return len(c.Answer) > 0 && c.Class != run.Soon }

// nextCue returns the most urgent cue that is due or has not been seen; while
// nobody answers only one that has not been seen.
func nextCue(m run.Moment, seen map[string]bool, silent bool) (run.Cue, bool) {
	for _, c := range m.Cues {
		if !seen[c.ID] || due(c) && !silent {
			return c, true
		}
	}
	return run.Cue{}, false
}

// nextDue returns when the next thing is due after the moment.
func nextDue(m run.Moment) (at time.Time, ok bool) {
	take := func(t time.Time) {
		if t.After(m.Now) && (!ok || t.Before(at)) {
			at, ok = t, true
		}
	}
	for _, n := range m.Next {
		take(n.At)
	}
	for _, g := range m.Going {
		take(g.End)
	}
	for _, c := range m.Courses {
		take(c.Projected)
	}
	return at, ok
}

func unserved(m run.Moment) (n int) {
	for _, c := range m.Courses {
		if c.Served.IsZero() {
			n++
		}
	}
	return n
}
