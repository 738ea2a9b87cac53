package solve

// times is an answer of the model: when, by which options, on which states.
type times struct {
	start, end []Tick
	choice     []int
	stateOf    []int
}

// decode works an answer of the model out: the settings at their moments, and
// what it costs. Nothing of the model is believed.
func (pl *placer) decode(t times) *Result {
	pl.reset()
	b := pl.b
	for i := range pl.p.Acts {
		s, e := 2*i, 2*i+1
		b.lb[s], b.ub[s], b.lb[e], b.ub[e] = t.start[i], t.start[i], t.end[i], t.end[i]
		pl.placed[i] = true
	}
	for k := range pl.p.Uses {
		u := &pl.p.Uses[k]
		if len(u.Options) == 0 {
			continue
		}
		o := max(0, t.choice[k])
		pl.choice[k] = o
		from, to := pl.cells(u)
		if !pl.free(u.Options[o], from, to, u.Pair) {
			for _, q := range []Point{u.From, u.To} {
				if q.Act >= 0 && !pl.p.Acts[q.Act].Fixed {
					pl.force(q.Act, from, to)
					break
				}
			}
		}
		for _, d := range u.Options[o] {
			pl.prof[d.Resource].take(from, d.until(from, to), d.Amount, u.Pair)
		}
	}
	for k := range pl.p.Stays {
		s, e := t.start[pl.p.Stays[k].Act], t.end[pl.p.Stays[k].Act]
		r := t.stateOf[k]
		pl.stateOf[k] = r
		if s == e {
			continue
		}
		from, to := int(s+pl.early), int(e+pl.early)
		space := pl.prof[pl.p.SpaceOf[r]]
		fits, _ := pl.fits(r, k, s, e)
		if !fits || space.blocked(from, to, pl.p.Stays[k].Space, 0) >= 0 {
			pl.force(pl.p.Stays[k].Act, from, to)
		}
		pl.insertVisit(r, visit{k, s, e})
		space.take(from, to, pl.p.Stays[k].Space, 0)
	}
	for r := range pl.p.States {
		pl.settle(r)
	}
	return pl.result()
}

func (pl *placer) free(o Option, from, to int, pair int32) bool {
	for _, d := range o {
		if pl.prof[d.Resource].blocked(from, d.until(from, to), d.Amount, pair) >= 0 {
			return false
		}
	}
	return true
}
