package solve

import (
	"context"
	"slices"

	"example.org/kettledrum/plan/solve/lcg"
)

// Clash is a set of guards that cannot all hold, as indices of Problem.Guards.
type Clash struct {
	Facts, Means []int
	// Minimal: proven that without any one of Facts the others can hold, whatever
	// the means, and without any one of Means all the facts can.
	Minimal bool
}

// Conflict returns a minimal clash of a problem, nil where none is proven within
// so many conflicts a question. Facts that stand first in Problem.Guards are left
// out first. Source of the method: deletion-based minimal unsatisfiable subsets
// on assumptions (J. Marques-Silva, ISMVL 2010); the order stands for the
// preferences of U. Junker, QuickXplain, AAAI 2004.
func Conflict(ctx context.Context, p *Problem, conflicts int64) *Clash {
	c := &conflict{m: newGuarded(p), stop: func() bool { return ctx.Err() != nil }, conflicts: conflicts}
	var facts, means []int
	for i, g := range p.Guards {
		if g.Means {
			means = append(means, i)
		} else {
			facts = append(facts, i)
		}
	}
	core, st := c.ask(append(slices.Clone(facts), means...))
	if st != lcg.Unsat {
		return nil
	}
	keep := func(of []int) []int {
		return slices.DeleteFunc(slices.Clone(of), func(g int) bool { return !slices.Contains(core, g) })
	}
	out := &Clash{Minimal: true}
	out.Facts = c.shrink(keep(facts), means, &out.Minimal)
	core, _ = c.ask(append(slices.Clone(out.Facts), means...))
	if core != nil {
		means = keep(means)
	}
	out.Means = c.shrink(means, out.Facts, &out.Minimal)
	return out
}

type conflict struct {
	m         *model
	stop      func() bool
	conflicts int64
}

// mostOrders is how many orders of two tasks are made, and tried one by one: two pans
// and one burner then take 2 ms instead of 100. The thousands of a large kitchen cost
// more than they save.
const mostOrders = 100

// ask reports whether some guards can hold together, and if not which of them
// cannot. Only where that is not answered at once are orders worth their making.
func (c *conflict) ask(guards []int) ([]int, lcg.Status) {
	assume := make([]lcg.Lit, len(guards))
	for i, g := range guards {
		assume[i] = c.m.guards[g]
	}
	st, lits := c.m.ask(assume, min(probing, c.conflicts), c.stop)
	if st == lcg.Limit {
		c.m.order()
		for _, l := range c.m.orders {
			c.m.s.Refute(append(slices.Clip(assume), l))
		}
		st, lits = c.m.ask(assume, c.conflicts, c.stop)
	}
	if st != lcg.Unsat {
		return nil, st
	}
	core := []int{}
	for _, g := range guards {
		if slices.Contains(lits, c.m.guards[g]) {
			core = append(core, g)
		}
	}
	return core, st
}

// shrink drops guards, the first first, as long as what is left clashes with the
// others.
func (c *conflict) shrink(guards, others []int, minimal *bool) []int {
	for k := 0; k < len(guards); {
		rest := slices.Delete(slices.Clone(guards), k, k+1)
		core, st := c.ask(append(slices.Clone(rest), others...))
		switch st {
		case lcg.Unsat:
			guards = slices.DeleteFunc(rest, func(g int) bool { return !slices.Contains(core, g) })
			continue
		case lcg.Limit:
			*minimal = false
		}
		k++
	}
	return guards
}

// scarce is a resource of which there is so much where a literal holds.
type scarce struct {
	most  int32
	tasks []lcg.Task
	holds lcg.Lit
}

// rivals are each two tasks that there is no room for at once.
func (r scarce) rivals(yield func(t, u lcg.Task) bool) {
	for i, t := range r.tasks {
		for _, u := range r.tasks[:i] {
			if t.Amount+u.Amount > r.most && t.Least > 0 && u.Least > 0 && t.Group == 0 && u.Group == 0 && !yield(t, u) {
				return
			}
		}
	}
}

// order adds an order for each two rivals, where there is no more than there is; once.
// Two tasks tied to a moment that is itself free clash at every moment alike: the order
// shows it in a handful of conflicts, the time table a tick at a time. Two steps kept a
// few minutes that want the same hands: 3 ms instead of 350; two pans put on at once,
// one burner, no shelf: 6 instead of 380, 1 instead of 39, 2 instead of 39
// (BenchmarkConflict of package planner).
func (m *model) order() {
	n := 0
	for _, r := range m.scarce {
		for range r.rivals {
			n += 2
		}
	}
	if n > mostOrders {
		m.scarce = nil
	}
	for _, r := range m.scarce {
		for t, u := range r.rivals {
			first, second := m.s.NewBool(), m.s.NewBool()
			m.s.Arc(t.To, u.From, 0, first)
			m.s.Arc(u.To, t.From, 0, second)
			m.clause([]lcg.Lit{first, second}, r.holds, t.Present, u.Present)
			m.s.Loosen(first)
			m.s.Loosen(second)
			m.orders = append(m.orders, first, second)
		}
	}
	m.scarce = nil
}
