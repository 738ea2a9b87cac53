package heat_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
	"example.org/kettledrum/plan/heat/heattest"
)

// simulated is a roast as the kitchen sees it: what a probe reads each few
// minutes, and when it is truly done.
type simulated struct {
	roast *heat.Roast
	done  float64 // minutes
}

// draw makes a roast of a random shape, size, meat, oven and surface, of which the
// plan is off by a quarter as a rule. The probe errs by half a degree and shows
// whole ones, each 5 or 10 minutes. Meat: Singh, Food Technology 36, 1982, as in Singh
// and Heldman, table 4.2; heat by convection and radiation as of a still oven to one
// with a mild fan (radiation computed for a surface of 70 °C in 180 °C, emissivity 0.9). Wetness 0 is for a
// surface that gives off no vapour.
func draw(rng *rand.Rand, wetness float64) simulated {
	between := func(a, b float64) float64 { return a + (b-a)*rng.Float64() }
	shape := heattest.Shape(rng.IntN(3))
	length := between(0.025, 0.075)
	if shape == heattest.Slab {
		length = between(0.02, 0.045)
	}
	meat := heattest.Meat{Diffusivity: between(1.15e-7, 1.45e-7), Conductivity: between(0.45, 0.50)}
	initial, target := between(3, 10), between(50, 71)
	w := heattest.Wet{Oven: math.Round(between(11, 22)) * 10, Convection: between(5, 12), Radiation: between(10, 14),
		Wetness: wetness * between(0.05, 0.4), Humidity: between(0.01, 0.08)}
	const dt, perMinute = 15.0, 4
	body := heattest.NewSolid(shape, length, meat, initial, 40)
	apart := 5 * (1 + rng.IntN(2))
	s := simulated{roast: &heat.Roast{Start: in, Target: plan.Celsius(target), Oven: plan.Celsius(w.Oven), HasOven: true}}
	for m := 1; ; m++ {
		before := body.Core()
		for range perMinute {
			body.Step(dt, w.Flux)
		}
		if body.Core() >= target {
			s.done = float64(m-1) + (target-before)/(body.Core()-before)
			break
		}
		if m == 8*60 {
			return draw(rng, wetness) // nobody plans a dinner so
		}
		if m%apart == 0 {
			read(s.roast, float64(m), plan.Celsius(math.Round(body.Core()+0.5*rng.NormFloat64())))
		}
	}
	off := 1 + 0.25*rng.NormFloat64()
	s.roast.Planned = time.Duration(math.Round(s.done*min(2, max(0.5, off)))) * time.Minute
	return s
}

// at is the roast as it is known after a share of the true time.
func (s *simulated) at(share float64) *heat.Roast {
	r := *s.roast
	n := 0
	for n < len(r.Readings) && r.Readings[n].At.Sub(in).Minutes() <= share*s.done {
		n++
	}
	r.Readings = r.Readings[:n]
	return &r
}

// Of 200 roasts, simulated by differences in space and time, the interval holds the truth
// in 75 to 95 of 100 cases, wherever in the roast it is asked for, be the surface wet
// or dry; and the forecast beats the plan. Other seeds give 76 to 94 for wet surfaces.
func TestCoverage(t *testing.T) {
	t.Parallel()
	for name, wetness := range map[string]float64{"wet": 1, "dry": 0} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			rng := rand.New(rand.NewPCG(2026, 80))
			var roasts []simulated
			for range 200 {
				roasts = append(roasts, draw(rng, wetness))
			}
			for _, share := range []float64{0.5, 0.6, 0.7, 0.8, 0.9} {
				covers(t, roasts, share)
			}
		})
	}
}

// covers asks for the forecast of each roast after a share of its true time.
func covers(t *testing.T, roasts []simulated, share float64) {
	t.Helper()
	n, held, err, byPlan := 0, 0, 0.0, 0.0
	for _, s := range roasts {
		f := heat.Predict(s.at(share))
		if f.Basis != heat.FromFit {
			continue
		}
		n++
		err += math.Abs(f.Done.Sub(in).Minutes() - s.done)
		byPlan += math.Abs(s.roast.Planned.Minutes() - s.done)
		if truth := after(s.done); !truth.Before(f.Early) && !truth.After(f.Late) {
			held++
		}
	}
	hold := 100 * float64(held) / float64(n)
	t.Logf("at %.0f %%: %d with a fit, held %.1f %%, mean error %.1f min, of the plan %.1f min",
		share*100, n, hold, err/float64(n), byPlan/float64(n))
	if n < len(roasts)/3 {
		t.Errorf("at %.0f %%: %d of %d roasts have a fit", share*100, n, len(roasts))
	}
	if hold < 75 || hold > 95 {
		t.Errorf("at %.0f %%: the interval holds %.1f %%, want 75 to 95", share*100, hold)
	}
	if err >= byPlan {
		t.Errorf("at %.0f %%: mean error %.1f min, the plan alone %.1f", share*100, err/float64(n), byPlan/float64(n))
	}
}
