package session_test

import (
	"fmt"
	"math/rand/v2"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
)

// made is a small dinner by seed: two courses of a few dishes, one or two cooks,
// with something of all that a remedy may give up.
func made(seed uint64, dishes int) *plantest.Builder {
	rng := rand.New(rand.NewPCG(seed, 5))
	chance := func(percent int) bool { return rng.IntN(100) < percent }
	b := plantest.New("2026-10-17 19:00")
	cooks := []int{b.Cook("Ines", "15:00-23:00")}
	if chance(60) {
		cooks = append(cooks, b.Cook("Tomas", "16:00-23:00"))
	}
	if chance(50) {
		b.Sits(0)
	}
	if chance(40) {
		b.Oven("small oven")
	}
	pots := []int{b.Tool("big pot", 1), b.Tool("casserole", 1)}
	courses := []int{b.Course("Starter", 0, 25*time.Minute, 10*time.Minute), b.Course("Main", 45*time.Minute, 30*time.Minute, 15*time.Minute)}
	for d := range dishes {
		b.Dish(fmt.Sprintf("Dish %d", d+1), courses[min(1, rng.IntN(3))])
		b.Plan.Dishes[len(b.Plan.Dishes)-1].Optional = chance(15)
		steps := 1 + rng.IntN(3)
		for k := range steps {
			var options []plantest.Option
			minutes, liked := 6+rng.IntN(20), 5+rng.IntN(15)
			switch {
			case chance(20):
				options = append(options, plantest.Limit(20+rng.IntN(30)))
			default:
				options = append(options, plantest.Keeps(liked, liked+10+rng.IntN(25)))
			}
			switch {
			case k > 0 && chance(35):
				at := []plan.Celsius{160, 180, 220}[rng.IntN(3)]
				options = append(options, plantest.Oven(at, 2), func(b *plantest.Builder, s *plan.Step) {
					if chance(40) {
						s.Oven.Lo, s.Oven.Hi = at-10, at+20
					}
					if chance(60) {
						s.Oven.In = 0
					}
				})
				minutes += 10
			case chance(25):
				options = append(options, plantest.Burner(plan.Large), plantest.Vessel(pots[rng.IntN(2)]))
			default:
				if len(cooks) > 1 && chance(40) {
					options = append(options, plantest.By(cooks[rng.IntN(2)]))
				}
				if k == steps-1 && chance(15) {
					options = append(options, func(_ *plantest.Builder, s *plan.Step) { s.Optional = true })
				}
			}
			length := plantest.Takes(minutes)
			length.Shortest = length.Likely * 3 / 4
			b.Step(fmt.Sprintf("Work %d", k+1), length, options...)
		}
	}
	return b
}
