package lcg

import "slices"

// solve solves under assumptions and compares the answer with all solutions.
func (a *auditor) solve(assume []Lit) Status {
	const plenty = 20_000
	status, core := a.s.Solve(assume, plenty, nil)
	there := a.p.against(a.open, assume, True.Not()) >= 0
	switch {
	case status == Limit:
		a.fail("no answer under %v after %d conflicts", assume, plenty)
	case status == Sat:
		a.solution(a.s.Value, assume)
	case there:
		a.fail("no solution is found under %v and there is one", assume)
	default:
		for _, l := range core {
			if !slices.Contains(assume, l) {
				a.fail("core %v: %v is none of the assumptions %v", core, l, assume)
			}
		}
		if i := a.p.against(a.open, core, True.Not()); i >= 0 {
			a.fail("core %v of %v allows the solution %v", core, assume, a.p.assignment(i))
		}
	}
	return status
}

// branch decides any literal that is open.
func (d *drawer) branch(s *Solver) (Lit, bool) {
	for range 8 {
		if l := d.literal(); !s.Holds(l) && !s.Fails(l) {
			return l, true
		}
	}
	return Lit{}, false
}

// walk decides at random until all is decided or there is a conflict, then goes
// back one bound at a time and asks each why, also for less than it rose to;
// several times.
func (a *auditor) walk(d *drawer) {
	for range 6 {
		a.walkOnce(d)
	}
}

func (a *auditor) walkOnce(d *drawer) {
	s := a.s
	s.cancel(0)
	if s.dead || a.failed != nil {
		return
	}
	if !s.propagate() {
		s.dead = true
		if i := a.open.first(); i >= 0 {
			a.fail("a conflict before any decision, and %v is a solution", a.p.assignment(i))
		}
		return
	}
	for {
		a.settled()
		l, ok := d.branch(s)
		if !ok {
			var done bool
			if l, done = s.decide(); done {
				a.solution(s.Lower, nil)
				break
			}
		}
		s.level = append(s.level, int32(len(s.trail)))
		s.push(l, reason{by: byDecision})
		if !s.propagate() {
			break
		}
	}
	if len(s.level) == 0 {
		return
	}
	for a.failed == nil && len(s.trail) > int(s.level[0]) {
		e := s.trail[len(s.trail)-1]
		if s.pop(); e.why.by == byDecision {
			continue
		}
		l := Lit{e.v, e.b}
		s.explain(l, e.why, nil)
		if e.b-e.old > 1 {
			l.B = e.old + 1 + d.Int32N(e.b-e.old)
			s.explain(l, e.why, nil)
		}
	}
	s.cancel(0)
}

// ask solves under assumptions drawn at random, and in between not to the end.
func (a *auditor) ask(d *drawer) {
	for range 6 {
		var assume []Lit
		for range d.IntN(6) {
			assume = append(assume, d.literal())
		}
		if d.oneIn(10) {
			assume = append(assume, True)
		}
		if d.oneIn(4) {
			a.s.Solve(assume, 1+d.Int64N(3), nil)
		}
		if d.oneIn(4) && a.s.Refute(assume) && a.p.against(a.open, assume, True.Not()) >= 0 {
			a.fail("%v is refuted and there is a solution", assume)
		}
		if d.oneIn(6) {
			for k := range d.m.low {
				a.s.Prefer(Var(2*k+d.IntN(2)), d.Int32N(4)-1)
			}
		}
		if a.solve(assume); a.failed != nil {
			return
		}
	}
}

// minimum makes a view as small as can be, by bisection.
func (a *auditor) minimum(d *drawer) {
	w := d.view()
	best := int32(1 << 30)
	for i := range a.p.size {
		if a.open.has(i) {
			best = min(best, valueOf(w, a.p.assignment(i)))
		}
	}
	low, high := int32(-10), int32(20)
	for low < high && a.failed == nil {
		mid := low + (high-low-1)/2
		if a.solve([]Lit{w.AtMost(mid)}) == Sat {
			high = mid
			continue
		}
		low = mid + 1
	}
	if a.failed == nil && a.open.first() >= 0 && high != best {
		a.fail("the least value of %v is %d, found is %d", w, best, high)
	}
}

// enumerate finds all solutions, or as many as asked for, forbidding each by a
// clause. That none is missed or found twice is seen by solve.
func (a *auditor) enumerate(most int) int {
	for n := 0; ; n++ {
		if n == most || a.failed != nil || a.solve(nil) != Sat {
			return n
		}
		i := a.solution(a.s.Value, nil)
		a.open.remove(i)
		var clause []Lit
		for k, v := range a.p.assignment(i) {
			clause = append(clause, AtMost(Var(2*k), v-1), AtLeast(Var(2*k), v+1))
		}
		a.s.Clause(clause...)
	}
}
