package network

import (
	"fmt"
	"slices"
	"strings"
)

// CycleError says that arcs close a cycle of positive length: no times keep
// them all, whatever the bounds.
type CycleError struct {
	// Arcs are those on the cycle, head to tail: each starts where the one
	// before it ends, and the last ends where the first starts.
	Arcs []Arc
}

// Excess returns the length of the cycle: by how many ticks its arcs clash.
func (e *CycleError) Excess() int64 {
	var sum int64
	for _, a := range e.Arcs {
		sum += a.Weight
	}
	return sum
}

// Error names at most six points of the cycle.
func (e *CycleError) Error() string {
	const most = 6
	var b strings.Builder
	for i, a := range e.Arcs {
		if i == most {
			fmt.Fprintf(&b, " and %d more", len(e.Arcs)-most)
			break
		}
		fmt.Fprintf(&b, " %d", a.From)
	}
	return fmt.Sprintf("points%s are to be before themselves by %d ticks, a cycle may not be longer than 0", b.String(), e.Excess())
}

// turned tells a cycle found in the mirrored network in the arcs as they were
// added.
func turned(err error) error {
	cycle, ok := err.(*CycleError)
	if !ok {
		return err
	}
	slices.Reverse(cycle.Arcs)
	for i, a := range cycle.Arcs {
		cycle.Arcs[i].From, cycle.Arcs[i].To = a.To, a.From
	}
	return cycle
}
