package lcg

import (
	"cmp"
	"slices"
)

// clause is a disjunction of literals; the first two are watched.
type clause struct {
	lits    []Lit
	learnt  bool
	deleted bool
	lbd     int32 // decision levels in it when it was learnt
	act     float32
}

// watch says that a watched literal of a clause fails as soon as the bound that
// it is filed under reaches at.
type watch struct {
	at      int32
	clause  int32
	blocker Lit // where it holds the clause need not be looked at
}

// watchList is what is filed under one bound, in buckets by where it is reached:
// a rise looks into the few that it crosses.
type watchList struct {
	low     int32
	shift   uint8 // of the width of a bucket
	buckets [][]watch
}

var mostBuckets = 64 // a variable, so that in tests bounds share a bucket

func watchListOf(lo, hi int32) watchList {
	l := watchList{low: lo}
	for (int64(hi)-int64(lo))>>l.shift >= int64(mostBuckets) {
		l.shift++
	}
	return l
}

// bucket returns the number of the bucket for what is reached at a bound, which
// is above the lowest.
func (l *watchList) bucket(at int32) int {
	return max(0, min(int((int64(at)-int64(l.low)-1)>>l.shift), mostBuckets-1))
}

func (l *watchList) add(w watch) {
	k := l.bucket(w.at)
	for len(l.buckets) <= k {
		l.buckets = append(l.buckets, nil)
	}
	l.buckets[k] = append(l.buckets[k], w)
}

// Clause adds the disjunction of lits, before the search. It reports false where
// that leaves no solution.
func (s *Solver) Clause(lits ...Lit) bool {
	s.cancel(0)
	var keep []Lit
	for _, l := range lits {
		if s.Holds(l) {
			return true
		}
		if !s.Fails(l) && !slices.Contains(keep, l) {
			keep = append(keep, l)
		}
	}
	switch len(keep) {
	case 0:
		s.dead = true
		return false
	case 1:
		if !s.set(keep[0], reason{by: byDecision}) {
			s.dead = true
		}
		return !s.dead
	}
	s.attach(keep, false, 0)
	return true
}

func (s *Solver) attach(lits []Lit, learnt bool, lbd int32) int32 {
	var k int32
	if n := len(s.free); n > 0 {
		k, s.free = s.free[n-1], s.free[:n-1]
	} else {
		k = int32(len(s.clauses))
		s.clauses = append(s.clauses, clause{})
	}
	s.clauses[k] = clause{lits: lits, learnt: learnt, lbd: lbd}
	if learnt {
		s.learnts++
	}
	s.watch(lits[0], k, lits[1])
	s.watch(lits[1], k, lits[0])
	return k
}

func (s *Solver) watch(l Lit, k int32, blocker Lit) {
	n := l.Not()
	s.watches[n.V].add(watch{n.B, k, blocker})
}

// visit looks at the clauses in which a watched literal fails since entry i.
func (s *Solver) visit(i int32) bool {
	e := s.trail[i]
	list := &s.watches[e.v]
	last := min(list.bucket(e.b), len(list.buckets)-1)
	for k := list.bucket(e.old + 1); k <= last; k++ {
		if !s.visitBucket(e, list, k) {
			return false
		}
	}
	return true
}

func (s *Solver) visitBucket(e entry, list *watchList, k int) bool {
	ws := list.buckets[k]
	keep := 0
	for n := 0; n < len(ws); n++ {
		w := ws[n]
		if w.at <= e.old || w.at > e.b || s.lb[w.blocker.V] >= w.blocker.B {
			ws[keep] = w
			keep++
			continue
		}
		c := s.clauses[w.clause].lits
		failed := Lit{e.v, w.at}.Not()
		if c[0] == failed {
			c[0], c[1] = c[1], c[0]
		}
		if s.lb[c[0].V] >= c[0].B {
			ws[keep] = watch{w.at, w.clause, c[0]}
			keep++
			continue
		}
		moved := false
		for m := 2; m < len(c); m++ {
			if l := c[m]; s.lb[l.V^1] < 1-l.B {
				c[1], c[m] = l, c[1]
				if not := l.Not(); not.V == e.v && list.bucket(not.B) == k { // the same bucket: keep it in place
					ws[keep] = watch{not.B, w.clause, c[0]}
					keep++
				} else {
					s.watch(l, w.clause, c[0])
				}
				moved = true
				break
			}
		}
		if moved {
			continue
		}
		ws[keep] = w
		keep++
		if !s.set(c[0], reason{by: byClause, a: w.clause}) {
			keep += copy(ws[keep:], ws[n+1:])
			list.buckets[k] = ws[:keep]
			return false
		}
	}
	list.buckets[k] = ws[:keep]
	return true
}

// forget deletes the half of the learnt clauses that is of least use: those of
// most decision levels, and of these the longest not used. After G. Audemard, L.
// Simon, Predicting learnt clauses quality in modern SAT solvers (IJCAI 2009).
func (s *Solver) forget() {
	locked := map[int32]bool{}
	for _, e := range s.trail {
		if e.why.by == byClause {
			locked[e.why.a] = true
		}
	}
	var all []int32
	for k := range s.clauses {
		if c := &s.clauses[k]; c.learnt && !c.deleted && c.lbd > 2 && len(c.lits) > 2 && !locked[int32(k)] {
			all = append(all, int32(k))
		}
	}
	slices.SortStableFunc(all, func(a, b int32) int {
		x, y := &s.clauses[a], &s.clauses[b]
		return cmp.Or(cmp.Compare(y.lbd, x.lbd), cmp.Compare(x.act, y.act))
	})
	for _, k := range all[:len(all)/2] {
		s.clauses[k].deleted = true
		s.learnts--
	}
	for v := range s.watches {
		for k, ws := range s.watches[v].buckets {
			s.watches[v].buckets[k] = slices.DeleteFunc(ws, func(w watch) bool { return s.clauses[w.clause].deleted })
		}
	}
	for k := range s.clauses {
		if c := &s.clauses[k]; c.deleted && c.lits != nil {
			c.lits = nil
			s.free = append(s.free, int32(k))
		}
	}
	s.order.rebuild(s)
}
