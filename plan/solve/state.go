package solve

import (
	"cmp"
	"math"
	"slices"
)

// visit is a stay with its times, placed on one state.
type visit struct {
	stay       int
	start, end Tick
}

// group is a run of visits under one setting: their ranges have [lo, hi] in
// common.
type group struct {
	visits     []visit
	start, end Tick
	lo, hi     float64
	goal       float64
	class      int
}

// changeover returns the whole ticks that must lie between a stay in a and a
// later one in b: from the nearest end of one range to that of the other.
func (st *State) changeover(a, b *Stay) Tick {
	switch {
	case a.Hi < b.Lo:
		return ceil(st.Drift(a.Hi, b.Lo))
	case b.Hi < a.Lo:
		return ceil(st.Drift(a.Lo, b.Hi))
	}
	return 0
}

// reach returns the ticks from a value into [lo, hi].
func (st *State) reach(from, lo, hi float64) float64 {
	switch {
	case from < lo:
		return st.Drift(from, lo)
	case from > hi:
		return st.Drift(from, hi)
	}
	return 0
}

func ceil(x float64) Tick { return Tick(math.Ceil(x - 1e-9)) }

// fits reports whether stay k may lie at [s, e) beside the visits of state r.
// If not, it returns by how many ticks to move it earlier before it may.
func (pl *placer) fits(r, k int, s, e Tick) (bool, Tick) {
	st, me := &pl.p.States[r], &pl.p.Stays[k]
	lo, hi := me.Lo, me.Hi
	from, to := s, e // of the group that k would join
	for _, o := range pl.visits[r] {
		other := &pl.p.Stays[o.stay]
		if other.Continues == k || me.Continues == o.stay {
			continue
		}
		if s < o.end && o.start < e {
			lo, hi = max(lo, other.Lo), min(hi, other.Hi)
			// What is in it now was set for before; nothing is set anew meanwhile.
			unfit := o.start < st.SetFrom && st.IsSet && (st.Now < me.Lo || st.Now > me.Hi)
			door := me.Shut && (s < o.start && o.start < e || s < o.end && o.end < e) ||
				other.Shut && (o.start < s && s < o.end || o.start < e && e < o.end)
			if lo > hi || unfit || door || me.Class != other.Class {
				return false, max(1, e-(o.start-st.changeover(me, other)))
			}
			from, to = min(from, o.start), max(to, o.end)
			continue
		}
		if e <= o.start {
			if gap := st.changeover(me, other); o.start-e < gap {
				return false, gap - (o.start - e)
			}
		} else if gap := st.changeover(other, me); s-o.end < gap {
			return false, e - (o.start - st.changeover(me, other))
		}
	}
	return pl.groupHolds(r, k, from, to, lo, hi), 1
}

// groupHolds reports whether all visits that overlap, directly or in a chain,
// with [from, to) have a value in common with [lo, hi]. One constant value for
// a whole chain is more than the problem asks: simple, and easy on the cook.
func (pl *placer) groupHolds(r, k int, from, to Tick, lo, hi float64) bool {
	for grown := true; grown; {
		grown = false
		for _, o := range pl.visits[r] {
			if pl.p.Stays[o.stay].Continues == k || pl.p.Stays[k].Continues == o.stay {
				continue
			}
			if from < o.end && o.start < to && (o.start < from || o.end > to) {
				from, to = min(from, o.start), max(to, o.end)
				grown = true
			}
			if from < o.end && o.start < to {
				lo, hi = max(lo, pl.p.Stays[o.stay].Lo), min(hi, pl.p.Stays[o.stay].Hi)
			}
		}
	}
	return lo <= hi
}

// settle makes the settings that the visits of state r call for, afresh: it
// gives back the ticks they took before and takes new ones. It reports whether
// somebody is free for each.
func (pl *placer) settle(r int) bool {
	pl.unsettle(r)
	all := true
	pl.eachSetting(r, func(g *group, w window) bool {
		t := pl.freeTick(r, w)
		set := Setting{State: r, Tick: t, Value: w.value, Stay: w.stay, Choice: -1}
		if t < -pl.early || t < pl.p.States[r].SetFrom {
			all = false
			set.Tick = max(pl.p.States[r].SetFrom, Tick(w.to))
		} else {
			set.Choice = pl.option(pl.p.States[r].Setting, int(t+pl.early), int(t+1+pl.early), 0)
			pl.takeSetting(set, 1)
		}
		set.At = clamp(float64(set.Tick), w.from, max(w.from, w.to))
		pl.settings[r] = append(pl.settings[r], set)
		return true
	})
	return all
}

// unsettle gives back the ticks of the settings of state r.
func (pl *placer) unsettle(r int) {
	for _, set := range pl.settings[r] {
		pl.takeSetting(set, -1)
	}
	pl.settings[r] = pl.settings[r][:0]
}

// takeSetting takes (sign 1) or gives back (-1) the tick of a setting.
func (pl *placer) takeSetting(set Setting, sign int32) {
	if set.Choice < 0 {
		return
	}
	at := int(set.Tick + pl.early)
	for _, d := range pl.p.States[set.State].Setting[set.Choice] {
		pl.prof[d.Resource].take(at, d.until(at, at+1), sign*d.Amount, 0)
	}
}

// dial returns the value to set for a group.
func (st *State) dial(g *group) float64 {
	if st.Dial != nil {
		return st.Dial(g.goal, g.lo, g.hi)
	}
	return clamp(g.goal, g.lo, g.hi)
}

// window is when a setting may be made: at a moment in [from, to].
type window struct {
	from, to float64
	value    float64
	stay     int
}

// eachSetting walks the groups of state r in time and calls f for each setting
// that they need; f returns false to stop.
func (pl *placer) eachSetting(r int, f func(*group, window) bool) {
	st := &pl.p.States[r]
	// The state is on its way from entry to value and settles there.
	value, set, made := st.Now, st.IsSet, false
	entry, settled := st.Initial, math.Inf(-1)
	if set {
		settled = float64(st.SetFrom) + st.Drift(entry, value)
	}
	prev := group{end: -pl.early, lo: math.Inf(-1), hi: math.Inf(1)}
	seen, class := false, st.NowClass
	for _, g := range pl.groups(r) {
		used := prev.end
		if st.IsSet && !made {
			used = max(used, st.SetFrom) // it is on by then
		}
		idle := seen && st.Idle > 0 && g.start-used > st.Idle
		under := g.start < st.SetFrom // under way, set already
		if under && !set && g.end > st.SetFrom {
			value, set = st.dial(&g), true
		}
		there := made || float64(st.SetFrom) <= pl.inTime(st, &g, st.Initial)
		if under || set && !idle && g.class == class && value >= g.lo && value <= g.hi && there {
			if prev, seen = g, true; !under {
				class = g.class
				entry = clamp(entry, g.lo, g.hi) // that near it is by its start
			}
			continue
		}
		w := window{value: st.dial(&g), stay: g.visits[0].stay}
		free := float64(max(prev.end, st.SetFrom)) // nothing is in it from here on
		at := value
		switch {
		case idle:
			at = st.Rest
		case !set:
			// Left alone it drifts towards rest until it is set: the worse counts.
			if at = st.Initial; st.reach(st.Rest, g.lo, g.hi) > st.reach(at, g.lo, g.hi) {
				at = st.Rest
			}
		case settled > free && st.reach(entry, g.lo, g.hi) > st.reach(value, g.lo, g.hi):
			at = entry
		}
		w.from = free
		if set && !idle {
			if from := max(pl.letGo(r, &g, value, w.value), float64(st.SetFrom)); settled <= from {
				w.from = from
			}
		}
		w.to = pl.inTime(st, &g, at)
		if to := pl.inTime(st, &g, value); idle && to < float64(used) {
			w.to = min(w.to, to) // left alone it is not there yet, wherever it is set
		}
		if c := pl.p.Stays[w.stay].Continues; c >= 0 {
			w.from, w.to = float64(g.start), float64(g.start)
		}
		if !f(&g, w) {
			return
		}
		entry, settled = clamp(at, g.lo, g.hi), w.to+st.Drift(at, w.value)
		value, set, made, prev, seen, class = w.value, true, true, g, true, g.class
	}
}

// inTime returns the last moment at which a state at a value may be set for a
// group: each visit finds what it accepts at its start.
func (pl *placer) inTime(st *State, g *group, at float64) float64 {
	to := math.Inf(1)
	for _, v := range g.visits {
		s := &pl.p.Stays[v.stay]
		to = min(to, float64(v.start)-st.reach(at, s.Lo, s.Hi))
	}
	return to
}

// letGo returns the first moment at which a state at one value may be set to
// another for a group: each visit before still has what it accepts at its end.
func (pl *placer) letGo(r int, g *group, value, to float64) float64 {
	st := &pl.p.States[r]
	from := math.Inf(-1)
	for _, v := range pl.visits[r] {
		if v.start >= g.start {
			break // by time: these are the group's own, or later
		}
		s := &pl.p.Stays[v.stay]
		switch {
		case s.Class != g.class:
			from = max(from, float64(v.end)) // it wants another kind, to its end
		case to > s.Hi:
			from = max(from, float64(v.end)-st.Drift(value, max(value, s.Hi)))
		case to < s.Lo:
			from = max(from, float64(v.end)-st.Drift(value, min(value, s.Lo)))
		}
	}
	return from
}

// groups gathers the visits of state r into groups, by time: overlapping ones,
// and following ones for which the same value will do.
func (pl *placer) groups(r int) []group {
	st := &pl.p.States[r]
	out := pl.groupBuf[:0]
	for _, v := range pl.visits[r] {
		s := &pl.p.Stays[v.stay]
		if n := len(out); n > 0 && s.Continues < 0 {
			g := &out[n-1]
			lo, hi := max(g.lo, s.Lo), min(g.hi, s.Hi)
			if s.Class != g.class || pl.fresh != nil && pl.fresh[v.stay] && v.start >= g.end {
				hi = lo - 1
			}
			past := g.start < st.SetFrom && v.start >= st.SetFrom
			if lo <= hi && (v.start < g.end || !past && (st.Idle <= 0 || v.start-g.end <= st.Idle)) {
				g.visits = append(g.visits, v)
				g.end, g.lo, g.hi = max(g.end, v.end), lo, hi
				continue
			}
			if last := g.visits[len(g.visits)-1]; len(g.visits) > 1 && v.start < last.end && s.Class == g.class && pl.p.Stays[last.stay].Continues < 0 {
				// What came last could go on with the value, but it is in together with
				// this one, which cannot: both are of the next group.
				if next, ok := pl.split(g, v, last); ok {
					out = append(out, next)
					continue
				}
			}
		}
		if cap(out) > len(out) {
			out = out[:len(out)+1]
		} else {
			out = append(out, group{})
		}
		g := &out[len(out)-1]
		*g = group{visits: append(g.visits[:0], v), start: v.start, end: v.end, lo: s.Lo, hi: s.Hi, goal: s.Goal, class: s.Class}
	}
	pl.groupBuf = out
	return out
}

// split takes the last visit off a group to begin the next one with it and v, if
// those have a value in common and nothing else of the group is in with them.
func (pl *placer) split(g *group, v, last visit) (group, bool) {
	a, b := &pl.p.Stays[last.stay], &pl.p.Stays[v.stay]
	next := group{visits: []visit{last, v}, start: last.start, end: max(last.end, v.end),
		lo: max(a.Lo, b.Lo), hi: min(a.Hi, b.Hi), goal: a.Goal, class: g.class}
	kept := group{start: g.start, lo: math.Inf(-1), hi: math.Inf(1)}
	for _, w := range g.visits[:len(g.visits)-1] {
		x := &pl.p.Stays[w.stay]
		kept.end, kept.lo, kept.hi = max(kept.end, w.end), max(kept.lo, x.Lo), min(kept.hi, x.Hi)
	}
	if next.lo > next.hi || kept.end > last.start {
		return next, false
	}
	g.visits, g.end, g.lo, g.hi = g.visits[:len(g.visits)-1], kept.end, kept.lo, kept.hi
	return next, true
}

// lookBack is how many ticks before its latest moment a setting is looked for.
const lookBack = 90

// freeTick returns the latest tick with a moment of the window in it in which a
// setting of state r can be served, or one before all ticks when there is none.
func (pl *placer) freeTick(r int, w window) Tick {
	none := -pl.early - 1
	if w.to < w.from-1e-9 {
		return none
	}
	for t := Tick(math.Floor(w.to)); t > none && float64(t+1) > w.from && float64(t) > w.to-lookBack; t-- {
		if pl.option(pl.p.States[r].Setting, int(t+pl.early), int(t+1+pl.early), 0) >= 0 {
			return t
		}
	}
	return none
}

func (pl *placer) insertVisit(r int, v visit) {
	at, _ := slices.BinarySearchFunc(pl.visits[r], v, func(a, b visit) int {
		return cmp.Or(cmp.Compare(a.start, b.start), cmp.Compare(a.end, b.end), cmp.Compare(a.stay, b.stay))
	})
	pl.visits[r] = slices.Insert(pl.visits[r], at, v)
}

func (pl *placer) removeVisit(r, stay int) {
	for i, v := range pl.visits[r] {
		if v.stay == stay {
			pl.visits[r] = slices.Delete(pl.visits[r], i, i+1)
			pl.settle(r)
			return
		}
	}
}

func clamp(x, lo, hi float64) float64 { return max(lo, min(hi, x)) }
