package session_test

import (
	"testing"
	"time"

	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
	"example.org/kettledrum/plan/verify"
)

// TestLastStepLongBeforeItsTime: the last step of a dish is begun more than an hour too
// soon, since the wait before it is left out. What holds nothing up was moved beyond the
// end of all times by the engine.
func TestLastStepLongBeforeItsTime(t *testing.T) {
	t.Parallel()
	p, ps := planfile.Decode([]byte(`kettledrum: 1
table: 2026-10-17 19:00
zone: UTC
dishes:
  - name: Soup
    steps:
      - Chop, 10m
      - {do: Simmer, takes: 30m, burner: small, keeps: freely}
      - {do: Blend, takes: 5m, at_once: true}
  - name: Bread
    steps:
      - {do: Bake, takes: 25m, oven: 375-450F, keeps: freely}
      - {do: Cool, waits: 5m to 40m}
      - Slice, 3m
`), planfile.Options{})
	if ps.HasErrors() {
		t.Fatal(ps)
	}
	c := clocktest.New(p.Table.Add(-4 * time.Hour))
	s, err := session.Open(t.Context(), session.Config{
		Log: &journal.Memory{}, Plan: p, Copy: run.PlanCopy{Name: "dinner.yaml", Table: p.Table, Zone: "UTC"},
		Clock: c, Make: planner.Make, Again: planner.Again, Verify: verify.Check,
	})
	if err != nil {
		t.Fatal(err)
	}
	c.Jump(p.Table.Add(-2 * time.Hour))
	for _, e := range []run.Event{{Kind: run.SkippedStep, Step: "bread/cool"}, {Kind: run.Started, Step: "bread/slice"}} {
		if _, err := s.Record(e); err != nil {
			t.Fatal(err)
		}
	}
}
