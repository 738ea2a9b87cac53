package session_test

import (
	"context"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

// TestSimulateAsPlanned: whoever answers every cue on time has every course on
// the table as planned, and no timetable but the first.
func TestSimulateAsPlanned(t *testing.T) {
	t.Parallel()
	b := supper()
	s, c, _ := begin(t, b)
	first := s.State().Timetable
	if first.Status != plan.Whole {
		t.Fatalf("the first timetable is %s: %v", first.Status, first.Breaks)
	}
	var cues []string
	err := session.Simulate(context.Background(), s, c, b.At("23:00"), func(cue run.Cue, now time.Time) {
		cues = append(cues, now.Format("15:04 ")+cue.Class.String()+" "+cue.ID)
	})
	if err != nil {
		t.Fatal(err)
	}
	st := s.State()
	for i, course := range st.Courses {
		if !course.Served.Equal(first.Serves[i]) {
			t.Errorf("%s served at %s, planned %s", b.Plan.Courses[i].Name, course.Served, first.Serves[i])
		}
	}
	if n := adoptions(st); n != 1 {
		t.Errorf("%d timetables were adopted, want 1: %v", n, st.Why)
	}
	for i, step := range st.Steps {
		if step.Status != plan.Done {
			t.Errorf("step %s is not done", b.Plan.Steps[i].ID)
		}
	}
	if t.Failed() {
		for _, line := range cues {
			t.Log(line)
		}
	}
}

func adoptions(st *run.State) (n int) {
	for _, e := range st.Events {
		if e.Kind == run.Adopted {
			n++
		}
	}
	return n
}
