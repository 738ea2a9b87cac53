package verify_test

import (
	"fmt"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/verify"
)

// long is a plan of five steps a dish, so many dishes a day, the last day that of
// the dinner: preparing, simmering and straining in a vessel, roasting, and then
// chilling until the dinner or, on its day, resting.
func long(days, dishes int) (*plan.Plan, *plan.Timetable) {
	b := plantest.New("2026-10-17 22:00")
	day := func(d int) string { return fmt.Sprintf("%dd ", d-days+1) }
	var free []string
	for d := range days {
		free = append(free, day(d)+"08:00-23:00")
	}
	ines, tomas := b.Cook("Ines", free...), b.Cook("Tomas", free...)
	b.Sits(ines)
	pan, pot := b.Tool("pan", 3), b.Tool("pot", 2)
	b.Wash(pan, 10)
	b.Wash(pot, 5)
	b.Cold("fridge", 2*days*dishes)
	b.Course("Main", 0, time.Hour, time.Hour)
	t := &plan.Timetable{Serves: []time.Time{b.At("22:00")}}
	var at time.Time
	add := func(step, minutes int, slot plan.Slot) {
		slot.Start, slot.End = at, at.Add(time.Duration(minutes)*time.Minute)
		at = slot.End
		t.Slots = append(t.Slots, slot)
		s := b.Plan.Steps[step]
		touch := func(what plan.TouchKind, at time.Time) {
			t.Touches = append(t.Touches, plan.Touch{What: what, Step: step, Oven: -1, At: at, Cook: tomas})
		}
		if !s.Hands.Working() {
			touch(plan.TouchStart, slot.Start)
			for range s.Reminds {
				touch(plan.TouchRemind, slot.Start.Add(slot.End.Sub(slot.Start)/2))
			}
			if s.Oven != nil || s.Burner != nil {
				touch(plan.TouchEnd, slot.End.Add(-time.Minute))
			}
		}
	}
	work, wait := plan.Slot{Cook: ines, Oven: -1}, plan.Slot{Cook: -1, Oven: -1}
	for d := range days {
		at = b.At(day(d) + "09:00")
		for i := range dishes {
			b.Dish(fmt.Sprintf("Dish %d %d", d, i), 0)
			add(b.Step("Prepare", plantest.Takes(10), plantest.Uses(pan)), 10, work)
			add(b.Step("Simmer", plantest.Takes(20), plantest.Burner(plan.Small), plantest.Vessel(pot), plantest.Remind(plan.Halfway, 0)), 20, plan.Slot{Cook: -1, Oven: -1, Burner: plan.Small})
			add(b.Step("Strain", plantest.Takes(10), plantest.Vessel(pot)), 10, work)
			roast := b.Step("Roast", plantest.Takes(40), plantest.Oven(180, 2), plantest.Remind(plan.Halfway, 0))
			if i == 0 {
				set := at.Add(-12 * time.Minute)
				t.Sets = append(t.Sets, plan.OvenSet{At: set, To: 180, For: roast, Ready: at})
				t.Touches = append(t.Touches, plan.Touch{What: plan.TouchSet, Step: roast, Oven: 0, At: set, Cook: tomas})
			}
			add(roast, 40, plan.Slot{Cook: -1, Oven: 0})
			if d < days-1 {
				back := at.Add(30 * time.Minute)
				add(b.Step("Chill", plantest.Waits(60, -1), plantest.Stands("fridge", 1)), plan.Minutes(b.At("22:00").Sub(at)), wait)
				at = back
				continue
			}
			add(b.Step("Rest", plantest.Waits(5, 60), plantest.Chilled(24, "fridge", 1)), 10, wait)
			at = at.Add(20 * time.Minute)
		}
		t.Sets = append(t.Sets, plan.OvenSet{At: at, Off: true, For: -1})
	}
	return &b.Plan, t
}

// BenchmarkCheck judges a plan, as before each timetable is shown.
func BenchmarkCheck(b *testing.B) {
	for _, bb := range []struct {
		name         string
		days, dishes int
	}{{"one-day-25-steps", 1, 5}, {"four-days-60-steps", 4, 3}, {"week-140-steps", 7, 4}} {
		b.Run(bb.name, func(b *testing.B) {
			p, t := long(bb.days, bb.dishes)
			if breaks := verify.Check(p, t, time.Time{}); len(breaks) > 0 {
				b.Fatal(told(breaks))
			}
			b.ReportAllocs()
			for b.Loop() {
				verify.Check(p, t, time.Time{})
			}
		})
	}
}
