package clock_test

import (
	"sync"
	"testing"
	"time"

	"example.org/kettledrum/plan/clock"
	"example.org/kettledrum/plan/clock/clocktest"
)

var (
	wall  = time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)
	start = time.Date(2026, 10, 17, 17, 0, 0, 0, time.UTC)
)

func TestFast(t *testing.T) {
	t.Parallel()
	type fixture struct {
		base *clocktest.Manual
		fast *clock.Fast
	}
	tests := []struct {
		name string
		do   func(f fixture)
		want time.Duration // after start
	}{
		{"stands-at-start", func(fixture) {}, 0},
		{"runs-60-times", func(f fixture) { f.base.Advance(10 * time.Second) }, 10 * time.Minute},
		{"runs-on-after-reading", func(f fixture) {
			for range 10 {
				f.base.Advance(time.Second)
				f.fast.Now()
			}
		}, 10 * time.Minute},
		{"paused", func(f fixture) { f.fast.Pause(); f.base.Advance(time.Hour) }, 0},
		{"resumed", func(f fixture) {
			f.base.Advance(time.Second)
			f.fast.Pause()
			f.base.Advance(time.Hour)
			f.fast.Resume()
			f.base.Advance(time.Second)
		}, 2 * time.Minute},
		{"slower", func(f fixture) {
			f.base.Advance(time.Second)
			f.fast.SetSpeed(1)
			f.base.Advance(time.Second)
		}, time.Minute + time.Second},
		{"below-zero-stands", func(f fixture) { f.fast.SetSpeed(-3); f.base.Advance(time.Hour) }, 0},
		{"base-set-back", func(f fixture) {
			f.base.Advance(time.Second)
			f.fast.Now()
			f.base.Set(wall.Add(-time.Hour))
			f.fast.Now()
			f.base.Advance(time.Second)
		}, 2 * time.Minute},
		{"jump", func(f fixture) { f.fast.Jump(start.Add(time.Hour)); f.base.Advance(time.Second) }, time.Hour + time.Minute},
		{"jump-paused", func(f fixture) {
			f.fast.Pause()
			f.fast.Jump(start.Add(time.Hour))
			f.base.Advance(time.Second)
		}, time.Hour},
		{"no-jump-back", func(f fixture) { f.base.Advance(time.Second); f.fast.Jump(start) }, time.Minute},
		{"holds", func(f fixture) { f.fast.HoldAt(start.Add(time.Minute)); f.base.Advance(time.Hour) }, time.Minute},
		{"holds-a-jump", func(f fixture) { f.fast.HoldAt(start.Add(time.Minute)); f.fast.Jump(start.Add(time.Hour)) }, time.Minute},
		{"released-does-not-catch-up", func(f fixture) {
			f.fast.HoldAt(start.Add(time.Minute))
			f.base.Advance(time.Hour)
			f.fast.HoldAt(time.Time{})
			f.base.Advance(time.Second)
		}, 2 * time.Minute},
		{"next-limit-does-not-catch-up", func(f fixture) {
			f.fast.HoldAt(start.Add(time.Minute))
			f.base.Advance(time.Hour)
			f.fast.HoldAt(start.Add(time.Hour))
			f.base.Advance(time.Second)
		}, 2 * time.Minute},
		{"limit-that-has-passed", func(f fixture) {
			f.base.Advance(time.Second)
			f.fast.HoldAt(start.Add(-time.Hour))
			f.base.Advance(time.Second)
		}, time.Minute},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			base := clocktest.New(wall)
			f := fixture{base, clock.NewFast(base, start, 60)}
			tt.do(f)
			if got := f.fast.Now().Sub(start); got != tt.want {
				t.Errorf("the clock shows start + %v, want + %v", got, tt.want)
			}
		})
	}
}

func TestFastHeld(t *testing.T) {
	t.Parallel()
	base := clocktest.New(wall)
	f := clock.NewFast(base, start, 60)
	f.HoldAt(start.Add(time.Minute))
	if f.Held() {
		t.Error("held before the limit")
	}
	base.Advance(time.Second)
	if !f.Held() {
		t.Error("not held at the limit")
	}
	f.HoldAt(time.Time{})
	if f.Held() {
		t.Error("held after release")
	}
}

// TestFastTogether is for the race detector; whoever reads, time never goes back.
func TestFastTogether(t *testing.T) {
	t.Parallel()
	base := clocktest.New(wall)
	f := clock.NewFast(base, start, 60)
	var wg sync.WaitGroup
	for range 4 {
		wg.Go(func() {
			last := start
			for i := range 200 {
				base.Advance(time.Millisecond)
				if i%10 == 0 {
					f.SetSpeed(float64(i))
				}
				now := f.Now()
				if now.Before(last) {
					t.Errorf("the clock went back from %v to %v", last, now)
				}
				last = now
			}
		})
	}
	wg.Wait()
}

func TestSystemHasNoMonotonicReading(t *testing.T) {
	t.Parallel()
	if now := (clock.System{}).Now(); now != now.Round(0) {
		t.Errorf("%v carries a monotonic reading", now)
	}
}
