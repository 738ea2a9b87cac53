package network

import (
	"fmt"
	"math"
)

// Bounds of a point that has none. An earliest time that nothing bounds is
// NoLower, a latest time NoUpper.
const (
	NoLower int64 = math.MinInt64
	NoUpper int64 = math.MaxInt64
)

// Arc says that To is at least Weight ticks after From.
type Arc struct {
	From, To int
	Weight   int64
	Tag      int // the caller's own; 0 will do
}

// Network is a set of points and arcs. The zero Network is empty and ready for
// use. It keeps working memory between calls: not for several goroutines at once.
type Network struct {
	points int
	arcs   []Arc
	// forward and backward are each built on first use after a change; nil before.
	forward, backward *side
}

// New returns a network of so many points, numbered from 0, without arcs.
func New(points int) *Network {
	const usual = 4 // arcs a point, so that few networks grow twice
	return &Network{points: points, arcs: make([]Arc, 0, usual*points)}
}

// AddPoint adds a point and returns its number.
func (n *Network) AddPoint() int {
	n.forward, n.backward = nil, nil
	n.points++
	return n.points - 1
}

// AddArc adds x[to] − x[from] ≥ weight and returns the number of the arc. The
// tag is the caller's own and comes back in a CycleError; 0 will do. It panics
// on a point that is not there.
func (n *Network) AddArc(from, to int, weight int64, tag int) int {
	if from < 0 || to < 0 || from >= n.points || to >= n.points {
		panic(fmt.Sprintf("network: arc %d to %d, but points are 0 to %d", from, to, n.points-1))
	}
	n.forward, n.backward = nil, nil
	n.arcs = append(n.arcs, Arc{From: from, To: to, Weight: weight, Tag: tag})
	return len(n.arcs) - 1
}

// Points returns the number of points.
func (n *Network) Points() int { return n.points }

// Arcs returns all arcs in the order in which they were added. The slice is
// the network's own: read only.
func (n *Network) Arcs() []Arc { return n.arcs }
