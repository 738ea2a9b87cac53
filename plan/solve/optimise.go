package solve

import (
	"context"

	"example.org/kettledrum/plan/solve/lcg"
)

// OptimiseOptions bound the search.
type OptimiseOptions struct {
	// Conflicts is the budget, 0 for none; ctx cuts off all the same.
	Conflicts int64
	// Hint, if any, is an end of each activity from an earlier answer.
	Hint []Tick
	// Found is called with each better answer, the first included.
	Found   func(*Result)
	problem *Problem
	Tries   int
	Seed    uint64
}

// Optimise finds the best answer, level by level, and proves it, or proves that
// there is none. A budget or ctx stops it with the best so far.
func Optimise(ctx context.Context, p *Problem, o OptimiseOptions) *Result {
	if !sane(p) {
		return &Result{Status: Infeasible}
	}
	o.problem = p
	opt := &optimiser{ctx: ctx, left: o.Conflicts, o: o}
	if start := forward(p); start != nil {
		opt.m = newModel(p, nil)
		return opt.project(start)
	}
	if len(p.States) == 0 {
		opt.m = newModel(p, nil)
		return opt.project(nil)
	}
	return opt.meal()
}

// sane reports whether no activity asks for more than there is.
func sane(p *Problem) bool {
	for _, u := range p.Uses {
		fits := len(u.Options) == 0
		for _, o := range u.Options {
			ok := true
			for _, d := range o {
				most := int32(0)
				for _, c := range p.Resources[d.Resource].Calendar {
					most = max(most, c.Amount)
				}
				ok = ok && d.Amount <= most
			}
			fits = fits || ok
		}
		if !fits {
			return false
		}
	}
	return true
}

type optimiser struct {
	m     *model
	ctx   context.Context
	o     OptimiseOptions
	left  int64
	value []Tick // of each level in the best answer of the model
	sat   func() // called on each answer of the model
	best  *Result
}

func (o *optimiser) stop() bool { return o.ctx.Err() != nil }

func (o *optimiser) spent() bool { return o.stop() || o.o.Conflicts > 0 && o.left <= 0 }

// probe solves under assumptions for at most so many conflicts.
func (o *optimiser) probe(assume []lcg.Lit, conflicts int64) lcg.Status {
	if o.o.Conflicts > 0 {
		if o.left <= 0 {
			return lcg.Limit
		}
		if conflicts == 0 || conflicts > o.left {
			conflicts = o.left
		}
	}
	before := o.m.s.Stats.Conflicts
	st, _ := o.m.s.Solve(assume, conflicts, o.stop)
	o.left -= o.m.s.Stats.Conflicts - before
	if st == lcg.Sat {
		o.value = o.value[:0]
		for _, w := range o.m.levels {
			o.value = append(o.value, o.m.s.Value(w.V)+w.Plus)
		}
		o.sat()
	}
	return st
}

// read returns the answer of the model.
func (m *model) read() times {
	t := times{choice: make([]int, len(m.p.Uses)), stateOf: make([]int, len(m.p.Stays))}
	value := func(w lcg.View) Tick { return m.s.Value(w.V) + w.Plus }
	for i := range m.start {
		t.start, t.end = append(t.start, value(m.start[i])), append(t.end, value(m.end[i]))
	}
	for k, opts := range m.choice {
		t.choice[k] = m.chosen(opts)
	}
	for k, s := range m.p.Stays {
		t.stateOf[k] = s.States[m.chosen(m.stay.in[k])]
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

// project solves for soft lags alone.
func (o *optimiser) project(start []Tick) *Result {
	m := o.m
	o.sat = func() {
		t := m.read()
		r := &Result{Status: Feasible, Start: t.start, End: t.end, Choice: t.choice, StateOf: t.stateOf}
		o.found(r)
	}
	first := lcg.Sat
	if start != nil {
		r := &Result{Status: Feasible, Choice: make([]int, len(m.p.Uses)), Start: start}
		for i, t := range start {
			m.s.Prefer(m.start[i].V, t-m.start[i].Plus)
			r.End = append(r.End, t+m.p.Acts[i].Min)
		}
		o.value = m.valuesOf(r)
		o.found(r)
	} else {
		first = o.probe(nil, 0)
	}
	switch first {
	case lcg.Unsat:
		return o.done(&Result{Status: Infeasible})
	case lcg.Limit:
		return o.done(&Result{Status: Unknown})
	}
	var assume []lcg.Lit
	status := Optimal
	var bounds []int64
	for k, w := range m.levels {
		bound, proven := o.minimise(assume, k)
		bounds = append(bounds, int64(bound))
		if !proven {
			status = Feasible
			break
		}
		assume = append(assume, w.AtMost(o.value[k]))
	}
	o.best.Bounds = bounds
	o.best.Status = status
	return o.done(o.best)
}

// valuesOf recounts the levels of soft lags of a timetable.
func (m *model) valuesOf(r *Result) []Tick {
	var out []Tick
	for _, level := range m.kind {
		var sum int64
		for _, l := range m.p.Lags {
			if l.Soft && l.Level == level {
				sum += l.Weight * int64(max(0, l.Min-(when(r, l.To)-when(r, l.From))))
			}
		}
		out = append(out, Tick(sum))
	}
	return out
}

func (o *optimiser) found(r *Result) {
	r.Values = r.Values[:0]
	for _, v := range o.value {
		r.Values = append(r.Values, int64(v))
	}
	o.best = r
	if o.o.Found != nil {
		o.o.Found(r)
	}
}

func (o *optimiser) done(r *Result) *Result {
	r.Stats.Conflicts, r.Stats.Propagations = o.m.s.Stats.Conflicts, o.m.s.Stats.Propagations
	return r
}

// probing is the number of conflicts of a first, cheap attempt.
const probing = 100

// minimise makes level k as small as it may be, from the present value down. It
// probes values between the bound and the best with few conflicts each: an easy
// refusal halves the gap as much as an easy answer does.
func (o *optimiser) minimise(assume []lcg.Lit, k int) (bound Tick, proven bool) {
	w := o.m.levels[k]
	low := o.m.s.Lower(w.V) + w.Plus
	budget := int64(probing)
	for low < o.value[k] {
		from := low
		for try := low + (o.value[k]-1-low)/2; ; {
			switch o.probe(append(assume[:len(assume):len(assume)], w.AtMost(try)), budget) {
			case lcg.Unsat:
				low = try + 1
			case lcg.Sat:
			case lcg.Limit:
				if o.spent() {
					return low, false
				}
				from = try + 1
			}
			high := o.value[k] - 1
			from = max(from, low)
			if from > high {
				break
			}
			try = from + (high-from)/2
		}
		budget *= 2
	}
	return low, true
}
