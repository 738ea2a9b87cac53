package solve

import "example.org/kettledrum/plan/solve/lcg"

// model is a problem in the language of package lcg.
type model struct {
	p          *Problem
	s          *lcg.Solver
	zero       lcg.View // the origin
	start, end []lcg.View
	choice     [][]lcg.Lit // of each use: the literal that an option is taken; nil where there is one
	levels     []lcg.View  // what is to be made small, the most important first
}

func newModel(p *Problem) *model {
	m := &model{p: p, s: &lcg.Solver{}}
	m.zero = lcg.View{V: m.s.NewVar(0, 0)}
	m.activities()
	m.lags()
	m.resources()
	m.apart()
	m.objectives()
	m.s.Branch = m.earliest
	return m
}

func (m *model) point(q Point) lcg.View {
	switch {
	case q.Act < 0:
		return m.zero
	case q.End:
		return m.end[q.Act]
	}
	return m.start[q.Act]
}

func (m *model) activities() {
	for _, a := range m.p.Acts {
		lo, hi := a.Earliest, m.p.Horizon
		if a.Fixed {
			lo, hi = a.Start, a.Start
		}
		s := lcg.View{V: m.s.NewVar(lo, hi)}
		e := lcg.View{V: s.V, Plus: a.Min}
		switch {
		case a.FixedEnd:
			e = lcg.View{V: m.zero.V, Plus: a.End}
		case a.Min != a.Max:
			e = lcg.View{V: m.s.NewVar(lo+a.Min, m.p.Horizon)}
			m.s.Arc(s, e, a.Min, lcg.True)
			if a.Max < Unbounded {
				m.s.Arc(e, s, -a.Max, lcg.True)
			}
		case !a.Fixed:
			m.s.Arc(s, m.zero, a.Min-m.p.Horizon, lcg.True)
		}
		m.start, m.end = append(m.start, s), append(m.end, e)
	}
}

func (m *model) lags() {
	for _, l := range m.p.Lags {
		if !l.Soft {
			m.s.Arc(m.point(l.From), m.point(l.To), l.Min, lcg.True)
		}
	}
}

// resources adds one cumulative for each resource: the uses, their options as
// optional tasks, and where the calendar gives less, tasks that nobody chose.
func (m *model) resources() {
	m.choice = make([][]lcg.Lit, len(m.p.Uses))
	tasks := make([][]lcg.Task, len(m.p.Resources))
	for k, u := range m.p.Uses {
		from, to := m.point(u.From), m.point(u.To)
		from.Plus += u.FromPlus
		to.Plus += u.ToPlus
		var any []lcg.Lit
		for _, o := range u.Options {
			present := lcg.True
			if len(u.Options) > 1 {
				present = m.s.NewBool()
				for _, other := range any {
					m.s.Clause(other.Not(), present.Not())
				}
				any = append(any, present)
			}
			for _, d := range o {
				until := to
				if d.Plus > 0 {
					until = from
					until.Plus += d.Plus
				}
				t := lcg.Task{From: from, To: until, Amount: d.Amount, Present: present, Group: u.Pair}
				t.Least = m.least(u, d)
				tasks[d.Resource] = append(tasks[d.Resource], t)
			}
		}
		if len(any) > 0 {
			m.choice[k] = any
			m.s.Clause(any...)
		}
	}
	for r, res := range m.p.Resources {
		most := int32(0)
		for _, c := range res.Calendar {
			most = max(most, c.Amount)
		}
		for k, c := range res.Calendar {
			to := m.p.Horizon
			if k+1 < len(res.Calendar) {
				to = min(to, res.Calendar[k+1].From)
			}
			if c.Amount < most && c.From < to {
				tasks[r] = append(tasks[r], lcg.Task{
					From: lcg.View{V: m.zero.V, Plus: c.From}, To: lcg.View{V: m.zero.V, Plus: to},
					Least: to - c.From, Amount: most - c.Amount, Present: lcg.True,
				})
			}
		}
		if len(tasks[r]) > 0 {
			m.s.Cumulative(most, tasks[r])
		}
	}
}

// least returns how long a demand surely lasts.
func (m *model) least(u Use, d Demand) Tick {
	if d.Plus > 0 {
		return d.Plus
	}
	if u.From.Act == u.To.Act {
		if u.From.End == u.To.End {
			return u.ToPlus - u.FromPlus
		}
		if !u.From.End && u.From.Act >= 0 {
			a := &m.p.Acts[u.From.Act]
			if a.FixedEnd {
				return a.End - a.Start + u.ToPlus - u.FromPlus
			}
			return a.Min + u.ToPlus - u.FromPlus
		}
	}
	return 0
}

// apart adds a boolean for each pair of activities that certainly cannot
// overlap and may come in either order, where the problem has greatest lags:
// there it pays.
func (m *model) apart() {
	if !m.greatestLags() {
		return
	}
	n := len(m.p.Acts)
	need := make([][]int32, n)
	for i := range need {
		need[i] = make([]int32, len(m.p.Resources))
	}
	for _, u := range m.p.Uses {
		if u.From != StartOf(u.From.Act) || u.To != EndOf(u.From.Act) || len(u.Options) != 1 {
			return
		}
		for _, d := range u.Options[0] {
			need[u.From.Act][d.Resource] += d.Amount
		}
	}
	for i := range need {
		for j := i + 1; j < n; j++ {
			for r, res := range m.p.Resources {
				if need[i][r] > 0 && need[j][r] > 0 && len(res.Calendar) == 1 && need[i][r]+need[j][r] > res.Calendar[0].Amount {
					b := m.s.NewBool()
					m.s.Arc(m.end[i], m.start[j], 0, b)
					m.s.Arc(m.end[j], m.start[i], 0, b.Not())
					break
				}
			}
		}
	}
}

func (m *model) greatestLags() bool {
	for _, l := range m.p.Lags {
		if !l.Soft && l.Min < 0 {
			return true
		}
	}
	return false
}

// objectives makes a number of each level of soft lags.
func (m *model) objectives() {
	top := -1
	for _, l := range m.p.Lags {
		if l.Soft {
			top = max(top, l.Level)
		}
	}
	for level := 0; level <= top; level++ {
		var terms []lcg.Term
		most := int64(0)
		for _, l := range m.p.Lags {
			if l.Soft && l.Level == level {
				v := m.short(l)
				terms = append(terms, lcg.Term{Factor: int32(l.Weight), V: v.V})
				most -= l.Weight * int64(v.Plus)
			}
		}
		if len(terms) == 1 && terms[0].Factor == 1 {
			m.levels = append(m.levels, lcg.View{V: terms[0].V, Plus: int32(-most)})
			continue
		}
		sum := m.s.NewVar(0, 1<<29)
		m.s.Linear(append(terms, lcg.Term{Factor: 1, V: sum.Neg()}), most, lcg.True)
		m.levels = append(m.levels, lcg.View{V: sum})
	}
}

// short returns by how much a soft lag is missed, at least 0.
func (m *model) short(l Lag) lcg.View {
	from, to := m.point(l.From), m.point(l.To)
	switch {
	case to.V == m.zero.V:
		from.Plus += l.Min - to.Plus
		return m.positive(from)
	case from.V == m.zero.V:
		to = to.Neg()
		to.Plus += l.Min + from.Plus
		return m.positive(to)
	}
	v := m.s.NewVar(0, 1<<20)
	m.s.Linear([]lcg.Term{{Factor: 1, V: from.V}, {Factor: 1, V: to.V.Neg()}, {Factor: 1, V: v.Neg()}},
		int64(to.Plus)-int64(from.Plus)-int64(l.Min), lcg.True)
	return lcg.View{V: v}
}

// positive returns a number that is at least w and at least 0.
func (m *model) positive(w lcg.View) lcg.View {
	if m.s.Lower(w.V)+w.Plus >= 0 {
		return w
	}
	v := lcg.View{V: m.s.NewVar(0, max(0, m.s.Upper(w.V)+w.Plus))}
	m.s.Arc(w, v, 0, lcg.True)
	return v
}

// earliest decides what is open on the activity that can begin first.
func (m *model) earliest(s *lcg.Solver) (lcg.Lit, bool) {
	best, at, room := -1, Tick(0), Tick(0)
	for i, w := range m.start {
		lo, hi := s.Lower(w.V), s.Upper(w.V)
		if lo < hi && (best < 0 || lo < at || lo == at && hi-lo < room) {
			best, at, room = i, lo, hi-lo
		}
	}
	if best < 0 {
		return lcg.Lit{}, false
	}
	return lcg.AtMost(m.start[best].V, at), true
}
