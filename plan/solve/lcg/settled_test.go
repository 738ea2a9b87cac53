package lcg

import "slices"

// settled asks whether propagation went to its end: no arc that holds is out of
// step, no condition open that cannot hold, no clause without two literals open. And
// whether all that may be decided can be found: what is off the heap is decided.
func (a *auditor) settled() {
	s := a.s
	for _, r := range s.arcs {
		switch b := s.lb[r.from] + r.w; {
		case s.Holds(r.cond) && s.lb[r.to] < b:
			a.fail("arc %+v is not followed: its ends are at least %d and %d", r, s.lb[r.from], s.lb[r.to])
		case b > -s.lb[r.to^1] && !s.Fails(r.cond):
			a.fail("arc %+v cannot hold and its condition is open", r)
		}
	}
	for k := range s.clauses {
		c := &s.clauses[k]
		if !c.deleted && !slices.ContainsFunc(c.lits, s.Holds) && len(slices.DeleteFunc(slices.Clone(c.lits), s.Fails)) < 2 {
			a.fail("clause %v has one literal left and does not set it", c.lits)
		}
	}
	for k, l := range s.order.atoms {
		if s.order.at[k] < 0 && !s.Holds(l) && !s.Fails(l) {
			a.fail("%v is neither decided nor in the heap", l)
		}
	}
	for _, r := range a.p.m.rules {
		if c, ok := r.(cumulativeRule); ok {
			for i := range c.tasks {
				a.hasRoom(c, i)
			}
		}
	}
}

// hasRoom asks whether task i could be at each moment at which it would be if it
// started or ended as it still may, or at which it surely is if it is present.
func (a *auditor) hasRoom(r cumulativeRule, i int) {
	s, t := a.s, r.tasks[i]
	from, to := [2]int32{s.lower(t.From), s.upper(t.From)}, [2]int32{s.lower(t.To), s.upper(t.To)}
	var at []int32
	switch {
	case s.Fails(t.Present):
	case !s.Holds(t.Present):
		for m := from[1]; m < to[0]; m++ {
			at = append(at, m)
		}
	default:
		for k := range t.Least {
			at = append(at, from[0]+k, to[1]-1-k)
		}
	}
	for _, m := range at {
		sure := func(t Task) bool { return s.Holds(t.Present) && s.upper(t.From) <= m && m < s.lower(t.To) }
		if sure(t) {
			continue // it is in the profile itself
		}
		use := t.Amount
		of := map[int32]int32{t.Group: 1}
		for k, o := range r.tasks {
			switch {
			case k == i || !sure(o):
			case o.Group == 0:
				use += o.Amount
			default:
				if of[o.Group]++; of[o.Group]%2 == 1 {
					use += o.Amount
				}
			}
		}
		if use > r.capacity {
			a.fail("task %d of %+v has no room at %d and may still be there", i, r, m)
		}
	}
}
