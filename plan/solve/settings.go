package solve

import (
	"slices"

	"example.org/kettledrum/plan/solve/lcg"
)

// setting adds what stay k needs if no value before it will do.
func (m *model) setting(k int, tasks [][]lcg.Task) {
	p, s, y := m.p, m.s, &m.stay
	t := &p.Stays[k]
	if m.begun(k) {
		y.fresh[k] = s.NewBool()
		s.Clause(y.fresh[k].Not())
		return
	}
	st := &p.States[t.States[0]]
	fresh := s.NewBool()
	y.fresh[k] = fresh
	ways := []lcg.Lit{fresh}
	first := []lcg.Lit{}
	for a := range p.Stays {
		key := [2]int{a, k}
		if j, ok := y.joined[key]; ok {
			ways = append(ways, j)
			for b := range p.Stays {
				ab, ok1 := y.before[[2]int{a, b}]
				bk, ok2 := y.before[[2]int{b, k}]
				if ok1 && ok2 && b != a && b != k && (!m.compatible(b, k) || !m.compatible(a, b)) {
					s.Clause(j.Not(), ab.Not(), bk.Not())
				}
			}
		}
		if ak, ok := y.before[key]; ok {
			first = append(first, ak)
		}
	}
	if st.IsSet && st.NowClass == t.Class && st.Now >= t.Lo && st.Now <= t.Hi {
		// It may go on with what is set now, if nothing else comes between.
		now := s.NewBool()
		ways = append(ways, now)
		s.Arc(m.zero, m.start[t.Act], st.SetFrom+ceil(st.reach(st.Initial, t.Lo, t.Hi)), now)
		for b := range p.Stays {
			if bk, ok := y.before[[2]int{b, k}]; ok && !(st.Now >= p.Stays[b].Lo && st.Now <= p.Stays[b].Hi && p.Stays[b].Class == t.Class) {
				s.Clause(now.Not(), bk.Not())
			}
		}
	}
	m.clause(ways, y.has[k], m.stateGuard(k))
	g := lcg.View{V: s.NewVar(min(max(0, st.SetFrom), p.Horizon), p.Horizon)}
	y.tick[k] = g
	s.Arc(g, m.start[t.Act], 0, fresh)
	start := m.start[t.Act]
	switch {
	case t.Continues >= 0:
		s.Arc(g, start, 0, fresh)
		s.Arc(start, g, 0, fresh)
	default:
		isFirst := s.NewBool()
		s.Clause(append(first, isFirst)...)
		for _, ak := range first {
			s.Clause(ak.Not(), isFirst.Not())
		}
		for a := range p.Stays {
			if _, ok := y.before[[2]int{a, k}]; ok {
				m.after(a, k, g)
			}
		}
		cold := ceil(st.reach(st.Initial, t.Lo, t.Hi))
		both := s.NewBool()
		s.Clause(isFirst.Not(), fresh.Not(), both)
		s.Arc(g, start, cold, both)
	}
	if len(st.Setting) == 0 {
		return
	}
	y.option[k] = m.oneOf(len(st.Setting), fresh)
	for i, o := range st.Setting {
		for _, d := range o {
			to := g
			to.Plus++
			if d.Plus > 0 {
				to.Plus = g.Plus + d.Plus
			}
			tasks[d.Resource] = append(tasks[d.Resource], lcg.Task{From: g, To: to, Least: to.Plus - g.Plus, Amount: d.Amount, Present: y.option[k][i]})
		}
	}
}

// after binds the setting for stay k, at tick g, where the last stay before it
// on its state is a: not before a lets its value go, and in time to get from
// there into the range of k; from rest where that was long ago.
func (m *model) after(a, k int, g lcg.View) {
	p, s, y := m.p, m.s, &m.stay
	x, t := &p.Stays[a], &p.Stays[k]
	st := &p.States[t.States[0]]
	last := []lcg.Lit{y.before[[2]int{a, k}].Not()}
	if m.compatible(a, k) { // else there is a setting between them, whoever it is for
		last = append(last, y.fresh[k].Not())
	}
	for b := range p.Stays {
		ab, ok1 := y.before[[2]int{a, b}]
		bk, ok2 := y.before[[2]int{b, k}]
		if ok1 && ok2 {
			between := s.NewBool()
			s.Clause(between.Not(), ab)
			s.Clause(between.Not(), bk)
			last = append(last, between)
		}
	}
	start, end := m.start[t.Act], m.end[x.Act]
	early, reach := m.leeway(a, k)
	soon := s.NewBool()
	s.Clause(append(slices.Clone(last), soon)...)
	s.Arc(end, g, -early, soon)
	rest := ceil(st.reach(st.Rest, t.Lo, t.Hi))
	if st.Idle <= 0 || rest <= reach {
		s.Arc(g, start, reach, soon)
		return
	}
	near, cold := s.NewBool(), s.NewBool()
	s.Arc(start, end, -st.Idle, near)
	s.Arc(end, start, st.Idle+1, near.Not())
	s.Clause(append(slices.Clone(last), near, cold)...)
	s.Arc(g, start, rest, cold)
	s.Arc(g, start, reach, soon)
}

// leeway returns by how many ticks a setting for stay k may come before the end
// of stay a, and must come before the start of k, for the values that a may have
// been set to.
func (m *model) leeway(a, k int) (early, reach Tick) {
	x, t := &m.p.Stays[a], &m.p.Stays[k]
	st := &m.p.States[t.States[0]]
	reach = -1
	try := func(goal, lo, hi float64) {
		if lo > hi {
			return
		}
		v := st.dial(&group{goal: goal, lo: lo, hi: hi})
		r := ceil(st.reach(v, t.Lo, t.Hi))
		if reach < 0 || r < reach {
			reach = r
		}
		switch {
		case t.Lo > v:
			early = max(early, ceil(st.Drift(v, x.Hi)))
		case t.Hi < v:
			early = max(early, ceil(st.Drift(v, x.Lo)))
		}
	}
	try(x.Goal, x.Lo, x.Hi)
	for b := range m.p.Stays {
		if z := &m.p.Stays[b]; b != a && m.compatible(a, b) {
			lo, hi := max(x.Lo, z.Lo), min(x.Hi, z.Hi)
			try(x.Goal, lo, hi)
			try(z.Goal, lo, hi)
		}
	}
	return early, reach
}
