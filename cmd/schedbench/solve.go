package main

import (
	"context"
	"time"

	"example.org/kettledrum/plan/solve"
)

// status says what an answer is worth.
type status string

const (
	optimal    status = "optimal"
	feasible   status = "feasible"
	infeasible status = "infeasible"
	unknown    status = "unknown"
)

// proved reports whether nothing better can be found.
func (s status) proved() bool { return s == optimal || s == infeasible }

// answer is what the engine says of a project, and when it said it.
type answer struct {
	status    status
	start     []int // of each job; nil without a schedule
	makespan  int
	bound     int // no schedule is shorter
	found     []found
	total     time.Duration
	conflicts int64
}

// found is one answer on the way, each better than the one before.
type found struct {
	after    time.Duration
	start    []int
	makespan int
}

// problemOf translates a project: the jobs are activities of fixed length, the
// makespan is the start of the sink as a soft lag to the origin.
func problemOf(p *project) *solve.Problem {
	q := &solve.Problem{Horizon: solve.Tick(p.horizon())}
	for _, d := range p.duration {
		q.Acts = append(q.Acts, solve.Activity{Min: solve.Tick(d), Max: solve.Tick(d)})
	}
	q.Lags = append(q.Lags, solve.Lag{From: solve.StartOf(0), To: solve.Origin}) // the source starts at 0
	for _, l := range p.lags {
		q.Lags = append(q.Lags, solve.Lag{From: solve.StartOf(l.from), To: solve.StartOf(l.to), Min: solve.Tick(l.least)})
	}
	q.Lags = append(q.Lags, solve.Lag{From: solve.StartOf(p.sink()), To: solve.Origin, Soft: true, Weight: 1})
	for _, c := range p.capacity {
		q.Resources = append(q.Resources, solve.Resource{Calendar: []solve.Capacity{{Amount: int32(c)}}})
	}
	for j, demand := range p.demand {
		var o solve.Option
		for r, amount := range demand {
			if amount > 0 && p.duration[j] > 0 {
				o = append(o, solve.Demand{Resource: r, Amount: int32(amount)})
			}
		}
		if o != nil {
			q.Uses = append(q.Uses, solve.Use{From: solve.StartOf(j), To: solve.EndOf(j), Options: []solve.Option{o}})
		}
	}
	return q
}

// answerOf solves the project within the limit, by the clock now.
func answerOf(p *project, limit time.Duration, now func() time.Time) answer {
	begun := now()
	if _, _, ok := p.tooMuch(); ok {
		return answer{status: infeasible, total: now().Sub(begun)}
	}
	ctx, cancel := context.WithTimeout(context.Background(), limit)
	defer cancel()
	var a answer
	note := func(r *solve.Result) {
		a.found = append(a.found, found{now().Sub(begun), starts(r), int(r.Values[0])})
	}
	r := solve.Solve(ctx, problemOf(p), solve.Options{Found: note})
	a.total = now().Sub(begun)
	a.read(r)
	return a
}

// read takes over the engine's last word.
func (a *answer) read(r *solve.Result) {
	a.conflicts = r.Stats.Conflicts
	switch r.Status {
	case solve.Optimal:
		a.status = optimal
	case solve.Feasible:
		a.status = feasible
	case solve.Infeasible:
		a.status = infeasible
		return
	default:
		a.status = unknown
	}
	if len(r.Bounds) > 0 {
		a.bound = int(r.Bounds[0])
	}
	if a.status == unknown {
		return
	}
	a.makespan = int(r.Values[0])
	a.start = starts(r)
	if n := len(a.found); n == 0 || a.found[n-1].makespan > a.makespan {
		a.found = append(a.found, found{a.total, a.start, a.makespan}) // told only at the end
	}
}

// starts returns the start of each job.
func starts(r *solve.Result) []int {
	out := make([]int, len(r.Start))
	for j, s := range r.Start {
		out[j] = int(s)
	}
	return out
}
