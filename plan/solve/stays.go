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
	y.fresh, y.tick, y.option = make([]lcg.Lit, n), make([]lcg.View, n), make([][]lcg.Lit, n)
	y.before, y.joined = map[[2]int]lcg.Lit{}, map[[2]int]lcg.Lit{}
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
		m.s.Clause(lits[i].Not(), cond)
	}
	m.clause(lits, cond)
	return lits
}

// clause adds: one of lits holds, or one of not does not.
func (m *model) clause(lits []lcg.Lit, not ...lcg.Lit) {
	out := slices.Clone(lits)
	for _, l := range not {
		out = append(out, l.Not())
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
