package session_test

import (
	"context"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
	"example.org/kettledrum/plan/verify"
)

// supper is a small dinner: soup, then a roast that rests while flatbreads want
// the same oven hotter, and potatoes.
func supper() *plantest.Builder {
	b := plantest.New("2026-10-17 19:00")
	b.Cook("Ines", "14:00-23:00")
	first := b.Course("Starter", 0, 20*time.Minute, 10*time.Minute)
	main := b.Course("Main", 40*time.Minute, 30*time.Minute, 20*time.Minute)
	b.Dish("Broth", first)
	b.Step("Simmer", plantest.Takes(30), plantest.Burner(plan.Large))
	b.Step("Ladle", plantest.Takes(5))
	b.Dish("Roast", main)
	b.Step("Season", plantest.Takes(10))
	b.Step("Bake", plantest.Takes(90), plantest.Oven(160, 2))
	b.Step("Rest", plantest.Waits(15, 60))
	b.Step("Carve", plantest.Takes(10))
	b.Dish("Flatbreads", main)
	b.Step("Mix", plantest.Takes(10))
	b.Step("Prove", plantest.Waits(30, 240))
	b.Step("Sear", plantest.Takes(10), plantest.Oven(240, 2))
	b.Dish("Potatoes", main)
	b.Step("Boil", plantest.Takes(20), plantest.Burner(plan.Small))
	b.Step("Dress", plantest.Takes(5))
	return b
}

// start is before the first step of any timetable of the supper.
func start(b *plantest.Builder) time.Time { return b.At("14:00") }

// config is a session on a log, with everything real but the clock.
func config(p *plan.Plan, log session.Log, c *clocktest.Manual) session.Config {
	return session.Config{
		Log: log, Plan: p, Copy: run.PlanCopy{Name: "supper.yaml", Source: "title: Supper\n", Table: p.Table, Zone: "UTC"},
		Clock: c, Make: planner.Make, Again: planner.Again, Verify: verify.Check,
	}
}

// begin opens a session on a journal in memory.
func begin(t *testing.T, b *plantest.Builder) (*session.Session, *clocktest.Manual, *journal.Memory) {
	t.Helper()
	log, c := &journal.Memory{}, clocktest.New(start(b))
	s, err := session.Open(context.Background(), config(&b.Plan, log, c))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { consistent(t, s, log) })
	return s, c, log
}

// consistent checks that the journal folds to the state that the session shows,
// and that every timetable in it says truly what it breaks.
func consistent(t *testing.T, s *session.Session, log *journal.Memory) {
	t.Helper()
	evs, err := session.Load(log.Records())
	if err != nil {
		t.Fatal(err)
	}
	folded, err := run.Fold(s.State().Base, evs)
	if err != nil {
		t.Fatalf("the journal does not fold: %v", err)
	}
	same(t, folded, s.State())
}
