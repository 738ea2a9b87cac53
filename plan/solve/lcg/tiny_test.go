package lcg

import (
	"fmt"
	"strings"
)

// tiny is a model small enough to try every assignment. Variable k of it is
// Var 2k of the solver; an assignment x has x[k] for it. What its rules mean is
// written down here from their definitions alone, apart from the propagators.
type tiny struct {
	low, high []int32
	rules     []rule
}

type rule interface {
	post(s *Solver)
	holds(x []int32) bool
}

// valueOf is the value of a view, isTrue the truth of a literal.
func valueOf(w View, x []int32) int32 {
	if w.V%2 == 0 {
		return x[w.V/2] + w.Plus
	}
	return -x[w.V/2] + w.Plus
}

func isTrue(l Lit, x []int32) bool {
	switch l {
	case True:
		return true
	case True.Not():
		return false
	}
	return valueOf(View{V: l.V}, x) >= l.B
}

// arcRule: if cond then to ≥ from + w.
type arcRule struct {
	from, to View
	w        int32
	cond     Lit
}

func (r arcRule) post(s *Solver) { s.Arc(r.from, r.to, r.w, r.cond) }

func (r arcRule) holds(x []int32) bool {
	return !isTrue(r.cond, x) || valueOf(r.to, x) >= valueOf(r.from, x)+r.w
}

// clauseRule: one of the literals is true.
type clauseRule []Lit

func (r clauseRule) post(s *Solver) { s.Clause(r...) }

func (r clauseRule) holds(x []int32) bool {
	for _, l := range r {
		if isTrue(l, x) {
			return true
		}
	}
	return false
}

// linearRule: if cond then Σ factor·v ≤ most.
type linearRule struct {
	terms []Term
	most  int64
	cond  Lit
}

func (r linearRule) post(s *Solver) { s.Linear(append([]Term(nil), r.terms...), r.most, r.cond) }

func (r linearRule) holds(x []int32) bool {
	if !isTrue(r.cond, x) {
		return true
	}
	sum := int64(0)
	for _, t := range r.terms {
		sum += int64(t.Factor) * int64(valueOf(View{V: t.V}, x))
	}
	return sum <= r.most
}

// cumulativeRule: every task lasts its least time, and at no moment do those
// present ask for more than the capacity.
type cumulativeRule struct {
	capacity int32
	tasks    []Task
}

func (r cumulativeRule) post(s *Solver) {
	for _, t := range r.tasks {
		s.Arc(t.From, t.To, t.Least, True)
	}
	s.Cumulative(r.capacity, append([]Task(nil), r.tasks...))
}

func (r cumulativeRule) holds(x []int32) bool {
	first, last := int32(1<<30), int32(-1<<30)
	for _, t := range r.tasks {
		from, to := valueOf(t.From, x), valueOf(t.To, x)
		if to-from < t.Least {
			return false
		}
		first, last = min(first, from), max(last, to)
	}
	for moment := first; moment < last; moment++ {
		use := int32(0)
		var inGroup, amountOf [4]int32
		for _, t := range r.tasks {
			if valueOf(t.From, x) > moment || moment >= valueOf(t.To, x) || !isTrue(t.Present, x) {
				continue
			}
			if t.Group == 0 {
				use += t.Amount
				continue
			}
			inGroup[t.Group]++
			amountOf[t.Group] = t.Amount
		}
		for g, n := range inGroup {
			use += (n + 1) / 2 * amountOf[g] // of n tasks every two count as one
		}
		if use > r.capacity {
			return false
		}
	}
	return true
}

func (m *tiny) String() string {
	var b strings.Builder
	for k := range m.low {
		fmt.Fprintf(&b, "\tx%d in [%d, %d]\n", k, m.low[k], m.high[k])
	}
	for k, r := range m.rules {
		fmt.Fprintf(&b, "\t%d: %T %+v\n", k, r, r)
	}
	return b.String()
}
