package main

import (
	"cmp"
	"fmt"
	"slices"
)

// checkAnswer checks the schedule of an answer and those found on the way.
func checkAnswer(p *project, a *answer) error {
	for _, f := range a.found {
		if err := check(p, f.start, f.makespan); err != nil {
			return err
		}
	}
	if a.start == nil {
		return nil
	}
	return check(p, a.start, a.makespan)
}

// check returns nil where the starts are a schedule of the project with that
// makespan, and otherwise the first rule that is broken. It knows the instance
// and nothing of the engine: lags one by one, capacities by a sweep over starts
// and ends.
func check(p *project, start []int, makespan int) error {
	if len(start) != len(p.duration) {
		return fmt.Errorf("%d starts for %d jobs", len(start), len(p.duration))
	}
	for j, s := range start {
		if s < 0 {
			return fmt.Errorf("job %d starts at %d, before 0", j, s)
		}
	}
	if start[0] != 0 {
		return fmt.Errorf("the source starts at %d, want 0", start[0])
	}
	for _, l := range p.lags {
		if start[l.to] < start[l.from]+l.least {
			return fmt.Errorf("job %d starts at %d and job %d at %d, want a lag of %d at least", l.from, start[l.from], l.to, start[l.to], l.least)
		}
	}
	for r := range p.capacity {
		if err := sweep(p, start, r); err != nil {
			return err
		}
	}
	if start[p.sink()] != makespan {
		return fmt.Errorf("the sink starts at %d, the makespan is said to be %d", start[p.sink()], makespan)
	}
	return nil
}

// sweep checks that a resource suffices at every moment. A job occupies it in
// [start, start + duration); at one moment ends come before starts.
func sweep(p *project, start []int, r int) error {
	type change struct{ at, by int }
	var changes []change
	for j, s := range start {
		if d := p.demand[j][r]; d > 0 && p.duration[j] > 0 {
			changes = append(changes, change{s, d}, change{s + p.duration[j], -d})
		}
	}
	slices.SortFunc(changes, func(a, b change) int { return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.by, b.by)) })
	used := 0
	for _, c := range changes {
		if used += c.by; used > p.capacity[r] {
			return fmt.Errorf("%d of resource %d in use at %d, there are %d", used, r+1, c.at, p.capacity[r])
		}
	}
	return nil
}
