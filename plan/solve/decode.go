package solve

import "example.org/kettledrum/plan/solve/lcg"

// read returns the last answer of the model.
func (m *model) read() Answer {
	t := Answer{Choice: make([]int, len(m.p.Uses)), StateOf: make([]int, len(m.p.Stays))}
	value := func(w lcg.View) Tick { return m.s.Value(w.V) + w.Plus }
	for i := range m.start {
		t.Start, t.End = append(t.Start, value(m.start[i])), append(t.End, value(m.end[i]))
	}
	for k, opts := range m.choice {
		t.Choice[k] = m.chosen(opts)
	}
	for k, s := range m.p.Stays {
		t.StateOf[k] = s.States[m.chosen(m.stay.in[k])]
		t.Fresh = append(t.Fresh, m.stay.fresh[k] != lcg.Lit{} && m.s.Value(m.stay.fresh[k].V) == 1)
	}
	return t
}

func (m *model) chosen(lits []lcg.Lit) int {
	for i, l := range lits {
		if l.V >= 0 && m.s.Value(l.V) >= l.B {
			return i
		}
	}
	return 0
}

// decode works an answer of the model out: the settings at their moments, and
// what it costs. Nothing of the model is believed.
func (pl *placer) decode(t Answer) *Result {
	pl.reset()
	pl.fresh = t.Fresh
	b := pl.b
	for i := range pl.p.Acts {
		s, e := 2*i, 2*i+1
		b.lb[s], b.ub[s], b.lb[e], b.ub[e] = t.Start[i], t.Start[i], t.End[i], t.End[i]
		pl.placed[i] = true
	}
	for k := range pl.p.Uses {
		u := &pl.p.Uses[k]
		if len(u.Options) == 0 {
			continue
		}
		o := max(0, t.Choice[k])
		from, to := pl.cells(u)
		if !pl.free(u.Options[o], from, to, u.Pair) {
			if q := u.From; q.Act >= 0 {
				pl.force(q.Act, from, to)
			} else if u.To.Act >= 0 {
				pl.force(u.To.Act, from, to)
			}
		}
		pl.take(k, o)
	}
	for k := range pl.p.Stays {
		s, e := t.Start[pl.p.Stays[k].Act], t.End[pl.p.Stays[k].Act]
		r := t.StateOf[k]
		if s < e {
			from, to := int(s+pl.early), int(e+pl.early)
			fits, _ := pl.fits(r, k, s, e)
			if !fits || pl.prof[pl.p.SpaceOf[r]].blocked(from, to, pl.p.Stays[k].Space, 0) >= 0 {
				pl.force(pl.p.Stays[k].Act, from, to)
			}
		}
		pl.stayAt(k, r)
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
