package planner

import (
	"slices"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/verify"
)

// From a timetable that still fits comes one that is as good; from one in which a step is
// a little too short, one that keeps every rule; from one of another plan, none.
func TestFrom(t *testing.T) {
	t.Parallel()
	p := example(t, "harvest")
	made := Make(t.Context(), p)
	whole := func(p *plan.Plan, tt *plan.Timetable) {
		t.Helper()
		if b := verify.Check(p, tt, time.Time{}); tt.Status != plan.Whole || len(b) > 0 {
			t.Errorf("%s, breaks %v", tt.Status, b)
		}
	}
	again := From(t.Context(), p, made)
	whole(p, again)
	if !slices.EqualFunc(again.Serves, made.Serves, time.Time.Equal) {
		t.Errorf("serves at %v, were %v", again.Serves, made.Serves)
	}
	longer := make([]time.Duration, len(p.Steps))
	longer[p.StepIndex("pork-shoulder/roast")] = 5 * time.Minute
	q := p.Slack(longer)
	whole(q, From(t.Context(), q, made))
	if none := From(t.Context(), example(t, "weeknight"), made); none != nil {
		t.Errorf("from another plan's: %v", none.Status)
	}
}
