package heat

import (
	"math"
	"testing"
	"time"

	"example.org/kettledrum/plan"
)

var put = time.Date(2026, 10, 17, 17, 0, 0, 0, time.UTC)

// every is readings so many minutes apart, the first after from minutes.
func every(from, apart float64, temps ...plan.Celsius) []Reading {
	var out []Reading
	for i, t := range temps {
		out = append(out, Reading{At: put.Add(minutes(from + float64(i)*apart)), Temp: t})
	}
	return out
}

// Computed with SciPy from the formulas of fit and reach.
func TestLineCheckValues(t *testing.T) {
	t.Parallel()
	exact := func(n float64) plan.Celsius { return plan.Celsius(110 - 130*math.Exp(-0.008*n)) }
	for _, c := range []struct {
		name         string
		readings     []Reading
		effective    plan.Celsius
		k, r, spread float64 // spread 0: not given
	}{
		{"two", every(40, 20, 20, 30), 160, 0.003705, 62.8287, 0},
		{"two-rounded", every(50, 10, 21, 28), 98.2, 0.009505, 56.0656, 12.5063},
		{"five-nearly-exact", every(40, 10, 15.6, 22.9, 29.6, 35.7, 41.5), 110, 0.008003, 32.1061, 2.8108},
		{"five-to-80", every(40, 10, 14, 21, 28, 35, 41), 98.2, 0.009662, 34.4952, 2.8372},
		{"five-to-90", every(50, 10, 21, 28, 35, 41, 46), 98.2, 0.009894, 23.5298, 2.5030},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			l, ok := fit(c.readings, c.effective)
			if !ok {
				t.Fatal("no line")
			}
			r, sd := l.reach(57)
			digits(t, "k", l.k, c.k, 6)
			digits(t, "remaining", r, c.r, 4)
			if c.spread > 0 {
				digits(t, "sd_fit", sd, c.spread, 4)
			}
		})
	}
	// Three of them tend to 110, by Aitken's rule.
	a, b, c := exact(40), exact(60), exact(80)
	digits(t, "at 40 min", float64(a), 15.6006, 4)
	digits(t, "at 60 min", float64(b), 29.5582, 4)
	digits(t, "at 80 min", float64(c), 41.4520, 4)
	digits(t, "Aitken", float64((a*c-b*b)/(a+c-2*b)), 110, 4)
	l, ok := fit(every(40, 10, exact(40), exact(50), exact(60), exact(70), exact(80)), 110)
	if r, _ := l.reach(57); !ok || math.Abs(r+80-112.1553) > 0.00005 {
		t.Errorf("exact readings: done after %.4f min, want 112.1553", r+80)
	}
}

// The plan's 105 minutes and the line of five-to-80, together.
func TestBlendCheckValues(t *testing.T) {
	t.Parallel()
	r := &Roast{Start: put, Planned: 105 * time.Minute, Target: 57, Oven: 160, HasOven: true}
	r.Readings = every(40, 10, 14, 21, 28, 35, 41)
	use, _ := r.usable()
	l, _ := fit(use, r.Effective())
	remains, sd := blend(r, &l, 0, 25, 31.5)
	digits(t, "T_eff", float64(r.Effective()), 98.2, 4)
	digits(t, "remaining", remains, 33.7588, 4)
	digits(t, "sd", sd, 8.7721, 4)
	f := Predict(r)
	after := func(at time.Time) float64 { return at.Sub(f.At).Minutes() }
	if f.Basis != FromFit {
		t.Errorf("forecast from %s, want %s", f.Basis, FromFit)
	}
	digits(t, "done", after(f.Done), 33.7588, 4)
	digits(t, "early", after(f.Early), 22.52, 2)
	digits(t, "late", after(f.Late), 45.00, 2)
}

// digits compares to so many printed digits after the point.
func digits(t *testing.T, what string, got, want float64, n int) {
	t.Helper()
	if math.Abs(got-want) > 0.5000001*math.Pow10(-n) {
		t.Errorf("%s: got %.*f, want %.*f", what, n+2, got, n, want)
	}
}
