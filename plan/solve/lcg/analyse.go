package lcg

// marks is the set of literals that the conflict under analysis rests on: at
// most one bound of each variable, for the greatest implies the others.
type marks struct {
	in    []bool
	need  []int32
	entry []int32 // the entry that made it hold, -1 where v is not in the list
	list  []Var   // all that were in since the last clear, each once
}

func (m *marks) grow(n int) {
	for len(m.in) < n {
		m.in, m.need, m.entry = append(m.in, false), append(m.need, 0), append(m.entry, -1)
	}
}

func (m *marks) clear() {
	for _, v := range m.list {
		m.in[v], m.entry[v] = false, -1
	}
	m.list = m.list[:0]
}

// mark adds l and reports whether that makes one more literal of the level.
func (s *Solver) mark(l Lit, level int32) bool {
	if l.V < 0 {
		return false
	}
	m := &s.marks
	if m.in[l.V] && m.need[l.V] >= l.B {
		return false
	}
	e := s.entryOf(l)
	if e < 0 || s.trail[e].level == 0 {
		return false
	}
	was := m.in[l.V] && s.trail[m.entry[l.V]].level == level
	if m.entry[l.V] < 0 {
		m.list = append(m.list, l.V)
	}
	m.in[l.V] = true
	m.need[l.V], m.entry[l.V] = l.B, e
	return s.trail[e].level == level && !was
}

// analyse finds the first unique implication point of the conflict. The trail
// is undone on the way, so that each explanation sees the bounds of its time.
// It returns the learnt clause, its first literal to be set after jumping back
// to the level returned, or false where the conflict depends on no decision above
// level base.
func (s *Solver) analyse(base int) (learnt []Lit, back int, ok bool) {
	level := int32(0)
	for _, l := range s.confl {
		if l.V < 0 {
			continue
		}
		if e := s.entryOf(l); e >= 0 {
			level = max(level, s.trail[e].level)
		}
	}
	if int(level) <= base {
		return nil, 0, false
	}
	lits := append(s.scratch[:0], s.confl...)
	s.cancel(int(level))
	m := &s.marks
	m.clear()
	count := 0
	for _, l := range lits {
		if s.mark(l, level) {
			count++
		}
	}
	for {
		i := int32(len(s.trail) - 1)
		e := s.trail[i]
		if !m.in[e.v] || m.entry[e.v] != i {
			s.pop()
			continue
		}
		if count == 1 {
			learnt = append(learnt, Lit{e.v, m.need[e.v]}.Not())
			m.in[e.v] = false
			break
		}
		m.in[e.v] = false
		count--
		s.pop()
		if e.why.by == byClause {
			s.clauses[e.why.a].act += 1
		}
		lits = s.explain(Lit{e.v, m.need[e.v]}, e.why, lits[:0])
		for _, l := range lits {
			if s.mark(l, level) {
				count++
			}
		}
	}
	s.scratch = lits
	for _, v := range m.list {
		if l := (Lit{v, m.need[v]}); m.in[v] && !s.redundant(l, m.entry[v]) {
			learnt = append(learnt, l.Not())
		}
	}
	// The literal of the highest level is watched beside the first.
	for k := 1; k < len(learnt); k++ {
		if e := s.trail[m.entry[learnt[k].V^1]].level; int(e) > back {
			back = int(e)
			learnt[1], learnt[k] = learnt[k], learnt[1]
		}
	}
	return learnt, back, true
}

// redundant reports whether l follows from other marked literals that held
// before it. The order in time keeps two literals from vouching for each other.
func (s *Solver) redundant(l Lit, at int32) bool {
	why := s.trail[at].why
	if why.by != byArc && why.by != byClause {
		return false
	}
	m := &s.marks
	lits := s.explain(l, why, s.scratch[:0])
	s.scratch = lits
	for _, p := range lits {
		if p.V < 0 {
			continue
		}
		e := s.entryOf(p)
		if e < 0 || s.trail[e].level == 0 {
			continue
		}
		if !m.in[p.V] || m.need[p.V] < p.B || m.entry[p.V] >= at {
			return false
		}
	}
	return true
}

// levels counts the decision levels in a learnt clause.
func (s *Solver) levels(lits []Lit) int32 {
	n := int32(0)
	s.stamp++
	for _, l := range lits {
		e := s.entryOf(l.Not())
		if e < 0 {
			continue
		}
		at := int(s.trail[e].level)
		for len(s.stamps) <= at {
			s.stamps = append(s.stamps, 0)
		}
		if s.stamps[at] != s.stamp {
			s.stamps[at] = s.stamp
			n++
		}
	}
	return n
}

// core returns the assumptions, all decided, that the failure of l rests on. The
// trail is undone.
func (s *Solver) core(failed []Lit) []Lit {
	m := &s.marks
	m.clear()
	for _, l := range failed {
		s.mark(l, 0)
	}
	var out, lits []Lit
	for len(s.trail) > 0 {
		i := int32(len(s.trail) - 1)
		e := s.trail[i]
		if e.level == 0 {
			break
		}
		s.pop()
		if !m.in[e.v] || m.entry[e.v] != i {
			continue
		}
		m.in[e.v] = false
		if e.why.by == byDecision {
			out = append(out, Lit{e.v, e.b})
			continue
		}
		lits = s.explain(Lit{e.v, m.need[e.v]}, e.why, lits[:0])
		for _, l := range lits {
			s.mark(l, 0)
		}
	}
	s.cancel(0)
	return out
}
