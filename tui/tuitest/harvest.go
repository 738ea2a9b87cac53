package tuitest

import (
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"time"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/run"
)

// HarvestAt is an instant of the built-in dinner; day is that of October 2026.
func HarvestAt(day, hour, minute int) time.Time {
	return time.Date(2026, 10, day, hour, minute, 0, 0, zone)
}

// Harvest returns the built-in dinner with a timetable that is kept in a file, so
// that its screens do not change with the planner.
//
// Errors: a timetable that is not one of the dinner any more.
func Harvest(timetable string) (*plan.Plan, *plan.Timetable, error) {
	p, ps := planfile.Decode(examples.Harvest, planfile.Options{Local: zone, Now: HarvestAt(14, 12, 0)})
	if ps.HasErrors() {
		return nil, nil, ps
	}
	data, err := os.ReadFile(timetable)
	if err != nil {
		return p, nil, err
	}
	var t plan.Timetable
	if err := json.Unmarshal(data, &t); err != nil {
		return p, nil, err
	}
	if len(t.Slots) != len(p.Steps) || len(t.Serves) != len(p.Courses) {
		return p, nil, fmt.Errorf("%s has %d steps, the dinner has %d: make it again with -replan", timetable, len(t.Slots), len(p.Steps))
	}
	return p, &t, nil
}

// HarvestStages are moments of the built-in dinner.
func HarvestStages(p *plan.Plan, t *plan.Timetable) ([]Stage, error) {
	at := HarvestAt(15, 20, 0)
	opening := []run.Event{
		{Kind: run.Opened, At: at, Noted: at, Plan: &run.PlanCopy{Name: "harvest.yaml", Table: p.Table}},
		{Kind: run.Adopted, At: at, Noted: at, Timetable: t},
	}
	state, err := run.Fold(p, opening)
	if err != nil {
		return nil, err
	}
	var out []Stage
	for _, m := range []struct {
		name         string
		cooked, look time.Time // until when each cue is answered; the moment
		more         []run.Event
	}{
		{"thursday", HarvestAt(15, 20, 55), HarvestAt(15, 20, 57), nil},
		{"before", HarvestAt(17, 10, 0), HarvestAt(17, 14, 41), nil},
		{"roast-due", HarvestAt(17, 15, 2), HarvestAt(17, 15, 4), nil},
		{"rush", HarvestAt(17, 18, 31), HarvestAt(17, 18, 33), nil},
		{"running-long", HarvestAt(17, 18, 50), HarvestAt(17, 18, 51), []run.Event{{Kind: run.Prolonged, Step: "pork-shoulder/roast", By: 40 * time.Minute}}},
		{"oven-change", HarvestAt(17, 19, 12), HarvestAt(17, 19, 13), nil},
		{"return", HarvestAt(17, 19, 39), HarvestAt(17, 20, 7), nil},
		{"served", HarvestAt(17, 20, 56), HarvestAt(17, 20, 57), nil},
	} {
		s, err := cooked(state, m.cooked)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", m.name, err)
		}
		for _, e := range m.more {
			e.At, e.Noted = m.cooked, m.cooked
			if s, err = s.Apply(e); err != nil {
				return nil, fmt.Errorf("%s: %w", m.name, err)
			}
		}
		out = append(out, Stage{Name: m.name, Now: m.look.Add(20 * time.Second), Events: s.Events})
	}
	return out, nil
}

// cooked is the run after somebody answered each cue the moment it was due, up to an
// instant. Nothing is planned again.
func cooked(s *run.State, until time.Time) (*run.State, error) {
	now := s.Events[len(s.Events)-1].At
	for range 20 * len(s.Plan.Steps) {
		m := run.Conduct(s, now)
		open := slices.IndexFunc(m.Cues, func(c run.Cue) bool { return len(c.Answer) > 0 && !c.Due.After(now) })
		if open >= 0 {
			for _, e := range m.Cues[open].Answer {
				e.At, e.Noted = now, now
				next, err := s.Apply(e)
				if err != nil {
					return nil, err
				}
				s = next
			}
			continue
		}
		next := time.Time{}
		for _, u := range m.Next {
			if u.At.After(now) && (next.IsZero() || u.At.Before(next)) {
				next = u.At
			}
		}
		if next.IsZero() || next.After(until) {
			return s, nil
		}
		now = next
	}
	return nil, fmt.Errorf("the dinner goes nowhere at %s", now)
}
