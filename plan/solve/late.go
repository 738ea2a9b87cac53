package solve

import "slices"

// later moves everything as late as it may be: each point with those that stand
// at a fixed distance from it, the last first, where nothing that counts more
// gets worse. It returns the better answer, or r.
func (pl *placer) later(r *Result) *Result {
	pl.decode(Answer{r.Start, r.End, r.Choice, r.StateOf, r.fresh()})
	best := r
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
	b := pl.b
	room := pl.p.Horizon
	for _, q := range g.points {
		for _, k := range b.out[q] {
			if a := &b.arcs[k]; !a.off && !g.in[a.to] {
				room = min(room, b.lb[a.to]-b.lb[q]-a.w)
			}
		}
	}
	if room <= 0 {
		return nil
	}
	for _, i := range g.acts {
		pl.release(i, len(pl.usesOf[i]))
	}
	move := func(by Tick) {
		for _, q := range g.points {
			b.lb[q] += by
			b.ub[q] = b.lb[q]
		}
	}
	worse := 0
	for by := room; by > 0; {
		move(by)
		ok, step := pl.commitAll(g.acts)
		if ok {
			if r := pl.result(); r.Cost.Less(best.Cost) {
				return r
			}
			// Something else got worse: less may not.
			worse++
			for _, i := range g.acts {
				pl.release(i, len(pl.usesOf[i]))
			}
			step = by - by/2
			if worse > 8 {
				step = by
			}
		}
		move(-by)
		by -= max(1, step)
	}
	for _, i := range g.acts { // back to where it was, on the same options
		for _, k := range pl.usesOf[i] {
			if u := &pl.p.Uses[k]; pl.choice[k] < 0 && len(u.Options) > 0 {
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
	return nil
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
