package session

import (
	"context"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/remedy"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/verify"
)

// Remedies returns the ways out of what is late or about to break now, the best
// first, serving as it is last; none where nothing is, or where ctx ends first. It
// writes nothing and keeps nobody waiting: meant to be called beside the screen
// after an event, and given up by ctx when the next one comes.
func (s *Session) Remedies(ctx context.Context) []remedy.Remedy {
	st, now := s.State(), s.cfg.Clock.Now()
	if st.Timetable == nil {
		return nil
	}
	return s.question(st, now).Offer(ctx)
}

// NeedsRemedy reports whether a course that is to come will be late, or a rule about
// to break: whether Remedies has something to offer. It takes a millisecond.
func (s *Session) NeedsRemedy() bool {
	st, now := s.State(), s.cfg.Clock.Now()
	return st.Timetable != nil && s.question(st, now).Needed()
}

// question is a run as it is now, for package remedy.
func (s *Session) question(st *run.State, now time.Time) remedy.Question {
	return remedy.Question{
		State: st, Now: now, AsItIs: s.projected(st.At(now), now),
		Again:  s.again,
		Verify: func(p *plan.Plan, t *plan.Timetable) []plan.Break { return s.cfg.Verify(p, t, now) },
	}
}

// Take takes a remedy: it is written, and the timetable that it promises is in force
// from then on. Where that is out of date, since something else was told or its
// minute has passed, the rest is planned again with what was given up. Undoing the
// event takes the timetable back too.
//
// Errors: as of Record.
func (s *Session) Take(r remedy.Remedy) (*run.State, error) {
	s.writing.Lock()
	defer s.writing.Unlock()
	now, e := s.cfg.Clock.Now(), r.Event
	e.At, e.Noted = now, now
	if err := s.writeAll([]run.Event{e}); err != nil {
		return s.State(), err
	}
	cause := s.lastSeq()
	if r.Timetable == nil {
		return s.State(), nil
	}
	st := s.State().At(now)
	if t := s.stillGood(st, r.Timetable, now); t != nil {
		return s.adopted(st, t, cause, now)
	}
	if t := s.again(s.ctx, st, now); t != nil {
		return s.adopted(st, t, cause, now)
	}
	err := s.rebalance(cause, now)
	return s.State(), err
}

// stillGood returns what a remedy promised, as it stands now, or nil where that
// cannot be any more.
func (s *Session) stillGood(st *run.State, t *plan.Timetable, now time.Time) *plan.Timetable {
	if !keepsFacts(st, run.Project(st, now), t, now) {
		return nil
	}
	is := s.counting(st.Plan, t, now)
	if len(fresh(is, t.Breaks)) > 0 {
		return nil
	}
	return t
}

func (s *Session) adopted(st *run.State, t *plan.Timetable, cause uint64, now time.Time) (*run.State, error) {
	err := s.adopt(s.verified(t, now), why(st, t, now), cause, now)
	return s.State(), err
}

// projected is what comes if nothing is changed: the timetable in force moved to
// where things are projected, with what it breaks that counts.
func (s *Session) projected(st *run.State, now time.Time) *plan.Timetable {
	t := moved(st, run.Project(st, now), now)
	t.Breaks = s.counting(st.Plan, t, now)
	t.Status = verify.Status(st.Plan, t, t.Breaks)
	return t
}
