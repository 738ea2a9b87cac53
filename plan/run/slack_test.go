package run_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// By hand, from the serves back: carving must start at 18:50; the rest, at least
// 20 minutes, at 18:30, and so the roast at 15:30, were it not for the oven: the
// flatbreads must go in at 18:48, and nine minutes before that the oven is set.
func TestSlacks(t *testing.T) {
	t.Parallel()
	s := newSupper()
	got := map[string]time.Duration{}
	for i, d := range run.Slacks(&s.Plan, &s.t) {
		got[s.Plan.Steps[i].ID] = d
	}
	minutes := func(n int) time.Duration { return time.Duration(n) * time.Minute }
	want := map[string]time.Duration{
		"lamb/season": minutes(15), "lamb/roast": minutes(10), "lamb/rest": minutes(10), "lamb/carve": 0,
		"flatbreads/knead": minutes(33), "flatbreads/prove": minutes(33), "flatbreads/bake": minutes(8),
		"pears/poach": minutes(5), "pears/cool": minutes(5),
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// The slack is what it says: with that much delay no course is later, with a
// minute more one is.
func TestSlackIsExact(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := drawDinner(t, 5)
		st := d.adopted(t)
		slacks := run.Slacks(&d.Plan, &d.t)
		i := rapid.IntRange(0, len(slacks)-1).Draw(t, "step")
		later := func(by time.Duration) bool {
			late, err := st.Apply(run.Event{Kind: run.Started, Step: d.Plan.Steps[i].ID, At: d.t.Slots[i].Start.Add(by)})
			if err != nil {
				t.Fatal(err)
			}
			for c, serve := range run.Project(late, d.At("07:30")).Serves {
				if serve.After(d.t.Serves[c]) {
					return true
				}
			}
			return false
		}
		if later(slacks[i]) {
			t.Errorf("%s begins %v late, within its slack, and a course is later", d.Plan.Steps[i].ID, slacks[i])
		}
		// Of what follows at once the delay is that of the step before it.
		if !d.Plan.Steps[i].AtOnce && !later(slacks[i]+time.Minute) {
			t.Errorf("%s begins a minute later than its slack of %v, and no course is later", d.Plan.Steps[i].ID, slacks[i])
		}
	})
}

func TestSkippedHasNoSlack(t *testing.T) {
	t.Parallel()
	s := newSupper()
	s.t.Slots[s.carve].Progress = plan.Skipped
	got := run.Slacks(&s.Plan, &s.t)
	if got[s.carve] != 0 {
		t.Errorf("skipped: got %v, want 0", got[s.carve])
	}
	if got[s.rest] < 10*time.Minute {
		t.Errorf("rest, with nothing after it: got %v, want at least 10 min", got[s.rest])
	}
}
