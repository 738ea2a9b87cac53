package session_test

import (
	"context"
	"testing"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/session"
)

// A cook who opens the run after the best first step has gone by gets a
// timetable that lies ahead, and is told what comes late.
func TestOpenedTooLate(t *testing.T) {
	t.Parallel()
	b := supper()
	log, c := &journal.Memory{}, clocktest.New(b.At("18:00"))
	s, err := session.Open(context.Background(), config(&b.Plan, log, c))
	if err != nil {
		t.Fatal(err)
	}
	tt := s.State().Timetable
	for i, slot := range tt.Slots {
		if slot.Progress != plan.Ahead || slot.Start.Before(c.Now()) {
			t.Errorf("%s is planned for %s, it is %s", b.Plan.Steps[i].ID, slot.Start.Format("15:04"), c.Now().Format("15:04"))
		}
	}
	if tt.Lateness(&b.Plan, 1) == 0 {
		t.Error("two hours of roasting begin at six, and the main course is on time")
	}
	consistent(t, s, log)
}
