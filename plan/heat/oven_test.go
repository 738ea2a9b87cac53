package heat_test

import (
	"math"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
)

// Computed values: the first-order model solved by hand for T_room 20, T_max
// 300 and 180 °C reached in 12 minutes; cooling with a constant of 60 minutes.
func TestOvenCheckValues(t *testing.T) {
	t.Parallel()
	up := heat.Of(plan.Oven{
		Preheat: plan.Ramp{Takes: 12 * time.Minute, To: 180},
		Cools:   plan.Ramp{Takes: minutes(13.3886), From: 220, To: 180},
	}, 20)
	near(t, "tau up", up.TauUp, 14.163, 0.001)
	near(t, "tau down", up.TauDown, 60, 0.01)
	for _, c := range []struct {
		name     string
		from, to plan.Celsius
		want     float64
	}{
		{"preheat-160", 20, 160, 9.82},
		{"preheat-200", 20, 200, 14.58},
		{"preheat-220", 20, 220, 17.74},
		{"up-180-220", 180, 220, 5.74},
		{"down-220-180", 220, 180, 13.39},
		{"down-220-150", 220, 150, 25.85},
		{"down-180-120", 180, 120, 28.20},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			d := up.Change(c.from, c.to)
			near(t, "minutes", d.Minutes(), c.want, 0.01)
			near(t, "temperature after", float64(up.After(c.from, c.to, false, d)), float64(c.to), 1e-6)
		})
	}
}

func TestOvenEdges(t *testing.T) {
	t.Parallel()
	o := heat.Of(plan.Oven{Preheat: plan.DefaultPreheat, Cools: plan.DefaultCools}, plan.DefaultRoom)
	if got := o.Heating(20, 300); got != heat.Never {
		t.Errorf("heating to full power takes %v, want never", got)
	}
	if got := o.Cooling(200, plan.DefaultRoom); got != heat.Never {
		t.Errorf("cooling to the room takes %v, want never", got)
	}
	if got := o.Between(170, 180, 175, 185); got != 0 {
		t.Errorf("overlapping ranges: %v, want 0", got)
	}
	if got, want := o.Between(170, 180, 200, 210), o.Heating(180, 200); got != want {
		t.Errorf("up: %v, want %v", got, want)
	}
	if got, want := o.Between(200, 210, 170, 180), o.Cooling(200, 180); got != want {
		t.Errorf("down: %v, want %v", got, want)
	}
	if got := o.After(200, 0, true, 100*time.Hour); math.Abs(float64(got-o.Room)) > 0.01 {
		t.Errorf("switched off for days: %v, want the room's %v", got, o.Room)
	}
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.Abs(got-want) > tol {
		t.Errorf("%s: got %.4f, want %.4f ± %g", what, got, want, tol)
	}
}

func minutes(m float64) time.Duration { return time.Duration(m * float64(time.Minute)) }
