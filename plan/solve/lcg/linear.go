package lcg

// Term is Factor·V with Factor > 0; a negative factor is written with V's twin.
type Term struct {
	Factor int32
	V      Var
}

// linear is Σ Factor·V ≤ Most, if a condition holds:
//
//	ub[Vi] ≤ lb[Vi] + ⌊(Most − Σ Factor·lb) / Factor_i⌋
//
// Each run is O(terms). An explanation gives away what is more than needed,
// first to the terms nearest the end.
type linear struct {
	terms []Term
	most  int64
	cond  Lit
	prop  int32
}

// Linear adds: if cond then the sum of terms is at most most.
func (s *Solver) Linear(terms []Term, most int64, cond Lit) {
	p := &linear{terms: terms, most: most, cond: cond}
	p.prop = s.Post(p, 0)
	for _, t := range terms {
		s.Watch(t.V, p.prop, 0)
	}
	if cond.V >= 0 {
		s.Watch(cond.V, p.prop, 0)
	}
}

// Touch implements Propagator.
func (p *linear) Touch(int32, bool) {}

func (p *linear) spare(s *Solver) int64 {
	spare := p.most
	for _, t := range p.terms {
		spare -= int64(t.Factor) * int64(s.lb[t.V])
	}
	return spare
}

// Propagate implements Propagator.
func (p *linear) Propagate(s *Solver) bool {
	if s.Fails(p.cond) {
		return true
	}
	spare := p.spare(s)
	if !s.Holds(p.cond) {
		return spare >= 0 || s.Set(p.cond.Not(), p.prop, -1, 0)
	}
	if spare < 0 {
		return s.Conflict(p.reasons(s, -1, -spare-1, s.scratch[:0]))
	}
	for i, t := range p.terms {
		room := spare / int64(t.Factor)
		if int64(-s.lb[t.V^1]) > int64(s.lb[t.V])+room && !s.Set(AtMost(t.V, s.lb[t.V]+int32(room)), p.prop, int32(i), 0) {
			return false
		}
	}
	return true
}

// reasons appends the lower bounds of all terms but one, loosened by at most
// spare in the sum, and the condition.
func (p *linear) reasons(s *Solver, but int, spare int64, out []Lit) []Lit {
	for i := len(p.terms) - 1; i >= 0; i-- {
		t := p.terms[i]
		if i == but {
			continue
		}
		b := s.lb[t.V]
		for spare >= int64(t.Factor) { // whole entries of the trail only: less would win nothing
			k := s.last[t.V]
			floor := b
			for k >= 0 && s.trail[k].old >= b {
				k = s.trail[k].prev
			}
			if k < 0 {
				break
			}
			floor = s.trail[k].old
			if cost := int64(b-floor) * int64(t.Factor); cost <= spare {
				spare -= cost
				b = floor
				continue
			}
			b -= int32(spare / int64(t.Factor))
			spare %= int64(t.Factor)
		}
		out = append(out, Lit{t.V, b})
	}
	if but >= -1 && p.cond.V >= 0 {
		out = append(out, p.cond)
	}
	return out
}

// Explain implements Propagator.
func (p *linear) Explain(s *Solver, l Lit, a, _ int32, out []Lit) []Lit {
	if a < 0 {
		return p.reasons(s, -2, -p.spare(s)-1, out)
	}
	// V_i ≤ u: any sum of the others above Most − Factor·(u+1) suffices.
	t := p.terms[a]
	u := -int64(l.B)
	rest := p.spare(s) + int64(t.Factor)*int64(s.lb[t.V]) // Most − sum of the others
	return p.reasons(s, int(a), int64(t.Factor)*(u+1)-rest-1, out)
}
