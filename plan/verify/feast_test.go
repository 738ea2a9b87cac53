package verify_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
)

// feast is a dinner of two days with something for every rule that the supper has
// nothing for, and a timetable made by hand that keeps them all. Ines sits with the
// guests and slips away from the Starter for 4 minutes at most; Tomas does not sit.
//
//	Fri 18:30  Sauce    boil (pot) ─ 19:30 cool (pot) ─ 19:50 strain (pot) ─ 20:00 fridge
//	Fri 20:05  Cream    whip (bowl) ─ 20:10 chill in the fridge
//	17:00      Lay the table
//	18:20      Soup     soften (pot) ─ 18:50 blend (pot, blender) ─ Starter 19:00
//	18:30      Rolls    bake at 200, door shut ─ 18:50 kept warm at 80 to 120 ─ 19:40 basket
//	18:44      Toast    grill, turned halfway ─ Starter 19:00
//	19:00      Dressing whisk (blender, washed since 18:55)
//	19:04      Salad    toss (Ines, away for 3 min)
//	19:15      Sauce    heat, put on by Ines ─ Main 19:45
//	19:26      Make coffee, after the Starter     19:30 Cream spoon
type feast struct {
	dinner
	ines, tomas, starter, main                                             int
	pot, blender, bowl                                                     int
	boil, cool, strain, heat, whip, chill, spoon                           int
	soften, blend, bake, basket, toast, whisk, toss, lay, coffee           int
	setBake, setWarm, setGrill                                             int // in t.Sets
	setWarmTouch, setGrillTouch, heatStart, turn, baste, heatLook, heatEnd int // in t.Touches
}

func newFeast() *feast {
	b := plantest.New("2026-10-17 19:00")
	s := &feast{dinner: dinner{Builder: b}}
	minutes := func(n int) time.Duration { return time.Duration(n) * time.Minute }
	s.ines = b.Cook("Ines", "-1d 18:00-20:30", "15:00-23:00")
	s.tomas = b.Cook("Tomas", "16:00-23:00")
	b.Sits(s.ines)
	b.Plan.Kitchen.Minds = 2
	small := b.Oven("small oven")
	s.pot, s.blender, s.bowl = b.Tool("pot", 1), b.Tool("blender", 1), b.Tool("bowl", 1)
	b.Wash(s.blender, 5)
	b.Cold("fridge", 2)
	s.starter = b.Course("Starter", 0, minutes(25), minutes(10))
	s.main = b.Course("Main", minutes(45), minutes(40), minutes(20))
	b.Plan.Courses[s.starter].SlipsAway = minutes(4)

	b.Dish("Sauce", s.main)
	s.boil = b.Step("Boil", plantest.Takes(60), plantest.Burner(plan.Large), plantest.Vessel(s.pot), plantest.Remind(plan.Every, 20))
	s.cool = b.Step("Cool", plantest.Waits(20, 60), plantest.AtOnce, plantest.Vessel(s.pot), plantest.Limit(0))
	s.strain = b.Step("Strain", plantest.Takes(10), plantest.Vessel(s.pot), plantest.Chilled(24, "fridge", 1))
	s.heat = b.Step("Heat", plantest.Takes(20), plantest.Burner(plan.Large), plantest.Keeps(10, 15), plantest.Remind(plan.BeforeEnd, 5))
	b.Dish("Cream", s.main)
	s.whip = b.Step("Whip", plantest.Takes(5), plantest.Uses(s.bowl))
	s.chill = b.Step("Chill", plantest.Waits(120, 2880), plantest.Stands("fridge", 1), plantest.Limit(0))
	s.spoon = b.Step("Spoon", plantest.Takes(5), plantest.Uses(s.bowl))
	b.Dish("Soup", s.starter)
	s.soften = b.Step("Soften", plantest.Takes(30), plantest.Burner(plan.Large), plantest.Vessel(s.pot))
	s.blend = b.Step("Blend", plantest.Takes(5), plantest.Vessel(s.pot), plantest.Uses(s.blender))
	b.Dish("Rolls", s.main)
	s.bake = b.Step("Bake", plantest.Takes(20), plantest.Oven(200, 2), plantest.In(0), plantest.Shut, plantest.Warm(60, -1, 80, 120, 2))
	s.basket = b.Step("Basket", plantest.Takes(3))
	b.Dish("Toast", s.starter)
	s.toast = b.Step("Grill", plantest.Takes(8), plantest.Grill(2), plantest.Remind(plan.Halfway, 0))
	b.Dish("Dressing", s.main)
	s.whisk = b.Step("Whisk", plantest.Takes(5), plantest.Uses(s.blender))
	b.Dish("Salad", s.main)
	s.toss = b.Step("Toss", plantest.Takes(3))
	s.lay = b.Chore("Lay the table", s.starter, plan.Chore{After: -1, Ahead: 6 * time.Hour, HasAhead: true}, plantest.Takes(20))
	s.coffee = b.Chore("Make coffee", s.main, plan.Chore{After: s.starter}, plantest.Takes(8))

	s.t.Slots = []plan.Slot{
		b.Slot("-1d 18:30", "-1d 19:30", "large"), b.Slot("-1d 19:30", "-1d 19:50"), b.Slot("-1d 19:50", "-1d 20:00", "Ines"),
		b.Slot("19:15", "19:35", "large"),
		b.Slot("-1d 20:05", "-1d 20:10", "Ines"), b.Slot("-1d 20:10", "19:30"), b.Slot("19:30", "19:35", "Tomas"),
		b.Slot("18:20", "18:50", "large"), b.Slot("18:50", "18:55", "Ines"),
		b.Slot("18:30", "18:50", "oven"), b.Slot("19:40", "19:43", "Tomas"),
		b.Slot("18:44", "18:52", "small oven"),
		b.Slot("19:00", "19:05", "Tomas"), b.Slot("19:04", "19:07", "Ines"),
		b.Slot("17:00", "17:20", "Ines"), b.Slot("19:26", "19:34", "Ines"),
	}
	s.t.Serves = []time.Time{b.At("19:00"), b.At("19:45")}
	s.t.Sets = []plan.OvenSet{
		{Oven: 0, At: b.At("18:16"), To: 200, For: s.bake, Ready: b.At("18:30")},
		{Oven: 0, At: b.At("18:50"), To: 100, For: s.bake, Ready: b.At("19:27")},
		{Oven: small, At: b.At("18:24"), To: plan.GrillHeat, For: s.toast, Ready: b.At("18:44")},
		{Oven: 0, At: b.At("19:40"), Off: true, For: -1},
		{Oven: small, At: b.At("18:52"), Off: true, For: -1},
	}
	s.setBake, s.setWarm, s.setGrill = 0, 1, 2
	touch := func(what plan.TouchKind, step int, at string, cook int) int {
		oven := -1
		if what == plan.TouchSet {
			oven = max(0, s.t.Slots[step].Oven)
		}
		s.t.Touches = append(s.t.Touches, plan.Touch{What: what, Step: step, Oven: oven, At: b.At(at), Cook: cook})
		return len(s.t.Touches) - 1
	}
	touch(plan.TouchStart, s.boil, "-1d 18:30", s.ines)
	touch(plan.TouchRemind, s.boil, "-1d 18:50", s.ines)
	s.baste = touch(plan.TouchRemind, s.boil, "-1d 19:10", s.ines)
	touch(plan.TouchEnd, s.boil, "-1d 19:29", s.ines)
	touch(plan.TouchStart, s.chill, "-1d 20:10", s.ines)
	touch(plan.TouchSet, s.bake, "18:16", s.ines)
	touch(plan.TouchStart, s.soften, "18:20", s.tomas)
	s.setGrillTouch = touch(plan.TouchSet, s.toast, "18:24", s.tomas)
	touch(plan.TouchStart, s.bake, "18:30", s.ines)
	touch(plan.TouchStart, s.toast, "18:44", s.tomas)
	s.turn = touch(plan.TouchRemind, s.toast, "18:48", s.tomas)
	touch(plan.TouchEnd, s.soften, "18:49", s.tomas)
	touch(plan.TouchEnd, s.bake, "18:49", s.ines)
	s.setWarmTouch = touch(plan.TouchSet, s.bake, "18:50", s.ines)
	touch(plan.TouchEnd, s.toast, "18:51", s.tomas)
	s.heatStart = touch(plan.TouchStart, s.heat, "19:15", s.ines)
	s.heatLook = touch(plan.TouchRemind, s.heat, "19:30", s.tomas)
	s.heatEnd = touch(plan.TouchEnd, s.heat, "19:34", s.tomas)
	return s
}

func TestFeastKeepsAllRules(t *testing.T) {
	t.Parallel()
	for _, b := range newFeast().check() {
		t.Errorf("%+v", b)
	}
}

// TestBreakNamesTheLastToBegin: of several that are too many, the break is of the
// last to begin.
func TestBreakNamesTheLastToBegin(t *testing.T) {
	t.Parallel()
	s := newFeast()
	s.Plan.Kitchen.Cold[0].Places = 1
	s.slot(s.strain).Start, s.slot(s.strain).End = s.At("-1d 20:10"), s.At("-1d 20:20")
	for _, b := range s.check() {
		if b.Kind == plan.BreakCold && b.Step != s.strain {
			t.Errorf("%+v, want step %d", b, s.strain)
		}
	}
	s = newFeast()
	s.Plan.Kitchen.Cold[0].Places = 1
	if b := s.check(); len(b) != 1 || b[0].Step != s.chill {
		t.Errorf("%+v, want one of step %d", b, s.chill)
	}
}

// TestFeastRulesBite breaks one rule at a time and wants exactly that told.
func TestFeastRulesBite(t *testing.T) {
	t.Parallel()
	for _, tt := range feastRules {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			s := newFeast()
			tt.change(s)
			if diff := cmp.Diff(tt.want, told(s.check())); diff != "" {
				t.Errorf("breaks differ, - wanted, + got:\n%s", diff)
			}
		})
	}
}
