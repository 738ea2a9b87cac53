package session_test

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/heat"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

// probed is the supper with a roast that is done at 57 °C.
func probed() *plantest.Builder {
	b := supper()
	i := b.Plan.StepIndex("roast/bake")
	b.Plan.Steps[i].Until = plan.Until{Temp: 57, HasTemp: true}
	b.Plan.Dishes[b.Plan.Steps[i].Dish].Food = "whole-red"
	return b
}

// A roast that its readings say is slow moves the dinner as one that the cook says takes
// longer, and taking the readings back takes that back.
func TestReadingsMoveTheTimetable(t *testing.T) {
	t.Parallel()
	b := probed()
	s, c, _ := begin(t, b)
	roast := b.Plan.StepIndex("roast/bake")
	planned := s.State().Timetable
	in := planned.Slots[roast].Start
	temps := map[time.Duration]float64{45: 13, 60: 17, 75: 23, 85: 27} // a third of a degree a minute
	for _, m := range []time.Duration{45, 60, 75, 85} {
		temp := temps[m]
		c.Jump(in.Add(m * time.Minute))
		if _, err := s.Record(run.Event{Kind: run.Reading, Step: "roast/bake", Temp: &temp}); err != nil {
			t.Fatal(err)
		}
	}
	st := s.State()
	f := st.Steps[roast].Inside.Forecast
	end := run.Project(st, c.Now()).End[roast]
	switch {
	case f.Basis != heat.FromFit || !f.Done.After(planned.Slots[roast].End.Add(20*time.Minute)):
		t.Fatalf("forecast %+v, want one far after %v", f, planned.Slots[roast].End)
	case end.Sub(f.Done) < 0 || end.Sub(f.Done) > time.Minute:
		t.Errorf("projected to end %v, the forecast says %v", end, f.Done)
	case st.Timetable == planned || !st.Timetable.Serves[1].After(planned.Serves[1]):
		t.Errorf("main planned at %v, was %v: want another timetable and it later", st.Timetable.Serves[1], planned.Serves[1])
	case !st.Timetable.Slots[roast].End.Equal(end):
		t.Errorf("timetable has the roast end %v, projected is %v", st.Timetable.Slots[roast].End, end)
	case len(st.Why) == 0 || !strings.Contains(st.Why[0], "Main"):
		t.Errorf("why: %q, want the main course in it", st.Why)
	}
	for _, e := range slices.Backward(slices.Clone(s.State().Events)) {
		if e.Kind != run.Reading {
			continue
		}
		if _, err := s.Record(run.Event{Kind: run.Undone, Undoes: e.Seq}); err != nil {
			t.Fatal(err)
		}
	}
	if got := run.Project(s.State(), c.Now()).End[roast]; !got.Equal(planned.Slots[roast].End) {
		t.Errorf("undone: roast ends %v, want %v", got, planned.Slots[roast].End)
	}
	if got := s.State().Timetable.Serves[1]; !got.Equal(planned.Serves[1]) {
		t.Errorf("undone: main planned at %v, want %v", got, planned.Serves[1])
	}
}

// What a rehearsal skips was read as planned; in a real dinner nobody knows.
func TestFastForwardReadings(t *testing.T) {
	t.Parallel()
	for _, rehearse := range []bool{true, false} {
		b := probed()
		c := clocktest.New(start(b))
		cfg := config(&b.Plan, new(journal.Memory), c)
		cfg.Copy.Rehearse = rehearse
		s, err := session.Open(context.Background(), cfg)
		if err != nil {
			t.Fatal(err)
		}
		to := s.State().Timetable.Serves[1]
		c.Jump(to)
		if _, err := s.FastForward(to); err != nil {
			t.Fatal(err)
		}
		asked := slices.ContainsFunc(run.Conduct(s.State(), to).Cues, func(c run.Cue) bool { return c.ID == "unmeasured:roast/bake" })
		if asked == rehearse {
			t.Errorf("rehearsed %v: asked for a reading %v", rehearse, asked)
		}
	}
}
