package solve

import (
	"slices"

	"example.org/kettledrum/plan/solve/lcg"
)

// project solves a problem without milestones or states.
func (s *solver) project() *Result {
	m := newModel(s.p, nil, false)
	s.m = m
	s.sat = func() bool {
		t := m.read()
		s.found(&Result{Status: Feasible, Start: t.Start, End: t.End, Choice: t.Choice, StateOf: t.StateOf, Values: s.values()})
		return true
	}
	first := lcg.Sat
	if start := forward(s.p); start != nil {
		r := &Result{Status: Feasible, Choice: make([]int, len(s.p.Uses)), Start: start}
		for i, t := range start {
			m.s.Prefer(m.start[i].V, t-m.start[i].Plus)
			r.End = append(r.End, t+s.p.Acts[i].Min)
		}
		s.value = m.valuesOf(r)
		r.Values = s.values()
		s.found(r)
	} else {
		first = s.probe(nil, 0)
	}
	switch first {
	case lcg.Unsat:
		s.best = &Result{Status: Infeasible, Impossible: true}
	case lcg.Limit:
		s.best = &Result{Status: Unknown}
	default:
		bounds, _, all := s.levelByLevel(nil, nil, len(m.levels))
		s.best.Bounds = bounds
		if all {
			s.best.Status = Optimal
		}
	}
	return s.done()
}

func (s *solver) values() []int64 {
	out := make([]int64, len(s.value))
	for k, v := range s.value {
		out[k] = int64(v)
	}
	return out
}

// valuesOf recounts the levels of soft lags of a timetable.
func (m *model) valuesOf(r *Result) []Tick {
	var out []Tick
	for _, level := range m.kind {
		var sum int64
		for _, l := range m.p.Lags {
			if l.Soft && l.Level == level {
				sum += l.Weight * int64(max(0, l.Min-(when(r, l.To)-when(r, l.From))))
			}
		}
		out = append(out, Tick(sum))
	}
	return out
}

// forward makes a first timetable of a problem that is a project: activities of
// fixed length with least lags between them that never point back, each use
// from a start to its end with one option, and resources without a calendar. It
// is serial generation by least latest start with justification to both sides,
// from R. Kolisch, S. Hartmann, Experimental investigation of heuristics for
// resource-constrained project scheduling, EJOR 174 (2006) 23–37. It returns nil
// for any other problem.
func forward(p *Problem) []Tick {
	g := projectOf(p)
	if g == nil {
		return nil
	}
	start := g.serial(g.byLatest())
	best := g.span(start)
	for range 10 {
		back := g.justify(start)
		ahead := g.serial(order(back))
		if s := g.span(ahead); s >= best {
			break
		} else {
			best = s
		}
		start = ahead
	}
	return start
}

type project struct {
	p       *Problem
	n       int
	need    [][]int32
	before  [][]Lag // by the later activity
	after   [][]Lag
	sorted  []int // in an order of precedence
	horizon Tick
}

func projectOf(p *Problem) *project {
	n := len(p.Acts)
	g := &project{p: p, n: n, before: make([][]Lag, n), after: make([][]Lag, n), horizon: p.Horizon}
	if len(p.Stays) > 0 {
		return nil
	}
	for _, a := range p.Acts {
		if a.Min != a.Max || a.Fixed || a.Earliest > 0 || a.Due {
			return nil
		}
		g.need = append(g.need, make([]int32, len(p.Resources)))
	}
	for _, r := range p.Resources {
		if len(r.Calendar) != 1 {
			return nil
		}
	}
	for _, u := range p.Uses {
		if u.From != StartOf(u.From.Act) || u.To != EndOf(u.From.Act) || u.FromPlus != 0 || u.ToPlus != 0 || len(u.Options) != 1 {
			return nil
		}
		for _, d := range u.Options[0] {
			if d.Plus != 0 {
				return nil
			}
			g.need[u.From.Act][d.Resource] += d.Amount
		}
	}
	for _, l := range p.Lags {
		if l.Soft {
			continue
		}
		if l.From.Act < 0 || l.To.Act < 0 || l.To.End || l.From.Act == l.To.Act {
			return nil
		}
		if l.From.End { // as from the start
			l.From.End = false
			l.Min += p.Acts[l.From.Act].Min
		}
		if l.Min < 0 {
			return nil
		}
		g.before[l.To.Act] = append(g.before[l.To.Act], l)
		g.after[l.From.Act] = append(g.after[l.From.Act], l)
	}
	open := make([]int, n)
	for i := range open {
		open[i] = len(g.before[i])
		if open[i] == 0 {
			g.sorted = append(g.sorted, i)
		}
	}
	for k := 0; k < len(g.sorted); k++ {
		for _, l := range g.after[g.sorted[k]] {
			if open[l.To.Act]--; open[l.To.Act] == 0 {
				g.sorted = append(g.sorted, l.To.Act)
			}
		}
	}
	if len(g.sorted) < n {
		return nil
	}
	return g
}

// byLatest returns the activities by their latest start, precedence first.
func (g *project) byLatest() []int {
	latest := make([]Tick, g.n)
	for _, i := range slices.Backward(g.sorted) {
		latest[i] = g.horizon - g.p.Acts[i].Min
		for _, l := range g.after[i] {
			latest[i] = min(latest[i], latest[l.To.Act]-l.Min)
		}
	}
	return order(latest)
}

func order(by []Tick) []int {
	out := make([]int, len(by))
	for i := range out {
		out[i] = i
	}
	slices.SortStableFunc(out, func(a, b int) int { return int(by[a] - by[b]) })
	return out
}

// serial starts each activity as early as it may, in the order given as far as
// precedence lets.
func (g *project) serial(priority []int) []Tick {
	start := make([]Tick, g.n)
	placed := make([]bool, g.n)
	use := g.cells()
	for count := 0; count < g.n; {
		for _, i := range priority {
			if placed[i] || slices.ContainsFunc(g.before[i], func(l Lag) bool { return !placed[l.From.Act] }) {
				continue
			}
			t := Tick(0)
			for _, l := range g.before[i] {
				t = max(t, start[l.From.Act]+l.Min)
			}
			start[i] = g.put(use, i, t, 1)
			placed[i] = true
			count++
			break
		}
	}
	return start
}

// justify moves each activity as late as it may, latest end first.
func (g *project) justify(start []Tick) []Tick {
	end := make([]Tick, g.n)
	for i := range end {
		end[i] = -(start[i] + g.p.Acts[i].Min)
	}
	span := g.span(start)
	out := make([]Tick, g.n)
	placed := make([]bool, g.n)
	use := g.cells()
	priority := order(end)
	for count := 0; count < g.n; {
		for _, i := range priority {
			if placed[i] || slices.ContainsFunc(g.after[i], func(l Lag) bool { return !placed[l.To.Act] }) {
				continue
			}
			t := span - g.p.Acts[i].Min
			for _, l := range g.after[i] {
				t = min(t, out[l.To.Act]-l.Min)
			}
			out[i] = g.put(use, i, t, -1)
			placed[i] = true
			count++
			break
		}
	}
	return out
}

func (g *project) span(start []Tick) Tick {
	var span Tick
	for i, t := range start {
		span = max(span, t+g.p.Acts[i].Min)
	}
	return span
}

func (g *project) cells() [][]int32 {
	use := make([][]int32, len(g.p.Resources))
	for r := range use {
		use[r] = make([]int32, g.horizon+1)
	}
	return use
}

// put finds room for activity i from tick t on, in steps of by, and takes it.
func (g *project) put(use [][]int32, i int, t, by Tick) Tick {
	d := g.p.Acts[i].Min
search:
	for ; ; t += by {
		for r, n := range g.need[i] {
			for c := t; n > 0 && c < t+d && c >= 0 && int(c) < len(use[r]); c++ {
				if use[r][c]+n > g.p.Resources[r].Calendar[0].Amount {
					continue search
				}
			}
		}
		break
	}
	for r, n := range g.need[i] {
		for c := max(0, t); n > 0 && c < t+d; c++ {
			use[r][c] += n
		}
	}
	return t
}
