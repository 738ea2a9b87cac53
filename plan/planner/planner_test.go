package planner

import (
	"context"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/solve"
	"pgregory.net/rapid"
)

// drawDinner draws a dinner of one to four dishes with everything that a step
// may ask for.
func drawDinner(t *rapid.T) *plan.Plan {
	b := plantest.New("2026-10-17 19:00")
	b.Cook("Ines", "09:00-23:00")
	if rapid.Bool().Draw(t, "helper") {
		b.Cook("Tomas", "16:00-23:00")
	}
	b.Tool("pan", 1)
	b.Tool("board", rapid.IntRange(1, 2).Draw(t, "boards"))
	courses := rapid.IntRange(1, 3).Draw(t, "courses")
	for c := range courses {
		b.Course(string(rune('A'+c)), time.Duration(c)*45*time.Minute, 25*time.Minute, 20*time.Minute)
	}
	for d := range rapid.IntRange(1, 4).Draw(t, "dishes") {
		b.Dish(string(rune('P'+d)), rapid.IntRange(0, courses-1).Draw(t, "course"))
		for s := range rapid.IntRange(1, 5).Draw(t, "steps") {
			drawStep(t, b, s)
		}
	}
	return &b.Plan
}

func drawStep(t *rapid.T, b *plantest.Builder, s int) {
	do := string(rune('a' + s))
	switch rapid.IntRange(0, 5).Draw(t, "kind") {
	case 0:
		temp := plan.Celsius(rapid.SampledFrom([]int{150, 165, 170, 200, 230}).Draw(t, "at"))
		b.Step(do, plantest.Takes(rapid.IntRange(1, 90).Draw(t, "bake")), plantest.Oven(temp, rapid.IntRange(1, 4).Draw(t, "space")), plantest.Keeps(15, 60))
	case 1:
		size := rapid.SampledFrom([]plan.BurnerSize{plan.AnyBurner, plan.Small, plan.Large}).Draw(t, "size")
		b.Step(do, plantest.Takes(rapid.IntRange(1, 40).Draw(t, "boil")), plantest.Burner(size), plantest.Uses(0), plantest.Keeps(10, 45))
	case 2:
		least := rapid.IntRange(5, 30).Draw(t, "least")
		b.Step(do, plantest.Waits(least, least+rapid.IntRange(5, 90).Draw(t, "more")))
	case 3:
		b.Step(do, plantest.Takes(rapid.IntRange(1, 20).Draw(t, "tied")), plantest.Hands(plan.Tied), plantest.Keeps(30, 120))
	default:
		b.Step(do, plantest.Takes(rapid.IntRange(1, 25).Draw(t, "busy")), plantest.Uses(1), plantest.Keeps(60, 180))
	}
}

// drawEither draws a dinner of the one kind or the other.
func drawEither(t *rapid.T) *plan.Plan {
	if rapid.Bool().Draw(t, "house") {
		return drawHouse(t)
	}
	return drawDinner(t)
}

// drawHouse draws a dinner with everything that a plan file can say: days ahead,
// cooks at table, vessels, washing, cold places, warm keeps, doors, grills,
// reminders, chores.
func drawHouse(t *rapid.T) *plan.Plan {
	b := plantest.New("2026-10-17 19:00")
	ines := b.Cook("Ines", "09:00-23:00")
	b.Plan.Kitchen.Cooks[ines].Free = append([]plan.Window{{From: b.At("19:00").AddDate(0, 0, -1), To: b.At("21:00").AddDate(0, 0, -1)}}, b.Plan.Kitchen.Cooks[ines].Free...)
	if rapid.Bool().Draw(t, "sits") {
		b.Sits(ines)
	}
	b.Cook("Tomas", "15:00-23:00")
	pan, pot := b.Tool("pan", 1), b.Tool("pot", 1)
	b.Wash(pan, rapid.IntRange(0, 10).Draw(t, "wash"))
	b.Cold("fridge", 2)
	courses := rapid.IntRange(1, 2).Draw(t, "courses")
	for c := range courses {
		b.Course(string(rune('A'+c)), time.Duration(c)*45*time.Minute, 25*time.Minute, 20*time.Minute)
		if rapid.Bool().Draw(t, "slips") {
			b.Plan.Courses[c].SlipsAway = 4 * time.Minute
		}
	}
	for d := range rapid.IntRange(1, 3).Draw(t, "dishes") {
		b.Dish(string(rune('P'+d)), rapid.IntRange(0, courses-1).Draw(t, "course"))
		for s := range rapid.IntRange(1, 4).Draw(t, "steps") {
			do := string(rune('a' + s))
			switch rapid.IntRange(0, 8).Draw(t, "kind") {
			case 0:
				b.Step(do, plantest.Takes(rapid.IntRange(10, 60).Draw(t, "bake")), plantest.Oven(180, 2), plantest.Warm(40, -1, 60, 100, 2))
			case 1:
				b.Step(do, plantest.Takes(rapid.IntRange(10, 60).Draw(t, "shut")), plantest.Oven(180, 2), plantest.Shut, plantest.Keeps(30, 60))
			case 2:
				b.Step(do, plantest.Takes(rapid.IntRange(2, 10).Draw(t, "grill")), plantest.Grill(2), plantest.Keeps(10, 30))
			case 3:
				b.Step(do, plantest.Takes(rapid.IntRange(5, 30).Draw(t, "vessel")), plantest.Burner(plan.AnyBurner), plantest.Vessel(pot), plantest.Keeps(30, 90))
			case 4:
				b.Step(do, plantest.Takes(rapid.IntRange(5, 20).Draw(t, "ahead")), plantest.Chilled(24*60, "fridge", 1))
			case 5:
				least := rapid.IntRange(30, 90).Draw(t, "chill")
				b.Step(do, plantest.Waits(least, 24*60), plantest.Stands("fridge", 1))
			case 6:
				b.Step(do, plantest.Takes(rapid.IntRange(30, 90).Draw(t, "roast")), plantest.Oven(160, 2), plantest.Remind(plan.Every, 20), plantest.Keeps(30, 60))
			default:
				b.Step(do, plantest.Takes(rapid.IntRange(2, 20).Draw(t, "busy")), plantest.Uses(pan), plantest.Keeps(60, 180))
			}
		}
	}
	if rapid.Bool().Draw(t, "chore") {
		b.Chore("lay", 0, plan.Chore{After: -1, Ahead: 6 * time.Hour, HasAhead: true}, plantest.Takes(20))
	}
	return &b.Plan
}

func TestEngineAndVerifierAgreeOnTheHouse(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := drawHouse(t)
		j := translate(p, facts{})
		r := solve.Solve(context.Background(), j.prob, effort{conflicts: 300, tries: 60}.options())
		agree(t, p, r, j.read(r))
	})
}

// The engine and the verifier know nothing of each other. What the engine calls
// feasible the verifier finds whole; what it calls broken has a break to name.
func TestEngineAndVerifierAgree(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := drawDinner(t)
		j := translate(p, facts{})
		r := solve.Solve(context.Background(), j.prob, effort{conflicts: 300, tries: 60}.options())
		tt := j.read(r)
		agree(t, p, r, tt)
	})
}

func agree(t *rapid.T, p *plan.Plan, r *solve.Result, tt *plan.Timetable) {
	t.Helper()
	hard := 0
	for _, b := range tt.Breaks {
		if b.Kind.Hard() {
			hard++
		}
	}
	switch {
	case r.Status == solve.Feasible && hard > 0:
		t.Errorf("the engine found it feasible, the verifier not: %v\n%s", tt.Breaks, dump(p, tt))
	case r.Status == solve.Broken && hard == 0:
		t.Errorf("the engine counts %d broken, the verifier nothing\n%s", r.Cost.Broken, dump(p, tt))
	}
}
