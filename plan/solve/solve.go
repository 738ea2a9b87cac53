package solve

import (
	"context"
	"slices"

	"example.org/kettledrum/plan/solve/lcg"
)

// Solve finds the best answer, level by level, and proves it, or proves that
// each breaks something and looks for the least broken. The budget or ctx stops
// it with the best so far.
func Solve(ctx context.Context, p *Problem, o Options) *Result {
	s := &solver{ctx: ctx, p: p, o: o, left: o.Conflicts}
	if !sane(p) {
		return &Result{Status: Infeasible, Impossible: true}
	}
	if len(p.States) > 0 || hasDue(p) {
		return s.meal()
	}
	return s.project()
}

// sane reports whether each use has an option that asks for no more than there
// is at any time.
func sane(p *Problem) bool {
	for _, u := range p.Uses {
		fits := len(u.Options) == 0
		for _, o := range u.Options {
			ok := true
			for _, d := range o {
				ok = ok && d.Amount <= p.Resources[d.Resource].Most()
			}
			fits = fits || ok
		}
		if !fits && !hasDue(p) {
			return false
		}
	}
	return true
}

func hasDue(p *Problem) bool {
	for _, a := range p.Acts {
		if a.Due {
			return true
		}
	}
	return false
}

// Most returns the greatest capacity at any time.
func (r Resource) Most() int32 {
	most := int32(0)
	for _, c := range r.Calendar {
		most = max(most, c.Amount)
	}
	return most
}

// solver is one call of Solve.
type solver struct {
	ctx   context.Context
	p     *Problem
	o     Options
	left  int64 // of the budget
	m     *model
	value []Tick      // of each level in the best answer of the model
	sat   func() bool // called on each answer of the model; whether it is as good as the model has it
	best  *Result
	told  int // levels reported as proven

	regions Stats // conflicts and propagations in them
}

func (s *solver) stop() bool { return s.ctx.Err() != nil }

func (s *solver) spent() bool { return s.stop() || s.o.Conflicts > 0 && s.left <= 0 }

// probe asks the model under assumptions, for at most so many conflicts. An
// answer that cannot be worked out as the model means it is looked for once more
// among those that surely can.
func (s *solver) probe(assume []lcg.Lit, conflicts int64) lcg.Status {
	st, _ := s.once(assume, conflicts)
	if st == lcg.Sat {
		s.workOut(assume)
	}
	return st
}

// workOut works the answer of the model out that it has under assumptions.
func (s *solver) workOut(assume []lcg.Lit) {
	if s.sat() || s.m.sure.V == 0 {
		return
	}
	if st, _ := s.once(append(slices.Clip(assume), s.m.sure), probing); st == lcg.Sat {
		s.sat()
	}
}

// once asks the model once, and reads the levels off its answer. Where it has
// none it returns the assumptions that rule it out.
func (s *solver) once(assume []lcg.Lit, conflicts int64) (lcg.Status, []lcg.Lit) {
	if s.o.Conflicts > 0 {
		if s.left <= 0 {
			return lcg.Limit, nil
		}
		if conflicts == 0 || conflicts > s.left {
			conflicts = s.left
		}
	}
	before := s.m.s.Stats.Conflicts
	st, lits := s.m.ask(assume, conflicts, s.stop)
	s.left -= s.m.s.Stats.Conflicts - before
	if st == lcg.Sat {
		s.value = s.value[:0]
		for _, w := range s.m.levels {
			s.value = append(s.value, s.m.s.Value(w.V)+w.Plus)
		}
	}
	return st, lits
}

func (s *solver) found(r *Result) {
	s.best = r
	if s.o.Found != nil {
		s.o.Found(r)
	}
}

func (s *solver) done() *Result {
	r := s.best
	if s.m != nil {
		r.Stats.Conflicts = s.m.s.Stats.Conflicts + s.regions.Conflicts
		r.Stats.Propagations = s.m.s.Stats.Propagations + s.regions.Propagations
	}
	return r
}

// probing is the number of conflicts of a first, cheap attempt.
const probing = 100

// minimise makes level k as small as it may be, from the present value down. It
// probes values between the bound and the best with few conflicts each: an easy
// refusal halves the gap as much as an easy answer does.
func (s *solver) minimise(assume []lcg.Lit, k int) (low Tick, proven bool) {
	w := s.m.levels[k]
	if len(s.m.sums[k].terms) > 1 {
		low, proven = s.byCores(assume, k, coring)
	} else {
		better := append(slices.Clip(assume), w.AtMost(s.value[k]-1))
		proven = !s.m.s.Under(better, func() { low = s.m.s.Lower(w.V) + w.Plus })
	}
	if proven {
		return s.value[k], true
	}
	budget := int64(probing)
	for low < s.value[k] {
		from := low
		for try := low + (s.value[k]-1-low)/2; ; {
			switch s.probe(append(assume[:len(assume):len(assume)], s.m.atMost(k, try)...), budget) {
			case lcg.Unsat:
				low = try + 1
			case lcg.Sat:
			case lcg.Limit:
				if s.spent() {
					return low, false
				}
				from = try + 1
			}
			high := s.value[k] - 1
			from = max(from, low)
			if from > high {
				break
			}
			try = from + (high-from)/2
		}
		budget *= 2
	}
	return low, true
}

// atMost says that level k is v or less.
func (m *model) atMost(k int, v Tick) []lcg.Lit {
	out := []lcg.Lit{m.levels[k].AtMost(v)}
	if w, ok := m.boosted[k]; ok {
		out = append(out, w.AtMost(v))
	}
	return out
}

// levelByLevel minimises the levels that have no bound yet, up to one, in their
// order, and returns what is proven: their bounds, the same as assumptions, and
// whether all are.
func (s *solver) levelByLevel(bounds []int64, assume []lcg.Lit, upTo int) ([]int64, []lcg.Lit, bool) {
	for k := len(bounds); k < upTo; k++ {
		bound, proven := s.within(k, func() (Tick, bool) { return s.minimise(assume, k) })
		bounds = append(bounds, int64(bound))
		if !proven {
			return bounds, assume, false
		}
		s.tell(bounds)
		assume = append(assume, s.m.atMost(k, s.value[k])...)
	}
	return bounds, assume, true
}

// within runs a search at level k with what that level may cost.
func (s *solver) within(k int, search func() (Tick, bool)) (Tick, bool) {
	rest := int64(0)
	if most := s.o.Lesser; most > 0 && s.m.kind[k] > 0 && s.left > most {
		rest, s.left = s.left-most, most
	}
	defer func() { s.left += rest }()
	return search()
}

// workable improves the best answer level by level among those of the model that
// can surely be worked out, where the best of the model could not.
func (s *solver) workable(assume []lcg.Lit, bounds []int64) {
	if s.m.sure.V == 0 || s.proven(bounds) {
		return
	}
	assume = append(slices.Clip(assume), s.m.sure)
	reached := slices.Clone(bounds) // by the model: all but the last are proven
	if last := len(bounds) - 1; last >= 0 {
		reached[last] = int64(s.value[last])
	}
	for k, most := range reached {
		kind := s.m.kind[k]
		s.value = s.value[:0]
		for _, kind := range s.m.kind {
			s.value = append(s.value, Tick(s.best.Cost.of(kind)))
		}
		if s.best.Cost.of(kind) > most {
			if _, proven := s.within(k, func() (Tick, bool) { return s.minimise(assume, k) }); !proven {
				return
			}
		}
		assume = append(assume, s.m.levels[k].AtMost(Tick(s.best.Cost.of(kind))))
	}
}

// tell reports the levels that are proven by now and were not before.
func (s *solver) tell(bounds []int64) {
	for s.o.Proven != nil && s.told < len(bounds) && s.proven(bounds[:s.told+1]) {
		s.told++
		s.o.Proven(s.m.kind[s.told-1])
	}
}
