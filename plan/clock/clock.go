// Package clock hands out the time. The domain never reads a clock: commands
// make one and hand it inward.
package clock

import "time"

// Clock tells the time. Instants carry no monotonic reading, for that stands
// still while a laptop sleeps.
type Clock interface {
	Now() time.Time
}

// System is the wall clock.
type System struct{}

// Now returns the present instant.
func (System) Now() time.Time { return time.Now().Round(0) }
