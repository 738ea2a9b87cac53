package solve

import (
	"math/rand/v2"
	"slices"

	"example.org/kettledrum/plan/solve/lcg"
)

// meal solves a problem with milestones: serial generation gives a first answer,
// the model improves it and proves it, then everything is made as late as it
// may be. Where nothing is whole serial generation looks for the least broken.
func (s *solver) meal() *Result {
	g := &search{pl: newPlacer(s.p), p: s.p, rng: rand.New(rand.NewPCG(s.o.Seed, 0x6b746c64))}
	s.begin(g)
	if len(s.p.Acts) >= vastActs {
		s.neighbourhoods(g)
	}
	s.sat = func() bool {
		r := g.pl.decode(s.m.read())
		if r.Cost.Less(s.best.Cost) {
			s.found(r)
		}
		return s.asMeant(r)
	}
	off := g.pl.givenUp()
	st := s.ask(off, false)
	impossible := st == lcg.Unsat
	if impossible { // then as little broken as may be
		for k, l := range s.p.Lags {
			off[k] = off[k] || l.Relaxable
		}
		st = s.ask(off, true)
	}
	if st != lcg.Sat {
		s.leastBroken(g)
		s.best.Impossible = impossible
		return s.done()
	}
	m := s.m
	if s.best.unset() {
		s.leastBroken(g) // right by the model, but not when worked out
	}
	upTo := slices.Index(m.kind, LevelFirst)
	bounds, assume, all := s.shortly(g, upTo)
	if !all {
		bounds, assume, all = s.levelByLevel(bounds, assume, upTo)
	}
	s.later(g)
	day := s.sameDay()
	if all {
		s.value[len(bounds)] = Tick(s.best.Cost.First)
		bounds, _, all = s.levelByLevel(bounds, append(assume, day...), len(m.levels))
		s.later(g)
	}
	if s.workable(day, bounds); len(bounds) > 0 {
		s.tell(bounds)
	}
	s.best.Bounds, s.best.Values, s.best.Impossible = bounds, s.m.costs(s.best), impossible
	if all && s.proven(bounds) && s.best.Cost.Broken == 0 {
		s.best.Status = Optimal
	}
	s.latest(g, len(bounds), day)
	s.spread(g)
	return s.done()
}

// shortly has the model of a large problem prove what it can with few conflicts;
// where soft lags are left, it goes on from what the neighbourhoods have. Not where
// there is an earlier answer: that is good already, and somebody waits. It returns what
// levelByLevel does, of the levels proven.
func (s *solver) shortly(g *search, upTo int) (bounds []int64, assume []lcg.Lit, all bool) {
	if len(s.p.Acts) < largeActs || s.o.From != nil || s.left <= firstTry {
		return nil, nil, false
	}
	rest := s.left - firstTry
	s.left = firstTry
	bounds, assume, all = s.levelByLevel(nil, nil, upTo)
	if s.left += rest; all {
		return bounds, assume, true
	}
	bounds = bounds[:len(bounds)-1]
	if s.m.kind[len(bounds)] < LevelSettings {
		s.layLater(g)
		s.neighbourhoods(g)
		s.atBest()
	}
	return bounds, assume, false
}

// unset reports whether there is nobody for a setting.
func (r *Result) unset() bool {
	return slices.ContainsFunc(r.Settings, func(s Setting) bool { return s.Choice < 0 })
}

// ask makes the model in which some lags may be given up, softened or not, and
// asks it for an answer like the best, unless that is whole: then it is one.
func (s *solver) ask(givenUp []bool, softened bool) lcg.Status {
	s.m = newModel(s.p, givenUp, softened)
	s.m.prefer(s.best)
	s.m.remember(s.o.From)
	if s.best.Cost.Broken == 0 {
		s.atBest()
		return lcg.Sat
	}
	return s.probe(nil, 0)
}

// atBest has the model go on from the best.
func (s *solver) atBest() {
	s.m.prefer(s.best)
	s.value = s.value[:0]
	for _, v := range s.m.costs(s.best) {
		s.value = append(s.value, Tick(v))
	}
}

// begin finds a first answer: the earlier one if it still holds, else one by
// serial generation.
func (s *solver) begin(g *search) {
	if s.o.From != nil {
		if r := g.pl.decode(*s.o.From); r.Cost.Broken == 0 {
			s.found(r)
			return
		}
		g.pl.hint = s.o.From.End
	}
	g.pl.fresh = nil
	g.start(g.pl.hint)
	if s.o.From == nil || len(s.p.Acts) >= vastActs {
		g.farOut() // else what an earlier answer leaves broken is for the model to mend first
	}
	s.found(g.best)
}

// later makes the best as late as it may be, and has the model go on from there.
func (s *solver) later(g *search) {
	s.layLater(g)
	s.m.prefer(s.best)
}

// layLater makes the best as late as it may be.
func (s *solver) layLater(g *search) {
	if r := g.pl.later(s.best); r != s.best {
		s.found(r)
	}
}

// spread spreads the calls of the best. From an earlier answer on what moves
// counts more.
func (s *solver) spread(g *search) {
	if len(s.p.Calls) == 0 || s.o.From != nil {
		return
	}
	r := g.pl.spread(s.best)
	worked := r.Cost
	worked.Calls, worked.Early = s.best.Cost.Calls, s.best.Cost.Early // what counts less
	if s.best.Cost.Less(worked) {
		return // worked out anew it is worse: what was found otherwise stays
	}
	best := *s.best
	if best.Status == Broken { // as it was found; another hand may be free for a setting
		best.Status = r.Status
	}
	best.Start, best.End, best.Choice, best.StateOf, best.Settings, best.Cost = r.Start, r.End, r.Choice, r.StateOf, r.Settings, r.Cost
	s.found(&best)
}

// sameDay says that what the best starts on or after Day does so.
func (s *solver) sameDay() []lcg.Lit {
	var out []lcg.Lit
	for i, t := range s.best.Start {
		if w := s.m.start[i]; t >= s.p.Day && !s.p.Acts[i].Fixed {
			out = append(out, w.AtLeast(s.p.Day))
		}
	}
	return out
}

// latest finds the last tick for the first start of the day with nothing worse
// but what counts less than level 0.
func (s *solver) latest(g *search, known int, day []lcg.Lit) {
	m, best := s.m, s.best
	k := slices.Index(m.kind, LevelFirst)
	best.Latest = s.p.Horizon - Tick(best.Cost.First)
	if !s.o.Latest {
		return
	}
	assume := day
	for i := range known {
		if m.kind[i] <= 0 {
			assume = append(assume, m.atMost(i, Tick(best.Cost.of(m.kind[i])))...)
		}
	}
	keep := s.sat
	s.sat = func() bool {
		c := g.pl.decode(m.read()).Cost
		if c.Broken <= best.Cost.Broken && c.Soft[0] <= best.Cost.Soft[0] {
			best.Latest = max(best.Latest, s.p.Horizon-Tick(c.First))
			return true
		}
		return false
	}
	s.value[k] = Tick(best.Cost.First)
	bound, proven := s.within(k, func() (Tick, bool) { return s.minimise(assume, k) })
	s.sat = keep
	best.LatestProven = proven && best.Latest >= s.p.Horizon-bound
}

// leastBroken looks for the least broken answer by serial generation.
func (s *solver) leastBroken(g *search) {
	g.pl.fresh = nil
	if g.best == nil {
		g.start(g.pl.hint)
	}
	g.farOut()
	g.climb(s.ctx, s.o.Tries)
	if g.best.Cost.Less(s.best.Cost) {
		s.found(g.best)
	}
}

// givenUp tells which lags the facts have broken.
func (pl *placer) givenUp() []bool {
	off := make([]bool, len(pl.p.Lags))
	for _, a := range pl.base.arcs {
		if a.lag >= 0 && a.off {
			off[a.lag] = true
		}
	}
	return off
}

// proven reports whether the decoded best is as good as the bounds of the first
// levels: an answer of the model that cannot be worked out proves nothing of it.
func (s *solver) proven(bounds []int64) bool {
	if s.m.kind[0] != LevelBroken && s.best.Cost.Broken > 0 {
		return false
	}
	for k, bound := range bounds {
		if s.best.Cost.of(s.m.kind[k]) > bound {
			return false
		}
	}
	return true
}

// asMeant reports whether an answer, worked out, is as good as the model has it.
func (s *solver) asMeant(r *Result) bool {
	if s.m.kind[0] != LevelBroken && r.Cost.Broken > 0 {
		return false
	}
	for k, kind := range s.m.kind {
		if r.Cost.of(kind) > int64(s.value[k]) {
			return false
		}
	}
	return true
}

// costs returns what an answer costs at each level.
func (m *model) costs(r *Result) []int64 {
	var out []int64
	for _, kind := range m.kind {
		out = append(out, r.Cost.of(kind))
	}
	return out
}

// of returns the cost at a level.
func (c Cost) of(kind int) int64 {
	switch {
	case kind == LevelBroken:
		return c.Broken
	case kind == LevelFirst:
		return c.First
	case kind == LevelSettings:
		return c.Settings
	}
	return c.Soft[kind]
}

// remember has the model try the times of an earlier answer first.
func (m *model) remember(a *Answer) {
	if a == nil {
		return
	}
	for i := range a.End {
		m.s.Prefer(m.end[i].V, a.End[i]-m.end[i].Plus)
		m.s.Prefer(m.start[i].V, a.Start[i]-m.start[i].Plus)
	}
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
