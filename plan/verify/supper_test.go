package verify_test

import (
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/verify"
)

// dinner is a plan with a timetable made by hand.
type dinner struct {
	*plantest.Builder
	t     plan.Timetable
	since time.Time
}

// supper is a small dinner with something for every rule, and a timetable made
// by hand that keeps them all.
//
//	17:30  Flatbreads  knead (Tomas, tied) ─ prove from 17:45 ─────────────┐
//	18:05  Gratin      slice (Ines, board)                                 │
//	18:30  Gratin      bake at 180 ─ 19:10 brown at 220 ─ 19:20 rest       │
//	18:30  Leeks       simmer (small burner) ─ 18:52 dress ─ Starter 19:00 │
//	19:00  Sauce       reduce (large burner, pan)          19:22 bake at 220
//	19:35  Gratin      plate (Tomas, board) ─ Main 19:45
type supper struct {
	dinner
	ines, tomas                                                 int
	starter, main                                               int
	simmer, dress, slice, bake, brown, rest, plate, reduce      int
	knead, prove, breads                                        int
	setBake, setBrown, off                                      int // in t.Sets
	bakeStart, bakeEnd, breadsStart, proveStart, simmerEnd, set int // in t.Touches
}

func newSupper() *supper {
	b := plantest.New("2026-10-17 19:00")
	s := &supper{dinner: dinner{Builder: b}}
	minutes := func(n int) time.Duration { return time.Duration(n) * time.Minute }
	s.ines = b.Cook("Ines", "15:00-23:00")
	s.tomas = b.Cook("Tomas", "16:00-17:00", "17:00-23:00")
	b.Plan.Kitchen.Burners = plan.Burners{Large: 1, Small: 1}
	b.Plan.Kitchen.Minds = 1
	board, pan := b.Tool("board", 1), b.Tool("pan", 1)
	s.starter = b.Course("Starter", 0, minutes(25), minutes(10))
	s.main = b.Course("Main", minutes(45), minutes(40), minutes(20))

	b.Dish("Leeks", s.starter)
	s.simmer = b.Step("Simmer", plantest.Takes(20), plantest.Burner(plan.Small), plantest.Keeps(10, 30))
	s.dress = b.Step("Dress", plantest.Takes(5), plantest.Keeps(5, 20))
	b.Dish("Sauce", s.main)
	s.reduce = b.Step("Reduce", plantest.Takes(25), plantest.Burner(plan.Large), plantest.Uses(pan), plantest.Keeps(5, 7), plantest.Assumed)
	b.Dish("Gratin", s.main)
	s.slice = b.Step("Slice", plantest.Takes(20), plantest.Uses(board), plantest.Limit(30))
	s.bake = b.Step("Bake", plantest.Takes(40), plantest.Oven(180, 2), plantest.Keeps(10, 15))
	s.brown = b.Step("Brown", plantest.Takes(10), plantest.Oven(220, 2), plantest.AtOnce, plantest.Keeps(10, 15))
	s.rest = b.Step("Rest", plantest.Waits(5, 20), plantest.AtOnce, plantest.Limit(0))
	s.plate = b.Step("Plate", plantest.Takes(5), plantest.By(s.tomas), plantest.Uses(board), plantest.Keeps(5, 15),
		plantest.After(plan.Link{Step: s.rest}, plan.Link{Step: s.reduce, Min: minutes(3), Max: minutes(12), HasMax: true}))
	b.Dish("Flatbreads", s.main)
	s.knead = b.Step("Knead", plantest.Takes(15), plantest.Hands(plan.Tied), plantest.Keeps(120, 120))
	s.prove = b.Step("Prove", plantest.Waits(60, 120), plantest.Limit(0))
	s.breads = b.Step("Bake", plantest.Takes(10), plantest.Oven(220, 4), plantest.Keeps(15, 40))

	s.t.Slots = []plan.Slot{
		b.Slot("18:30", "18:50", "small"), b.Slot("18:52", "18:57", "Ines"),
		b.Slot("19:00", "19:25", "large"),
		b.Slot("18:05", "18:25", "Ines"), b.Slot("18:30", "19:10", "oven"), b.Slot("19:10", "19:20", "oven"),
		b.Slot("19:20", "19:35"), b.Slot("19:35", "19:40", "Tomas"),
		b.Slot("17:30", "17:45", "Tomas"), b.Slot("17:45", "19:22"), b.Slot("19:22", "19:32", "oven"),
	}
	s.t.Serves = []time.Time{b.At("19:00"), b.At("19:45")}
	s.t.Sets = []plan.OvenSet{
		{At: b.At("18:18"), To: 180, For: s.bake, Ready: b.At("18:30")},
		{At: b.At("19:10"), To: 220, For: s.brown, Ready: b.At("19:15")},
		{At: b.At("19:32"), Off: true, For: -1},
	}
	s.setBake, s.setBrown, s.off = 0, 1, 2
	touch := func(what plan.TouchKind, step int, at string, cook int) int {
		oven := -1
		if what == plan.TouchSet {
			oven = 0
		}
		s.t.Touches = append(s.t.Touches, plan.Touch{What: what, Step: step, Oven: oven, At: b.At(at), Cook: cook})
		return len(s.t.Touches) - 1
	}
	s.proveStart = touch(plan.TouchStart, s.prove, "17:45", s.tomas)
	s.set = touch(plan.TouchSet, s.bake, "18:18", s.ines)
	s.bakeStart = touch(plan.TouchStart, s.bake, "18:30", s.ines)
	touch(plan.TouchStart, s.simmer, "18:30", s.tomas)
	s.simmerEnd = touch(plan.TouchEnd, s.simmer, "18:49", s.tomas)
	touch(plan.TouchStart, s.reduce, "19:00", s.tomas)
	s.bakeEnd = touch(plan.TouchEnd, s.bake, "19:09", s.ines)
	touch(plan.TouchSet, s.brown, "19:10", s.ines)
	touch(plan.TouchEnd, s.brown, "19:19", s.ines)
	s.breadsStart = touch(plan.TouchStart, s.breads, "19:22", s.tomas)
	touch(plan.TouchEnd, s.reduce, "19:24", s.tomas)
	touch(plan.TouchEnd, s.breads, "19:31", s.tomas)
	return s
}

func (d *dinner) check() []plan.Break { return verify.Check(&d.Plan, &d.t, d.since) }

// move shifts a step with its touches, whole.
func (d *dinner) move(step int, minutes int) {
	by := time.Duration(minutes) * time.Minute
	d.t.Slots[step].Start = d.t.Slots[step].Start.Add(by)
	d.t.Slots[step].End = d.t.Slots[step].End.Add(by)
	for i, t := range d.t.Touches {
		if t.Step == step && t.What != plan.TouchSet {
			d.t.Touches[i].At = t.At.Add(by)
		}
	}
}

// stretch ends a step later, with its touch.
func (d *dinner) stretch(step int, minutes int) {
	by := time.Duration(minutes) * time.Minute
	d.t.Slots[step].End = d.t.Slots[step].End.Add(by)
	for i, t := range d.t.Touches {
		if t.Step == step && t.What == plan.TouchEnd {
			d.t.Touches[i].At = t.At.Add(by)
		}
	}
}

func (d *dinner) step(i int) *plan.Step { return &d.Plan.Steps[i] }
func (d *dinner) slot(i int) *plan.Slot { return &d.t.Slots[i] }

func (d *dinner) drop(touch int) {
	d.t.Touches = append(d.t.Touches[:touch:touch], d.t.Touches[touch+1:]...)
}
