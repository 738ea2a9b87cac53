package rehearse

import (
	"context"
	"errors"
	"fmt"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/mishap"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

// Played is a mishap that was played, or could not be.
type Played struct {
	mishap.Mishap
	At time.Time // when it was
	// Took is the line of the remedy that was taken.
	Took string
	// Refused says why it could not be; empty where it was played.
	Refused string
}

// Watcher is told what comes of a rehearsal, as it comes. Each may be nil.
type Watcher struct {
	Cue    func(c run.Cue, at time.Time)
	Mishap func(Played)
	Replan func(Replan)
	// Remedies: a Replan has the remedies that are offered then, which takes as long
	// as planning dozens of times.
	Remedies bool
}

// Player plays a script on a session. It is a session.Part.
type Player struct {
	ctx    context.Context // ends the search for remedies
	s      *session.Session
	watch  Watcher
	script []mishap.Mishap
	from   time.Time
	over   []bool // of each mishap: played, or refused
	silent time.Time
	read   int             // how many of the run's events have been looked at
	table  *plan.Timetable // in force after those
}

// New returns a player of a script, in any order, on a session that has its first
// timetable. The rehearsal begins at from: what lies before is refused.
func New(ctx context.Context, s *session.Session, script []mishap.Mishap, from time.Time, w Watcher) *Player {
	st := s.State()
	return &Player{ctx: ctx, s: s, watch: w, script: script, from: from, over: make([]bool, len(script)), read: len(st.Events), table: st.Timetable}
}

// Cue tells the watcher.
func (p *Player) Cue(c run.Cue, now time.Time) {
	if p.watch.Cue != nil {
		p.watch.Cue(c, now)
	}
}

// Play records what is due by now and not played yet, in the order of its times,
// and tells the watcher of each timetable adopted since it was last called.
//
// Errors: *session.NotWrittenError. What contradicts the run is refused, and told.
func (p *Player) Play(now time.Time) error {
	p.adopted()
	for {
		k, at := p.first()
		if k < 0 || at.After(now) {
			return nil
		}
		p.over[k] = true
		if err := p.play(p.script[k], at); err != nil {
			return err
		}
		p.adopted()
	}
}

// first returns the mishap that is due first, of equals the first of the script;
// -1 for none.
func (p *Player) first() (k int, at time.Time) {
	k = -1
	for i, m := range p.script {
		if p.over[i] {
			continue
		}
		if due, ok := p.due(m); ok && (k < 0 || due.Before(at)) {
			k, at = i, due
		}
	}
	return k, at
}

// Next returns when the next mishap is due.
func (p *Player) Next(time.Time) (time.Time, bool) {
	k, at := p.first()
	return at, k >= 0
}

// Silent reports whether nobody answers.
func (p *Player) Silent(now time.Time) bool { return now.Before(p.silent) }

// play records one mishap that is due.
func (p *Player) play(m mishap.Mishap, at time.Time) error {
	done := Played{Mishap: m, At: at}
	err := p.record(m, at, &done)
	if broken := (*session.NotWrittenError)(nil); errors.As(err, &broken) {
		return err
	}
	if err != nil {
		done.Refused = err.Error()
	}
	if p.watch.Mishap != nil {
		p.watch.Mishap(done)
	}
	return nil
}

func (p *Player) record(m mishap.Mishap, at time.Time, done *Played) error {
	switch {
	case !m.At.IsZero() && m.At.Before(p.from):
		return errors.New("the rehearsal begins later")
	case m.Kind == mishap.Silent:
		p.silent = at.Add(m.By)
		return nil
	case m.Kind == mishap.TakeRemedy:
		return p.take(m.Remedy, done)
	}
	events := p.events(m, at)
	if len(events) == 0 {
		return nil
	}
	_, err := p.s.Record(events...)
	return err
}

// take takes the remedy of that number, from 1, of those offered now.
func (p *Player) take(n int, done *Played) error {
	offered := p.s.Remedies(p.ctx)
	switch {
	case len(offered) == 0:
		return errors.New("no remedy is offered: nothing is late or about to break")
	case n > len(offered):
		return fmt.Errorf("only %d remedies are offered", len(offered))
	}
	done.Took = offered[n-1].Line()
	_, err := p.s.Take(offered[n-1])
	return err
}

// Left returns the mishaps that were never due: what they were to befall was
// over, or never came.
func (p *Player) Left() []mishap.Mishap {
	var out []mishap.Mishap
	for i, m := range p.script {
		if !p.over[i] {
			out = append(out, m)
		}
	}
	return out
}
