package lcg

// entry says that v's bound rose from old to b, and why.
type entry struct {
	v      Var
	b, old int32
	prev   int32 // the entry of v before this one, -1 for none
	level  int32
	why    reason
}

// reason is why a bound rose: by is one of the constants or the number of a
// propagator, to which a and b mean something.
type reason struct{ by, a, b int32 }

const (
	byDecision = -1 - iota
	byClause   // a: clause
	byArc      // a: arc
	byArcCond  // a: arc, whose condition cannot hold
)

// sub says that a propagator wants to be told of changes of a bound.
type sub struct{ prop, data int32 }

// Propagator tightens bounds by one rule.
type Propagator interface {
	// Propagate applies the rule and reports false on a conflict, as Set does.
	Propagate(s *Solver) bool
	// Explain appends literals that hold now and together imply l. It is called
	// with the bounds as they were just before l was set with a and b.
	Explain(s *Solver, l Lit, a, b int32, out []Lit) []Lit
	// Touch says that a bound subscribed to with data has risen, or (undone)
	// fallen back.
	Touch(data int32, undone bool)
}

// Solver holds variables, constraints and what was learnt. The zero value is
// ready for use.
type Solver struct {
	lb    []int32 // by Var
	last  []int32 // newest entry of each Var, -1
	trail []entry
	level []int32 // length of the trail where each decision level began
	head  int     // entries before it have been propagated
	// assumed is how many of the assumptions of Solve have been put down, on level 1.
	assumed int

	arcs    []arc
	out     [][]half    // by Var: arcs from it
	ifTrue  [][]guard   // by Var: arcs whose condition is a bound of it
	watches []watchList // by Var whose rise makes a literal false
	clauses []clause
	free    []int32 // numbers of deleted clauses
	learnts int
	keep    int // learnt clauses above which the least used are forgotten

	props   []Propagator
	subs    [][]sub
	queued  []bool
	queue   [2]queue // by priority, 0 first
	prio    []int8
	dead    bool  // no solution whatever is decided
	confl   []Lit // literals that hold and cannot all
	scratch []Lit

	marks   marks
	stamps  []int64 // by decision level
	stamp   int64
	order   order
	Branch  func(s *Solver) (Lit, bool) // decides where nothing was learnt; false: all is decided
	phase   []int32                     // by Var/2: values of the best solution
	hasBest bool
	loose   []bool // by Var/2: need not be decided

	// Learnt, where set, is shown each learnt clause.
	Learnt func(lits []Lit)
	// audit, where set by a test, is shown each explanation.
	audit func(l Lit, why reason, lits []Lit)
	Stats Stats
}

// Stats counts what the solver did.
type Stats struct {
	Conflicts, Decisions, Propagations, Restarts, Learnt int64
}

// NewVar makes a variable with values in [lo, hi].
func (s *Solver) NewVar(lo, hi int32) Var {
	v := Var(len(s.lb))
	s.lb = append(s.lb, lo, -hi)
	s.last = append(s.last, -1, -1)
	s.out = append(s.out, nil, nil)
	s.ifTrue = append(s.ifTrue, nil, nil)
	s.watches = append(s.watches, watchListOf(lo, hi), watchListOf(-hi, -lo))
	s.subs = append(s.subs, nil, nil)
	s.marks.grow(len(s.lb))
	s.phase = append(s.phase, 0)
	s.loose = append(s.loose, false)
	return v
}

// NewBool makes a variable that is 0 or 1 and returns the literal that it is 1.
func (s *Solver) NewBool() Lit { return Lit{s.NewVar(0, 1), 1} }

// Lower and Upper are the present bounds of v.
func (s *Solver) Lower(v Var) int32 { return s.lb[v] }

// Upper is the present upper bound of v.
func (s *Solver) Upper(v Var) int32 { return -s.lb[v^1] }

func (s *Solver) lower(w View) int32 { return s.lb[w.V] + w.Plus }
func (s *Solver) upper(w View) int32 { return w.Plus - s.lb[w.V^1] }

// Holds reports whether l holds, Fails whether it cannot.
func (s *Solver) Holds(l Lit) bool {
	if l.V < 0 {
		return l.V == True.V
	}
	return s.lb[l.V] >= l.B
}

// Fails reports whether l cannot hold.
func (s *Solver) Fails(l Lit) bool {
	if l.V < 0 {
		return l.V != True.V
	}
	return s.lb[l.V^1] >= 1-l.B
}

// Post adds a propagator. Priority 0 runs before 1.
func (s *Solver) Post(p Propagator, priority int8) int32 {
	s.props = append(s.props, p)
	s.queued = append(s.queued, false)
	s.prio = append(s.prio, priority)
	n := int32(len(s.props) - 1)
	s.schedule(n)
	return n
}

// Watch subscribes propagator prop to rises of v.
func (s *Solver) Watch(v Var, prop, data int32) { s.subs[v] = append(s.subs[v], sub{prop, data}) }

// queue holds propagators that wait for their turn.
type queue struct {
	waiting []int32
	head    int
}

func (q *queue) next() (int32, bool) {
	if q.head == len(q.waiting) {
		q.waiting, q.head = q.waiting[:0], 0
		return 0, false
	}
	q.head++
	return q.waiting[q.head-1], true
}

func (s *Solver) schedule(p int32) {
	if !s.queued[p] {
		s.queued[p] = true
		q := &s.queue[s.prio[p]]
		q.waiting = append(q.waiting, p)
	}
}

// set makes l hold for a reason. It reports false on a conflict, whose literals
// are then in s.confl.
func (s *Solver) set(l Lit, why reason) bool {
	if s.lb[l.V] >= l.B {
		return true
	}
	if s.lb[l.V^1] >= 1-l.B {
		s.confl = s.explain(l, why, s.confl[:0])
		s.confl = append(s.confl, l.Not())
		return false
	}
	s.push(l, why)
	return true
}

// Set is for propagators: prop sets l, and will explain it from a and b.
func (s *Solver) Set(l Lit, prop, a, b int32) bool {
	return s.lb[l.V] >= l.B || s.set(l, reason{prop, a, b})
}

// Conflict is for propagators: the literals appended to out hold and cannot all.
func (s *Solver) Conflict(lits []Lit) bool {
	s.confl = append(s.confl[:0], lits...)
	return false
}

func (s *Solver) push(l Lit, why reason) {
	v := l.V
	s.trail = append(s.trail, entry{v, l.B, s.lb[v], s.last[v], int32(len(s.level)), why})
	s.lb[v] = l.B
	s.last[v] = int32(len(s.trail) - 1)
	for _, u := range s.subs[v] {
		s.props[u.prop].Touch(u.data, false)
		s.schedule(u.prop)
	}
}

// pop undoes the newest entry.
func (s *Solver) pop() {
	e := &s.trail[len(s.trail)-1]
	s.lb[e.v] = e.old
	s.last[e.v] = e.prev
	for _, u := range s.subs[e.v] {
		s.props[u.prop].Touch(u.data, true)
	}
	s.trail = s.trail[:len(s.trail)-1]
}

// cancel undoes all decision levels above level.
func (s *Solver) cancel(level int) {
	if len(s.level) <= level {
		return
	}
	n := int(s.level[level])
	for len(s.trail) > n {
		s.pop()
	}
	s.level = s.level[:level]
	if level == 0 {
		s.assumed = 0
	}
	s.order.restore(level)
	s.head = min(s.head, len(s.trail))
	// The level was propagated to its end before anything above it was decided.
	for k := range s.queue {
		for p, ok := s.queue[k].next(); ok; p, ok = s.queue[k].next() {
			s.queued[p] = false
		}
	}
}

// entryOf returns the entry that made l hold, -1 where it held from the start.
func (s *Solver) entryOf(l Lit) int32 {
	i := s.last[l.V]
	for i >= 0 && s.trail[i].old >= l.B {
		i = s.trail[i].prev
	}
	return i
}

// levelOf returns the decision level on which l came to hold.
func (s *Solver) levelOf(l Lit) int32 {
	if i := s.entryOf(l); i >= 0 {
		return s.trail[i].level
	}
	return 0
}

// explain appends literals that hold and imply l, which was or would be set for
// why; the bounds are as they were before.
func (s *Solver) explain(l Lit, why reason, out []Lit) []Lit {
	n := len(out)
	out = s.reasons(l, why, out)
	if s.audit != nil {
		s.audit(l, why, out[n:])
	}
	return out
}

func (s *Solver) reasons(l Lit, why reason, out []Lit) []Lit {
	switch why.by {
	case byDecision:
		return out
	case byClause:
		for _, c := range s.clauses[why.a].lits {
			if c.V != l.V || c.B < l.B {
				out = append(out, c.Not())
			}
		}
		return out
	case byArc, byArcCond:
		return s.explainArc(l, why, out)
	}
	return s.props[why.by].Explain(s, l, why.a, why.b, out)
}

// propagate runs all that waits to its end; false means a conflict.
func (s *Solver) propagate() bool {
	for {
		for s.head < len(s.trail) {
			s.Stats.Propagations++
			i := s.head
			s.head++
			if !s.follow(int32(i)) || !s.visit(int32(i)) {
				return false
			}
		}
		p, ok := s.queue[0].next()
		if !ok {
			if p, ok = s.queue[1].next(); !ok {
				return true
			}
		}
		s.queued[p] = false
		if !s.props[p].Propagate(s) {
			return false
		}
	}
}
