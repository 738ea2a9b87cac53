package verify_test

import (
	"fmt"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/verify"
)

// long is a dinner of forty steps over ten hours: ten dishes of preparing,
// simmering, roasting and resting, one after another.
func long() (*plan.Plan, *plan.Timetable) {
	b := plantest.New("2026-10-17 19:00")
	ines, tomas := b.Cook("Ines", "08:00-23:00"), b.Cook("Tomas", "08:00-23:00")
	pan := b.Tool("pan", 3)
	b.Course("Main", 0, time.Hour, time.Hour)
	t := &plan.Timetable{Serves: []time.Time{b.At("19:00")}}
	at := b.At("09:00")
	add := func(step, minutes int, slot plan.Slot) {
		slot.Start, slot.End = at, at.Add(time.Duration(minutes)*time.Minute)
		at = slot.End
		t.Slots = append(t.Slots, slot)
		if s := b.Plan.Steps[step]; !s.Hands.Working() {
			t.Touches = append(t.Touches, plan.Touch{What: plan.TouchStart, Step: step, Oven: -1, At: slot.Start, Cook: ines})
			if s.Oven != nil || s.Burner != nil {
				t.Touches = append(t.Touches, plan.Touch{What: plan.TouchEnd, Step: step, Oven: -1, At: slot.End.Add(-time.Minute), Cook: tomas})
			}
		}
	}
	for i := range 10 {
		b.Dish(fmt.Sprintf("Dish %d", i), 0)
		add(b.Step("Prepare", plantest.Takes(10), plantest.Uses(pan)), 10, plan.Slot{Cook: ines, Oven: -1})
		add(b.Step("Simmer", plantest.Takes(15), plantest.Burner(plan.Small)), 15, plan.Slot{Cook: -1, Oven: -1, Burner: plan.Small})
		roast := b.Step("Roast", plantest.Takes(20), plantest.Oven(180, 2))
		set := at.Add(-13 * time.Minute)
		if i == 0 {
			t.Sets = append(t.Sets, plan.OvenSet{At: set, To: 180, For: roast, Ready: set.Add(12 * time.Minute)})
			t.Touches = append(t.Touches, plan.Touch{What: plan.TouchSet, Step: roast, Oven: 0, At: set, Cook: tomas})
		}
		add(roast, 20, plan.Slot{Cook: -1, Oven: 0})
		add(b.Step("Rest", plantest.Waits(5, 30)), 10, plan.Slot{Cook: -1, Oven: -1})
	}
	return &b.Plan, t
}

// BenchmarkCheck judges forty steps over ten hours, as before each timetable is
// shown.
func BenchmarkCheck(b *testing.B) {
	p, t := long()
	if breaks := verify.Check(p, t, time.Time{}); len(breaks) > 0 {
		b.Fatal(told(breaks))
	}
	b.ReportAllocs()
	for b.Loop() {
		verify.Check(p, t, time.Time{})
	}
}
