package clocktest

import (
	"sync"
	"time"
)

// Manual is a clock that stands still until it is turned. It may be used from
// several goroutines.
type Manual struct {
	mu  sync.Mutex
	now time.Time
}

// New returns a clock that shows start.
func New(start time.Time) *Manual { return &Manual{now: start.Round(0)} }

// Now returns what the clock shows.
func (m *Manual) Now() time.Time {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.now
}

// Set makes the clock show t, be it earlier or later.
func (m *Manual) Set(t time.Time) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.now = t.Round(0)
}

// Advance turns the clock on by d and returns what it then shows.
func (m *Manual) Advance(d time.Duration) time.Time {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.now = m.now.Add(d)
	return m.now
}

// Jump turns the clock on to an instant, never back, and returns what it then
// shows.
func (m *Manual) Jump(to time.Time) time.Time {
	m.mu.Lock()
	defer m.mu.Unlock()
	if to.After(m.now) {
		m.now = to.Round(0)
	}
	return m.now
}
