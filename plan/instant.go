package plan

import "time"

// Earlier returns the earlier of two instants.
func Earlier(a, b time.Time) time.Time {
	if a.Before(b) {
		return a
	}
	return b
}

// Later returns the later of two instants.
func Later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}
