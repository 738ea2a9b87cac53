package lcg

// arc is a difference constraint: if cond then to ≥ from + w. Each is kept
// twice, from the side of the lower and of the upper bounds:
//
//	lb[to] ≥ lb[from] + w,  lb[−from] ≥ lb[−to] + w
//
// Where the bounds contradict the arc its condition fails. An explanation is
// lifted to the bound that was needed: to ≥ b follows from from ≥ b − w.
type arc struct {
	from, to Var
	w        int32
	cond     Lit
}

type half struct {
	to   Var
	w    int32
	arc  int32
	cond Lit
}

type guard struct {
	b   int32 // the bound of the condition
	arc int32
}

// Arc adds: if cond then to ≥ from + w. It reports false where the bounds and
// the arcs without conditions contradict it already.
func (s *Solver) Arc(from, to View, w int32, cond Lit) bool {
	w += from.Plus - to.Plus
	if cond.V >= 0 && s.Fails(cond) && len(s.level) == 0 {
		return true
	}
	if cond.V >= 0 && s.Holds(cond) && len(s.level) == 0 {
		cond = True
	}
	if from.V == to.V {
		if w <= 0 {
			return true
		}
		return s.Clause(cond.Not())
	}
	n := int32(len(s.arcs))
	s.arcs = append(s.arcs, arc{from.V, to.V, w, cond}, arc{to.V ^ 1, from.V ^ 1, w, cond})
	s.out[from.V] = append(s.out[from.V], half{to.V, w, n, cond})
	s.out[to.V^1] = append(s.out[to.V^1], half{from.V ^ 1, w, n + 1, cond})
	if cond.V >= 0 {
		s.ifTrue[cond.V] = append(s.ifTrue[cond.V], guard{cond.B, n}, guard{cond.B, n + 1})
	}
	ok := s.pull(n) && s.pull(n+1)
	if !ok && len(s.level) == 0 {
		s.dead = true
	}
	return ok
}

// pull propagates one arc.
func (s *Solver) pull(k int32) bool {
	a := &s.arcs[k]
	b := s.lb[a.from] + a.w
	switch {
	case s.Holds(a.cond):
		return s.lb[a.to] >= b || s.set(Lit{a.to, b}, reason{by: byArc, a: k})
	case b+s.lb[a.to^1] > 0 && !s.Fails(a.cond):
		return s.set(a.cond.Not(), reason{by: byArcCond, a: k})
	}
	return true
}

// follow propagates the arcs that the rise of trail entry i concerns.
func (s *Solver) follow(i int32) bool {
	e := s.trail[i]
	if s.last[e.v] == i { // else a later entry does it
		lb := e.b
		for j := range s.out[e.v] {
			h := &s.out[e.v][j]
			b := lb + h.w
			if s.lb[h.to] >= b {
				continue
			}
			if s.Holds(h.cond) {
				if !s.set(Lit{h.to, b}, reason{by: byArc, a: h.arc}) {
					return false
				}
			} else if b+s.lb[h.to^1] > 0 && !s.Fails(h.cond) {
				if !s.set(h.cond.Not(), reason{by: byArcCond, a: h.arc}) {
					return false
				}
			}
		}
	}
	for _, g := range s.ifTrue[e.v] {
		if e.old < g.b && g.b <= e.b && !s.pull(g.arc) {
			return false
		}
	}
	return true
}

func (s *Solver) explainArc(l Lit, why reason, out []Lit) []Lit {
	a := &s.arcs[why.a]
	if why.by == byArc {
		out = append(out, Lit{a.from, l.B - a.w})
		if a.cond.V >= 0 {
			out = append(out, a.cond)
		}
		return out
	}
	// from + w > to: what is more than needed is taken off the first.
	spare := s.lb[a.from] + a.w + s.lb[a.to^1] - 1
	return append(out, Lit{a.from, s.lb[a.from] - spare}, Lit{a.to ^ 1, s.lb[a.to^1]})
}
