package solve

import "slices"

// later moves everything as late as it may be: each point with those that stand
// at a fixed distance from it, the last first, where nothing that counts more
// gets worse. It returns the better answer, or r.
func (pl *placer) later(r *Result) *Result {
	best := r
	pl.decode(r.answer())
	groups := pl.rigid()
	for moved := true; moved; {
		moved = false
		slices.SortStableFunc(groups, func(a, b rigid) int { return int(pl.b.lb[b.points[0]] - pl.b.lb[a.points[0]]) })
		for _, g := range groups {
			if next := pl.shift(g, best); next != nil {
				best, moved = next, true
			}
		}
	}
	return best
}

// answer is what r was worked out from.
func (r *Result) answer() Answer { return Answer{r.Start, r.End, r.Choice, r.StateOf, r.fresh()} }

// fresh tells which stays an answer sets a state for.
func (r *Result) fresh() []bool {
	out := make([]bool, len(r.StateOf))
	for _, s := range r.Settings {
		out[s.Stay] = true
	}
	return out
}

// rigid is a set of points that stand at fixed distances, and the activities
// that have one.
type rigid struct {
	points []int32
	acts   []int
	in     map[int32]bool
}

// rigid gathers the points that facts and milestones do not hold.
func (pl *placer) rigid() []rigid {
	b := pl.base
	of := make([]int32, len(b.lb))
	for q := range of {
		of[q] = int32(q)
	}
	var find func(q int32) int32
	find = func(q int32) int32 {
		if of[q] != q {
			of[q] = find(of[q])
		}
		return of[q]
	}
	least := map[[2]int32]Tick{}
	for _, a := range b.arcs {
		if !a.off {
			key := [2]int32{a.from, a.to}
			if w, ok := least[key]; !ok || a.w > w {
				least[key] = a.w
			}
		}
	}
	for _, a := range b.arcs {
		if back, ok := least[[2]int32{a.to, a.from}]; ok && !a.off && back == -a.w {
			of[find(a.from)] = find(a.to)
		}
	}
	held := map[int32]bool{find(int32(2 * pl.n)): true}
	for i, a := range pl.p.Acts {
		if a.Fixed || a.Due {
			held[find(int32(2*i))] = true
			if a.FixedEnd || a.Due {
				held[find(int32(2*i+1))] = true
			}
		}
	}
	index := map[int32]int{}
	var out []rigid
	for q := range int32(2 * pl.n) {
		root := find(q)
		if held[root] {
			continue
		}
		k, ok := index[root]
		if !ok {
			k = len(out)
			index[root] = k
			out = append(out, rigid{in: map[int32]bool{}})
		}
		g := &out[k]
		g.points = append(g.points, q)
		g.in[q] = true
		if i := int(q / 2); !slices.Contains(g.acts, i) {
			g.acts = append(g.acts, i)
		}
	}
	return out
}

// shift moves a set of points later, as far as it goes, and returns the answer if
// it is better, else nil with everything as it was.
func (pl *placer) shift(g rigid, best *Result) *Result {
	_, room := pl.room(g)
	if room <= 0 {
		return nil
	}
	pl.lift(g)
	worse := 0
	for by := room; by > 0; {
		r, step := pl.moved(g, by, best)
		switch {
		case r == nil: // it does not go there
		case r.Cost.Less(best.Cost):
			return r
		default: // something else got worse: less may not
			worse++
			if step = by - by/2; worse > 8 {
				step = by
			}
		}
		by -= max(1, step)
	}
	pl.putBack(g, best)
	return nil
}

// room returns how far a set of points may move to either side, by the lags, and within
// the horizon.
func (pl *placer) room(g rigid) (earlier, later Tick) {
	b := pl.b
	earlier, later = pl.p.Horizon, pl.p.Horizon
	for _, q := range g.points {
		later = min(later, pl.p.Horizon-b.lb[q])
		for _, k := range b.out[q] {
			if a := &b.arcs[k]; !a.off && !g.in[a.to] {
				later = min(later, b.lb[a.to]-b.lb[q]-a.w)
			}
		}
		for _, k := range b.in[q] {
			if a := &b.arcs[k]; !a.off && !g.in[a.from] {
				earlier = min(earlier, b.lb[q]-b.lb[a.from]-a.w)
			}
		}
	}
	return earlier, later
}

// lift takes the activities of a set of points off.
func (pl *placer) lift(g rigid) {
	for _, i := range g.acts {
		pl.release(i, len(pl.usesOf[i]))
	}
}

// moved puts a lifted set down so many ticks later and returns the answer; if that
// is no better than the best the set is lifted again, and back. Where it does not
// fit it returns nil and how many ticks less to try.
func (pl *placer) moved(g rigid, by Tick, best *Result) (*Result, Tick) {
	pl.by(g, by)
	ok, step := pl.commitAll(g.acts)
	if !ok {
		pl.by(g, -by)
		return nil, step
	}
	r := pl.result()
	if !r.Cost.Less(best.Cost) {
		pl.lift(g)
		pl.by(g, -by)
	}
	return r, 0
}

func (pl *placer) by(g rigid, by Tick) {
	for _, q := range g.points {
		pl.b.lb[q] += by
		pl.b.ub[q] = pl.b.lb[q]
	}
}

// putBack puts a lifted set where it was, on the same options.
func (pl *placer) putBack(g rigid, best *Result) {
	for _, i := range g.acts {
		for _, k := range pl.usesOf[i] {
			if best.Choice[k] >= 0 && pl.choice[k] < 0 {
				pl.take(k, best.Choice[k])
			}
		}
	}
	for _, i := range g.acts {
		for _, k := range pl.staysOf[i] {
			pl.stayAt(k, best.StateOf[k])
		}
		pl.placed[i] = true
	}
	for r := range pl.p.States {
		pl.settle(r)
	}
}

func (pl *placer) commitAll(acts []int) (bool, Tick) {
	for n, i := range acts {
		if ok, step := pl.commit(i, false); !ok {
			for _, done := range acts[:n] {
				pl.release(done, len(pl.usesOf[done]))
			}
			return false, step
		}
	}
	return true, 0
}

// take puts use k down on an option.
func (pl *placer) take(k, option int) {
	u := &pl.p.Uses[k]
	pl.choice[k] = option
	from, to := pl.cells(u)
	for _, d := range u.Options[option] {
		pl.prof[d.Resource].take(from, d.until(from, to), d.Amount, u.Pair)
	}
}

// stayAt puts stay k down on a state.
func (pl *placer) stayAt(k, r int) {
	i := pl.p.Stays[k].Act
	s, e := pl.b.lb[2*i], pl.b.lb[2*i+1]
	pl.stateOf[k] = r
	if s == e {
		return
	}
	pl.insertVisit(r, visit{k, s, e})
	pl.prof[pl.p.SpaceOf[r]].take(int(s+pl.early), int(e+pl.early), pl.p.Stays[k].Space, 0)
}
