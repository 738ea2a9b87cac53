package solve

import (
	"math/rand/v2"

	"example.org/kettledrum/plan/solve/lcg"
)

// meal solves a problem with states: serial generation gives a first answer, the
// model improves it and proves bounds, serial generation in the order of the
// model's answer makes all as late as it may be.
func (o *optimiser) meal() *Result {
	p := o.o.problem
	s := &search{pl: newPlacer(p), p: p, rng: rand.New(rand.NewPCG(o.o.Seed, 0x6b746c64))}
	s.pl.hint = o.o.Hint
	s.start(o.o.Hint)
	s.climb(o.ctx, o.o.Tries)
	off := make([]bool, len(p.Lags))
	for _, a := range s.pl.base.arcs {
		if a.lag >= 0 && a.off {
			off[a.lag] = true
		}
	}
	m := newModel(p, off)
	o.m = m
	m.prefer(s.best)
	other := newPlacer(p)
	o.sat = func() {
		t := m.read()
		r := other.decode(t)
		if r.Cost.Less(s.best.Cost) {
			s.best = r
		}
		trace("model answer", o.value, r.Cost, m.s.Stats.Conflicts)
	}
	trace("start", nil, s.best.Cost, 0)
	st := o.probe(nil, 0)
	trace("first", st, nil, m.s.Stats.Conflicts)
	if st != lcg.Sat {
		return o.done(s.best)
	}
	var assume []lcg.Lit
	for k, w := range m.levels {
		bound, proven := o.minimise(assume, k)
		trace("level", m.kind[k], []any{bound, proven, o.value[k]}, m.s.Stats.Conflicts)
		s.best.Bounds = append(s.best.Bounds, int64(bound))
		if !proven {
			break
		}
		assume = append(assume, w.AtMost(o.value[k]))
	}
	return o.done(s.best)
}

// prefer tells the model an answer to begin with.
func (m *model) prefer(r *Result) {
	tell := func(w lcg.View, v Tick) { m.s.Prefer(w.V, v-w.Plus) }
	is := func(l lcg.Lit, yes bool) {
		if l.V < 0 {
			return
		}
		v := l.B
		if !yes {
			v--
		}
		m.s.Prefer(l.V, v)
	}
	for i := range m.start {
		tell(m.start[i], r.Start[i])
		tell(m.end[i], r.End[i])
	}
	for k, opts := range m.choice {
		for i, l := range opts {
			is(l, i == r.Choice[k])
		}
	}
	y := &m.stay
	set := map[int]Setting{}
	for _, s := range r.Settings {
		set[s.Stay] = s
	}
	for k, t := range m.p.Stays {
		for i, st := range t.States {
			is(y.in[k][i], st == r.StateOf[k])
		}
		if f := y.fresh[k]; f != (lcg.Lit{}) {
			s, needs := set[k]
			is(f, needs)
			if y.tick[k].V > 0 && needs {
				tell(y.tick[k], s.Tick)
				for i, l := range y.option[k] {
					is(l, i == s.Choice)
				}
			}
		}
	}
	for key, l := range y.before {
		a, k := key[0], key[1]
		is(l, r.StateOf[a] == r.StateOf[k] && r.End[m.p.Stays[a].Act] <= r.Start[m.p.Stays[k].Act])
	}
}
