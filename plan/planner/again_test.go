package planner

import (
	"cmp"
	"context"
	"slices"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/solve"
	"pgregory.net/rapid"
)

// drawRun draws a dinner under way at some moment: all as planned until then,
// but for one step that takes longer.
func drawRun(t *rapid.T, p *plan.Plan) (*run.State, time.Time) {
	j := translate(p, facts{})
	tt := j.read(solve.Solve(context.Background(), j.prob, solve.Options{Tries: 60, Seed: 1}))
	first := slices.MinFunc(tt.Slots, func(a, b plan.Slot) int { return a.Start.Compare(b.Start) }).Start
	last := tt.Serves[len(tt.Serves)-1]
	now := first.Add(time.Duration(rapid.IntRange(0, int(last.Sub(first)/time.Minute)).Draw(t, "now")) * time.Minute)

	events := []run.Event{{Kind: run.Adopted, Timetable: tt, At: first.Add(-time.Hour)}}
	longer := rapid.IntRange(0, len(p.Steps)-1).Draw(t, "longer")
	for i, slot := range tt.Slots {
		if !slot.Start.After(now) && !p.Steps[i].AtOnce {
			events = append(events, run.Event{Kind: run.Started, Step: p.Steps[i].ID, At: slot.Start})
		}
		if !slot.End.After(now) && i != longer {
			events = append(events, run.Event{Kind: run.Finished, Step: p.Steps[i].ID, At: slot.End})
		}
	}
	for _, s := range tt.Sets {
		if !s.At.After(now) && !s.Off {
			to := float64(s.To)
			events = append(events, run.Event{Kind: run.OvenTurned, Oven: p.Kitchen.Ovens[s.Oven].Name, Temp: &to, Step: p.Steps[s.For].ID, At: s.At})
		}
	}
	slices.SortStableFunc(events, func(a, b run.Event) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(b.Kind, a.Kind)) // started before finished
	})
	s, err := run.Fold(p, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range events {
		if next, err := s.Apply(e); err == nil { // a step that the next one ended already
			s = next
		}
	}
	if s.Steps[longer].Status != plan.Done {
		by := time.Duration(rapid.IntRange(1, 40).Draw(t, "by")) * time.Minute
		next, err := s.Apply(run.Event{Kind: run.Prolonged, Step: p.Steps[longer].ID, By: by, At: now})
		if err != nil {
			t.Fatal(err)
		}
		s = next
	}
	return s, now
}

// Planning again never moves what has happened, and what it calls feasible the
// verifier finds whole.
func TestAgainKeepsThePast(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		draw := drawDinner
		if rapid.Bool().Draw(t, "house") {
			draw = drawHouse
		}
		s, now := drawRun(t, draw(t))
		j := translate(s.Plan, factsOf(s, now))
		r := solve.Solve(context.Background(), j.prob, solve.Options{Tries: 60, Seed: 1})
		tt := j.read(r)
		for _, b := range tt.Breaks {
			// A dial turned before a bake ran longer is a fact, and no choice.
			byFact := b.Kind == plan.BreakOven && tt.Slots[b.Step].Progress == plan.Begun
			if r.Status == solve.Feasible && b.Kind.Hard() && !byFact {
				t.Errorf("the engine found it feasible, the verifier not: %v\n%s", tt.Breaks, dump(s.Plan, tt))
			}
		}
		for i, st := range s.Steps {
			slot := tt.Slots[i]
			if st.Status != plan.Ahead && st.Status != plan.Skipped && !slot.Start.Equal(st.Started) {
				t.Errorf("%s began at %v, the new timetable says %v", s.Plan.Steps[i].ID, st.Started, slot.Start)
			}
			if st.Status == plan.Done && !slot.End.Equal(st.Finished) {
				t.Errorf("%s was done at %v, the new timetable says %v", s.Plan.Steps[i].ID, st.Finished, slot.End)
			}
			if slot.Progress == plan.Ahead && slot.Start.Before(now) {
				t.Errorf("%s is to begin at %v, before now, %v\n%+v\n%s", s.Plan.Steps[i].ID, slot.Start, now, r.Cost, dump(s.Plan, tt))
			}
		}
	})
}
