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
	Found func(*Result)
}

// Optimise finds the best answer, level by level, and proves it, or proves that
// there is none. A budget or ctx stops it with the best so far.
func Optimise(ctx context.Context, p *Problem, o OptimiseOptions) *Result {
	if !sane(p) {
		return &Result{Status: Infeasible}
	}
	m := newModel(p)
	opt := &optimiser{m: m, ctx: ctx, left: o.Conflicts, o: o}
	return opt.run()
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
	m    *model
	ctx  context.Context
	o    OptimiseOptions
	left int64
	best *Result
}

func (o *optimiser) stop() bool { return o.ctx.Err() != nil }

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
		o.keep()
	}
	return st
}

// keep reads the solution off.
func (o *optimiser) keep() {
	m := o.m
	r := &Result{Status: Feasible, Choice: make([]int, len(m.p.Uses))}
	value := func(w lcg.View) Tick { return m.s.Value(w.V) + w.Plus }
	for i := range m.start {
		r.Start, r.End = append(r.Start, value(m.start[i])), append(r.End, value(m.end[i]))
	}
	for k, opts := range m.choice {
		for i, l := range opts {
			if m.s.Value(l.V) >= l.B {
				r.Choice[k] = i
			}
		}
	}
	for _, w := range m.levels {
		r.Values = append(r.Values, int64(value(w)))
	}
	o.best = r
	if o.o.Found != nil {
		o.o.Found(r)
	}
}

func (o *optimiser) run() *Result {
	m := o.m
	status := Optimal
	var bounds []int64
	var assume []lcg.Lit
	first := lcg.Sat
	if start := forward(m.p); start != nil {
		for i, t := range start {
			m.s.Prefer(m.start[i].V, t-m.start[i].Plus)
		}
		o.keepStart(start)
	} else {
		first = o.probe(nil, 0)
	}
	switch first {
	case lcg.Unsat:
		return o.done(&Result{Status: Infeasible})
	case lcg.Limit:
		return o.done(&Result{Status: Unknown})
	}
	for k, w := range m.levels {
		bound, proven := o.minimise(assume, w, k)
		bounds = append(bounds, bound)
		if !proven {
			status = Feasible
			break
		}
		assume = append(assume, w.AtMost(Tick(o.best.Values[k])))
	}
	o.best.Bounds = bounds
	o.best.Status = status
	return o.done(o.best)
}

// keepStart takes over a timetable that came from elsewhere.
func (o *optimiser) keepStart(start []Tick) {
	m := o.m
	r := &Result{Status: Feasible, Choice: make([]int, len(m.p.Uses)), Start: start}
	for i, t := range start {
		r.End = append(r.End, t+m.p.Acts[i].Min)
	}
	for level := range m.levels {
		var sum int64
		for _, l := range m.p.Lags {
			if l.Soft && l.Level == level {
				sum += l.Weight * int64(max(0, l.Min-(when(r, l.To)-when(r, l.From))))
			}
		}
		r.Values = append(r.Values, sum)
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

// minimise makes w as small as it may be. It probes values between the bound
// and the best with few conflicts each: an easy refusal halves the gap as much
// as an easy answer does.
func (o *optimiser) minimise(assume []lcg.Lit, w lcg.View, k int) (bound int64, proven bool) {
	m := o.m
	low := m.s.Lower(w.V) + w.Plus
	budget := int64(probing)
	for low < Tick(o.best.Values[k]) {
		from := low
		for try := low + (Tick(o.best.Values[k])-1-low)/2; ; {
			switch o.probe(append(assume[:len(assume):len(assume)], w.AtMost(try)), budget) {
			case lcg.Unsat:
				low = try + 1
			case lcg.Sat:
			case lcg.Limit:
				if o.stop() || o.o.Conflicts > 0 && o.left <= 0 {
					return int64(low), false
				}
				from = try + 1
			}
			high := Tick(o.best.Values[k]) - 1
			from = max(from, low)
			if from > high {
				break
			}
			try = from + (high-from)/2
		}
		budget *= 2
	}
	return int64(low), true
}
