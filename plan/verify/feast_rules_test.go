package verify_test

import (
	"time"

	"example.org/kettledrum/plan"
)

type feastRule struct {
	name   string
	change func(s *feast)
	want   []string
}

func (s *feast) slips(minutes int) {
	s.Plan.Courses[s.starter].SlipsAway = time.Duration(minutes) * time.Minute
}

// by gives a touch to another cook.
func (s *feast) by(touch, cook int) { s.t.Touches[touch].Cook = cook }

// unset drops a setting with its touch.
func (s *feast) unset(set, touch int) {
	s.t.Sets = append(s.t.Sets[:set:set], s.t.Sets[set+1:]...)
	s.drop(touch)
}

var feastRules = []feastRule{
	// sitting
	{"work-at-table", func(s *feast) { s.slips(0); s.by(s.heatStart, s.tomas) }, []string{
		"19:04 hands 3: Salad: Toss: Ines is at table for 3 min from 19:04",
	}},
	{"work-longer-than-a-slip", func(s *feast) { s.slips(2) }, []string{
		"19:04 hands 3: Salad: Toss: Ines is at table for 3 min from 19:04",
	}},
	{"work-runs-into-the-course", func(s *feast) { s.move(s.coffee, -4); s.slips(7) }, []string{
		"19:22 hands 3: Make coffee: Ines is at table for 3 min from 19:22",
	}},
	{"touch-at-table", func(s *feast) {
		s.slips(0)
		s.slot(s.toss).Cook = s.tomas
		s.move(s.toss, 1)
	}, []string{
		"19:15 touch 1: Sauce: Heat: Ines is to start it at 19:15, but is at table",
	}},
	{"away-again-too-soon", func(s *feast) { s.move(s.toss, 5) }, []string{
		"19:15 touch 4: Sauce: Heat: Ines leaves the table at 19:15, 6 min after the last time, 10 min at least",
	}},
	{"away-in-one-go", func(s *feast) { s.move(s.toss, 8); s.slips(3) }, []string{
		"19:15 touch 1: Sauce: Heat: Ines is away from the table for 4 min from 19:12, 3 min at most",
	}},
	{"nobody-minds-from-the-table", func(s *feast) {
		s.Plan.Kitchen.Cooks[s.tomas].Free = []plan.Window{{From: s.At("16:00"), To: s.At("19:20")}, {From: s.At("19:28"), To: s.At("23:00")}}
	}, []string{
		"19:20 minding 5: Sauce: Heat: 1 to mind, whoever is there can mind 0, for 5 min from 19:20",
	}},

	// vessels, washing
	{"vessel-held-through-the-gap", func(s *feast) {
		s.step(s.whip).Uses[0].Tool = s.pot
		s.move(s.whip, -22)
		s.step(s.cool).Vessel = nil
	}, []string{
		"19:43 tool 5: Sauce: Boil and Cream: Whip: 2 of pot wanted, the kitchen has 1, for 5 min from Fri 16 Oct 19:43",
	}},
	{"vessel-beside-use", func(s *feast) { s.step(s.cool).Uses = []plan.Use{{Tool: s.pot, Count: 1}} }, []string{
		"19:30 tool 20: Sauce: Cool: 2 of pot wanted, the kitchen has 1, for 20 min from Fri 16 Oct 19:30",
	}},
	{"branches-take-one-each", func(s *feast) {
		s.step(s.cool).After, s.step(s.cool).AtOnce = nil, false
		s.t.Touches = append(s.t.Touches, plan.Touch{What: plan.TouchStart, Step: s.cool, Oven: -1, At: s.At("-1d 19:30"), Cook: s.ines})
		s.step(s.strain).After = []plan.Link{{Step: s.cool}, {Step: s.boil}}
	}, []string{
		"19:30 tool 20: Sauce: Boil and Sauce: Cool: 2 of pot wanted, the kitchen has 1, for 20 min from Fri 16 Oct 19:30",
	}},
	{"poured-into-two", func(s *feast) {
		s.step(s.strain).After = []plan.Link{{Step: s.boil}}
		s.step(s.cool).Keeps.Kind = plan.Freely
	}, []string{
		"19:30 tool 20: Sauce: Boil and Sauce: Cool: 2 of pot wanted, the kitchen has 1, for 20 min from Fri 16 Oct 19:30",
	}},
	{"poured-once-told-twice", func(s *feast) {
		s.step(s.strain).After = append(s.step(s.strain).After, plan.Link{Step: s.boil})
	}, nil},
	{"poured-thrice-told-four-times", func(s *feast) {
		s.step(s.soften).Vessel, s.step(s.blend).Vessel = nil, nil
		s.step(s.heat).Vessel = s.step(s.strain).Vessel
		s.step(s.heat).After = append(s.step(s.heat).After, plan.Link{Step: s.boil})
	}, nil},
	{"vessel-stays-in-its-dish", func(s *feast) {
		s.Wash(s.pot, 5)
		s.step(s.whip).After = []plan.Link{{Step: s.strain}}
		s.step(s.whip).Vessel = s.step(s.strain).Vessel
	}, nil},
	{"vessel-empty-after-the-last", func(s *feast) {
		s.step(s.whip).Uses[0].Tool = s.pot
		s.move(s.whip, -5)
	}, nil},
	{"vessel-goes-past-skipped", func(s *feast) {
		s.slot(s.cool).Progress = plan.Skipped
		s.step(s.whip).Uses[0].Tool = s.pot
		s.move(s.whip, -22)
	}, []string{
		"19:43 tool 5: Sauce: Boil and Cream: Whip: 2 of pot wanted, the kitchen has 1, for 5 min from Fri 16 Oct 19:43",
	}},
	{"unwashed", func(s *feast) { s.Wash(s.blender, 7) }, []string{
		"19:00 tool 2: Dressing: Whisk starts at 19:00: blender is not washed after Soup: Blend until 19:02",
	}},
	{"unwashed-before-the-dinner", func(s *feast) { s.move(s.whisk, -3) }, []string{
		"18:57 tool 3: Dressing: Whisk starts at 18:57: blender is not washed after Soup: Blend until 19:00",
	}},
	{"washed-soonest", func(s *feast) {
		s.Plan.Kitchen.Tools[s.blender].Count = 2
		s.Wash(s.blender, 30)
		s.step(s.soften).Uses, s.step(s.toast).Uses = s.step(s.blend).Uses, s.step(s.blend).Uses
	}, []string{
		"19:00 tool 22: Dressing: Whisk starts at 19:00: blender is not washed after Toast: Grill until 19:22",
	}},
	{"own-piece-needs-no-wash", func(s *feast) {
		s.Wash(s.blender, 30)
		s.step(s.whisk).Dish = s.step(s.blend).Dish
		s.Plan.Dishes[s.step(s.blend).Dish].Course = s.main
	}, nil},
	{"own-piece-first", func(s *feast) {
		// Of two blenders the soup takes its own again, so that the dressing has a clean one.
		s.Plan.Kitchen.Tools[s.blender].Count = 2
		s.Wash(s.blender, 30)
		s.step(s.spoon).Uses[0].Tool = s.blender
		s.step(s.spoon).Dish, s.step(s.spoon).After = s.step(s.blend).Dish, nil
		s.slot(s.spoon).Start, s.slot(s.spoon).End = s.At("18:55"), s.At("19:00")
		s.step(s.chill).Keeps.Kind = plan.Freely
	}, nil},
	{"clean-pieces-run-out", func(s *feast) {
		s.Plan.Kitchen.Tools[s.blender].Count = 2
		s.Wash(s.blender, 30)
		s.step(s.blend).Uses[0].Count = 2
	}, []string{
		"19:00 tool 25: Dressing: Whisk starts at 19:00: blender is not washed after Soup: Blend until 19:25",
	}},

	// cold places, warm keeps
	{"fridge-full", func(s *feast) { s.Plan.Kitchen.Cold[0].Places = 1 }, []string{
		"20:10 cold 1385: Sauce: Strain and Cream: Chill: 2 places in the fridge wanted, it has 1, for 23 h 5 min from Fri 16 Oct 20:10",
	}},
	{"fridge-full-of-one", func(s *feast) {
		s.step(s.strain).Keeps.Places = 4
		s.step(s.chill).Cold = "cellar"
	}, []string{
		"20:00 cold 1395: Sauce: Strain: 4 places in the fridge wanted, it has 2, for 23 h 15 min from Fri 16 Oct 20:00",
	}},
	{"kept-cold-until-the-serve", func(s *feast) {
		s.step(s.toss).Keeps = plan.Keep{Kind: plan.Freely, Place: "fridge", Places: 1}
	}, []string{
		"19:07 cold 8: Sauce: Strain, Cream: Chill and Salad: Toss: 3 places in the fridge wanted, it has 2, for 8 min from 19:07",
	}},
	{"kept-cold-until-the-last-takes-it", func(s *feast) {
		s.Plan.Kitchen.Cold[0].Places = 1
		s.step(s.whisk).After = []plan.Link{{Step: s.strain}}
	}, []string{
		"20:10 cold 1385: Sauce: Strain and Cream: Chill: 2 places in the fridge wanted, it has 1, for 23 h 5 min from Fri 16 Oct 20:10",
	}},
	{"kept-cold-past-a-skipped-step", func(s *feast) {
		s.Plan.Kitchen.Cold[0].Places = 1
		s.slot(s.heat).Progress = plan.Skipped
		s.t.Touches = s.t.Touches[:s.heatStart]
	}, []string{
		"20:10 cold 1400: Sauce: Strain and Cream: Chill: 2 places in the fridge wanted, it has 1, for 23 h 20 min from Fri 16 Oct 20:10",
	}},
	{"nothing-to-keep-cold", func(s *feast) {
		s.Plan.Kitchen.Cold[0].Places = 1
		s.slot(s.strain).Progress = plan.Skipped
	}, nil},
	{"uncounted-place", func(s *feast) { s.step(s.strain).Keeps.Place, s.step(s.strain).Keeps.Places = "freezer", 9 }, nil},
	{"too-hot-to-keep-warm", func(s *feast) {
		s.t.Sets[s.setWarm].At, s.t.Sets[s.setWarm].Ready = s.At("18:54"), s.At("19:31")
		s.t.Touches[s.setWarmTouch].At = s.At("18:54")
	}, []string{
		"18:50 oven 4: Rolls: Bake, kept warm, wants 80 °C to 120 °C: oven is at 200 °C at 18:50, wrong for 4 min",
	}},
	{"dial-turned-as-it-comes-out", func(s *feast) {
		s.step(s.bake).Keeps.Warm.Hi = 100.5 // on the way until 19:41
		s.t.Sets[s.setWarm].Ready = s.At("19:41")
	}, nil},
	{"kept-too-cool", func(s *feast) {
		s.t.Sets[s.setWarm].To = 70
	}, []string{
		"18:50 oven 37: Rolls: Bake, kept warm, wants 80 °C to 120 °C: oven is at 200 °C at 18:50, wrong for 37 min",
	}},
	{"warm-ready-too-soon", func(s *feast) { s.t.Sets[s.setWarm].Ready = s.At("19:25") }, []string{
		"18:50 oven 2: Rolls: Bake: oven is said to be ready at 19:25, it is at 19:27",
	}},
	{"no-room-to-keep-warm", func(s *feast) { s.step(s.bake).Keeps.Warm.Space = 5 }, []string{
		"18:50 space 50: Rolls: Bake: 2.5 shelves wanted, oven has 2 shelves, for 50 min from 18:50",
	}},
	{"warm-in-another-oven", func(s *feast) {
		s.step(s.bake).Keeps.Warm.In = 1
		s.unset(s.setWarm, s.setWarmTouch)
	}, []string{
		"18:50 oven 50: Rolls: Bake, kept warm, wants 80 °C to 120 °C: small oven is at 250 °C at 18:50, wrong for 50 min",
		"18:50 oven 2: Rolls: Bake, kept warm, is in small oven with Toast: Grill for 2 min, a grill shares with nothing",
	}},

	{"warm-ramp-of-another-oven", func(s *feast) {
		s.step(s.bake).Keeps.Warm.In = 1
		s.step(s.toast).Oven.Grill = false
		s.t.Sets[4] = plan.OvenSet{Oven: 1, At: s.At("18:52"), To: 100, For: s.bake, Ready: s.At("19:45")}
		s.t.Touches = append(s.t.Touches, plan.Touch{What: plan.TouchSet, Step: s.bake, Oven: 1, At: s.At("18:52"), Cook: s.ines})
		s.unset(s.setWarm, s.setWarmTouch)
	}, []string{
		"18:50 oven 50: Rolls: Bake, kept warm, wants 80 °C to 120 °C: small oven is at 250 °C at 18:50, wrong for 50 min",
	}},
	{"kept-warm-where-it-was", func(s *feast) {
		s.step(s.toast).Keeps.Warm = &plan.Bake{In: -1, Lo: 0, Hi: 300, Space: 5}
	}, []string{
		"18:52 space 8: Toast: Grill: 2.5 shelves wanted, small oven has 2 shelves, for 8 min from 18:52",
	}},

	// doors and grills
	{"door-is-to-be-shut", func(s *feast) {
		s.step(s.toast).Oven = &plan.Bake{In: 0, At: 200, Lo: 100, Hi: 205, Space: 2}
		s.slot(s.toast).Oven = 0
		s.unset(s.setGrill, s.setGrillTouch)
	}, []string{
		"18:44 oven 6: Toast: Grill goes into oven at 18:44, while Rolls: Bake wants its door shut from 18:30 to 18:50",
	}},
	{"out-of-a-shut-door", func(s *feast) {
		s.step(s.toast).Oven = &plan.Bake{In: 0, At: 200, Lo: 100, Hi: 205, Space: 2}
		s.slot(s.toast).Oven = 0
		s.unset(s.setGrill, s.setGrillTouch)
		s.move(s.toast, -18)
	}, []string{
		"18:34 oven 4: Toast: Grill comes out of oven at 18:34, while Rolls: Bake wants its door shut from 18:30 to 18:50",
	}},
	{"out-as-the-shut-step-goes-in", func(s *feast) {
		s.step(s.toast).Oven = &plan.Bake{In: 0, At: 200, Lo: 100, Hi: 205, Space: 2}
		s.slot(s.toast).Oven = 0
		s.unset(s.setGrill, s.setGrillTouch)
		s.move(s.toast, -22)
	}, nil},
	{"ends-behind-a-shut-door", func(s *feast) {
		s.step(s.bake).Oven.Shut = false
		s.step(s.toast).Oven = &plan.Bake{In: 0, At: 200, Lo: 100, Hi: 205, Space: 2, Shut: true}
		s.slot(s.toast).Oven = 0
		s.unset(s.setGrill, s.setGrillTouch)
	}, []string{
		"18:50 oven 2: Rolls: Bake comes out of oven at 18:50, while Toast: Grill wants its door shut from 18:44 to 18:52",
	}},
	{"in-as-the-shut-step-comes-out", func(s *feast) {
		s.step(s.toast).Oven = &plan.Bake{In: 0, At: 200, Lo: 100, Hi: 205, Space: 2}
		s.slot(s.toast).Oven = 0
		s.unset(s.setGrill, s.setGrillTouch)
		s.move(s.toast, 6)
	}, nil},
	{"grill-shared", func(s *feast) {
		warm := s.step(s.bake).Keeps.Warm
		warm.In, warm.Lo, warm.Hi = 1, 0, 300
		s.unset(s.setWarm, s.setWarmTouch)
	}, []string{
		"18:50 oven 2: Rolls: Bake, kept warm, is in small oven with Toast: Grill for 2 min, a grill shares with nothing",
	}},
	{"dial-off-the-grill", func(s *feast) { // turned for what goes in when the toast is out
		warm := s.step(s.bake).Keeps.Warm
		warm.In, warm.Lo, warm.Hi = 1, 0, 300
		s.move(s.bake, 4)
		s.t.Sets[s.setWarm] = plan.OvenSet{Oven: 1, At: s.At("18:50"), To: 250, For: s.bake, Ready: s.At("18:50")}
		s.t.Touches[s.setWarmTouch].Oven = 1
	}, []string{
		"18:50 oven 2: Toast: Grill has small oven set for Rolls: Bake, not to grill, for 2 min",
	}},
	{"left-on-the-grill", func(s *feast) {
		warm := s.step(s.bake).Keeps.Warm
		warm.In, warm.Lo, warm.Hi = 1, 0, 300
		s.move(s.bake, 4)
		s.t.Sets[4].At = s.At("19:40")
		s.unset(s.setWarm, s.setWarmTouch)
	}, []string{
		"18:54 oven 46: Rolls: Bake, kept warm, has small oven set for Toast: Grill, to grill, for 46 min",
	}},

	// reminders
	{"no-reminder-halfway", func(s *feast) { s.drop(s.turn) }, []string{
		"18:48 touch 0: Toast: Grill: nobody is there to see to it at 18:48",
	}},
	{"reminder-misplaced", func(s *feast) { s.t.Touches[s.baste].At = s.At("-1d 19:12") }, []string{
		"19:10 touch 2: Sauce: Boil: somebody is there to see to it at Fri 16 Oct 19:12, it is due at Fri 16 Oct 19:10",
	}},
	{"no-reminder-before-the-end", func(s *feast) { s.step(s.heat).Reminds[0].For = 6 * time.Minute }, []string{
		"19:29 touch 1: Sauce: Heat: somebody is there to see to it at 19:30, it is due at 19:29",
	}},
	{"no-reminder-at-the-end-itself", func(s *feast) { s.step(s.boil).Reminds[0].For = 30 * time.Minute }, []string{
		"19:00 touch 10: Sauce: Boil: somebody is there to see to it at Fri 16 Oct 18:50, it is due at Fri 16 Oct 19:00",
		"19:10 touch 0: Sauce: Boil: somebody is there to see to it at Fri 16 Oct 19:10, and need not be",
	}},
	{"two-reminders-one-touch", func(s *feast) {
		s.step(s.heat).Reminds = append(s.step(s.heat).Reminds, plan.Remind{When: plan.Every, For: 15 * time.Minute})
	}, nil},
	{"reminder-longer-than-the-step", func(s *feast) {
		s.step(s.heat).Reminds = append(s.step(s.heat).Reminds, plan.Remind{When: plan.BeforeEnd, For: time.Hour})
	}, nil},
	{"no-reminder-of-work", func(s *feast) { s.step(s.strain).Reminds = []plan.Remind{{When: plan.Halfway}} }, nil},

	// chores
	{"chore-after-the-serve", func(s *feast) {
		s.move(s.lay, 105)
		s.slot(s.lay).Cook = s.tomas
		s.move(s.whisk, 10)
	}, []string{
		"19:00 order 5: Lay the table ends 5 min after Starter is served",
	}},
	{"chore-too-early", func(s *feast) { s.Plan.Dishes[s.step(s.lay).Dish].Chore.Ahead = 90 * time.Minute }, []string{
		"17:00 early 30: Lay the table starts 30 min before 17:30, the earliest it may",
	}},
	{"chore-before-the-cook-day", func(s *feast) {
		s.Plan.Dishes[s.step(s.lay).Dish].Chore.HasAhead = false
		s.slot(s.lay).Start, s.slot(s.lay).End = s.At("-1d 18:05"), s.At("-1d 18:25")
	}, []string{
		"18:05 early 355: Lay the table starts 5 h 55 min before 00:00, the earliest it may",
	}},
	{"chore-before-its-course", func(s *feast) {
		s.Plan.Dishes[s.step(s.coffee).Dish].Chore.After = s.main
	}, []string{
		"19:26 order 19: Make coffee starts 19 min before Main is served",
	}},
	{"chore-done-by-nobody", func(s *feast) { s.slot(s.coffee).Cook = -1 }, []string{
		"19:26 hands 8: Make coffee has nobody to do it",
	}},

	// earlier days
	{"not-there-the-day-before", func(s *feast) {
		s.Plan.Kitchen.Cooks[s.ines].Free[0].To = s.At("-1d 20:10")
	}, []string{
		"20:10 touch 1: Cream: Chill: Ines is to start it at Fri 16 Oct 20:10, but is not there",
	}},

	// what has been
	{"nothing-broken-yet", func(s *feast) { s.since = s.At("19:10"); s.passed() }, nil},
	{"was-unwashed", func(s *feast) { s.Wash(s.blender, 7); s.since = s.At("19:02"); s.passed() }, nil},
	{"fridge-is-still-full", func(s *feast) {
		s.Plan.Kitchen.Cold[0].Places = 1
		s.since = s.At("19:10")
		s.passed()
	}, []string{
		"19:10 cold 5: Sauce: Strain and Cream: Chill: 2 places in the fridge wanted, it has 1, for 5 min from 19:10",
	}},
	{"chore-was-too-early", func(s *feast) {
		s.Plan.Dishes[s.step(s.lay).Dish].Chore.Ahead = 0
		s.since = s.At("17:10")
		s.passed()
	}, nil},
	{"door-was-opened", func(s *feast) {
		s.step(s.toast).Oven = &plan.Bake{In: 0, At: 200, Lo: 100, Hi: 205, Space: 2}
		s.slot(s.toast).Oven = 0
		s.unset(s.setGrill, s.setGrillTouch)
		s.since = s.At("18:44")
		s.passed()
	}, nil},
	{"chore-was-too-soon", func(s *feast) {
		s.Plan.Dishes[s.step(s.coffee).Dish].Chore.After = s.main
		s.since = s.At("19:46")
		s.passed()
	}, nil},
	{"chore-is-dropped", func(s *feast) {
		s.Plan.Dishes[s.step(s.coffee).Dish].Chore.After = s.main
		s.slot(s.coffee).Progress = plan.Skipped
	}, nil},
}
