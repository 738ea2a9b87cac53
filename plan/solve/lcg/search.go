package lcg

// Status is what Solve found.
type Status int

// What Solve may find.
const (
	Limit Status = iota // stopped before an answer
	Sat                 // Value tells the solution
	Unsat               // no solution under the assumptions that are returned
)

// Variables, so that tests restart and forget within tiny models.
var (
	restartUnit int64 = 64
	firstForget       = 1500
)

// Solve looks for a solution under assumptions, for at most so many conflicts
// (0: no limit) and until stop, asked now and then, says so. Where there is none
// it returns the assumptions that rule it out, a subset of assume.
func (s *Solver) Solve(assume []Lit, conflicts int64, stop func() bool) (Status, []Lit) {
	s.cancel(0)
	if s.dead {
		return Unsat, nil
	}
	begun, sinceRestart, run := s.Stats.Conflicts, int64(0), int64(1)
	base := min(1, len(assume)) // the level of the assumptions, all of them
	s.keep = max(s.keep, firstForget)
	for {
		if !s.propagate() {
			s.Stats.Conflicts++
			sinceRestart++
			learnt, back, ok := s.analyse(base)
			if !ok {
				core := s.core(s.confl)
				s.dead = len(core) == 0
				return Unsat, core
			}
			s.learn(learnt, back)
			used := s.Stats.Conflicts - begun
			if conflicts > 0 && used >= conflicts || stop != nil && used&15 == 0 && stop() {
				s.cancel(0)
				return Limit, nil
			}
			if sinceRestart >= restartUnit*luby(run) {
				sinceRestart = 0
				run++
				s.Stats.Restarts++
				s.cancel(base)
				if s.learnts > s.keep {
					s.forget()
					s.keep += s.keep / 10
				}
			}
			continue
		}
		if s.Stats.Decisions&255 == 0 && stop != nil && stop() {
			s.cancel(0)
			return Limit, nil
		}
		if s.assumed < len(assume) {
			if l, ok := s.assume(assume); !ok {
				return Unsat, append(s.core([]Lit{l.Not()}), l)
			}
			continue
		}
		l, done := s.decide()
		if done {
			for v := range s.phase {
				s.phase[v] = s.lb[2*v]
			}
			s.hasBest = true
			s.cancel(0)
			return Sat, nil
		}
		s.Stats.Decisions++
		s.level = append(s.level, int32(len(s.trail)))
		s.push(l, reason{by: byDecision})
	}
}

// Refute reports whether propagation alone rules assumptions out, and learns it.
func (s *Solver) Refute(assume []Lit) bool { return !s.Under(assume, func() {}) }

// Under calls look with the bounds that variables have under assumptions by
// propagation alone, and reports false instead where that rules them out.
func (s *Solver) Under(assume []Lit, look func()) bool {
	for s.cancel(0); !s.dead; {
		var core []Lit
		if !s.propagate() {
			s.Stats.Conflicts++
			core = s.core(s.confl)
		} else if s.assumed == len(assume) {
			look()
			s.cancel(0)
			return true
		} else if l, ok := s.assume(assume); !ok {
			core = append(s.core([]Lit{l.Not()}), l)
		} else {
			continue
		}
		for k, l := range core {
			core[k] = l.Not()
		}
		s.Clause(core...)
		return false
	}
	return false
}

// assume puts down the next assumption that does not hold already, false where it
// cannot hold. All are on the first level: a learnt clause that leads back among
// them, or a restart, has none of them to be propagated anew.
func (s *Solver) assume(all []Lit) (Lit, bool) {
	if len(s.level) == 0 {
		s.level = append(s.level, int32(len(s.trail)))
	}
	for s.assumed < len(all) {
		l := all[s.assumed]
		if s.Fails(l) {
			return l, false
		}
		s.assumed++
		if !s.Holds(l) {
			s.push(l, reason{by: byDecision})
			break
		}
	}
	return Lit{}, true
}

// decide returns the next literal to decide; done: nothing is left to decide.
func (s *Solver) decide() (l Lit, done bool) {
	if l, ok := s.order.next(s); ok {
		if s.hasBest && s.phase[l.V/2] >= l.B {
			return l, false
		}
		return l.Not(), false
	}
	if s.Branch != nil {
		if l, ok := s.Branch(s); ok {
			return l, false
		}
	}
	for v := Var(0); int(v) < len(s.lb); v += 2 {
		if s.lb[v] != -s.lb[v^1] && !s.Loose(v) {
			return AtMost(v, s.lb[v]), false
		}
	}
	return Lit{}, true
}

// Value returns the value of v in the last solution found or told.
func (s *Solver) Value(v Var) int32 {
	if v&1 == 1 {
		return -s.phase[v/2]
	}
	return s.phase[v/2]
}

// Loosen says that the variable of l need not be decided: whatever the others are,
// it may have one of the values left to it, and nobody asks which.
func (s *Solver) Loosen(l Lit) { s.loose[l.V/2] = true }

// Loose reports whether v need not be decided.
func (s *Solver) Loose(v Var) bool { return s.loose[v/2] }

// Known reports whether Value means something.
func (s *Solver) Known() bool { return s.hasBest }

// Prefer tells a value to try first: part of a solution found otherwise.
func (s *Solver) Prefer(v Var, value int32) {
	s.hasBest = true
	if v&1 == 1 {
		value = -value
	}
	s.phase[v/2] = value
}

// learn jumps back, keeps the clause and sets its first literal.
func (s *Solver) learn(lits []Lit, back int) {
	s.Stats.Learnt++
	if s.Learnt != nil {
		s.Learnt(lits)
	}
	lbd := s.levels(lits[1:]) + 1
	s.cancel(back)
	for _, l := range lits {
		s.order.bump(l)
	}
	s.order.decay()
	why := reason{by: byDecision}
	if len(lits) > 1 {
		k := s.attach(lits, true, lbd)
		s.clauses[k].act = float32(s.Stats.Conflicts)
		why = reason{by: byClause, a: k}
	}
	s.push(lits[0], why)
}

// luby is the sequence 1 1 2 1 1 2 4 …: M. Luby, A. Sinclair, D. Zuckerman,
// Optimal speedup of Las Vegas algorithms, IPL 47 (1993).
func luby(i int64) int64 {
	for k := int64(1); ; k++ {
		if n := int64(1)<<k - 1; i == n {
			return 1 << (k - 1)
		} else if i < n {
			return luby(i - (1<<(k-1) - 1))
		}
	}
}
