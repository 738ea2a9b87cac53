package verify

import (
	"math"
	"testing"
	"time"

	"example.org/kettledrum/plan"
)

// Check values of the first-order oven. Source: computed by hand from
// T = T_max − (T_max − T₀)·e^(−t/τ), constants as stated: room 20 °C, T_max 300,
// 180 °C reached in 12 min; cooling with τ 60 min. Minutes to two places.
func TestCurveAgainstComputedValues(t *testing.T) {
	t.Parallel()
	v := newCurve(plan.Oven{
		Preheat: plan.Ramp{Takes: 12 * time.Minute, To: 180},
		Cools:   plan.Ramp{Takes: time.Duration(13.3886 * float64(time.Minute)), From: 220, To: 180},
	}, 20)
	if math.Abs(v.heats-14.163) > 0.001 || math.Abs(v.cools-60) > 0.001 {
		t.Errorf("time constants %.3f and %.3f, want 14.163 and 60", v.heats, v.cools)
	}
	for _, tt := range []struct {
		name     string
		from, to float64
		minutes  float64
	}{
		{"20-to-160", 20, 160, 9.82},
		{"20-to-180", 20, 180, 12},
		{"20-to-200", 20, 200, 14.58},
		{"20-to-220", 20, 220, 17.74},
		{"180-to-220", 180, 220, 5.74},
		{"220-to-180", 220, 180, 13.39},
		{"220-to-150", 220, 150, 25.85},
		{"180-to-120", 180, 120, 28.20},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			// It is there within half of the last place told, and not before.
			at := func(minutes float64) float64 {
				return v.after(tt.from, tt.to, time.Duration(minutes*float64(time.Minute)))
			}
			if got := at(tt.minutes + 0.006); got != tt.to {
				t.Errorf("after %.2f min %.3f °C, want %.0f", tt.minutes, got, tt.to)
			}
			if got := at(tt.minutes - 0.006); got == tt.to {
				t.Errorf("%.0f °C are reached before %.2f min", tt.to, tt.minutes)
			}
		})
	}
}

func TestCurveTurnedOnTheWay(t *testing.T) {
	t.Parallel()
	v := newCurve(plan.Oven{
		Preheat: plan.Ramp{Takes: 12 * time.Minute, To: 180},
		Cools:   plan.Ramp{Takes: 14 * time.Minute, From: 220, To: 180},
	}, 20)
	v.turn(0, 250)
	v.turn(12*time.Minute, 20) // off at 180
	v.turn(40*time.Minute, 100)
	for _, tt := range []struct {
		minute int
		want   float64
	}{{-5, 20}, {0, 20}, {12, 180}, {26, 20 + 160*math.Exp(-14/v.cools)}, {40, 20 + 160*math.Exp(-28/v.cools)}, {300, 100}} {
		if got := v.temp(time.Duration(tt.minute) * time.Minute); math.Abs(got-tt.want) > 0.001 {
			t.Errorf("minute %d: %.3f °C, want %.3f", tt.minute, got, tt.want)
		}
	}
}
