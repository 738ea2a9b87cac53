package verify_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/verify"
)

func TestSupperKeepsAllRules(t *testing.T) {
	t.Parallel()
	s := newSupper()
	for _, b := range s.check() {
		t.Errorf("%+v", b)
	}
	if got := verify.Status(&s.Plan, &s.t, nil); got != plan.Whole {
		t.Errorf("status %s, want whole", got)
	}
}

// told is a break as a line: when, what kind, how many minutes, the text.
func told(breaks []plan.Break) []string {
	var out []string
	for _, b := range breaks {
		out = append(out, fmt.Sprintf("%s %s %d: %s", b.At.Format("15:04"), b.Kind, b.Minutes, b.Text))
	}
	return out
}

// TestRulesBite breaks one rule at a time and wants exactly that told. Each row
// changes the timetable, or the plan under it.
func TestRulesBite(t *testing.T) {
	t.Parallel()
	for _, tt := range rules {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			s := newSupper()
			tt.change(s)
			if diff := cmp.Diff(tt.want, told(s.check())); diff != "" {
				t.Errorf("breaks differ, - wanted, + got:\n%s", diff)
			}
		})
	}
}

type rule struct {
	name   string
	change func(s *supper)
	want   []string
}

var rules = []rule{
	// slots
	{"ends-before-start", func(s *supper) {
		s.slot(s.rest).End = s.At("19:18")
		s.step(s.rest).Keeps.Kind = plan.Freely
	}, []string{
		"19:20 length 2: Gratin: Rest ends 2 min before it starts",
	}},
	{"half-minute", func(s *supper) {
		s.slot(s.dress).Start, s.slot(s.dress).End = s.At("18:52:30"), s.At("18:57:30")
	}, []string{
		"18:52 length 0: Leeks: Dress is not on whole minutes",
	}},
	{"too-short", func(s *supper) { s.slot(s.dress).Start = s.At("18:54") }, []string{
		"18:54 length 2: Leeks: Dress takes 3 min, 5 min planned",
	}},
	{"too-long", func(s *supper) { s.stretch(s.reduce, 4) }, []string{
		"19:00 length 4: Sauce: Reduce takes 29 min, 25 min planned",
	}},
	{"waits-too-short", func(s *supper) { s.step(s.rest).Length.Shortest = 18 * time.Minute }, []string{
		"19:20 length 3: Gratin: Rest waits 15 min, 18 min at least",
	}},
	{"waits-too-long", func(s *supper) { s.step(s.rest).Length.Longest = 12*time.Minute + 10*time.Second }, []string{
		"19:20 length 2: Gratin: Rest waits 15 min, 13 min at most",
	}},

	// order, gaps, keeps
	{"before-the-one-before", func(s *supper) {
		s.move(s.simmer, 5)
	}, []string{
		"18:52 order 3: Leeks: Dress starts 3 min before Simmer ends",
	}},
	{"gap-too-short", func(s *supper) {
		s.step(s.plate).After[1].Min = 14 * time.Minute
		s.step(s.plate).After[1].HasMax = false
		s.step(s.reduce).Keeps.Kind = plan.Freely
	}, []string{
		"19:35 order 4: Gratin: Plate starts 10 min after Sauce: Reduce, 14 min at least",
	}},
	{"gap-too-long", func(s *supper) { s.move(s.reduce, -6) }, []string{
		"19:35 gap 4: Gratin: Plate starts 16 min after Sauce: Reduce, 12 min at most",
	}},
	{"not-at-once", func(s *supper) { s.slot(s.rest).Start = s.At("19:23") }, []string{
		"19:23 gap 3: Gratin: Rest starts 3 min after Brown, it is to start at once",
	}},
	{"liking", func(s *supper) { s.step(s.simmer).Keeps.For = time.Minute }, []string{
		"18:51 liking 1: Leeks: Simmer waits 2 min for Dress, 1 min liked",
	}},
	{"liking-at-most", func(s *supper) { s.step(s.dress).Keeps.For = time.Minute; s.step(s.dress).Keeps.AtMost = time.Minute }, []string{
		"18:58 keep 2: Leeks: Dress waits 3 min for Starter, 1 min at most",
	}},
	{"limit", func(s *supper) { s.move(s.slice, -30) }, []string{
		"18:25 keep 5: Gratin: Slice waits 35 min for Bake, 30 min at most",
	}},
	{"limit-of-a-wait", func(s *supper) {
		s.slot(s.prove).End = s.At("19:20")
	}, []string{
		"19:20 keep 2: Flatbreads: Prove waits 2 min for Bake, and may not wait",
	}},
	{"stated-keep-besides-gap", func(s *supper) { s.step(s.reduce).Keeps.Assumed = false }, []string{
		"19:32 keep 3: Sauce: Reduce waits 10 min for Gratin: Plate, 7 min at most",
	}},
	{"keep-to-serve", func(s *supper) { s.step(s.breads).Keeps.For = 10 * time.Minute }, []string{
		"19:42 liking 3: Flatbreads: Bake waits 13 min for Main, 10 min liked",
	}},
	{"after-the-serve", func(s *supper) {
		s.move(s.dress, 5)
	}, []string{
		"19:00 order 2: Leeks: Dress ends 2 min after Starter is served",
	}},

	// courses
	{"before-asked", func(s *supper) {
		s.Plan.Courses[s.main].Serve = 47 * time.Minute
	}, []string{
		"19:45 early 2: Main is served 2 min before 19:47, when it is asked for",
	}},
	{"guests-not-through", func(s *supper) {
		s.Plan.Courses[s.starter].Seated = 50 * time.Minute
	}, []string{
		"19:45 early 5: Main is served 5 min before the guests are through with Starter",
	}},
	{"too-late", func(s *supper) {
		s.Plan.Courses[s.main].Serve, s.Plan.Courses[s.main].LateOK = 35*time.Minute, 4*time.Minute
	}, []string{
		"19:45 late 6: Main is served 10 min late, 4 min at most",
	}},

	// hands
	{"nobody", func(s *supper) { s.slot(s.slice).Cook = -1 }, []string{
		"18:05 hands 20: Gratin: Slice has nobody to do it",
	}},
	{"wrong-cook", func(s *supper) { s.slot(s.plate).Cook = s.ines }, []string{
		"19:35 hands 5: Gratin: Plate is done by Ines, it asks for Tomas",
	}},
	{"cook-for-nothing", func(s *supper) { s.slot(s.rest).Cook = s.ines }, []string{
		"19:20 hands 15: Gratin: Rest takes no cook, yet has Ines",
	}},
	{"cook-not-there", func(s *supper) {
		s.Plan.Kitchen.Cooks[s.ines].Free = []plan.Window{{From: s.At("18:10"), To: s.At("23:00")}}
	}, []string{
		"18:05 hands 5: Gratin: Slice: Ines is not there for 5 min from 18:05",
	}},
	{"cook-away-between", func(s *supper) {
		s.Plan.Kitchen.Cooks[s.ines].Free = []plan.Window{{From: s.At("18:00"), To: s.At("18:10")}, {From: s.At("18:12"), To: s.At("23:00")}}
	}, []string{
		"18:10 hands 2: Gratin: Slice: Ines is not there for 2 min from 18:10",
	}},
	{"cook-comes-on-the-half-minute", func(s *supper) {
		s.Plan.Kitchen.Cooks[s.ines].Free = []plan.Window{{From: s.At("18:05:30"), To: s.At("23:00")}}
	}, []string{
		"18:05 hands 1: Gratin: Slice: Ines is not there for 1 min from 18:05",
	}},
	{"two-at-once", func(s *supper) {
		s.move(s.slice, -30)
		s.slot(s.slice).Cook = s.tomas
		s.step(s.slice).Keeps.Kind = plan.Freely
	}, []string{
		"17:35 hands 10: Gratin: Slice: Tomas is at Flatbreads: Knead for 10 min more",
	}},

	// touches
	{"no-start-touch", func(s *supper) { s.drop(s.bakeStart) }, []string{
		"18:30 touch 0: Gratin: Bake: nobody is there to start it at 18:30",
	}},
	{"no-end-touch", func(s *supper) { s.drop(s.simmerEnd) }, []string{
		"18:49 touch 0: Leeks: Simmer: nobody is there to end it at 18:49",
	}},
	{"no-set-touch", func(s *supper) { s.drop(s.set) }, []string{
		"18:18 touch 0: Gratin: Bake: nobody is there to set the oven at 18:18",
	}},
	{"touch-misplaced", func(s *supper) { s.t.Touches[s.bakeEnd].At = s.At("19:08") }, []string{
		"19:09 touch 1: Gratin: Bake: somebody is there to end it at 19:08, it is due at 19:09",
	}},
	{"touch-too-many", func(s *supper) {
		s.t.Touches = append(s.t.Touches, plan.Touch{What: plan.TouchStart, Step: s.brown, Oven: -1, At: s.At("19:12"), Cook: s.tomas})
	}, []string{
		"19:12 touch 0: Gratin: Brown: somebody is there to start it at 19:12, and need not be",
	}},
	{"touch-without-cook", func(s *supper) { s.t.Touches[s.bakeEnd].Cook = -1 }, []string{
		"19:09 touch 1: Gratin: Bake: a cook is to end it at 19:09, but none is named",
	}},
	{"toucher-not-there", func(s *supper) {
		s.Plan.Kitchen.Cooks[s.ines].Free = []plan.Window{{From: s.At("18:00"), To: s.At("19:19")}}
	}, []string{
		"19:19 touch 1: Gratin: Brown: Ines is to end it at 19:19, but is not there",
	}},
	{"toucher-tied", func(s *supper) { s.step(s.slice).Hands = plan.Tied }, []string{
		"18:18 touch 1: Gratin: Bake: Ines is to set the oven at 18:18, but is tied to Gratin: Slice",
	}},
	{"two-touches-of-two-dishes", func(s *supper) { s.t.Touches[s.bakeStart].Cook = s.tomas }, []string{
		"18:30 touch 1: Gratin: Bake and Leeks: Simmer: Tomas is wanted 2 times in the minute from 18:30",
	}},
	{"three-touches-of-one-dish", func(s *supper) {
		set := plan.OvenSet{At: s.At("18:30"), To: 180, For: s.bake, Ready: s.At("18:30")}
		s.t.Sets = append(s.t.Sets, set, set)
		touch := plan.Touch{What: plan.TouchSet, Step: s.bake, Oven: 0, At: s.At("18:30"), Cook: s.ines}
		s.t.Touches = append(s.t.Touches, touch, touch)
	}, []string{
		"18:30 touch 1: Gratin: Bake: Ines is wanted 3 times in the minute from 18:30",
	}},

	// ovens
	{"no-oven", func(s *supper) {
		s.slot(s.breads).Oven = -1
	}, []string{
		"19:22 oven 10: Flatbreads: Bake is in no oven",
	}},
	{"oven-for-nothing", func(s *supper) { s.slot(s.dress).Oven = 0 }, []string{
		"18:52 oven 5: Leeks: Dress needs no oven, yet is in oven",
	}},
	{"other-oven", func(s *supper) {
		s.Plan.Kitchen.Ovens = append(s.Plan.Kitchen.Ovens, s.Plan.Kitchen.Ovens[0])
		s.Plan.Kitchen.Ovens[1].Name = "small oven"
		s.step(s.breads).Oven.In = 1
	}, []string{
		"19:22 oven 10: Flatbreads: Bake is in oven, it asks for small oven",
	}},
	{"oven-failed", func(s *supper) {
		p, err := s.Plan.With(plan.Change{Kind: plan.OvenFails, Oven: "oven"})
		if err != nil {
			panic(err)
		}
		s.Plan = *p
	}, []string{
		"18:30 oven 40: Gratin: Bake is in oven, which does not work",
		"19:10 oven 10: Gratin: Brown is in oven, which does not work",
		"19:22 oven 10: Flatbreads: Bake is in oven, which does not work",
	}},
	{"too-cold-at-first", func(s *supper) {
		s.t.Sets[s.setBake].At, s.t.Sets[s.setBake].Ready = s.At("18:22"), s.At("18:34")
		s.t.Touches[s.set].At = s.At("18:22")
	}, []string{
		"18:30 oven 4: Gratin: Bake wants 175 °C to 185 °C: oven is at 141 °C at 18:30, wrong for 4 min",
	}},
	{"too-hot-at-last", func(s *supper) {
		s.t.Sets[s.setBrown].At, s.t.Sets[s.setBrown].Ready = s.At("19:05"), s.At("19:10")
		for i, t := range s.t.Touches {
			if t.What == plan.TouchSet && t.Step == s.brown {
				s.t.Touches[i].At = s.At("19:05")
			}
		}
	}, []string{
		"19:06 oven 4: Gratin: Bake wants 175 °C to 185 °C: oven is at 188 °C at 19:06, wrong for 4 min",
	}},
	{"never-set", func(s *supper) {
		s.t.Sets = s.t.Sets[1:]
		s.drop(s.set)
	}, []string{
		"18:30 oven 40: Gratin: Bake wants 175 °C to 185 °C: oven is at 20 °C at 18:30, wrong for 40 min",
		"19:10 oven 10: Gratin: Brown wants 215 °C to 225 °C: oven is at 20 °C at 19:10, wrong for 10 min",
		"19:10 oven 12: Gratin: Brown: oven is said to be ready at 19:15, it is at 19:27",
		"19:22 oven 5: Flatbreads: Bake wants 215 °C to 225 °C: oven is at 180 °C at 19:22, wrong for 5 min",
	}},
	{"no-ramp-without-at-once", func(s *supper) {
		s.step(s.brown).AtOnce = false
		s.t.Touches = append(s.t.Touches, plan.Touch{What: plan.TouchStart, Step: s.brown, Oven: -1, At: s.At("19:10"), Cook: s.ines})
	}, []string{
		"19:10 oven 5: Gratin: Brown wants 215 °C to 225 °C: oven is at 180 °C at 19:10, wrong for 5 min",
	}},
	{"ramp-not-under-way", func(s *supper) {
		s.t.Sets[s.setBrown].At, s.t.Sets[s.setBrown].Ready = s.At("19:12"), s.At("19:17")
		for i, t := range s.t.Touches {
			if t.What == plan.TouchSet && t.Step == s.brown {
				s.t.Touches[i].At = s.At("19:12")
			}
		}
	}, []string{
		"19:10 oven 2: Gratin: Brown wants 215 °C to 225 °C: oven is at 180 °C at 19:10, wrong for 2 min",
	}},
	{"neighbour-refuses-ramp", func(s *supper) {
		s.step(s.reduce).Burner = nil
		s.step(s.reduce).Oven = &plan.Bake{In: -1, At: 180, Lo: 175, Hi: 185, Space: 1}
		s.slot(s.reduce).Burner, s.slot(s.reduce).Oven = plan.AnyBurner, 0
		s.step(s.breads).Oven.Space = 2
	}, []string{
		"19:11 oven 14: Sauce: Reduce wants 175 °C to 185 °C: oven is at 188 °C at 19:11, wrong for 14 min",
	}},
	{"ready-too-soon", func(s *supper) { s.t.Sets[s.setBrown].Ready = s.At("19:14") }, []string{
		"19:10 oven 1: Gratin: Brown: oven is said to be ready at 19:14, it is at 19:15",
	}},
	{"ready-too-late", func(s *supper) { s.t.Sets[s.setBake].Ready = s.At("18:32") }, []string{
		"18:18 oven 2: Gratin: Bake: oven is said to be ready at 18:32, it is at 18:30",
	}},
	{"set-too-low", func(s *supper) {
		s.t.Sets[s.setBrown].To = 210
	}, []string{
		"19:10 oven 10: Gratin: Brown wants 215 °C to 225 °C: oven is at 180 °C at 19:10, wrong for 10 min",
		"19:10 oven 0: Gratin: Brown: oven is set to 210 °C at 19:10, 215 °C to 225 °C wanted",
		"19:22 oven 10: Flatbreads: Bake wants 215 °C to 225 °C: oven is at 210 °C at 19:22, wrong for 10 min",
	}},
	{"set-for-another-oven", func(s *supper) {
		s.t.Sets[s.setBrown].For = s.dress
		for i, t := range s.t.Touches {
			if t.What == plan.TouchSet && t.Step == s.brown {
				s.t.Touches[i].Step = s.dress
			}
		}
	}, []string{
		"19:10 oven 0: oven is set at 19:10 for Leeks: Dress, which is not in it",
	}},
	{"no-room-in-oven", func(s *supper) { s.step(s.bake).Oven.Space = 5 }, []string{
		"18:30 space 40: Gratin: Bake: 2.5 shelves wanted, oven has 2 shelves, for 40 min from 18:30",
	}},

	// burners, tools, minding
	{"no-burner", func(s *supper) { s.slot(s.reduce).Burner = plan.AnyBurner }, []string{
		"19:00 burner 25: Sauce: Reduce stands on no burner",
	}},
	{"burner-for-nothing", func(s *supper) { s.slot(s.rest).Burner = plan.Small }, []string{
		"19:20 burner 15: Gratin: Rest needs no burner, yet stands on a small one",
	}},
	{"burner-too-small", func(s *supper) { s.slot(s.reduce).Burner = plan.Small }, []string{
		"19:00 burner 25: Sauce: Reduce needs a large burner, it stands on a small one",
	}},
	{"burners-taken", func(s *supper) { s.step(s.simmer).Burner.Count = 2 }, []string{
		"18:30 burner 20: Leeks: Simmer: 2 small burners wanted, the kitchen has 1, for 20 min from 18:30",
	}},
	{"tool-taken", func(s *supper) {
		s.step(s.dress).Uses = []plan.Use{{Tool: 1, Count: 2}}
	}, []string{
		"18:52 tool 5: Leeks: Dress: 2 of pan wanted, the kitchen has 1, for 5 min from 18:52",
	}},
	{"tool-shared", func(s *supper) {
		s.step(s.knead).Uses = s.step(s.slice).Uses
		s.move(s.slice, -30)
		s.step(s.slice).Keeps.Kind = plan.Freely
	}, []string{
		"17:35 tool 10: Gratin: Slice and Flatbreads: Knead: 2 of board wanted, the kitchen has 1, for 10 min from 17:35",
	}},
	{"too-many-to-mind", func(s *supper) {
		s.step(s.rest).Hands, s.step(s.prove).Hands = plan.Near, plan.Near
	}, []string{
		"19:20 minding 2: Sauce: Reduce, Gratin: Rest and Flatbreads: Prove: 3 to mind, whoever is there can mind 2, for 2 min from 19:20",
	}},
	{"nobody-to-mind", func(s *supper) { s.Plan.Kitchen.Minds = 0 }, []string{
		"18:30 minding 20: Leeks: Simmer: 1 to mind, whoever is there can mind 0, for 20 min from 18:30",
		"19:00 minding 25: Sauce: Reduce: 1 to mind, whoever is there can mind 0, for 25 min from 19:00",
	}},
}
