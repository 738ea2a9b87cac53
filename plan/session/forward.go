package session

import (
	"cmp"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// FastForward records everything that the timetable in force has before to as
// having gone as planned, without a word about it: for a rehearsal that begins
// in the middle. What is known already stays.
//
// Errors: as of Record.
func (s *Session) FastForward(to time.Time) (*run.State, error) {
	s.writing.Lock()
	defer s.writing.Unlock()
	for _, e := range asPlanned(s.State(), to, s.cfg.Copy.Rehearse) {
		if known(s.State(), e) {
			continue
		}
		e.Noted = e.At
		if err := s.write(e); err != nil {
			return s.State(), err
		}
	}
	return s.State(), nil
}

// asPlanned lists what the timetable has before an instant, by time; of one
// moment ends first, then oven settings, starts, serves. Rehearsed, what was heated until
// a temperature was read at it; in a real run nobody knows.
func asPlanned(st *run.State, to time.Time, rehearsed bool) []run.Event {
	type planned struct {
		run.Event
		rank int
	}
	var list []planned
	p, t := st.Plan, st.Timetable
	add := func(rank int, e run.Event) {
		if e.At.Before(to) {
			list = append(list, planned{e, rank})
		}
	}
	for i, slot := range t.Slots {
		id := p.Steps[i].ID
		if r, ok := run.AtTarget(p, i); ok && rehearsed {
			r.At = slot.End
			add(0, r)
		}
		add(0, run.Event{Kind: run.Finished, Step: id, At: slot.End})
		add(2, run.Event{Kind: run.Started, Step: id, At: slot.Start})
	}
	for _, set := range t.Sets {
		e := run.Event{Kind: run.OvenTurned, Oven: p.Kitchen.Ovens[set.Oven].Name, At: set.At}
		if !set.Off {
			temp := float64(set.To)
			e.Temp = &temp
		}
		if set.For >= 0 {
			e.Step = p.Steps[set.For].ID
		}
		add(1, e)
	}
	for c, at := range t.Serves {
		add(3, run.Event{Kind: run.Served, Course: p.Courses[c].Name, At: at})
	}
	slices.SortStableFunc(list, func(a, b planned) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.rank, b.rank))
	})
	out := make([]run.Event, len(list))
	for i := range list {
		out[i] = list[i].Event
	}
	return out
}

// known reports whether the state has an event's content already.
func known(st *run.State, e run.Event) bool {
	switch e.Kind {
	case run.Started:
		return st.Steps[st.Plan.StepIndex(e.Step)].Status != plan.Ahead
	case run.Finished:
		status := st.Steps[st.Plan.StepIndex(e.Step)].Status
		return status == plan.Done || status == plan.Skipped
	case run.Reading:
		in := st.Steps[st.Plan.StepIndex(e.Step)]
		return len(in.Inside.Readings) > 0 || in.Status == plan.Done || in.Status == plan.Skipped
	case run.OvenTurned:
		step := -1
		if e.Step != "" {
			step = st.Plan.StepIndex(e.Step)
		}
		return slices.ContainsFunc(st.Sets, func(f run.OvenFact) bool {
			return st.Plan.Kitchen.Ovens[f.Oven].Name == e.Oven && f.For == step && f.Off == (e.Temp == nil) && step >= 0 && !f.Spent
		})
	case run.Served:
		c := slices.IndexFunc(st.Plan.Courses, func(c plan.Course) bool { return c.Name == e.Course })
		return !st.Courses[c].Served.IsZero()
	}
	return false
}
