package solve

// bounds keeps, for every time point, the earliest and the latest tick that
// the hard lags leave it, with a trail that restores them.
//
//	lb[to] ≥ lb[from] + w,  ub[from] ≤ ub[to] − w   over all arcs (from, to, w)
//
// Point numbers: 2i is the start of activity i, 2i+1 its end, the last one the
// origin. Cost of a propagation: O(arcs reached) on acyclic parts; a cycle of
// positive length empties a domain and stops.
type bounds struct {
	lb, ub  []Tick
	arcs    []arc
	out, in [][]int32 // arcs by their from and their to
	trail   []saved
	queue   []int32
	queued  []bool
}

type arc struct {
	from, to int32
	w        Tick
	off      bool // given up
	lag      int32
}

type saved struct {
	point int32
	upper bool
	old   Tick
}

func pointIndex(p Point, n int) int32 {
	switch {
	case p.Act < 0:
		return int32(2 * n)
	case p.End:
		return int32(2*p.Act + 1)
	}
	return int32(2 * p.Act)
}

func newBounds(points int, low, high Tick) *bounds {
	b := &bounds{
		lb: make([]Tick, points), ub: make([]Tick, points),
		out: make([][]int32, points), in: make([][]int32, points),
		queued: make([]bool, points),
	}
	for i := range b.lb {
		b.lb[i], b.ub[i] = low, high
	}
	return b
}

func (b *bounds) addArc(from, to int32, w Tick, lag int32) int32 {
	k := int32(len(b.arcs))
	b.arcs = append(b.arcs, arc{from: from, to: to, w: w, lag: lag})
	b.out[from] = append(b.out[from], k)
	b.in[to] = append(b.in[to], k)
	return k
}

// raise and lower tighten one bound; they report whether the domain survives.
func (b *bounds) raise(p int32, v Tick) bool {
	if v <= b.lb[p] {
		return true
	}
	b.trail = append(b.trail, saved{p, false, b.lb[p]})
	b.lb[p] = v
	b.push(p)
	return v <= b.ub[p]
}

func (b *bounds) lower(p int32, v Tick) bool {
	if v >= b.ub[p] {
		return true
	}
	b.trail = append(b.trail, saved{p, true, b.ub[p]})
	b.ub[p] = v
	b.push(p)
	return v >= b.lb[p]
}

func (b *bounds) fix(p int32, v Tick) bool { return b.raise(p, v) && b.lower(p, v) }

func (b *bounds) push(p int32) {
	if !b.queued[p] {
		b.queued[p] = true
		b.queue = append(b.queue, p)
	}
}

// propagate runs all waiting changes to their end. It reports false when a
// domain becomes empty; the caller then undoes to its mark.
func (b *bounds) propagate() bool {
	ok := true
	for head := 0; head < len(b.queue); head++ {
		p := b.queue[head]
		b.queued[p] = false
		if !ok {
			continue
		}
		for _, k := range b.out[p] {
			if a := &b.arcs[k]; !a.off && !b.raise(a.to, b.lb[p]+a.w) {
				ok = false
				break
			}
		}
		if !ok {
			continue
		}
		for _, k := range b.in[p] {
			if a := &b.arcs[k]; !a.off && !b.lower(a.from, b.ub[p]-a.w) {
				ok = false
				break
			}
		}
	}
	b.queue = b.queue[:0]
	return ok
}

// drop forgets waiting changes after a failed raise or lower.
func (b *bounds) drop() {
	for _, p := range b.queue {
		b.queued[p] = false
	}
	b.queue = b.queue[:0]
}

func (b *bounds) mark() int { return len(b.trail) }

func (b *bounds) undo(mark int) {
	b.drop()
	for i := len(b.trail) - 1; i >= mark; i-- {
		s := b.trail[i]
		if s.upper {
			b.ub[s.point] = s.old
		} else {
			b.lb[s.point] = s.old
		}
	}
	b.trail = b.trail[:mark]
}
