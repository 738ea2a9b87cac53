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

// least plans a dinner and returns its minutes late and over likings, and whether
// they are proven to be least.
func least(p *plan.Plan) (r *solve.Result, minutes int64, proven bool) {
	opt := effort{conflicts: 3000, tries: 60}.options()
	opt.Proven = func(level int) { proven = proven || level == 0 }
	r = solve.Solve(context.Background(), translate(p, facts{}).prob, opt)
	return r, r.Cost.Soft[0], proven && r.Cost.Broken == 0
}

// drawStove draws a dinner that wants the burners: some boil a while, and what is
// boiled does not keep long.
func drawStove(t *rapid.T) *plan.Plan {
	b := plantest.New("2026-10-17 19:00")
	b.Cook("Ines", "17:00-23:00")
	b.Cook("Tomas", "17:00-23:00")
	courses := rapid.IntRange(1, 2).Draw(t, "courses")
	for c := range courses {
		b.Course(string(rune('A'+c)), time.Duration(c)*45*time.Minute, 25*time.Minute, 60*time.Minute)
	}
	for d := range rapid.IntRange(2, 5).Draw(t, "dishes") {
		b.Dish(string(rune('P'+d)), rapid.IntRange(0, courses-1).Draw(t, "course"))
		for s := range rapid.IntRange(1, 2).Draw(t, "boils") {
			size := rapid.SampledFrom([]plan.BurnerSize{plan.AnyBurner, plan.Small, plan.Large}).Draw(t, "size")
			b.Step(string(rune('a'+s)), plantest.Takes(rapid.IntRange(5, 40).Draw(t, "boil")), plantest.Burner(size), plantest.Keeps(5, 30))
		}
		b.Step("z", plantest.Takes(rapid.IntRange(2, 8).Draw(t, "plate")), plantest.Keeps(5, 15))
	}
	return &b.Plan
}

// One more burner never makes a dinner later, nor impossible.
func TestOneMoreBurner(t *testing.T) {
	t.Parallel()
	draws := 0
	rapid.Check(t, func(t *rapid.T) {
		if draws++; draws%oneIn > 0 {
			return
		}
		kinds := map[string]func(*rapid.T) *plan.Plan{"stove": drawStove, "dinner": drawDinner, "house": drawHouse}
		p := kinds[rapid.SampledFrom([]string{"stove", "stove", "dinner", "house"}).Draw(t, "kind")](t)
		p.Kitchen.Burners = plan.Burners{Large: 1, Small: rapid.IntRange(0, 1).Draw(t, "small")}
		q := *p
		if rapid.Bool().Draw(t, "more") {
			q.Kitchen.Burners.Large++
		} else {
			q.Kitchen.Burners.Small++
		}
		a, fewer, proven := least(p)
		b, more, provenMore := least(&q)
		if proven && provenMore && more > fewer {
			t.Errorf("%+v burners: %d minutes late or over likings; %+v: %d", p.Kitchen.Burners, fewer, q.Kitchen.Burners, more)
		}
		if a.Cost.Broken == 0 && b.Impossible {
			t.Errorf("whole with %+v burners, called impossible with %+v", p.Kitchen.Burners, q.Kitchen.Burners)
		}
	})
}
