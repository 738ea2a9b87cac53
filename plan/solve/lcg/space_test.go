package lcg

import "math/bits"

// space is all assignments of a tiny model, numbered, in sets of a bit each, so
// that "these literals imply that one" is a handful of machine words.
type space struct {
	m         *tiny
	size      int
	all       set
	atLeast   [][]set // of variable k and value v: where x[k] ≥ v, from its low on
	ofRule    []set   // where each rule holds
	solutions set     // where all do
	work      set
}

type set []uint64

// first returns the least member, -1 where there is none.
func (a set) first() int {
	for k, w := range a {
		if w != 0 {
			return 64*k + bits.TrailingZeros64(w)
		}
	}
	return -1
}

func (a set) has(i int) bool { return a[i/64]>>(i%64)&1 == 1 }
func (a set) add(i int)      { a[i/64] |= 1 << (i % 64) }
func (a set) remove(i int)   { a[i/64] &^= 1 << (i % 64) }

func newSpace(m *tiny) *space {
	p := &space{m: m, size: 1}
	for k := range m.low {
		p.size *= int(m.high[k] - m.low[k] + 1)
	}
	empty := func() set { return make(set, (p.size+63)/64) }
	p.all, p.solutions, p.work = empty(), empty(), empty()
	for k := range m.low {
		sets := make([]set, m.high[k]-m.low[k]+1)
		for v := range sets {
			sets[v] = empty()
		}
		p.atLeast = append(p.atLeast, sets)
	}
	for range m.rules {
		p.ofRule = append(p.ofRule, empty())
	}
	x := append([]int32(nil), m.low...)
	for i := range p.size {
		p.all.add(i)
		for k, sets := range p.atLeast {
			for v := range x[k] - m.low[k] + 1 {
				sets[v].add(i)
			}
		}
		ok := true
		for k, r := range m.rules {
			if r.holds(x) {
				p.ofRule[k].add(i)
			} else {
				ok = false
			}
		}
		if ok {
			p.solutions.add(i)
		}
		for k := range x { // the next assignment, the first variable fastest
			if x[k]++; x[k] <= m.high[k] {
				break
			}
			x[k] = m.low[k]
		}
	}
	return p
}

// number is the place of an assignment in the order of enumeration.
func (p *space) number(x []int32) int {
	i, step := 0, 1
	for k, v := range x {
		i += int(v-p.m.low[k]) * step
		step *= int(p.m.high[k] - p.m.low[k] + 1)
	}
	return i
}

func (p *space) assignment(i int) []int32 {
	x := make([]int32, len(p.m.low))
	for k := range x {
		n := int(p.m.high[k] - p.m.low[k] + 1)
		x[k] = p.m.low[k] + int32(i%n)
		i /= n
	}
	return x
}

// keep leaves in a only where l is true (or is not, as told).
func (p *space) keep(a set, l Lit, truth bool) {
	if l.V < 0 {
		if (l == True) != truth {
			clear(a)
		}
		return
	}
	k, v := l.V/2, l.B
	if l.V%2 == 1 { // −x ≥ b says that x ≥ 1 − b is false
		v, truth = 1-l.B, !truth
	}
	sets := p.atLeast[k]
	switch at := int(v - p.m.low[k]); {
	case at <= 0:
		if !truth {
			clear(a)
		}
	case at >= len(sets):
		if truth {
			clear(a)
		}
	case truth:
		for i, w := range sets[at] {
			a[i] &= w
		}
	default:
		for i, w := range sets[at] {
			a[i] &^= w
		}
	}
}

// against returns a member of within in which all of lits are true and then is
// not, -1 where there is none.
func (p *space) against(within set, lits []Lit, then Lit) int {
	copy(p.work, within)
	for _, l := range lits {
		p.keep(p.work, l, true)
	}
	p.keep(p.work, then, false)
	return p.work.first()
}
