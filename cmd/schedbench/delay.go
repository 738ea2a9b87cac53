package main

import (
	"cmp"
	"errors"
	"math/rand/v2"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// delay is by how much a step runs long before the dinner is planned again.
const delay = 15 * time.Minute

var errNoDelay = errors.New("no step that could run long")

// delayed returns a run of the plan in which all went by the timetable until
// now, a minute before the end of some step that turns out to take longer by
// delay. Which step, the seed decides.
func delayed(p *plan.Plan, tt *plan.Timetable, seed uint64) (*run.State, time.Time, error) {
	var may []int
	for i, s := range p.Steps {
		if !s.Length.Elastic && tt.Slots[i].End.Sub(tt.Slots[i].Start) > time.Minute {
			may = append(may, i)
		}
	}
	if len(may) == 0 {
		return nil, time.Time{}, errNoDelay
	}
	longer := may[rand.New(rand.NewPCG(seed, 1)).IntN(len(may))]
	now := tt.Slots[longer].End.Add(-time.Minute)

	s, err := run.Fold(p, []run.Event{{Kind: run.Adopted, Timetable: tt, At: first(tt).Add(-time.Hour)}})
	if err != nil {
		return nil, now, err
	}
	for _, e := range asPlanned(p, tt, now) {
		// Refused is what an earlier event implied: a follower that starts at once
		// has started, what it waited for is finished.
		if next, err := s.Apply(e); err == nil {
			s = next
		}
	}
	s, err = s.Apply(run.Event{Kind: run.Prolonged, Step: p.Steps[longer].ID, By: delay, At: now})
	return s, now, err
}

// first returns the start of the first step.
func first(tt *plan.Timetable) time.Time {
	return slices.MinFunc(tt.Slots, func(a, b plan.Slot) int { return a.Start.Compare(b.Start) }).Start
}

// asPlanned returns what happens until now if all goes by the timetable, in order.
func asPlanned(p *plan.Plan, tt *plan.Timetable, now time.Time) []run.Event {
	var events []run.Event
	for _, s := range tt.Sets {
		e := run.Event{Kind: run.OvenTurned, Oven: p.Kitchen.Ovens[s.Oven].Name, At: s.At}
		if !s.Off {
			to := float64(s.To)
			e.Temp, e.Step = &to, p.Steps[s.For].ID
		}
		events = append(events, e)
	}
	for i, slot := range tt.Slots {
		events = append(events, run.Event{Kind: run.Finished, Step: p.Steps[i].ID, At: slot.End},
			run.Event{Kind: run.Started, Step: p.Steps[i].ID, At: slot.Start})
	}
	for c, at := range tt.Serves {
		events = append(events, run.Event{Kind: run.Served, Course: p.Courses[c].Name, At: at})
	}
	events = slices.DeleteFunc(events, func(e run.Event) bool { return e.At.After(now) })
	// At one moment: the oven, what ends, the course, what begins.
	turn := map[run.Kind]int{run.OvenTurned: 0, run.Finished: 1, run.Served: 2, run.Started: 3}
	slices.SortStableFunc(events, func(a, b run.Event) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(turn[a.Kind], turn[b.Kind]))
	})
	return events
}
