package planner

import (
	"context"
	"testing"
	"time"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/run"
)

func harvest(tb testing.TB) *plan.Plan {
	tb.Helper()
	p, problems := planfile.Decode(examples.Harvest, planfile.Options{Local: time.UTC, Now: time.Date(2026, 10, 1, 12, 0, 0, 0, time.UTC)})
	if p == nil {
		tb.Fatal(problems)
	}
	return p
}

func BenchmarkMakeHarvest(b *testing.B) {
	p := harvest(b)
	for b.Loop() {
		Make(context.Background(), p)
	}
}

// prolonged is the harvest dinner with the roast twenty minutes longer, told
// half an hour after it went in.
func prolonged(tb testing.TB) (*run.State, time.Time) {
	tb.Helper()
	p := harvest(tb)
	tt := Make(context.Background(), p)
	roast := p.StepIndex("pork-shoulder/roast")
	if roast < 0 {
		tb.Fatal("the harvest dinner has no roast")
	}
	at := tt.Slots[roast].Start
	now := at.Add(30 * time.Minute)
	to := float64(tt.Sets[0].To)
	s, err := run.Fold(p, []run.Event{
		{Kind: run.Adopted, Timetable: tt, At: at.Add(-time.Hour)},
		{Kind: run.OvenTurned, Oven: "oven", Temp: &to, Step: p.Steps[roast].ID, At: tt.Sets[0].At},
		{Kind: run.Started, Step: p.Steps[roast].ID, At: at},
		{Kind: run.Prolonged, Step: p.Steps[roast].ID, By: 20 * time.Minute, At: now},
	})
	if err != nil {
		tb.Fatal(err)
	}
	return s, now
}

func BenchmarkAgainHarvest(b *testing.B) {
	s, now := prolonged(b)
	for b.Loop() {
		Again(context.Background(), s, now)
	}
}

// A roast that runs long moves what must move and leaves the rest where the cook
// has seen it.
func TestAgainLeavesBe(t *testing.T) {
	t.Parallel()
	s, now := prolonged(t)
	again := Again(context.Background(), s, now)
	if again.Status == plan.Broken {
		t.Errorf("broken: %v", again.Breaks)
	}
	starter := 0
	for i, slot := range again.Slots {
		if s.Plan.CourseOf(i) == starter && !slot.Start.Equal(s.Timetable.Slots[i].Start) {
			t.Errorf("%s of the starter moves from %s to %s", s.Plan.Steps[i].ID, s.Timetable.Slots[i].Start.Format("15:04"), slot.Start.Format("15:04"))
		}
	}
	if late := again.Serves[1].Sub(s.Timetable.Serves[1]); late > 20*time.Minute {
		t.Errorf("the main course is %v later for a roast of 20 minutes longer", late)
	}
	if t.Failed() {
		t.Logf("before\n%safter\n%s", dump(s.Plan, s.Timetable), dump(s.Plan, again))
	}
}
