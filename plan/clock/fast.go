package clock

import (
	"sync"
	"time"
)

// Fast is a clock that starts at any instant and runs at any speed over another
// clock. It never runs backward, whatever the other one does. All its methods
// may be called from several goroutines.
type Fast struct {
	base Clock

	mu     sync.Mutex
	at     time.Time // what this clock showed …
	seen   time.Time // … when the other one showed this
	speed  float64
	paused bool
	limit  time.Time // zero: none
}

// NewFast returns a clock that shows start now and runs speed times as fast as
// base. A speed below zero counts as zero: the clock stands until it jumps.
func NewFast(base Clock, start time.Time, speed float64) *Fast {
	return &Fast{base: base, at: start.Round(0), seen: base.Now(), speed: max(0, speed)}
}

// Now returns the present instant of this clock.
func (f *Fast) Now() time.Time {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.advance()
}

// advance carries the clock on to the present. Every change of how the clock
// runs does this first, so that what has passed is counted as it ran then, and
// time spent at a limit is not made up for afterwards.
func (f *Fast) advance() time.Time {
	now := f.base.Now()
	passed := max(0, now.Sub(f.seen))
	f.seen = now
	if f.paused {
		return f.at
	}
	f.at = f.within(f.at.Add(time.Duration(float64(passed) * f.speed)))
	return f.at
}

// within returns t, or the limit where t lies beyond it, but nothing before
// the present.
func (f *Fast) within(t time.Time) time.Time {
	if !f.limit.IsZero() && t.After(f.limit) {
		t = f.limit
	}
	if t.Before(f.at) {
		return f.at
	}
	return t
}

// Pause stops the clock until Resume.
func (f *Fast) Pause() { f.change(func() { f.paused = true }) }

// Resume lets a paused clock run on from where it stands.
func (f *Fast) Resume() { f.change(func() { f.paused = false }) }

// Paused reports whether the clock was stopped by Pause.
func (f *Fast) Paused() bool {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.paused
}

// SetSpeed changes how many times as fast as the other clock this one runs.
func (f *Fast) SetSpeed(speed float64) { f.change(func() { f.speed = max(0, speed) }) }

// Speed returns how many times as fast as the other clock this one runs.
func (f *Fast) Speed() float64 {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.speed
}

// HoldAt sets an instant beyond which the clock neither runs nor jumps. The
// zero time releases it; it then runs on from where it stood. An instant that
// has passed holds the clock where it is.
func (f *Fast) HoldAt(t time.Time) { f.change(func() { f.limit = t.Round(0) }) }

// Held reports whether the clock stands at the limit that HoldAt set.
func (f *Fast) Held() bool {
	f.mu.Lock()
	defer f.mu.Unlock()
	now := f.advance()
	return !f.limit.IsZero() && !now.Before(f.limit)
}

// Jump moves the clock ahead, paused or not, as far as its limit allows, and
// returns where it then stands.
func (f *Fast) Jump(to time.Time) time.Time {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.advance()
	f.at = f.within(to.Round(0))
	return f.at
}

func (f *Fast) change(set func()) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.advance()
	set()
}
