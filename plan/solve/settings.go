package solve

import (
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
	unlike := m.unlikeBefore(k)
	for a := range p.Stays {
		key := [2]int{a, k}
		if j, ok := y.joined[key]; ok {
			ways = append(ways, j)
			m.nothingBetween(a, k, j, unlike)
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
		for _, ak := range first {
			s.Clause(ak.Not(), isFirst.Not())
		}
		ended := lcg.View{V: s.NewVar(-p.Horizon, p.Horizon)}
		before := []lcg.Lit{isFirst}
		for a := range p.Stays {
			if _, ok := y.before[[2]int{a, k}]; ok {
				before = append(before, m.after(a, k, g, ended))
			}
		}
		s.Clause(before...) // some stay is the last before it, if any is
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
// there into the range of k; from rest where that was long ago. It returns the
// literal that a is the last: none before k ends later, by ended, the last end.
func (m *model) after(a, k int, g, ended lcg.View) lcg.Lit {
	p, s, y := m.p, m.s, &m.stay
	x, t := &p.Stays[a], &p.Stays[k]
	st := &p.States[t.States[0]]
	start, end := m.start[t.Act], m.end[x.Act]
	last := s.NewBool()
	ak := y.before[[2]int{a, k}]
	s.Arc(end, ended, 0, ak)
	s.Clause(last.Not(), ak)
	s.Arc(ended, end, 0, last)
	soon := last
	if m.compatible(a, k) { // else there is a setting between them, whoever it is for
		soon = s.NewBool()
		s.Clause(last.Not(), y.fresh[k].Not(), soon)
	}
	early, reach, sure := m.leeway(a, k)
	if m.compatible(a, k) {
		s.Arc(end, g, -early, soon)
	} else { // whoever is the last
		s.Arc(end, g, -early, ak)
	}
	s.Arc(g, start, reach, soon)
	if m.sure.V > 0 && (early > 0 || sure > reach) {
		surely := s.NewBool()
		s.Clause(soon.Not(), m.sure.Not(), surely)
		s.Arc(end, g, 0, surely)
		s.Arc(g, start, sure, surely)
	}
	rest := ceil(st.reach(st.Rest, t.Lo, t.Hi))
	if st.Idle <= 0 || rest <= reach {
		return last
	}
	near, cold := s.NewBool(), s.NewBool()
	s.Arc(start, end, -st.Idle, near)
	s.Arc(end, start, st.Idle+1, near.Not())
	s.Clause(soon.Not(), near, cold)
	s.Arc(g, start, rest, cold)
	return last
}

// unlikeBefore returns a tick that is no earlier than the start of any stay
// before k that shares no value with it.
func (m *model) unlikeBefore(k int) lcg.View {
	p, s := m.p, m.s
	latest := lcg.View{V: s.NewVar(-p.Horizon, p.Horizon)}
	for b := range p.Stays {
		if bk, ok := m.stay.before[[2]int{b, k}]; ok && !m.compatible(b, k) {
			s.Arc(m.start[p.Stays[b].Act], latest, 0, bk)
		}
	}
	return latest
}

// nothingBetween keeps what shares no value with stay a or k from coming between
// them where j holds: k goes on with the value of a. What shares none with k
// begins before a ends; one bound, unlike, says so for all of them.
func (m *model) nothingBetween(a, k int, j lcg.Lit, unlike lcg.View) {
	y := &m.stay
	m.s.Arc(unlike, m.end[m.p.Stays[a].Act], 1, j)
	for b := range m.p.Stays {
		ab, ok1 := y.before[[2]int{a, b}]
		bk, ok2 := y.before[[2]int{b, k}]
		if ok1 && ok2 && m.compatible(b, k) && !m.compatible(a, b) {
			m.s.Clause(j.Not(), ab.Not(), bk.Not())
		}
	}
}

// leeway returns by how many ticks a setting for stay k may come before the end
// of stay a, and must come before the start of k, for the values that a may have
// been set to: for the best of them, and for the worst, sure.
func (m *model) leeway(a, k int) (early, reach, sure Tick) {
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
		sure = max(sure, r)
		switch {
		case x.Class != t.Class: // it wants another kind, to its end
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
	return early, reach, sure
}
