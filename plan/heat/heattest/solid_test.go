package heattest_test

import (
	"fmt"
	"math"
	"testing"

	"example.org/kettledrum/plan/heat/heattest"
)

// Differences agree with the series: the core, and when it is done. The surfaces at
// 60 minutes are computed with SciPy.
func TestSolidAgreesWithSeries(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name    string
		dry     dry
		surface float64 // °C at 60 minutes, 0 for none
	}{
		{"sphere", dryA, 112.2809}, {"cylinder", dryB, 105.1380}, {"slab", dryC, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			exact, flux := c.dry.series(60), heattest.Dry(c.dry.h, c.dry.oven)
			body := heattest.NewSolid(c.dry.shape, c.dry.length, beef, 5, 200)
			for m := 1; m <= 60; m++ {
				for range 12 {
					body.Step(5, flux)
				}
				if m%10 == 0 {
					near(t, fmt.Sprintf("core at %d min", m), body.Core(), exact.Core(float64(m)*60), 0.002)
				}
			}
			if c.surface > 0 {
				near(t, "surface at 60 min", body.Surface(), c.surface, 0.002)
			}
			body = heattest.NewSolid(c.dry.shape, c.dry.length, beef, 5, 200)
			got, ok := body.Until(57, 5, 4*3600, flux)
			if !ok {
				t.Fatal("never at 57 °C")
			}
			near(t, "seconds to 57 °C", got, exact.Until(57), 0.1)
		})
	}
}

// A coarse body, as many roasts are simulated with, is off by little.
func TestCoarseSolid(t *testing.T) {
	t.Parallel()
	body := heattest.NewSolid(dryB.shape, dryB.length, beef, 5, 40)
	got, _ := body.Until(57, 15, 4*3600, heattest.Dry(dryB.h, dryB.oven))
	near(t, "minutes to 57 °C", got/60, 83.5612, 0.05)
}

// A wholly wet surface stays near the wet bulb. Computed psychrometric temperatures
// for a Lewis number of 0.85 and the humidities named, at which heat in and vapour out
// balance; they come from the ratio of humidities, not of densities, which differ by
// some degrees; the first row is of a psychrometric chart: 25 °C and half saturated (from
// memory: wet bulb 17.9).
func TestWetSurface(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ oven, humidity, want float64 }{
		{25, 0.0099, 17.9},
		{107, 0.008, 34.5}, {107, 0.03, 42.3}, {107, 0.1, 56.2},
		{160, 0.008, 41.5}, {160, 0.03, 47.5}, {160, 0.1, 59.2},
		{200, 0.008, 45.5}, {200, 0.03, 50.7}, {200, 0.1, 61.2},
	} {
		t.Run(fmt.Sprintf("%v-%v", c.oven, c.humidity), func(t *testing.T) {
			t.Parallel()
			w := heattest.Wet{Oven: c.oven, Convection: 10, Wetness: 1, Humidity: c.humidity}
			lo, hi := 0.0, 100.0
			for range 60 {
				if mid := (lo + hi) / 2; w.Flux(mid) > 0 {
					lo = mid
				} else {
					hi = mid
				}
			}
			near(t, "surface", lo, c.want, 5)
		})
	}
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.Abs(got-want) > tol || math.IsNaN(got) {
		t.Errorf("%s: got %.4f, want %.4f ± %g", what, got, want, tol)
	}
}
