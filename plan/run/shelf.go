package run

import "sync/atomic"

// shelf is the array behind the events of the states of one run. Each state has the
// events up to its own; whoever is the first to tell more of the newest puts that
// after them, without a copy of a long evening. Who tells something else of the same
// state (a remedy that is tried) gets a shelf of their own.
type shelf struct {
	events []Event      // as long as there is room
	used   atomic.Int64 // how many are taken
}

// with returns the events of s and one more, and the shelf that they are on. It may
// be called from several goroutines.
func (s *State) with(e Event) ([]Event, *shelf) {
	n := len(s.Events)
	to := s.shelf
	on := to != nil && n > 0 && n < len(to.events) && &s.Events[0] == &to.events[0]
	if !on || !to.used.CompareAndSwap(int64(n), int64(n)+1) {
		to = &shelf{events: make([]Event, n+n/4+8)}
		copy(to.events, s.Events)
		to.used.Store(int64(n) + 1)
	}
	to.events[n] = e
	return to.events[: n+1 : n+1], to
}
