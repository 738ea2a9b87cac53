package heat

import (
	"math"

	"example.org/kettledrum/plan"
)

// Constants of the forecast, chosen on simulated roasts with an evaporating
// surface; no log of real roasts was to be had.
const (
	// effective is how far T_eff lies from the target towards the dial; anything
	// from 0.35 to 0.5 does about as well, the dial itself is a fifth too early.
	effective = 0.4
	// planSpread is the standard deviation of a plan's time, as a share of it.
	planSpread = 0.30
	// modelSpread is that of the fit, as a share of what remains: the surface dries,
	// the oven swings. modelFloor is the least, in minutes.
	modelSpread = 0.25
	modelFloor  = 1
	// within is the quantile of the normal distribution that leaves a tenth above.
	within = 1.2815516
	// plateau is the temperature inside from which on a roast may stall: at 65 to
	// 75 °C the wet surface gives off as much heat as it takes. Blonder, The Stall
	// (genuineideas.com, 2011).
	plateau plan.Celsius = 75
	// hotOven is an oven in which a roast that hardly moves has stalled, hardly the
	// slope in °C per minute that is hardly moving.
	hotOven plan.Celsius = 120
	hardly  float64      = 0.05
	// leastAbove is how far above the target the dial must be for a fit to say
	// anything: towards the target itself the time has no limit.
	leastAbove plan.Celsius = 10
	// fromBelow stands for the heat of a burner: its power is steady, so a pot warms
	// in nearly a straight line, as towards something very hot.
	fromBelow plan.Celsius = 1000
)

// Effective returns the temperature towards which the inside seems to go:
//
//	T_eff = target + 0.4·(dial − target)
func (r *Roast) Effective() plan.Celsius {
	if !r.HasOven {
		return r.Target + fromBelow
	}
	return r.Target + effective*(r.Oven-r.Target)
}

// Predict returns when the roast is done.
//
// With two or more usable readings, a weighted line through the last five gives
// what remains, r_f, and its spread sd_f; the plan gives r_p = planned − elapsed,
// at least nothing, and sd_p = 0.30·planned. Each counts by its inverse variance:
//
//	sd_f² = sd_fit² + (0.25 r_f)² + (1 min)²
//	r = (r_f/sd_f² + r_p/sd_p²)/(1/sd_f² + 1/sd_p²), sd = (1/sd_f² + 1/sd_p²)^−½
//
// and four cases of five lie in r ± 1.28 sd. Cost: O(n²) for n readings.
func Predict(r *Roast) Forecast {
	f := Forecast{Basis: FromPlan, At: r.Start}
	if n := len(r.Readings); n > 0 {
		f.At, f.Last = r.Readings[n-1].At, r.Readings[n-1].Temp
		if f.At.Before(r.Start) {
			f.At = r.Start
		}
		if f.Last >= r.Target {
			f.Basis, f.Done, f.Early, f.Late = Reached, f.At, f.At, f.At
			return f
		}
	}
	remains := math.Max(0, (r.Planned - f.At.Sub(r.Start)).Minutes())
	spread := planSpread * r.Planned.Minutes()
	if use, fell := r.usable(); fell {
		f.Basis = Stalled
	} else if l, ok := fit(use, r.Effective()); ok && (!r.HasOven || r.Oven-r.Target >= leastAbove) {
		last := use[len(use)-1]
		switch {
		case l.k <= 0, r.HasOven && r.Oven >= hotOven && l.slope(last.Temp) < hardly:
			f.Basis = Stalled
		case r.HasOven && r.Target > plateau && last.Temp < plateau:
			f.Basis = FromPlateau
		default:
			f.Basis = FromFit
			remains, spread = blend(r, &l, f.At.Sub(last.At).Minutes(), remains, spread)
		}
	}
	f.Done = f.At.Add(minutes(remains))
	f.Early = f.At.Add(minutes(math.Max(0, remains-within*spread)))
	f.Late = f.At.Add(minutes(remains + within*spread))
	return f
}

// blend weighs what the line says against the plan, both in minutes from a time
// that is ago after the line's last reading.
func blend(r *Roast, l *line, ago, planned, spread float64) (remains, sd float64) {
	byFit, sdFit := l.reach(r.Target)
	byFit -= ago
	v := sdFit*sdFit + modelSpread*modelSpread*byFit*byFit + modelFloor*modelFloor
	w, wp := 1/v, 0.0
	if spread > 0 {
		wp = 1 / (spread * spread)
	}
	// The last reading is below the target: it is not done this minute.
	return math.Max(1, (byFit*w+planned*wp)/(w+wp)), 1 / math.Sqrt(w+wp)
}
