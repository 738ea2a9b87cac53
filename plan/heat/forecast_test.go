package heat_test

import (
	"fmt"
	"math"
	"slices"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
)

var in = time.Date(2026, 10, 17, 17, 0, 0, 0, time.UTC)

// wet is a computed roast: a cylinder of 10 cm at 160 °C with a wet surface, from
// 5 °C, its core each 10 minutes. It is at 57 °C after 114.11 minutes.
var wet = []plan.Celsius{5.01, 5.68, 8.81, 14.32, 21.07, 28.08, 34.78, 40.92, 46.40, 51.22, 55.43}

const wetDone = 114.11

// wetRoast is the computed roast read up to a minute, to the whole degree.
func wetRoast(upTo float64) *heat.Roast {
	r := &heat.Roast{Start: in, Planned: 105 * time.Minute, Target: 57, Oven: 160, HasOven: true}
	for i, t := range wet {
		if m := 10 * float64(i+1); m <= upTo {
			r.Readings = append(r.Readings, heat.Reading{At: after(m), Temp: plan.Celsius(math.Round(float64(t)))})
		}
	}
	return r
}

func after(m float64) time.Time { return in.Add(minutes(m)) }

// spoil changes what was read at a minute.
func spoil(r *heat.Roast, minute float64, by plan.Celsius) {
	for i := range r.Readings {
		if r.Readings[i].At.Equal(after(minute)) {
			r.Readings[i].Temp += by
		}
	}
}

func TestForecastOfWetRoast(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		share  float64
		within float64
		spoil  func(*heat.Roast)
	}{
		{"as-read-60", 0.6, 10, nil},
		{"as-read-80", 0.8, 5, nil},
		{"door-60", 0.6, 10, func(r *heat.Roast) { spoil(r, 50, -5) }},
		{"door-last-60", 0.6, 10, func(r *heat.Roast) { spoil(r, 60, -10) }},
		{"door-80", 0.8, 5, func(r *heat.Roast) { spoil(r, 80, -6) }},
		{"door-last-80", 0.8, 5, func(r *heat.Roast) { spoil(r, 90, -6) }},
		{"probe-hotter-60", 0.6, 10, func(r *heat.Roast) { spoil(r, 50, 15) }},
		{"probe-hotter-80", 0.8, 5, func(r *heat.Roast) { spoil(r, 70, 9) }},
		{"probe-hotter-last-80", 0.8, 5, func(r *heat.Roast) { spoil(r, 90, 6) }},
		{"probe-colder-80", 0.8, 5, func(r *heat.Roast) { spoil(r, 70, -9) }},
		{"door-and-probe-80", 0.8, 5, func(r *heat.Roast) { spoil(r, 60, 12); spoil(r, 80, -5) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			r := wetRoast(c.share * wetDone)
			if c.spoil != nil {
				before := slices.Clone(r.Readings)
				if c.spoil(r); slices.Equal(before, r.Readings) {
					t.Fatal("nothing spoilt")
				}
			}
			f := heat.Predict(r)
			got := f.Done.Sub(in).Minutes()
			if math.Abs(got-wetDone) > c.within {
				t.Errorf("from %s: done after %.2f min, want %.2f ± %g", f.Basis, got, wetDone, c.within)
			}
			if truth := after(wetDone); truth.Before(f.Early) || truth.After(f.Late) {
				t.Errorf("interval %.1f to %.1f min does not hold %.2f", f.Early.Sub(in).Minutes(), f.Late.Sub(in).Minutes(), wetDone)
			}
		})
	}
}

// A probe that was pushed deeper reads 6 °C less from then on: a few readings later
// the forecast is back.
func TestForecastAfterProbeMovedForGood(t *testing.T) {
	t.Parallel()
	r := wetRoast(100)
	for i := range r.Readings {
		if r.Readings[i].At.Before(after(65)) {
			r.Readings[i].Temp += 6
		}
	}
	got := heat.Predict(r).Done.Sub(in).Minutes()
	if math.Abs(got-wetDone) > 5 {
		t.Errorf("done after %.2f min, want %.2f ± 5", got, wetDone)
	}
}

func TestBasis(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		edit func(*heat.Roast)
		want heat.Basis
	}{
		{"nothing-read", func(r *heat.Roast) { r.Readings = nil }, heat.FromPlan},
		{"still-cold", func(r *heat.Roast) { r.Readings = r.Readings[:3] }, heat.FromPlan},
		{"one-usable", func(r *heat.Roast) { r.Readings = r.Readings[:4] }, heat.FromPlan},
		{"two-usable", func(r *heat.Roast) { r.Readings = r.Readings[:5] }, heat.FromFit},
		{"at-target", func(r *heat.Roast) { r.Target = 51 }, heat.Reached},
		{"above-target", func(r *heat.Roast) { r.Target = 40 }, heat.Reached},
		{"dial-turned", func(r *heat.Roast) { r.Turned = after(95) }, heat.FromPlan},
		{"dial-turned-earlier", func(r *heat.Roast) { r.Turned = after(85) }, heat.FromFit},
		{"at-the-target's-heat", func(r *heat.Roast) { r.Oven = 60 }, heat.FromPlan},
		{"pulled-meat", func(r *heat.Roast) { r.Target = 90 }, heat.FromPlateau},
		{"stalled", func(r *heat.Roast) {
			r.Target = 90
			read(r, 120, 66, 66, 67, 66, 67)
		}, heat.Stalled},
		{"slow-smoker", func(r *heat.Roast) { // 0.03 °C a minute is what 107 °C gives
			r.Oven, r.Target = 107, 60
			read(r, 120, 52, 52.3, 52.6, 52.9, 53.2)
		}, heat.FromFit},
		{"beyond-plateau", func(r *heat.Roast) {
			r.Target = 90
			read(r, 120, 76, 78, 80, 82, 84)
		}, heat.FromFit},
		{"oven-dead", func(r *heat.Roast) { read(r, 120, 46, 43, 40) }, heat.Stalled},
		{"on-a-burner", func(r *heat.Roast) { r.HasOven = false; r.Target = 90 }, heat.FromFit},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			r := wetRoast(100)
			c.edit(r)
			f := heat.Predict(r)
			if f.Basis != c.want {
				t.Errorf("from %s, want %s", f.Basis, c.want)
			}
			if f.Early.Before(f.At) || f.Done.Before(f.Early) || f.Late.Before(f.Done) {
				t.Errorf("out of order: read %v, early %v, done %v, late %v", f.At, f.Early, f.Done, f.Late)
			}
			if (c.want == heat.FromPlan || c.want == heat.FromPlateau) && f.At.Before(after(105)) && !f.Done.Equal(after(105)) {
				t.Errorf("done %v, want the plan's %v", f.Done, after(105))
			}
		})
	}
}

// read adds readings, ten minutes apart.
func read(r *heat.Roast, from float64, temps ...plan.Celsius) {
	for i, t := range temps {
		r.Readings = append(r.Readings, heat.Reading{At: after(from + 10*float64(i)), Temp: t})
	}
}

// A pot at steady power warms in a straight line: 15 to 55 °C in 20 minutes is 95
// after 40 (t = m·c·ΔT/P).
func TestForecastOfPot(t *testing.T) {
	t.Parallel()
	r := &heat.Roast{Start: in, Planned: 40 * time.Minute, Target: 95}
	read(r, 0, 15, 35, 55)
	f := heat.Predict(r)
	if got := f.Done.Sub(in).Minutes(); math.Abs(got-40) > 1 {
		t.Errorf("done after %.2f min, want 40 ± 1", got)
	}
}

func TestRestRise(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		took               time.Duration
		oven, pulled, want plan.Celsius
		peak               time.Duration
	}{
		{15 * time.Minute, 180, 54, 2, 5 * time.Minute},
		{45 * time.Minute, 180, 54, 3.5, 15 * time.Minute},
		{105 * time.Minute, 160, 57, 5.5, 22 * time.Minute},
		{4 * time.Hour, 160, 68, 7.5, 30 * time.Minute},
		{105 * time.Minute, 220, 57, 7.5, 22 * time.Minute},
		{105 * time.Minute, 110, 57, 3.5, 22 * time.Minute},
		{15 * time.Minute, 110, 57, 1, 5 * time.Minute},
		{4 * time.Hour, 160, 88, 0, 0},
	} {
		t.Run(fmt.Sprintf("%v-%v-%v", c.took, c.oven, c.pulled), func(t *testing.T) {
			t.Parallel()
			rise, peak := heat.RestRise(c.took, c.oven, c.pulled)
			if rise != c.want || peak != c.peak {
				t.Errorf("got %v after %v, want %v after %v", rise, peak, c.want, c.peak)
			}
		})
	}
}
