package solve

import (
	"slices"

	"example.org/kettledrum/plan/solve/lcg"
)

// model is a problem in the language of package lcg.
type model struct {
	p          *Problem
	s          *lcg.Solver
	zero       lcg.View // the origin
	start, end []lcg.View
	choice     [][]lcg.Lit // of each use: the literal that an option is taken; nil where there is one
	stay       stayModel
	sure       lcg.Lit          // settings are in time whatever was set before: a choice, not a demand
	givenUp    []bool           // lags that count as broken, not bind
	softened   bool             // calendars may be overrun
	overrun    []lcg.View       // of each end of a stretch of a calendar: by how much
	guards     []lcg.Lit        // of each of Problem.Guards; nil where all hold
	scarce     []scarce         // where there are guards: what may want orders
	orders     []lcg.Lit        // where there are guards: that one of two tasks comes first
	levels     []lcg.View       // what is to be made small, the most important first
	sums       []objective      // of each level
	boosted    map[int]lcg.View // levels stated once more by their cores
	kind       []int            // what each level is: a level of soft lags, or one of the constants below
	usesOf     [][]int          // uses with options, by activity
	took       []int            // of each use: the option that was last seen to hold

	cursor, past lcg.Var // of leftover: all before it is decided; past the last variable
	seen         int64   // conflicts, when cursor was there
}

// newModel returns a model in which the lags given up count as broken; softened,
// what overruns a calendar too.
func newModel(p *Problem, givenUp []bool, softened bool) *model {
	m := &model{p: p, s: &lcg.Solver{}, givenUp: givenUp, softened: softened, boosted: map[int]lcg.View{}}
	m.zero = lcg.View{V: m.s.NewVar(0, 0)}
	if len(p.Stays) > 0 {
		m.sure = m.s.NewBool()
	}
	m.build()
	m.apart()
	m.objectives()
	m.past = m.s.NewVar(0, 0)
	return m
}

// newGuarded returns a model without objectives in which each guard is a literal.
func newGuarded(p *Problem) *model {
	m := &model{p: p, s: &lcg.Solver{}, guards: make([]lcg.Lit, len(p.Guards))}
	m.zero = lcg.View{V: m.s.NewVar(0, 0)}
	for i := range m.guards {
		m.guards[i] = m.s.NewBool()
	}
	m.build()
	m.past = m.s.NewVar(0, 0)
	return m
}

func (m *model) build() {
	m.activities()
	m.lags()
	m.resources()
	m.s.Branch = m.branch()
}

// guard returns the literal that a guard holds, and all of several do.
func (m *model) guard(of ...int) lcg.Lit {
	var lits []lcg.Lit
	for _, g := range of {
		if g > 0 && m.guards != nil {
			lits = append(lits, m.guards[g-1])
		}
	}
	switch len(lits) {
	case 0:
		return lcg.True
	case 1:
		return lits[0]
	}
	all := m.s.NewBool()
	m.clause([]lcg.Lit{all}, lits...)
	return all
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
		lo, hi := max(0, a.Earliest), m.p.Horizon
		if m.guards != nil && a.Guard > 0 {
			lo = 0
		}
		if a.Fixed {
			lo, hi = a.Start, a.Start
		}
		s := lcg.View{V: m.s.NewVar(lo, max(lo, hi))}
		e := lcg.View{V: s.V, Plus: a.Min}
		switch {
		case a.FixedEnd:
			e = lcg.View{V: m.zero.V, Plus: a.End}
		case a.Min != a.Max:
			e = lcg.View{V: m.s.NewVar(lo+a.Min, max(lo+a.Min, m.p.Horizon))}
			m.s.Arc(s, e, a.Min, lcg.True)
			if a.Max < Unbounded {
				m.s.Arc(e, s, -a.Max, lcg.True)
			}
		case !a.Fixed:
			m.s.Arc(s, m.zero, a.Min-m.p.Horizon, lcg.True)
		}
		if m.guards != nil && a.Guard > 0 {
			m.s.Arc(m.zero, s, a.Earliest, m.guard(a.Guard))
		}
		m.start, m.end = append(m.start, s), append(m.end, e)
	}
}

func (m *model) lags() {
	for k, l := range m.p.Lags {
		if !l.Soft && !m.off(k) {
			m.s.Arc(m.point(l.From), m.point(l.To), l.Min, m.guard(l.Guard))
		}
	}
}

func (m *model) off(k int) bool { return m.givenUp != nil && m.givenUp[k] }

// resources adds one cumulative for each resource: the uses, their options as
// optional tasks, and where the calendar gives less or facts have taken some,
// tasks that nobody chose.
func (m *model) resources() {
	p := m.p
	m.choice, m.took, m.usesOf = make([][]lcg.Lit, len(p.Uses)), make([]int, len(p.Uses)), make([][]int, len(p.Acts))
	tasks := make([][]lcg.Task, len(p.Resources))
	// What a milestone takes it takes of what there is: never too much for a
	// calendar or for facts.
	mild := make([][]lcg.Task, len(p.Resources))
	facts := make([][]lcg.Task, len(p.Resources))
	for k, u := range p.Uses {
		fact := m.isFact(u.From) && len(u.Options) == 1
		if len(u.Options) > 1 {
			m.choice[k] = m.oneOf(len(u.Options), lcg.True)
			if a := u.From.Act; a >= 0 {
				m.usesOf[a] = append(m.usesOf[a], k)
			}
		}
		for i, o := range u.Options {
			present := lcg.True
			if m.choice[k] != nil {
				present = m.choice[k][i]
			}
			for _, d := range o {
				t := m.task(u, d, present)
				switch {
				case fact:
					sure := t
					sure.To = lcg.View{V: m.zero.V, Plus: m.s.Lower(t.To.V) + t.To.Plus}
					facts[d.Resource] = append(facts[d.Resource], sure)
					if m.s.Lower(t.To.V) < m.s.Upper(t.To.V) {
						t.From, t.Least = sure.To, 0
						tasks[d.Resource] = append(tasks[d.Resource], t)
					}
				case u.From.Act >= 0 && p.Acts[u.From.Act].Due:
					mild[d.Resource] = append(mild[d.Resource], t)
				default:
					tasks[d.Resource] = append(tasks[d.Resource], t)
				}
			}
		}
	}
	m.stays(tasks)
	taken := make([][]lcg.Task, len(p.Resources))
	for r, res := range p.Resources {
		most := res.Most()
		if len(tasks[r]) == 0 {
			continue
		}
		taken[r] = m.taken(res, most, facts[r])
		if m.guards != nil {
			m.guarded(res, most, taken[r], append(mild[r], tasks[r]...))
			continue
		}
		if len(mild[r]) > 0 {
			m.s.Cumulative(most, append(mild[r], tasks[r]...))
		}
		m.s.Cumulative(most, append(slices.Clone(taken[r]), tasks[r]...))
	}
	m.pools(taken)
}

// guarded adds a resource of which there is enough for everything, less a task
// for as long as its guard holds.
func (m *model) guarded(res Resource, most int32, taken, tasks []lcg.Task) {
	hours := m.guard(res.Hours...)
	for i := range taken {
		taken[i].Present = hours
	}
	holds := m.guard(res.Guard)
	m.scarce = append(m.scarce, scarce{most, tasks, holds})
	m.limited(most, append(tasks, taken...), holds)
}

// limited adds a resource of which there is so much where a literal holds, and
// else enough for everything.
func (m *model) limited(most int32, tasks []lcg.Task, holds lcg.Lit) {
	if holds.V >= 0 {
		all := int32(0)
		for _, t := range tasks {
			all += t.Amount
		}
		tasks = append(tasks, lcg.Task{
			From: m.zero, To: lcg.View{V: m.zero.V, Plus: m.p.Horizon}, Least: m.p.Horizon, Amount: all, Present: holds,
		})
		most += all
	}
	m.s.Cumulative(most, tasks)
}

// task returns a demand of a use as a task.
func (m *model) task(u Use, d Demand, present lcg.Lit) lcg.Task {
	from, to := m.point(u.From), m.point(u.To)
	from.Plus += u.FromPlus
	to.Plus += u.ToPlus
	t := lcg.Task{From: from, To: to, Amount: d.Amount, Present: present, Group: u.Pair, Least: m.least(u, d)}
	if d.Plus > 0 {
		t.To = from
		t.To.Plus += d.Plus
	}
	if t.Least != 1 || u.From != u.To {
		t.Group = 0
	}
	return t
}

func (m *model) isFact(q Point) bool {
	return q.Act >= 0 && m.p.Acts[q.Act].Fixed && (!q.End || m.p.Acts[q.Act].FixedEnd)
}

// mostOverrun is by how many ticks a calendar may be overrun in a softened model.
const mostOverrun = 60

// taken returns what the calendar and the facts leave nobody, as fixed tasks.
// Facts that take more than there is take what there is.
func (m *model) taken(res Resource, most int32, facts []lcg.Task) []lcg.Task {
	high := m.p.Horizon
	for _, t := range facts {
		high = max(high, t.To.Plus+m.s.Lower(t.To.V))
	}
	gone := make([]int32, high+1)
	for _, t := range facts {
		for c := max(0, t.From.Plus+m.s.Lower(t.From.V)); c < t.To.Plus+m.s.Lower(t.To.V); c++ {
			gone[c] += t.Amount
		}
	}
	k, there, leaves := -1, int32(0), map[int]bool{}
	for c := range gone {
		for k+1 < len(res.Calendar) && res.Calendar[k+1].From <= Tick(c) {
			k++
		}
		was := there
		if there = 0; k >= 0 {
			there = res.Calendar[k].Amount
		}
		if m.softened && len(res.Hours) > 0 && there < was {
			there = min(was, max(there, gone[c])) // who began something sees it through
		}
		if m.softened && len(res.Hours) > 0 && there < was {
			leaves[c] = true
		}
		gone[c] = min(gone[c], there) + most - there
	}
	var out []lcg.Task
	for c := int(max(0, m.p.Now)); c < len(gone); { // what is past fills nothing
		end := c + 1
		for end < len(gone) && gone[end] == gone[c] && !leaves[end] {
			end++
		}
		if gone[c] > 0 {
			t := lcg.Task{
				From: lcg.View{V: m.zero.V, Plus: Tick(c)}, To: lcg.View{V: m.zero.V, Plus: Tick(end)},
				Least: Tick(end - c), Amount: gone[c], Present: lcg.True,
			}
			if leaves[c] {
				over := min(t.Least, mostOverrun)
				t.From = lcg.View{V: m.s.NewVar(Tick(c), Tick(c)+over)}
				t.Least -= over
				m.overrun = append(m.overrun, lcg.View{V: t.From.V, Plus: -Tick(c)})
			}
			out = append(out, t)
		}
		c = end
	}
	return out
}

// shortest returns the least length of activity i.
func (m *model) shortest(i int) Tick {
	if a := &m.p.Acts[i]; a.FixedEnd {
		return a.End - a.Start
	}
	return m.p.Acts[i].Min
}

// least returns how long a demand surely lasts.
func (m *model) least(u Use, d Demand) Tick {
	plus := u.ToPlus - u.FromPlus
	switch {
	case d.Plus > 0:
		return d.Plus
	case u.From == u.To:
		return plus
	case u.From.Act == u.To.Act && u.From.Act >= 0 && !u.From.End:
		return max(0, m.shortest(u.From.Act)+plus)
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

// objectives makes a number of each level: what is broken of the lags given up,
// the levels of the soft lags, the settings.
func (m *model) objectives() {
	top := -1
	for _, l := range m.p.Lags {
		if l.Soft {
			top = max(top, l.Level)
		}
	}
	for _, a := range m.p.Acts {
		if a.Before > 0 {
			top = max(top, a.AvoidLevel)
		}
	}
	for level := LevelBroken; level <= top; level++ {
		var terms []lcg.Term
		most := int64(0)
		for k, l := range m.p.Lags {
			if l.Soft && l.Level == level || level == LevelBroken && m.off(k) && l.Relaxable && !(m.isFact(l.From) && m.isFact(l.To)) {
				v := m.short(l)
				terms = append(terms, lcg.Term{Factor: int32(max(1, l.Weight)), V: v.V})
				most -= max(1, l.Weight) * int64(v.Plus)
			}
		}
		for i, a := range m.p.Acts {
			if a.Before > 0 && a.AvoidLevel == level && !a.Fixed && a.Min > 0 {
				late := m.s.NewBool()
				m.s.Arc(m.start[i], m.zero, 1-a.Before, late.Not())
				terms = append(terms, lcg.Term{Factor: a.Min, V: late.V})
			}
		}
		if level == LevelBroken {
			for _, w := range m.overrun {
				terms = append(terms, lcg.Term{Factor: 1, V: w.V})
				most -= int64(w.Plus)
			}
		}
		m.level(level, terms, most)
	}
	var terms []lcg.Term
	for k := range m.p.Stays {
		if f := m.stay.fresh[k]; f.V > 0 && f != (lcg.Lit{}) {
			terms = append(terms, lcg.Term{Factor: 1, V: f.V})
		}
	}
	m.level(LevelSettings, terms, 0)
	if !hasDue(m.p) {
		return
	}
	first := lcg.View{V: m.s.NewVar(0, m.p.Horizon)}
	for i, a := range m.p.Acts {
		if !a.Fixed && !a.Due {
			m.s.Arc(first, m.start[i], 0, m.start[i].AtLeast(m.p.Day))
		}
	}
	m.kind = append(m.kind, LevelFirst)
	m.sums = append(m.sums, objective{})
	m.levels = append(m.levels, lcg.View{V: first.V.Neg(), Plus: m.p.Horizon})
}

// level adds Σ terms − most as a level to be made small.
func (m *model) level(kind int, terms []lcg.Term, most int64) {
	if len(terms) == 0 {
		return
	}
	m.kind = append(m.kind, kind)
	m.sums = append(m.sums, objective{terms, most})
	if len(terms) == 1 && terms[0].Factor == 1 {
		m.levels = append(m.levels, lcg.View{V: terms[0].V, Plus: int32(-most)})
		return
	}
	sum := m.s.NewVar(0, 1<<29)
	m.s.Linear(append(terms, lcg.Term{Factor: 1, V: sum.Neg()}), most, lcg.True)
	m.levels = append(m.levels, lcg.View{V: sum})
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
