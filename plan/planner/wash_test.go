package planner

import (
	"context"
	"testing"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
)

// Washing that takes hands is a step like others: the tool is the vessel of what
// used it and of the washing, so no other dish has it before somebody washed it.
func TestWashingByHand(t *testing.T) {
	t.Parallel()
	b := plantest.New("2026-10-17 19:00")
	b.Cook("Ines", "16:00-22:00")
	blender := b.Tool("blender", 1)
	b.Course("Dips", 0, 0, 0)
	freely := func(_ *plantest.Builder, s *plan.Step) { s.Keeps = plan.Keep{Kind: plan.Freely} }
	var blends, washes [2]int
	for k, name := range []string{"Bean dip", "Herb oil"} {
		b.Dish(name, 0)
		blends[k] = b.Step("Blend", plantest.Takes(10), plantest.Vessel(blender))
		washes[k] = b.Step("Wash the blender", plantest.Takes(5), plantest.Vessel(blender), freely)
	}
	tt := Make(context.Background(), &b.Plan)
	for _, br := range tt.Breaks {
		t.Errorf("%+v", br)
	}
	if first, second := tt.Slots[washes[0]].End, tt.Slots[blends[1]].Start; second.Before(first) {
		if first, second = tt.Slots[washes[1]].End, tt.Slots[blends[0]].Start; second.Before(first) {
			t.Errorf("the blender goes on at %s, it is washed at %s", second, first)
		}
	}
}
