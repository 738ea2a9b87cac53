package ring

import (
	"time"

	"example.org/kettledrum/plan/run"
)

// Cue is what the rule knows of an open cue: one that nobody has answered.
type Cue struct {
	ID    string
	Class run.Class
}

// Ring is a sound to be made.
type Ring struct {
	Class run.Class
	// Louder is how many steps louder than the first time, 0 to Loudest.
	Louder int
}

// State is what the rule remembers. The zero State has heard nothing. It is a
// value: Step returns another and changes nothing.
type State struct {
	cues   map[string]heard
	last   time.Time // of the last ring; zero: none yet
	silent time.Time // until when; zero: no silence
	seen   time.Time // of the last step
}

// heard is what is remembered of an open cue.
type heard struct {
	class run.Class
	rung  int
	due   time.Time // of its next ring; zero: none
}

// Step returns the state at an instant with these cues open, and the sound to be
// made then, nil for none. A clock that was set back moves everything with it.
func (s State) Step(now time.Time, open []Cue) (State, *Ring) {
	if back := s.seen.Sub(now); back > 0 {
		s = s.shift(-back)
	}
	s.seen = now
	s.cues = s.follow(now, open)
	if s.Silent(now) {
		return s, nil
	}
	ring, any := Ring{}, false
	for _, c := range s.cues {
		if !c.isDue(now) {
			continue
		}
		switch louder := min(c.rung, Loudest); {
		case !any || c.class < ring.Class:
			ring, any = Ring{c.class, louder}, true
		case c.class == ring.Class:
			ring.Louder = max(ring.Louder, louder)
		}
	}
	resting := !s.last.IsZero() && now.Sub(s.last) < Rest
	if !any || resting && ring.Class != run.Danger {
		return s, nil
	}
	s.last = now
	for id, c := range s.cues { // follow made a map of its own
		if c.class >= ring.Class && !c.due.IsZero() {
			s.cues[id] = c.again(now)
		}
	}
	return s, &ring
}

// follow returns what is remembered of the open cues: what was answered is
// forgotten; what is new, or more urgent than it was, is due.
func (s State) follow(now time.Time, open []Cue) map[string]heard {
	cues := make(map[string]heard, len(open))
	for _, c := range open {
		h, known := s.cues[c.ID]
		if !known || c.Class < h.class {
			h = heard{due: now}
		}
		h.class = c.Class
		cues[c.ID] = h
	}
	return cues
}

func (h heard) isDue(now time.Time) bool { return !h.due.IsZero() && !now.Before(h.due) }

// again is the cue after a ring.
func (h heard) again(now time.Time) heard {
	h.rung++
	h.due = time.Time{}
	if d, ok := interval(h.class, h.rung); ok {
		h.due = now.Add(d)
	}
	return h
}

// Hush keeps everything quiet for Silence from an instant on.
func (s State) Hush(now time.Time) State {
	s.silent = now.Add(Silence)
	return s
}

// Unhush ends a silence.
func (s State) Unhush() State {
	s.silent = time.Time{}
	return s
}

// Silent reports whether the key for silence keeps everything quiet at an instant.
func (s State) Silent(now time.Time) bool { return now.Before(s.silent) }

// SilentFor is how long the silence still lasts.
func (s State) SilentFor(now time.Time) time.Duration { return max(0, s.silent.Sub(now)) }

// Sounded remembers that something else sounded, a test: no cue rings on top of it
// but danger.
func (s State) Sounded(now time.Time) State {
	s.last = now
	return s
}

// shift moves all that is remembered by a time.
func (s State) shift(by time.Duration) State {
	move := func(t time.Time) time.Time {
		if t.IsZero() {
			return t
		}
		return t.Add(by)
	}
	s.last, s.silent, s.seen = move(s.last), move(s.silent), move(s.seen)
	cues := make(map[string]heard, len(s.cues))
	for id, h := range s.cues {
		h.due = move(h.due)
		cues[id] = h
	}
	s.cues = cues
	return s
}
