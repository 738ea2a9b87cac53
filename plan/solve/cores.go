package solve

import (
	"slices"

	"example.org/kettledrum/plan/solve/lcg"
)

// What a question may cost, in conflicts: about all parts, and about one.
const (
	coring     = 400
	exhausting = 10
)

// objective is a level as the sum of its terms, less a constant.
type objective struct {
	terms []lcg.Term
	most  int64
}

// part is a share of an objective: each tick of a number above at costs weight.
type part struct {
	v      lcg.Var
	at     Tick
	weight int64
}

// byCores raises the bound of level k by what cannot all be at its least: it
// assumes that every part is, and where that is refused the parts in the refusal
// cost at least one tick together. Their sum becomes a part of its own, one tick
// higher, and the question is asked again. An answer costs no more than the
// bound, and is the best there is. It looks only for answers better than the
// best so far, gives each question so many conflicts, and returns a bound and
// whether the best so far is proven to be best.
//
// Source: A. Morgado, C. Dodaro, J. Marques-Silva, Core-guided MaxSAT with soft
// cardinality constraints, CP 2014; on bounds of integers, G. Gange, J. Berg,
// E. Demirović, P. J. Stuckey, Core-guided and core-boosted search for CP,
// CPAIOR 2020.
func (s *solver) byCores(assume []lcg.Lit, k int, conflicts int64) (bound Tick, proven bool) {
	o := s.m.sums[k]
	low := -o.most
	var parts []part
	better := append(slices.Clip(assume), s.m.levels[k].AtMost(s.value[k]-1))
	if !s.m.s.Under(better, func() {
		for _, t := range o.terms {
			p := part{t.V, s.m.s.Lower(t.V), int64(t.Factor)}
			low += p.weight * int64(p.at)
			parts = append(parts, p)
		}
	}) {
		return s.value[k], true
	}
	for low < int64(s.value[k]) && !s.spent() {
		better = append(slices.Clip(assume), s.m.levels[k].AtMost(s.value[k]-1))
		ask := slices.Clone(better)
		for _, p := range parts {
			ask = append(ask, lcg.AtMost(p.v, p.at))
		}
		st, lits := s.once(ask, conflicts)
		switch st {
		case lcg.Limit:
			s.boost(k, parts, low)
			return Tick(low), false
		case lcg.Sat:
			s.value[k] = Tick(low)
			s.workOut(ask)
			return Tick(low), true
		}
		core := parts[:0:0]
		least := int64(0)
		for _, p := range parts {
			if slices.Contains(lits, lcg.AtMost(p.v, p.at)) {
				core = append(core, p)
				if least == 0 || p.weight < least {
					least = p.weight
				}
			}
		}
		if len(core) == 0 {
			return s.value[k], true // none is better
		}
		parts = s.relax(parts, core, least)
		low += least
		last := &parts[len(parts)-1]
		if len(core) == 1 {
			low += least * int64(s.exhaust(better, last, exhausting))
		}
	}
	return Tick(min(low, int64(s.value[k]))), low >= int64(s.value[k])
}

// boost states level k once more, as its bound and what the parts cost above it:
// where the sum of the terms leaves each of them free, that of the parts leaves
// only what the bound does.
//
// Source: J. Berg, E. Demirović, P. J. Stuckey, Core-boosted linear search for
// incomplete MaxSAT, CPAIOR 2019.
func (s *solver) boost(k int, parts []part, low int64) {
	terms := make([]lcg.Term, 0, len(parts)+1)
	least := int64(0)
	for _, p := range parts {
		terms = append(terms, lcg.Term{Factor: int32(p.weight), V: p.v})
		low -= p.weight * int64(p.at)
		least += p.weight * int64(s.m.s.Lower(p.v))
	}
	sum := s.m.s.NewVar(Tick(max(least, -1<<29)), 1<<29)
	s.m.s.Linear(append(terms, lcg.Term{Factor: 1, V: sum.Neg()}), 0, lcg.True)
	s.m.boosted[k] = lcg.View{V: sum, Plus: Tick(low)}
}

// relax takes the least weight of a core from each of its parts and gives it to
// their sum, the last of what it returns, which is at one tick more than theirs. The
// sum may be less than 0: that each part is at least where it is holds of answers
// better than the best so far, and level by level others are asked for as well.
func (s *solver) relax(parts, core []part, least int64) []part {
	var out []part
	for _, p := range parts {
		if slices.Contains(core, p) {
			p.weight -= least
		}
		if p.weight > 0 {
			out = append(out, p)
		}
	}
	if len(core) == 1 {
		return append(out, part{core[0].v, core[0].at + 1, least})
	}
	var terms []lcg.Term
	at, below, most := int64(0), int64(0), int64(0)
	for _, p := range core {
		terms = append(terms, lcg.Term{Factor: 1, V: p.v})
		at += int64(p.at)
		below += int64(s.m.s.Lower(p.v)) - int64(p.at)
		most += int64(s.m.s.Upper(p.v)) - int64(p.at)
	}
	sum := s.m.s.NewVar(Tick(max(below, -1<<29)), Tick(min(most, 1<<29)))
	s.m.s.Linear(append(terms, lcg.Term{Factor: 1, V: sum ^ 1}), at, lcg.True)
	return append(out, part{sum, 1, least})
}

// exhaust raises a part as far as it alone is refused, in steps that grow until one is
// too far and are halved from then on, and returns by how much.
func (s *solver) exhaust(assume []lcg.Lit, p *part, conflicts int64) (raised Tick) {
	for step, far := Tick(1), false; step > 0 && !s.spent(); {
		all := lcg.AtMost(p.v, p.at+step-1)
		ask := append(slices.Clip(assume), all)
		st, lits := s.once(ask, conflicts)
		switch {
		case st == lcg.Unsat && !slices.Contains(lits, all):
			return raised // nothing is better
		case st == lcg.Unsat:
			p.at += step
			raised += step
		default:
			far = true
			if st == lcg.Sat {
				s.workOut(ask)
			}
		}
		if far {
			step /= 2
		} else {
			step *= 2
		}
	}
	return raised
}
