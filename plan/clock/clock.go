package clock

import "time"

// Clock tells the time. Instants carry no monotonic reading, for that stands
// still while a laptop sleeps.
type Clock interface {
	Now() time.Time
}

// Jumper is a clock that can be moved ahead.
type Jumper interface {
	Clock
	// Jump moves the clock ahead to an instant and returns where it then
	// stands. It never moves back.
	Jump(to time.Time) time.Time
}

// System is the wall clock.
type System struct{}

// Now returns the present instant.
func (System) Now() time.Time { return time.Now().Round(0) }
