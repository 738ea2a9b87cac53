package plan_test

import (
	"testing"

	"example.org/kettledrum/plan"
)

// Every rule has its class, and a minute of the worse class weighs more.
func TestHarmOfEveryRule(t *testing.T) {
	t.Parallel()
	for h, kinds := range map[plan.Harm][]plan.BreakKind{
		plan.HarmFood:   {plan.BreakKeep, plan.BreakLength, plan.BreakOven},
		plan.HarmGuests: {plan.BreakLate, plan.BreakEarly},
		plan.HarmWork: {
			plan.BreakOrder, plan.BreakGap, plan.BreakHands, plan.BreakTouch, plan.BreakMinding,
			plan.BreakSpace, plan.BreakBurner, plan.BreakTool, plan.BreakCold,
		},
	} {
		for _, k := range kinds {
			if k.Harm() != h {
				t.Errorf("%s is of class %d, want %d", k, k.Harm(), h)
			}
		}
	}
	for h := range plan.Harms - 1 {
		if h.Weight() <= (h + 1).Weight() {
			t.Errorf("class %d weighs %d, the next %d", h, h.Weight(), (h + 1).Weight())
		}
	}
}
