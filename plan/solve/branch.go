package solve

import "example.org/kettledrum/plan/solve/lcg"

// branch decides where nothing was learnt yet. Projects run forwards: what can
// begin first begins. Where there are milestones to be late for they come first,
// then everything backwards from them, as late as it may; and where a solution
// is known its times are tried.
func (m *model) branch() func(*lcg.Solver) (lcg.Lit, bool) {
	for _, a := range m.p.Acts {
		if a.Due {
			return m.latest
		}
	}
	return m.earliest
}

// earliest decides on the activity that can begin first.
func (m *model) earliest(s *lcg.Solver) (lcg.Lit, bool) {
	best, at, room := -1, Tick(0), Tick(0)
	for i, w := range m.start {
		lo, hi := s.Lower(w.V), s.Upper(w.V)
		if lo < hi && (best < 0 || lo < at || lo == at && hi-lo < room) {
			best, at, room = i, lo, hi-lo
		}
	}
	if best < 0 {
		return lcg.Lit{}, false
	}
	return lcg.AtMost(m.start[best].V, at), true
}

func (m *model) open(s *lcg.Solver, w lcg.View) bool { return s.Lower(w.V) < s.Upper(w.V) }

// latest decides on the activity that can end last, all that belongs to it.
func (m *model) latest(s *lcg.Solver) (lcg.Lit, bool) {
	best, at := -1, Tick(0)
	for i, a := range m.p.Acts {
		if best >= 0 && !a.Due && s.Upper(m.end[i].V)+m.end[i].Plus <= at {
			continue
		}
		if !m.open(s, m.start[i]) && !m.open(s, m.end[i]) && !m.undecided(s, i) {
			continue
		}
		if a.Due {
			w := m.start[i]
			if m.open(s, w) {
				return m.guess(s, w, s.Lower(w.V)), true
			}
			continue
		}
		if e := s.Upper(m.end[i].V) + m.end[i].Plus; best < 0 || e > at {
			best, at = i, e
		}
	}
	if best < 0 {
		return m.rest(s)
	}
	for _, w := range []lcg.View{m.end[best], m.start[best]} {
		if m.open(s, w) {
			return m.guess(s, w, s.Upper(w.V)), true
		}
	}
	for _, k := range m.usesOf[best] {
		if l, ok := m.choose(s, m.choice[k]); ok {
			return l, true
		}
	}
	return m.rest(s)
}

// guess decides towards the value of the best solution, else towards v.
func (m *model) guess(s *lcg.Solver, w lcg.View, v Tick) lcg.Lit {
	if s.Known() {
		v = min(max(s.Value(w.V), s.Lower(w.V)), s.Upper(w.V))
	}
	if s.Lower(w.V) < v {
		return lcg.AtLeast(w.V, v)
	}
	return lcg.AtMost(w.V, v)
}

// choose decides the first option that is open, that of the best solution if any.
func (m *model) choose(s *lcg.Solver, lits []lcg.Lit) (lcg.Lit, bool) {
	pick, found := lcg.Lit{}, false
	for _, l := range lits {
		if s.Holds(l) || s.Fails(l) {
			continue
		}
		if !found || s.Known() && s.Value(l.V) >= l.B {
			pick, found = l, true
		}
	}
	return pick, found
}

func (m *model) undecided(s *lcg.Solver, i int) bool {
	for _, k := range m.usesOf[i] {
		if !m.chosenOf(s, k) {
			return true
		}
	}
	return false
}

// chosenOf reports whether the option of use k is decided. Which held last is
// looked at first: of one that holds nothing else needs to be looked at.
func (m *model) chosenOf(s *lcg.Solver, k int) bool {
	opts := m.choice[k]
	if s.Holds(opts[m.took[k]]) {
		return true
	}
	for i, l := range opts {
		if s.Holds(l) {
			m.took[k] = i
			return true
		}
	}
	return false
}

// rest decides about the stays: no setting that is not needed, and those that
// are needed late.
func (m *model) rest(s *lcg.Solver) (lcg.Lit, bool) {
	y := &m.stay
	for k := range y.fresh {
		if l, ok := m.choose(s, y.in[k]); ok && l.V >= 0 {
			return l, true
		}
	}
	for k := range y.fresh {
		f := y.fresh[k]
		if f != (lcg.Lit{}) && !s.Holds(f) && !s.Fails(f) {
			return f.Not(), true
		}
	}
	for k := range y.fresh {
		if y.tick[k].V > 0 && m.open(s, y.tick[k]) {
			return lcg.AtLeast(y.tick[k].V, s.Upper(y.tick[k].V)), true
		}
		if l, ok := m.choose(s, y.option[k]); ok {
			return l, true
		}
	}
	return m.leftover(s)
}

// leftover decides what is left, each low. It goes on from where it was: nothing
// is undone but at a conflict or by another question.
func (m *model) leftover(s *lcg.Solver) (lcg.Lit, bool) {
	if m.seen != s.Stats.Conflicts {
		m.seen, m.cursor = s.Stats.Conflicts, 0
	}
	for ; m.cursor < m.past; m.cursor += 2 {
		if lo := s.Lower(m.cursor); lo < s.Upper(m.cursor) && !s.Loose(m.cursor) {
			return lcg.AtMost(m.cursor, lo), true
		}
	}
	return lcg.Lit{}, false
}

// ask is Solve of the solver.
func (m *model) ask(assume []lcg.Lit, conflicts int64, stop func() bool) (lcg.Status, []lcg.Lit) {
	m.cursor = 0
	return m.s.Solve(assume, conflicts, stop)
}
