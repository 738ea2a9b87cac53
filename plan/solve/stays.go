package solve

import (
	"slices"

	"example.org/kettledrum/plan/solve/lcg"
)

// stayModel is what the model knows of the stays on state resources.
//
// Two stays on one state either come one after the other, the changeover between
// their ranges apart, or overlap and have one value. A stay that shares no value
// with one before it, at once or soon, needs a setting, for which somebody must
// have a tick. That is a relaxation of what place.go decodes: the moment of a
// setting depends on the value set before, of which the model knows the range
// only. An answer is therefore decoded before it counts, and a bound is a bound
// all the same.
type stayModel struct {
	in     [][]lcg.Lit // by stay, by place in its States; one literal True for one state
	has    []lcg.Lit   // the stay lasts some time
	val    []lcg.Var   // index of its value among values
	fresh  []lcg.Lit   // needs a setting
	tick   []lcg.View  // the tick of that setting
	option [][]lcg.Lit // who serves it
	before map[[2]int]lcg.Lit
	joined map[[2]int]lcg.Lit
	first  []lcg.Lit
	ended  []lcg.View         // when the last of those before it ends
	last   map[[2]int]lcg.Lit // stay a is the last before k, or ends with it
	values []float64
}

// gone reports whether stay k is over before anything can be changed.
func (m *model) gone(k int) bool {
	s := &m.p.Stays[k]
	a := &m.p.Acts[s.Act]
	return a.Fixed && a.FixedEnd && a.End <= m.p.States[s.States[0]].SetFrom
}

// begun reports whether stay k is in its state already.
func (m *model) begun(k int) bool {
	s := &m.p.Stays[k]
	a := &m.p.Acts[s.Act]
	return a.Fixed && a.Start < m.p.States[s.States[0]].SetFrom
}

func (m *model) stays(tasks [][]lcg.Task) {
	p := m.p
	n := len(p.Stays)
	y := &m.stay
	y.in, y.has, y.val = make([][]lcg.Lit, n), make([]lcg.Lit, n), make([]lcg.Var, n)
	y.fresh, y.tick, y.option, y.first = make([]lcg.Lit, n), make([]lcg.View, n), make([][]lcg.Lit, n), make([]lcg.Lit, n)
	y.before, y.joined, y.last = map[[2]int]lcg.Lit{}, map[[2]int]lcg.Lit{}, map[[2]int]lcg.Lit{}
	y.ended = make([]lcg.View, n)
	for _, t := range p.Stays {
		y.values = append(y.values, t.Lo)
	}
	for _, st := range p.States {
		if st.IsSet {
			y.values = append(y.values, st.Now)
		}
	}
	slices.Sort(y.values)
	y.values = slices.Compact(y.values)
	for k := range p.Stays {
		m.oneStay(k, tasks)
	}
	for k := range p.Stays {
		for a := range k {
			if !m.gone(a) && !m.gone(k) {
				m.pair(a, k)
			}
		}
	}
	for k := range p.Stays {
		if !m.gone(k) {
			m.setting(k, tasks)
		}
	}
	for a := range p.Stays {
		for k, t := range p.Stays {
			// What goes on with a value has its setting.
			if j, ok := y.joined[[2]int{a, k}]; ok && y.tick[a].V > 0 && y.tick[k].V > 0 && t.Continues < 0 {
				m.equal(y.tick[a].V, y.tick[k].V, j)
			}
		}
	}
}

// oneStay adds where stay k is, whether it is at all, its value and its space.
func (m *model) oneStay(k int, tasks [][]lcg.Task) {
	t, s, y := &m.p.Stays[k], m.s, &m.stay
	a := &m.p.Acts[t.Act]
	y.has[k] = lcg.True
	if a.Min == 0 && !(a.Fixed && a.FixedEnd) {
		y.has[k] = s.NewBool()
		s.Arc(m.start[t.Act], m.end[t.Act], 1, y.has[k])
		s.Arc(m.end[t.Act], m.start[t.Act], 0, y.has[k].Not())
	}
	switch {
	case t.Continues >= 0 && t.Continues < k && slices.Equal(m.p.Stays[t.Continues].States, t.States):
		y.in[k] = y.in[t.Continues]
	case len(t.States) == 1:
		y.in[k] = []lcg.Lit{lcg.True}
	default:
		y.in[k] = m.oneOf(len(t.States), lcg.True)
	}
	lo, hi := t.Lo, t.Hi
	if st := &m.p.States[t.States[0]]; m.begun(k) && st.IsSet && st.Now >= lo && st.Now <= hi {
		lo, hi = st.Now, st.Now // nothing is set anew while it is in
	}
	from, _ := slices.BinarySearch(y.values, lo)
	to, found := slices.BinarySearch(y.values, hi)
	if !found {
		to--
	}
	y.val[k] = s.NewVar(int32(min(from, max(to, 0))), int32(max(from, to)))
	if m.gone(k) {
		return
	}
	for i, r := range t.States {
		tasks[m.p.SpaceOf[r]] = append(tasks[m.p.SpaceOf[r]], lcg.Task{
			From: m.start[t.Act], To: m.end[t.Act], Least: m.shortest(t.Act), Amount: t.Space, Present: y.in[k][i],
		})
	}
}

// stateGuard returns the guard of the states of stay k.
func (m *model) stateGuard(k int) lcg.Lit {
	var of []int
	for _, r := range m.p.Stays[k].States {
		of = append(of, m.p.States[r].Guard)
	}
	return m.guard(of...)
}

// oneOf makes n literals of which exactly one holds if cond does, none otherwise.
func (m *model) oneOf(n int, cond lcg.Lit) []lcg.Lit {
	lits := make([]lcg.Lit, n)
	for i := range lits {
		lits[i] = m.s.NewBool()
		for _, other := range lits[:i] {
			m.s.Clause(lits[i].Not(), other.Not())
		}
		if cond.V >= 0 {
			m.s.Clause(lits[i].Not(), cond)
		}
	}
	all := slices.Clone(lits)
	if cond.V >= 0 {
		all = append(all, cond.Not())
	}
	m.s.Clause(all...)
	return lits
}

// clause adds a disjunction, in which True stands for what always holds and its
// negation, given in not, for what never does.
func (m *model) clause(lits []lcg.Lit, not ...lcg.Lit) {
	for _, l := range lits {
		if l.V < 0 {
			return
		}
	}
	out := slices.Clone(lits)
	for _, l := range not {
		if l.V >= 0 {
			out = append(out, l.Not())
		}
	}
	m.s.Clause(out...)
}

// common returns the literal that stays a and k are in one state, and whether
// they can be.
func (m *model) common(a, k int) (lcg.Lit, bool) {
	x, t, y := &m.p.Stays[a], &m.p.Stays[k], &m.stay
	var shared []int
	for _, r := range t.States {
		if slices.Contains(x.States, r) {
			shared = append(shared, r)
		}
	}
	if len(shared) == 0 {
		return lcg.Lit{}, false
	}
	if len(x.States) == 1 && len(t.States) == 1 {
		return lcg.True, true
	}
	if x.Continues == k || t.Continues == a {
		return lcg.True, true
	}
	same := m.s.NewBool()
	inOf := func(k, r int) lcg.Lit { return y.in[k][slices.Index(m.p.Stays[k].States, r)] }
	for _, r := range shared {
		m.clause([]lcg.Lit{same}, inOf(a, r), inOf(k, r))
		m.clause([]lcg.Lit{inOf(k, r)}, same, inOf(a, r))
		m.clause([]lcg.Lit{inOf(a, r)}, same, inOf(k, r))
	}
	for i, r := range t.States {
		if !slices.Contains(x.States, r) {
			m.clause([]lcg.Lit{same.Not()}, y.in[k][i])
		}
	}
	return same, true
}

func (m *model) compatible(a, k int) bool {
	x, t := &m.p.Stays[a], &m.p.Stays[k]
	return x.Class == t.Class && x.Lo <= t.Hi && t.Lo <= x.Hi
}

func (m *model) implies(a, b lcg.Lit) { m.clause([]lcg.Lit{b}, a) }

// pair keeps two stays apart, or on one value.
func (m *model) pair(a, k int) {
	x, t, s, y := &m.p.Stays[a], &m.p.Stays[k], m.s, &m.stay
	same, can := m.common(a, k)
	if !can {
		return
	}
	tied := x.Continues == k || t.Continues == a
	if !tied {
		sa, ea, sk, ek := m.start[x.Act], m.end[x.Act], m.start[t.Act], m.end[t.Act]
		gap := func(i, j int) Tick {
			var most Tick
			for _, r := range m.p.Stays[i].States {
				if slices.Contains(m.p.Stays[j].States, r) {
					g := m.p.States[r].changeover(&m.p.Stays[i], &m.p.Stays[j])
					if most == 0 || g < most {
						most = g
					}
				}
			}
			return most
		}
		ab, ba := s.NewBool(), s.NewBool()
		s.Arc(ea, sk, gap(a, k), ab)
		s.Arc(ek, sa, gap(k, a), ba)
		for _, l := range []lcg.Lit{same, y.has[a], y.has[k]} {
			m.implies(ab, l)
			m.implies(ba, l)
		}
		s.Clause(ab.Not(), ba.Not())
		y.before[[2]int{a, k}], y.before[[2]int{k, a}] = ab, ba
		ways := []lcg.Lit{ab, ba}
		if m.compatible(a, k) {
			over := s.NewBool()
			ways = append(ways, over)
			m.implies(over, same)
			m.equal(y.val[a], y.val[k], over)
			if x.Shut { // the other begins and ends outside
				s.Arc(sk, sa, 0, over)
				s.Arc(ea, ek, 0, over)
			}
			if t.Shut {
				s.Arc(sa, sk, 0, over)
				s.Arc(ek, ea, 0, over)
			}
		}
		m.clause(ways, same, y.has[a], y.has[k], m.stateGuard(k))
	}
	m.join(a, k, same, tied)
	m.join(k, a, same, tied)
}

func (m *model) equal(v, w lcg.Var, cond lcg.Lit) {
	m.s.Arc(lcg.View{V: v}, lcg.View{V: w}, 0, cond)
	m.s.Arc(lcg.View{V: w}, lcg.View{V: v}, 0, cond)
}

// join lets stay k go on with the value of a, which began before.
func (m *model) join(a, k int, same lcg.Lit, tied bool) {
	x, t := &m.p.Stays[a], &m.p.Stays[k]
	if !m.compatible(a, k) || tied && t.Continues != a {
		return
	}
	j := m.s.NewBool()
	m.stay.joined[[2]int{a, k}] = j
	m.implies(j, same)
	m.implies(j, m.stay.has[a])
	m.equal(m.stay.val[a], m.stay.val[k], j)
	later := Tick(0)
	if a > k {
		later = 1
	}
	m.s.Arc(m.start[x.Act], m.start[t.Act], later, j)
	if idle := m.p.States[t.States[0]].Idle; idle > 0 {
		m.s.Arc(m.start[t.Act], m.end[x.Act], -idle, j)
	}
}

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
		y.first[k] = isFirst
		for _, ak := range first {
			s.Clause(ak.Not(), isFirst.Not())
		}
		y.ended[k] = lcg.View{V: s.NewVar(-p.Horizon, p.Horizon)}
		before := []lcg.Lit{isFirst}
		for a := range p.Stays {
			if _, ok := y.before[[2]int{a, k}]; ok {
				before = append(before, m.after(a, k, g))
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
// there into the range of k; from rest where that was long ago.
func (m *model) after(a, k int, g lcg.View) lcg.Lit {
	p, s, y := m.p, m.s, &m.stay
	x, t := &p.Stays[a], &p.Stays[k]
	st := &p.States[t.States[0]]
	start, end, ended := m.start[t.Act], m.end[x.Act], y.ended[k]
	last := s.NewBool()
	y.last[[2]int{a, k}] = last
	ak := y.before[[2]int{a, k}]
	s.Arc(end, ended, 0, ak)
	s.Clause(last.Not(), ak)
	s.Arc(ended, end, 0, last)
	soon := last
	if m.compatible(a, k) { // else there is a setting between them, whoever it is for
		soon = s.NewBool()
		s.Clause(last.Not(), y.fresh[k].Not(), soon)
	}
	early, reach := m.leeway(a, k)
	s.Arc(end, g, -early, soon)
	s.Arc(g, start, reach, soon)
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
