package solve

import (
	"context"
	"math/rand/v2"

	"example.org/kettledrum/plan/solve/lcg"
)

// Around returns the first answer to a problem, and what the search of its
// neighbourhoods makes of it, with so many activities let go at first.
func Around(p *Problem, size int, seed uint64) (first, last *Result) {
	s := &solver{ctx: context.Background(), p: p}
	g := &search{pl: newPlacer(p), p: p, rng: rand.New(rand.NewPCG(seed, 0))}
	s.begin(g)
	first = s.best
	s.searchAround(g, size, 300)
	return first, s.best
}

// Region returns some answer of the region of answer r in which some activities
// are free, put back into r and worked out: near the starts wished for, or without
// wishes beginning and ending as in r. And what r and that are worth in the region.
// Nil where there is none.
func Region(p *Problem, r *Result, free []bool, wish []Tick) (out *Result, was, is Cost) {
	open := make([]bool, len(p.States))
	for k, s := range p.Stays {
		open[r.StateOf[k]] = open[r.StateOf[k]] || free[s.Act]
	}
	t := regionOf(p, r, free, open)
	m := t.model(t.of(r))
	var assume []lcg.Lit
	for i, of := range t.acts[:t.free] {
		if wish != nil {
			m.s.Prefer(m.start[i].V, wish[of])
		} else {
			assume = append(assume, m.start[i].AtLeast(r.Start[of]), m.start[i].AtMost(r.Start[of]),
				m.end[i].AtLeast(r.End[of]), m.end[i].AtMost(r.End[of]))
		}
	}
	if st, _ := m.ask(assume, 0, nil); st != lcg.Sat {
		return nil, was, is
	}
	out = newPlacer(p).decode(t.put(r, m.read()))
	return out, t.of(r).Cost, t.of(out).Cost
}

// Boosted has the cores of each level of p say what an answer as good as r, the best,
// costs there, after so few conflicts that they prove nothing. It returns of how many
// levels they do, and whether the model still has such an answer at each.
func Boosted(p *Problem, r *Result, conflicts int64) (levels int, ok bool) {
	s := &solver{ctx: context.Background(), p: p, best: r}
	s.m = newModel(p, newPlacer(p).givenUp(), false)
	s.sat = func() bool { return true }
	var assume []lcg.Lit
	for k, kind := range s.m.kind {
		if kind >= LevelFirst {
			break
		}
		s.atBest()
		if len(s.m.sums[k].terms) > 1 {
			s.byCores(assume, k, conflicts)
			s.atBest()
		}
		if _, is := s.m.boosted[k]; is {
			levels++
		}
		assume = append(assume, s.m.atMost(k, s.value[k])...)
		if st, _ := s.m.ask(assume, 0, nil); st != lcg.Sat {
			return levels, false
		}
	}
	return levels, true
}

// Workable makes answer r to p better where it is worse than the bounds.
func Workable(p *Problem, r *Result, bounds []int64) *Result {
	s, pl := &solver{ctx: context.Background(), p: p, best: r}, newPlacer(p)
	s.m = newModel(p, pl.givenUp(), false)
	s.sat = func() bool {
		r := pl.decode(s.m.read())
		if r.Cost.Less(s.best.Cost) {
			s.found(r)
		}
		return s.asMeant(r)
	}
	s.atBest()
	s.workable(nil, bounds)
	return s.best
}
