//go:build othersolver

package planner_test

import (
	"math"
	"testing"
	"time"

	"example.org/kettledrum/plan"
)

// otherHeat gives the minutes that the oven takes between two temperatures:
//
//	up    τ·ln((T_max − a)/(T_max − b))      T_max 300 °C, τ from the stated preheat
//	down  τ·ln((a − T_room)/(b − T_room))    τ from the stated cooling
//
// which is T = T_a + (T_max − T_a)(1 − e^(−t/τ)) solved for t between two points
// of one curve, and Newton's law of cooling likewise. Source: first-order lag,
// any textbook of heat transfer (Incropera and DeWitt, chapter 5); that full power
// ends at 300 °C is the design's. Checked in TestOtherHeat.
type otherHeat struct{ room, up, down float64 }

const otherFullPower = 300

func newOtherHeat(o plan.Oven, room plan.Celsius) otherHeat {
	r := float64(room)
	return otherHeat{
		room: r,
		up:   o.Preheat.Takes.Minutes() / (math.Log(otherFullPower-r) - math.Log(otherFullPower-float64(o.Preheat.To))),
		down: o.Cools.Takes.Minutes() / (math.Log(float64(o.Cools.From)-r) - math.Log(float64(o.Cools.To)-r)),
	}
}

// potential returns the time that has passed, but for a constant, when the oven on
// its way up, or down, is at a temperature.
func (h otherHeat) potential(up bool, temp float64) float64 {
	if up {
		return -h.up * math.Log(otherFullPower-temp)
	}
	return -h.down * math.Log(temp-h.room)
}

// temperature is the inverse of potential.
func (h otherHeat) temperature(up bool, potential float64) float64 {
	if up {
		return otherFullPower - math.Exp(-potential/h.up)
	}
	return h.room + math.Exp(-potential/h.down)
}

// between returns the minutes from one temperature to another.
func (h otherHeat) between(from, to float64) float64 {
	up := to > from
	return h.potential(up, to) - h.potential(up, from)
}

// The oven's clock against values worked out from the formula elsewhere: room
// 20 °C, 180 °C in 12 min (computed with SciPy), and a cooling of 60 min.
func TestOtherHeat(t *testing.T) {
	t.Parallel()
	h := newOtherHeat(plan.Oven{
		Preheat: plan.Ramp{Takes: 12 * time.Minute, To: 180},
		Cools:   plan.Ramp{Takes: time.Duration(13.388614 * float64(time.Minute)), From: 220, To: 180},
	}, 20)
	for _, c := range []struct{ from, to, want float64 }{
		{20, 160, 9.82}, {20, 180, 12}, {20, 200, 14.58}, {20, 220, 17.74}, {180, 220, 5.74},
		{220, 180, 13.39}, {220, 150, 25.85}, {180, 120, 28.20},
	} {
		if got := h.between(c.from, c.to); math.Abs(got-c.want) > 0.01 {
			t.Errorf("from %v to %v °C in %.3f min, want %.2f", c.from, c.to, got, c.want)
		}
		if got := h.temperature(c.to > c.from, h.potential(c.to > c.from, c.to)); math.Abs(got-c.to) > 1e-6 {
			t.Errorf("temperature(potential(%v)) = %v", c.to, got)
		}
	}
}
