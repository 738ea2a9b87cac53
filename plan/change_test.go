package plan_test

import (
	"reflect"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
)

// changed is a plan that every change finds something in: two ovens, a step that
// asks for the second by name, two steps with one vessel.
func changed() *plantest.Builder {
	b := plantest.New("2026-10-17 19:00")
	b.Cook("Ines", "14:00-20:20") // to the end of the dinner
	b.Cook("Tomas", "14:00-23:00")
	b.Oven("top")
	pot := b.Tool("pot", 1)
	b.Tool("pan", 1)
	b.Course("Starter", 0, 20*time.Minute, 10*time.Minute)
	b.Course("Main", 30*time.Minute, 30*time.Minute, 20*time.Minute)
	b.Course("Sweet", time.Hour, 30*time.Minute, 20*time.Minute)
	b.Dish("Rice", 1)
	b.Step("Wash", plantest.Takes(5), plantest.Keeps(20, 50))
	b.Step("Boil", plantest.Takes(20), plantest.Burner(plan.Small), plantest.Vessel(pot))
	b.Step("Stand", plantest.Waits(5, 15), plantest.Vessel(pot), plantest.Limit(5))
	i := b.Step("Crisp", plantest.Takes(20), plantest.Oven(200, 2), plantest.In(1))
	b.Plan.Steps[i].Oven.Lo, b.Plan.Steps[i].Oven.Hi = 180, 220
	b.Plan.Steps[i].Length.Shortest = 15 * time.Minute
	b.Dish("Sauce", 1)
	b.Step("Reduce", plantest.Takes(10), plantest.Burner(plan.Large))
	return b
}

func TestWith(t *testing.T) {
	t.Parallel()
	hot, cold := 220.0, 100.0
	b := changed()
	at := b.At
	clock := func(p *plan.Plan, c int) string { return p.Asked(c).Format("15:04") }
	for _, c := range []struct {
		name   string
		change plan.Change
		look   func(p *plan.Plan) string
		want   string // what is seen, or the error
	}{
		{"serve-first", plan.Change{Kind: plan.ServeLater, Course: "Starter", By: 25 * time.Minute}, func(p *plan.Plan) string {
			return clock(p, 0) + " " + clock(p, 1) + " " + clock(p, 2) + " " + p.Kitchen.Cooks[0].Free[0].To.Format("15:04") + " " + p.Kitchen.Cooks[1].Free[0].To.Format("15:04")
		}, "19:25 19:55 20:25 20:45 23:00"},
		{"serve-later-one", plan.Change{Kind: plan.ServeLater, Course: "Main", By: 10 * time.Minute}, func(p *plan.Plan) string {
			return clock(p, 0) + " " + clock(p, 1) + " " + clock(p, 2)
		}, "19:00 19:40 20:10"},
		{"late_ok", plan.Change{Kind: plan.TolerateLate, Course: "Sweet", By: 10 * time.Minute}, func(p *plan.Plan) string {
			return p.Courses[2].LateOK.String() + " " + p.Kitchen.Cooks[0].Free[0].To.Format("15:04")
		}, "30m0s 20:30"},
		{"leave", plan.Change{Kind: plan.LeaveTable, Course: "Main", By: 4 * time.Minute}, func(p *plan.Plan) string { return p.Courses[1].SlipsAway.String() }, "4m0s"},
		{"keep", plan.Change{Kind: plan.KeepLonger, Step: "rice/wash", By: 10 * time.Minute}, func(p *plan.Plan) string { return p.Steps[0].Keeps.For.String() }, "30m0s"},
		{"keep-beyond-the-most", plan.Change{Kind: plan.KeepLonger, Step: "rice/wash", By: 40 * time.Minute}, nil, `change "keep": "rice/wash" keeps 50 min at most`},
		{"keep-limit", plan.Change{Kind: plan.KeepLonger, Step: "rice/stand", By: time.Minute}, nil, `change "keep": "rice/stand" keeps by a limit or freely, only a liking can be stretched`},
		{"wait", plan.Change{Kind: plan.WaitLonger, Step: "rice/stand", By: 5 * time.Minute}, func(p *plan.Plan) string { return p.Steps[2].Length.Longest.String() }, "20m0s"},
		{"wait-of-work", plan.Change{Kind: plan.WaitLonger, Step: "rice/wash", By: time.Minute}, nil, `change "wait": "rice/wash" is no wait`},
		{"heat", plan.Change{Kind: plan.BakeAt, Step: "rice/crisp", Temp: &hot, By: 10 * time.Minute}, func(p *plan.Plan) string {
			s := p.Steps[3]
			return plan.Metric.Temp(s.Oven.Lo) + " " + plan.Metric.Temp(s.Oven.At) + " " + plan.Metric.Temp(s.Oven.Hi) + " " + s.Length.Likely.String()
		}, "215 °C 220 °C 220 °C 15m0s"},
		{"heat-not-accepted", plan.Change{Kind: plan.BakeAt, Step: "rice/crisp", Temp: &cold}, nil, `change "heat": "rice/crisp" does not accept 100 °C`},
		{"cook", plan.Change{Kind: plan.GiveTo, Step: "rice/wash", Cook: "Tomas"}, func(p *plan.Plan) string { return p.Kitchen.Cooks[p.Steps[0].By].Name }, "Tomas"},
		{"cook-of-a-wait", plan.Change{Kind: plan.GiveTo, Step: "rice/stand", Cook: "Tomas"}, nil, `change "cook": "rice/stand" takes nobody from start to end`},
		{"put-in-oven", plan.Change{Kind: plan.PutOn, Step: "rice/crisp", Oven: "oven"}, func(p *plan.Plan) string { return p.Kitchen.Ovens[p.Steps[3].Oven.In].Name }, "oven"},
		{"put-on-burner", plan.Change{Kind: plan.PutOn, Step: "rice/boil", Burner: "large"}, func(p *plan.Plan) string { return p.Steps[1].Burner.Size.String() }, "large"},
		{"small-burner", plan.Change{Kind: plan.SmallerBurner, Step: "sauce/reduce", By: 10 * time.Minute}, func(p *plan.Plan) string {
			s := p.Steps[4]
			return s.Burner.Size.String() + " " + s.Length.Shortest.String() + " " + s.Length.Likely.String() + " " + s.Length.Longest.String()
		}, "small 20m0s 20m0s 20m0s"},
		{"small-burner-already", plan.Change{Kind: plan.SmallerBurner, Step: "rice/boil", By: time.Minute}, nil, `change "small_burner": "rice/boil" asks for no large burner`},
		{"put-in-vessel", plan.Change{Kind: plan.PutOn, Step: "rice/boil", Tool: "pan"}, func(p *plan.Plan) string {
			return p.Kitchen.Tools[p.Steps[1].Vessel.Tool].Name + " " + p.Kitchen.Tools[p.Steps[2].Vessel.Tool].Name
		}, "pan pan"},
		{"drop", plan.Change{Kind: plan.Drop, Step: "rice/boil"}, nil, `change "drop": what is dropped is for the run to say`},
		{"burner-fails", plan.Change{Kind: plan.BurnerFails, Burner: "large"}, func(p *plan.Plan) string {
			return strings.Repeat("o", p.Kitchen.Burners.Large) + " " + strings.Repeat("o", p.Kitchen.Burners.Small)
		}, "o oo"},
		{"oven-fails", plan.Change{Kind: plan.OvenFails, Oven: "top"}, func(p *plan.Plan) string {
			return plan.SpellShelves(p.Kitchen.Ovens[1].Shelves) + ", any: " + map[bool]string{true: "yes", false: "no"}[p.Steps[3].Oven.In < 0]
		}, "0 shelves, any: yes"},
		{"away", plan.Change{Kind: plan.NotThere, Cook: "Ines", From: at("18:00"), To: at("18:10")}, func(p *plan.Plan) string { return free(p.Kitchen.Cooks[0]) }, "14:00-18:00 18:10-20:20"},
		{"away-for-good", plan.Change{Kind: plan.NotThere, Cook: "Ines", From: at("18:00")}, func(p *plan.Plan) string { return free(p.Kitchen.Cooks[0]) }, "14:00-18:00"},
		{"unknown-step", plan.Change{Kind: plan.WaitLonger, Step: "rice/fry"}, nil, `change "wait": unknown step "rice/fry"`},
		{"unknown-kind", plan.Change{Kind: "sing"}, nil, `unknown change "sing"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p, before := &changed().Plan, &changed().Plan
			q, err := p.With(c.change)
			got := ""
			if err != nil {
				got = err.Error()
			} else {
				got = c.look(q)
			}
			if got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
			if !reflect.DeepEqual(p, before) {
				t.Error("the plan itself changed")
			}
		})
	}
}

func free(c plan.Cook) string {
	var out []string
	for _, w := range c.Free {
		out = append(out, w.From.Format("15:04")+"-"+w.To.Format("15:04"))
	}
	return strings.Join(out, " ")
}
