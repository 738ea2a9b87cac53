package solve

import (
	"slices"
)

// region is a problem of its own: some activities of another are free in it, and
// all else stays as an answer has it. What stays is not in it but for its
// traces: a lag to it is one to the origin, what it takes is missing from the
// calendars. Only stays on states that a free one may enter are there, held by
// their activities as facts: what shares no value with them needs a setting.
//
// An answer of the part, in place of what was, is one of the whole. A whole answer
// that differs in the free activities alone is one of the part but where a stay
// leaves for a state outside.
type region struct {
	p     *Problem // of the part
	acts  []int    // its activities, as those of the whole; what is free first
	free  int      // how many are
	uses  []int    // its uses, likewise
	stays []int
	index []int // of each activity of the whole, its number here; -1
}

// regionOf returns the part of p in which some activities are free, beside answer r.
// Stays may choose between states that are open.
func regionOf(p *Problem, r *Result, free, open []bool) *region {
	t := &region{index: make([]int, len(p.Acts)), p: &Problem{
		Horizon: p.Horizon, Now: p.Now, Day: p.Day, States: p.States, SpaceOf: p.SpaceOf,
	}}
	for i := range p.Acts {
		if t.index[i] = -1; free[i] {
			t.add(p, i)
		}
	}
	t.free = len(t.acts)
	t.staysOf(p, r, free, open)
	t.lags(p, r, free)
	t.resources(p, r, free, open)
	return t
}

func (t *region) add(p *Problem, i int) {
	t.index[i] = len(t.acts)
	t.acts = append(t.acts, i)
	t.p.Acts = append(t.p.Acts, p.Acts[i])
}

// staysOf adds the stays on open states.
func (t *region) staysOf(p *Problem, r *Result, free, open []bool) {
	at := make([]int, len(p.Stays))
	for k, s := range p.Stays {
		at[k] = -1
		if !open[r.StateOf[k]] {
			continue
		}
		s.States = slices.DeleteFunc(slices.Clone(s.States), func(st int) bool { return !open[st] })
		if i := s.Act; !free[i] {
			if t.index[i] < 0 {
				t.add(p, i)
				a := &t.p.Acts[t.index[i]]
				a.Fixed, a.FixedEnd, a.Start, a.End = true, true, r.Start[i], r.End[i]
				a.Due, a.Before = false, 0
			}
			s.States, s.Space = []int{r.StateOf[k]}, 0
		}
		s.Act = t.index[s.Act]
		at[k] = len(t.stays)
		t.stays = append(t.stays, k)
		t.p.Stays = append(t.p.Stays, s)
	}
	for k := range t.p.Stays {
		if c := t.p.Stays[k].Continues; c >= 0 {
			t.p.Stays[k].Continues = at[c]
		}
	}
}

// point returns a point of the whole as one of the part, and how many ticks after it.
func (t *region) point(r *Result, q Point, free []bool) (Point, Tick) {
	if q.Act >= 0 && free[q.Act] {
		return Point{Act: t.index[q.Act], End: q.End}, 0
	}
	return Origin, when(r, q)
}

func (t *region) lags(p *Problem, r *Result, free []bool) {
	for _, l := range p.Lags {
		var from, to Tick
		l.From, from = t.point(r, l.From, free)
		l.To, to = t.point(r, l.To, free)
		if l.From == Origin && l.To == Origin {
			continue
		}
		l.Min += from - to
		l.Guard = 0
		t.p.Lags = append(t.p.Lags, l)
	}
}

// resources adds what the rest leaves of each resource, and the uses of what is free.
func (t *region) resources(p *Problem, r *Result, free, open []bool) {
	is := func(q Point) bool { return q.Act >= 0 && free[q.Act] }
	pairs := map[int32]bool{} // of uses of what is free: the other may share their tick
	for _, u := range p.Uses {
		if u.Pair > 0 && (is(u.From) || is(u.To)) {
			pairs[u.Pair] = true
		}
	}
	left := make([][]int32, len(p.Resources))
	for k, res := range p.Resources {
		left[k] = make([]int32, p.Horizon)
		c := 0
		for at := range left[k] {
			for c+1 < len(res.Calendar) && res.Calendar[c+1].From <= Tick(at) {
				c++
			}
			if len(res.Calendar) > 0 && res.Calendar[c].From <= Tick(at) {
				left[k][at] = res.Calendar[c].Amount
			}
		}
	}
	take := func(o Option, from, to Tick) {
		for _, d := range o {
			end := to
			if d.Plus > 0 {
				end = from + d.Plus
			}
			for at := max(0, from); at < min(end, p.Horizon); at++ {
				left[d.Resource][at] -= d.Amount
			}
		}
	}
	shared := map[[3]int32]bool{}
	for k, u := range p.Uses {
		if len(u.Options) == 0 {
			continue
		}
		var from, to Tick
		moves, paired := is(u.From) || is(u.To), u.Pair > 0 && pairs[u.Pair]
		if moves || paired {
			u.From, from = t.point(r, u.From, free)
			u.To, to = t.point(r, u.To, free)
			u.FromPlus += from
			u.ToPlus += to
			if !moves {
				o := max(0, r.Choice[k])
				u.Options = u.Options[o : o+1]
			}
			t.uses = append(t.uses, k)
			t.p.Uses = append(t.p.Uses, u)
			continue
		}
		o := u.Options[max(0, r.Choice[k])]
		from, to = when(r, u.From)+u.FromPlus, when(r, u.To)+u.ToPlus
		if u.Pair > 0 && to == from+1 {
			key := [3]int32{u.Pair, from, int32(o[0].Resource)}
			if shared[key] {
				continue
			}
			shared[key] = true
		}
		take(o, from, to)
	}
	for k, s := range p.Stays {
		if !free[s.Act] {
			take(Option{{Resource: p.SpaceOf[r.StateOf[k]], Amount: s.Space}}, r.Start[s.Act], r.End[s.Act])
		}
	}
	for _, set := range r.Settings {
		if !open[set.State] && set.Choice >= 0 {
			take(p.States[set.State].Setting[set.Choice], set.Tick, set.Tick+1)
		}
	}
	for k := range p.Resources {
		var c []Capacity
		for at, n := range left[k] {
			if n = max(0, n); len(c) == 0 || c[len(c)-1].Amount != n {
				c = append(c, Capacity{Tick(at), n})
			}
		}
		t.p.Resources = append(t.p.Resources, Resource{Calendar: c})
	}
}

// put returns answer r with what the part has.
func (t *region) put(r *Result, a Answer) Answer {
	out := r.answer()
	out.Start, out.End = slices.Clone(out.Start), slices.Clone(out.End)
	out.Choice, out.StateOf = slices.Clone(out.Choice), slices.Clone(out.StateOf)
	for i, of := range t.acts[:t.free] {
		out.Start[of], out.End[of] = a.Start[i], a.End[i]
	}
	for k, of := range t.uses {
		if len(t.p.Uses[k].Options) > 1 {
			out.Choice[of] = a.Choice[k]
		}
	}
	for k, of := range t.stays {
		out.StateOf[of], out.Fresh[of] = a.StateOf[k], a.Fresh[k]
	}
	return out
}

// of returns what r is worth in the part: its own times, uses, stays and settings.
func (t *region) of(r *Result) *Result {
	out := &Result{}
	for _, i := range t.acts {
		out.Start, out.End = append(out.Start, r.Start[i]), append(out.End, r.End[i])
	}
	for k, of := range t.uses {
		c := 0
		if len(t.p.Uses[k].Options) > 1 {
			c = r.Choice[of]
		}
		out.Choice = append(out.Choice, c)
	}
	at := map[int]int{}
	for k, of := range t.stays {
		at[of] = k
		out.StateOf = append(out.StateOf, r.StateOf[of])
	}
	for _, s := range r.Settings {
		if k, ok := at[s.Stay]; ok {
			s.Stay = k
			out.Settings = append(out.Settings, s)
		}
	}
	for _, l := range t.p.Lags {
		short := int64(max(0, l.Min-(when(out, l.To)-when(out, l.From))))
		switch {
		case l.Soft:
			out.Cost.Soft[l.Level] += l.Weight * short
		case l.Relaxable:
			out.Cost.Broken += max(1, l.Weight) * short
		}
	}
	for i, a := range t.p.Acts {
		if a.Before > 0 && !a.Fixed && out.Start[i] >= a.Before {
			out.Cost.Soft[a.AvoidLevel] += int64(a.Min)
		}
	}
	out.Cost.Settings = int64(len(out.Settings))
	return out
}

// model returns a model of the region that begins with an answer of it. Lags that
// the answer breaks and may count as broken.
func (t *region) model(r *Result) *model {
	broken := make([]bool, len(t.p.Lags))
	for k, l := range t.p.Lags {
		broken[k] = !l.Soft && l.Relaxable && l.Min > when(r, l.To)-when(r, l.From)
	}
	m := newModel(t.p, broken, false)
	m.s.Branch = m.latest // milestone or not
	m.prefer(r)
	return m
}
