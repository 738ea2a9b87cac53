package solve

import (
	"context"
	"math/rand/v2"
	"slices"
)

// search is a seeded local search over the order of placing (keys: greatest
// first) and the ticks of the due milestones.
type search struct {
	pl    *placer
	p     *Problem
	rng   *rand.Rand
	due   []int  // activities that are due milestones, in order
	first []Tick // earliest tick of each due, by lags alone

	keys []float64 // of the best
	at   []Tick    // of the best
	wish wish      // of the best
	best *Result
	far  bool // it has looked far out
}

// wish says, for each activity, whether it keeps to its hint, and whether it
// does not care to start before its Before.
// And by when it is to end for the sake of those before it.
type wish struct {
	stick, late []bool
	cap         []Tick
}

// noWish is that of n activities that want nothing.
func noWish(n int) wish {
	return wish{make([]bool, n), make([]bool, n), slices.Repeat([]Tick{Unbounded}, n)}
}

// toggled returns a copy with a few places changed, or none.
func (s *search) toggled(b []bool) []bool {
	b = slices.Clone(b)
	for range s.rng.IntN(4) {
		i := s.rng.IntN(len(b))
		b[i] = !b[i]
	}
	return b
}

// recapped returns other caps: one lifted, or one set where the best timetable
// lets something wait longer than is liked, or the same.
func (s *search) recapped(c []Tick) []Tick {
	switch s.rng.IntN(4) {
	case 0:
		c = slices.Clone(c)
		c[s.rng.IntN(len(c))] = Unbounded
	case 1:
		if len(s.p.Lags) == 0 {
			break
		}
		l := s.p.Lags[s.rng.IntN(len(s.p.Lags))]
		if f := l.From.Act; l.Soft && f >= 0 && l.To.Act >= 0 && !s.p.Acts[f].Due {
			if short := l.Min - (when(s.best, l.To) - when(s.best, l.From)); short > 0 {
				c = slices.Clone(c)
				c[f] = s.best.End[f] - short
			}
		}
	}
	return c
}

func (s *search) start(hint []Tick) {
	p, b := s.p, s.pl.base
	for i, a := range p.Acts {
		if a.Due {
			s.due = append(s.due, i)
		}
	}
	s.first = s.earliestDue()
	keys := make([]float64, len(p.Acts))
	// First order: by the latest end that the lags alone leave, given the
	// earliest due ticks; of two the one with the longer way before it.
	s.pl.reset()
	s.fixDue(s.first)
	for i := range keys {
		keys[i] = float64(s.pl.b.ub[2*i+1]) + 1e-3*float64(b.lb[2*i]) - 1e-6*float64(i)
		if hint != nil {
			keys[i] = float64(hint[i]) - 1e-6*float64(i)
		}
	}
	none, all := noWish(len(keys)), noWish(len(keys))
	ahead := false
	for i, a := range p.Acts {
		all.stick[i], all.late[i] = true, true
		ahead = ahead || a.Before > 0
	}
	if hint != nil {
		s.evaluate(keys, slices.Clone(s.first), wish{all.stick, none.late, none.cap})
		if s.best.Cost.Broken == 0 {
			return
		}
	}
	s.evaluate(keys, slices.Clone(s.first), none)
	if ahead {
		s.evaluate(keys, slices.Clone(s.first), wish{none.stick, all.late, none.cap})
	}
}

// farOut looks further and further out for as long as something would have to begin
// before it can, once: far enough there is room for everything, one after the other. If
// not even so, what has no room is put where it can be, and overbooks something.
func (s *search) farOut() {
	if s.far {
		return
	}
	s.far = true
	none := noWish(len(s.keys))
	for _, strict := range []bool{false, true} {
		if s.best.Cost.Broken < timeTravel {
			return
		}
		s.pl.strict = strict
		for later := Tick(15); s.best.Cost.Broken >= timeTravel && later < s.p.Horizon; later *= 2 {
			at := slices.Clone(s.first)
			for k := range at {
				at[k] += later
			}
			s.evaluate(s.keys, at, none)
		}
	}
}

// earliestDue returns the earliest tick of each due milestone by lags, lengths
// and earliest starts, resources aside.
func (s *search) earliestDue() []Tick {
	b := s.pl.base
	mark := b.mark()
	for i, a := range s.p.Acts {
		if !a.Fixed {
			b.raise(int32(2*i), a.Earliest)
		}
	}
	b.propagate()
	out := make([]Tick, len(s.due))
	for k, i := range s.due {
		out[k] = b.lb[2*i]
	}
	b.undo(mark)
	b.trail = b.trail[:0]
	return out
}

// fixDue puts the due milestones down, each at its tick or as soon after as the
// facts and the ones before allow, and returns where. Relaxable lags that forbid
// it are given up.
func (s *search) fixDue(at []Tick) []Tick {
	pl, b := s.pl, s.pl.b
	for k, i := range s.due {
		at[k] = max(at[k], b.lb[2*i])
		mark := b.mark()
		if !b.fix(int32(2*i), at[k]) || !b.propagate() {
			b.undo(mark)
			pl.giveUp(s.due...)
			at[k] = max(at[k], b.lb[2*i])
			mark = b.mark()
			if !b.fix(int32(2*i), at[k]) || !b.propagate() {
				// Beyond the horizon: the latest tick that there is.
				b.undo(mark)
				at[k] = max(b.lb[2*i], min(at[k], b.ub[2*i]))
				b.fix(int32(2*i), at[k])
				b.propagate()
			}
		}
		if !pl.placed[i] {
			pl.commit(i, true)
		}
	}
	return at
}

// evaluate generates the timetable of an order and due ticks; while something
// would have to begin before it can, it moves the milestone behind it later.
// It keeps the timetable if it is the best so far, and reports whether it is.
func (s *search) evaluate(keys []float64, at []Tick, w wish) bool {
	better := false
	s.pl.stick, s.pl.late, s.pl.cap = w.stick, w.late, w.cap
	for try := range Tick(6) {
		push := s.generate(keys, at)
		r := s.pl.result()
		s.pl.stats.Tries++
		if s.best == nil || r.Cost.Less(s.best.Cost) {
			s.best, s.keys, s.at, s.wish = r, slices.Clone(keys), slices.Clone(at), w
			s.pl.stats.Improved++
			better = true
		}
		moved := len(s.pl.pulls) > 0
		if moved {
			w.cap = slices.Clone(w.cap)
			for _, p := range s.pl.pulls {
				w.cap[p.act] = min(w.cap[p.act], p.end)
			}
			s.pl.cap = w.cap
		}
		for k := range at {
			if push[k] > 0 {
				at[k] += push[k] * (1 + try/2)
				moved = true
			}
		}
		if !moved || !s.promising(at) {
			break
		}
	}
	return better
}

// promising reports whether due ticks could still give a better timetable.
func (s *search) promising(at []Tick) bool {
	if s.best == nil || s.best.Cost.Broken > 0 {
		return true
	}
	return s.lateness(at) <= s.best.Cost.Soft[0]
}

// lateness returns the penalty of the soft lags that touch due milestones alone.
func (s *search) lateness(at []Tick) int64 {
	var sum int64
	for _, l := range s.p.Lags {
		if l.Soft && l.Level == 0 && l.From.Act >= 0 && l.To.Act < 0 {
			if k := slices.Index(s.due, l.From.Act); k >= 0 {
				sum += l.Weight * int64(max(0, l.Min+at[k]))
			}
		}
	}
	return sum
}

// forcedPush is by how much at most a milestone is moved later for an activity
// that found no room at all.
const forcedPush = 10

// generate puts everything down and returns by how much to move each milestone
// later for what began too early.
func (s *search) generate(keys []float64, at []Tick) []Tick {
	pl := s.pl
	pl.reset()
	copy(at, s.fixDue(at))
	pl.facts()
	for {
		pick := -1
		for i := range keys {
			if pl.placed[i] || pick >= 0 && keys[i] <= keys[pick] {
				continue
			}
			ready := true
			for _, j := range pl.succ[i] {
				if !pl.placed[j] {
					ready = false
					break
				}
			}
			if ready {
				pick = i
			}
		}
		if pick < 0 {
			break
		}
		pl.place(pick)
	}
	push := make([]Tick, len(s.due))
	for i := range s.p.Acts {
		short := max(pl.tooEarly(i), min(pl.forced[i], forcedPush))
		if d := pl.dueOf[i]; short > 0 && d >= 0 {
			k := slices.Index(s.due, d)
			push[k] = max(push[k], short)
		}
	}
	return push
}

// climb improves the best timetable by changing keys and due ticks.
func (s *search) climb(ctx context.Context, tries int) {
	n := len(s.p.Acts)
	span := 1.0
	for _, a := range s.p.Acts {
		span = max(span, float64(min(a.Min, 120)))
	}
	stale := 0
	for s.pl.stats.Tries < tries && ctx.Err() == nil {
		keys, at := slices.Clone(s.keys), slices.Clone(s.at)
		switch s.rng.IntN(6) {
		case 0: // all a little
			for i := range keys {
				keys[i] += s.rng.NormFloat64() * span / 4
			}
		case 1: // swap two
			i, j := s.rng.IntN(n), s.rng.IntN(n)
			keys[i], keys[j] = keys[j], keys[i]
		case 2: // those that suffer come first
			for i, w := range s.pl.suffering(s.best) {
				if w > 0 {
					keys[i] += span * s.rng.Float64()
				}
			}
		default: // a few a lot
			for range 1 + s.rng.IntN(3) {
				keys[s.rng.IntN(n)] += s.rng.NormFloat64() * span
			}
		}
		for k := range at {
			switch s.rng.IntN(3) {
			case 0:
				at[k] = s.first[k]
			case 1:
				at[k] = s.first[k] + Tick(s.rng.Int64N(max(0, int64(at[k]-s.first[k]))+1))
			}
		}
		w := s.wish
		if s.pl.hint != nil {
			w.stick = s.toggled(w.stick)
		}
		w.late = s.toggled(w.late)
		w.cap = s.recapped(w.cap)
		if s.evaluate(keys, at, w) {
			stale = 0
		} else if stale++; stale > 400+tries/4 {
			return
		}
	}
}
