package verify

import (
	"math"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// fullPower is where an oven that heats with all it has would end.
const fullPower = 300.0

// curve is the temperature of one oven over time, of the first order: it heats
// at full power or cools by itself until it is where the dial stands, and stays
// there.
//
//	heating  T = 300 − (300 − T₀)·e^(−t/τ_h)    τ_h from the stated preheat
//	cooling  T = room + (T₀ − room)·e^(−t/τ_c)  τ_c from the stated cooling
//
// Units: °C, minutes. Source: first-order lag; 300 °C by convention.
type curve struct {
	room, heats, cools float64
	legs               []leg // by time; before the first the oven is cold
}

// leg begins where the dial is turned, at a temperature, and goes to another.
type leg struct {
	at       time.Duration
	from, to float64
}

func newCurve(o plan.Oven, room plan.Celsius) *curve {
	r := float64(room)
	return &curve{
		room:  r,
		heats: o.Preheat.Takes.Minutes() / math.Log((fullPower-r)/(fullPower-float64(o.Preheat.To))),
		cools: o.Cools.Takes.Minutes() / math.Log((float64(o.Cools.From)-r)/(float64(o.Cools.To)-r)),
	}
}

// turn adds a setting, no sooner than the last one.
func (v *curve) turn(at time.Duration, to float64) {
	v.legs = append(v.legs, leg{at: at, from: v.temp(at), to: to})
}

// after returns the temperature after so long on the way from one to another.
func (v *curve) after(from, to float64, d time.Duration) float64 {
	if to > from {
		return min(to, fullPower-(fullPower-from)*math.Exp(-d.Minutes()/v.heats))
	}
	return max(to, v.room+(from-v.room)*math.Exp(-d.Minutes()/v.cools))
}

// leg returns the last leg that has begun; false before the first.
func (v *curve) leg(at time.Duration) (leg, bool) {
	for _, l := range slices.Backward(v.legs) {
		if l.at <= at {
			return l, true
		}
	}
	return leg{}, false
}

// temp returns the temperature at a moment.
func (v *curve) temp(at time.Duration) float64 {
	l, ok := v.leg(at)
	if !ok {
		return v.room
	}
	return v.after(l.from, l.to, at-l.at)
}

// curve returns that of one oven under all its settings, past ones too.
func (c *checker) curve(oven int) *curve {
	v := newCurve(c.p.Kitchen.Ovens[oven], c.p.Kitchen.Room)
	for _, s := range c.sets(oven) {
		to := float64(s.To)
		if s.Off {
			to = v.room
		}
		v.turn(c.off(s.At), to)
	}
	return v
}

// sets returns the settings of one oven by time.
func (c *checker) sets(oven int) []plan.OvenSet {
	var out []plan.OvenSet
	for _, s := range c.t.Sets {
		if s.Oven == oven {
			out = append(out, s)
		}
	}
	slices.SortStableFunc(out, func(a, b plan.OvenSet) int { return a.At.Compare(b.At) })
	return out
}
