package planner

import (
	"context"
	"testing"

	"example.org/kettledrum/plan"
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

// One more burner never makes a dinner later, nor impossible.
func TestOneMoreBurner(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		draw := drawDinner
		if rapid.Bool().Draw(t, "house") {
			draw = drawHouse
		}
		p := draw(t)
		p.Kitchen.Burners = plan.Burners{Large: rapid.IntRange(0, 1).Draw(t, "large"), Small: 1}
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
