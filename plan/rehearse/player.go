package rehearse

import (
	"errors"
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
	// Refused says why it could not be; empty where it was played.
	Refused string
}

// Watcher is told what comes of a rehearsal, as it comes. Each may be nil.
type Watcher struct {
	Cue    func(c run.Cue, at time.Time)
	Mishap func(Played)
	Replan func(Replan)
}

// Player plays a script on a session. It is a session.Part.
type Player struct {
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
func New(s *session.Session, script []mishap.Mishap, from time.Time, w Watcher) *Player {
	st := s.State()
	return &Player{s: s, watch: w, script: script, from: from, over: make([]bool, len(script)), read: len(st.Events), table: st.Timetable}
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
		if err := p.play(p.script[k], at, now); err != nil {
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
func (p *Player) play(m mishap.Mishap, at, now time.Time) error {
	events, err := p.events(m, at)
	if !m.At.IsZero() && m.At.Before(p.from) {
		events, err = nil, errors.New("the rehearsal begins later")
	}
	if err == nil && len(events) > 0 {
		_, err = p.s.Record(events...)
	}
	if broken := (*session.NotWrittenError)(nil); errors.As(err, &broken) {
		return err
	}
	if m.Kind == mishap.Silent && err == nil {
		p.silent = at.Add(m.By)
	}
	done := Played{Mishap: m, At: at}
	if err != nil {
		done.Refused = err.Error()
	}
	if p.watch.Mishap != nil {
		p.watch.Mishap(done)
	}
	return nil
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
