package solve

import "slices"

// timeTravel is what a tick counts by which something would begin before it can,
// or last as it cannot: more than anything that can be done.
const timeTravel = 1000

// tooEarly returns by how many ticks activity i would have to begin later: for
// its earliest start, or for a calendar that had not opened.
func (pl *placer) tooEarly(i int) Tick {
	a := &pl.p.Acts[i]
	if a.Fixed {
		return 0
	}
	short := max(0, a.Earliest-pl.b.lb[2*i])
	for _, k := range pl.usesOf[i] {
		if pl.choice[k] < 0 {
			continue
		}
		u := &pl.p.Uses[k]
		from, _ := pl.cells(u)
		for _, d := range u.Options[pl.choice[k]] {
			short = max(short, Tick(pl.prof[d.Resource].firstOpen-from))
		}
	}
	return short
}

// result reads the timetable off and works out its cost.
func (pl *placer) result() *Result {
	p := pl.p
	r := &Result{Start: make([]Tick, pl.n), End: make([]Tick, pl.n),
		Choice: slices.Clone(pl.choice), StateOf: slices.Clone(pl.stateOf)}
	for i := range p.Acts {
		r.Start[i], r.End[i] = pl.b.lb[2*i], pl.b.lb[2*i+1]
		if !p.Acts[i].Fixed {
			ahead := int64(p.Horizon - r.Start[i])
			r.Cost.Early += ahead
			if r.Start[i] >= p.Day {
				r.Cost.First = max(r.Cost.First, ahead)
			}
		}
		if a := &p.Acts[i]; a.Before > 0 && !a.Fixed && r.Start[i] >= a.Before {
			r.Cost.Soft[a.AvoidLevel] += int64(a.Min)
		}
		if a := &p.Acts[i]; !a.FixedEnd {
			d := r.End[i] - r.Start[i]
			r.Cost.Broken += timeTravel * int64(max(0, a.Min-d, d-a.Max))
		}
		r.Cost.Broken += timeTravel*int64(pl.tooEarly(i)) + int64(pl.forced[i])
	}
	for _, l := range p.Lags {
		short := pl.short(l)
		switch {
		case short <= 0:
		case l.Soft:
			r.Cost.Soft[l.Level] += l.Weight * int64(short)
		case l.Relaxable:
			r.Cost.Broken += max(1, l.Weight) * int64(short)
		default:
			r.Cost.Broken += timeTravel * int64(short)
		}
	}
	for _, sets := range pl.settings {
		for _, set := range sets {
			r.Cost.Settings++
			r.Settings = append(r.Settings, set)
			if set.Choice < 0 {
				r.Cost.Broken++
				continue
			}
			for _, d := range p.States[set.State].Setting[set.Choice] {
				r.Cost.Broken += int64(max(0, pl.prof[d.Resource].firstOpen-int(set.Tick+pl.early)))
			}
		}
	}
	if pl.counting {
		for _, n := range pl.calls() {
			r.Cost.Calls += int64(n) * int64(n)
		}
	}
	if r.Cost.Broken > 0 {
		r.Status = Broken
	}
	return r
}

// short returns by how many ticks a lag is missed; facts are not judged.
func (pl *placer) short(l Lag) Tick {
	if pl.fact(l.From) && pl.fact(l.To) {
		return 0
	}
	return l.Min - (pl.at(l.To, 0) - pl.at(l.From, 0))
}

func (pl *placer) fact(q Point) bool {
	if q.Act < 0 {
		return true
	}
	a := &pl.p.Acts[q.Act]
	return a.Fixed && (!q.End || a.FixedEnd)
}

// when returns the tick of a point in r.
func when(r *Result, q Point) Tick {
	switch {
	case q.Act < 0:
		return 0
	case q.End:
		return r.End[q.Act]
	}
	return r.Start[q.Act]
}

// suffering returns, per activity, what the lags around it miss in r.
func (pl *placer) suffering(r *Result) []int64 {
	out := make([]int64, pl.n)
	for _, l := range pl.p.Lags {
		if short := l.Min - (when(r, l.To) - when(r, l.From)); short > 0 {
			for _, q := range []Point{l.From, l.To} {
				if q.Act >= 0 {
					out[q.Act] += int64(short)
				}
			}
		}
	}
	return out
}
