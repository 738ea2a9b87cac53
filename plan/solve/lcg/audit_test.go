package lcg

import (
	"fmt"
	"slices"
)

// auditor watches a solver at work on a tiny model. Each explanation must hold
// when it is asked for, and must imply what it explains by its own rule alone,
// within the bounds from before the search, over all assignments; each learnt
// clause must hold in all solutions that are not forbidden yet.
type auditor struct {
	s         *Solver
	p         *space
	within    []set // of each rule: where it holds, within the bounds at the root
	ofArc     []int // the rule that each arc comes from
	ofProp    []int
	open      set // solutions not forbidden yet
	failed    error
	explained int
}

// audited asks for conflicts of a propagator as the audit of explanations does
// for bounds.
type audited struct {
	Propagator
	a    *auditor
	rule int
}

func (q audited) Propagate(s *Solver) bool {
	if q.Propagator.Propagate(s) {
		return true
	}
	q.a.holdsNow(s.confl, "conflict")
	if i := q.a.p.against(q.a.within[q.rule], s.confl, True.Not()); i >= 0 {
		q.a.fail("rule %d: %v is called a conflict but %v satisfies it", q.rule, s.confl, q.a.p.assignment(i))
	}
	return false
}

// watched posts a model to a new solver that is audited.
func watched(m *tiny, p *space) *auditor {
	a := &auditor{s: &Solver{}, p: p, open: slices.Clone(p.solutions)}
	s := a.s
	for k := range m.low {
		s.NewVar(m.low[k], m.high[k])
	}
	for k, r := range m.rules {
		r.post(s)
		for len(a.ofArc) < len(s.arcs) {
			a.ofArc = append(a.ofArc, k)
		}
		for len(a.ofProp) < len(s.props) {
			a.ofProp = append(a.ofProp, k)
		}
	}
	for n, q := range s.props {
		s.props[n] = audited{q, a, a.ofProp[n]}
	}
	root := slices.Clone(p.all)
	for v, b := range s.lb {
		l := Lit{Var(v), b}
		p.keep(root, l, true)
		if i := p.against(a.open, nil, l); i >= 0 {
			a.fail("%v at the root rules out the solution %v", l, p.assignment(i))
		}
	}
	for _, q := range p.ofRule {
		q = slices.Clone(q)
		for i := range q {
			q[i] &= root[i]
		}
		a.within = append(a.within, q)
	}
	s.audit, s.Learnt = a.explanation, a.learnt
	return a
}

func (a *auditor) fail(format string, args ...any) {
	if a.failed == nil {
		a.failed = fmt.Errorf(format, args...)
	}
}

func (a *auditor) holdsNow(lits []Lit, what string) {
	for _, l := range lits {
		if !a.s.Holds(l) {
			a.fail("%s %v: %v does not hold", what, lits, l)
		}
	}
}

func (a *auditor) explanation(l Lit, why reason, lits []Lit) {
	a.explained++
	a.holdsNow(lits, fmt.Sprint("explanation of ", l, " by "))
	var within set
	var from string
	switch {
	case why.by == byDecision:
		a.fail("the decision %v is asked why", l)
		return
	case why.by == byClause:
		// The clause as it is kept: whether it may be kept is asked elsewhere.
		within = slices.Clone(a.p.all)
		a.cut(within, a.s.clauses[why.a].lits)
		from = fmt.Sprint("the clause ", a.s.clauses[why.a].lits)
	case why.by == byArc || why.by == byArcCond:
		n := a.ofArc[why.a]
		within, from = a.within[n], fmt.Sprint("rule ", n)
	default:
		n := a.ofProp[why.by]
		within, from = a.within[n], fmt.Sprint("rule ", n)
	}
	if i := a.p.against(within, lits, l); i >= 0 {
		a.fail("%s: %v does not follow from %v: see %v", from, l, lits, a.p.assignment(i))
	}
}

// cut leaves in a what satisfies a clause.
func (a *auditor) cut(in set, lits []Lit) {
	out := slices.Clone(in)
	for _, l := range lits {
		a.p.keep(out, l, false)
	}
	for k := range in {
		in[k] &^= out[k]
	}
}

func (a *auditor) learnt(lits []Lit) {
	a.isTrueClause("learnt", lits)
	for k, l := range lits {
		if a.s.Holds(l) || !a.s.Fails(l) {
			a.fail("learnt %v: %v does not fail", lits, l)
		}
		for _, other := range lits[:k] {
			if other.V == l.V {
				a.fail("learnt %v: two bounds of one variable in the same direction", lits)
			}
		}
	}
}

func (a *auditor) isTrueClause(what string, lits []Lit) {
	out := slices.Clone(a.open)
	for _, l := range lits {
		a.p.keep(out, l, false)
	}
	if i := out.first(); i >= 0 {
		a.fail("%s %v rules out the solution %v", what, lits, a.p.assignment(i))
	}
}

// kept asks whether all clauses that the solver keeps are true.
func (a *auditor) kept() {
	for k := range a.s.clauses {
		if c := &a.s.clauses[k]; !c.deleted {
			a.isTrueClause("kept", c.lits)
		}
	}
}

// solution asks whether values are a solution, and returns its number.
func (a *auditor) solution(value func(Var) int32, assume []Lit) int {
	x := make([]int32, len(a.p.m.low))
	for k := range x {
		x[k] = value(Var(2 * k))
	}
	for k, v := range x {
		if v < a.p.m.low[k] || v > a.p.m.high[k] {
			a.fail("solution %v is out of the domains", x)
			return -1
		}
	}
	for _, l := range assume {
		if !isTrue(l, x) {
			a.fail("solution %v under %v does not satisfy %v", x, assume, l)
		}
	}
	i := a.p.number(x)
	if !a.open.has(i) {
		a.fail("solution %v is none", x)
	}
	return i
}
