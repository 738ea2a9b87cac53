package network

import (
	"fmt"
	"slices"
)

// Earliest returns the earliest time of every point.
//
//	x[j] = max(lower[j], x[i] + w) over all arcs (i, j, w): the longest paths
//
// Shape: lower has one entry per point, NoLower for none; nil means 0 for every
// point. A point that no bound reaches stays at NoLower. Unit: ticks, as the
// bounds and weights; their sums must fit into 64 bits.
// Errors: *CycleError when arcs close a cycle of positive length that a bound reaches.
// Cost: O(V + A) without cycles, where the order is kept from call to call; in
// each strongly connected component of V' points and A' arcs at most
// O(V'·A'), mostly two or three passes. Source: Neumann, Schwindt and
// Zimmermann, 2003, chapter 1 (from memory).
func (n *Network) Earliest(lower []int64) ([]int64, error) {
	n.prepare(&n.forward, false)
	x := make([]int64, n.points)
	n.mustFit(lower)
	copy(x, lower)
	if err := n.forward.all(x); err != nil {
		return nil, err
	}
	return x, nil
}

// Latest returns the latest time of every point.
//
//	x[i] = min(upper[i], x[j] − w) over all arcs (i, j, w)
//
// Shape: upper has one entry per point, NoUpper for none; nil means 0 for every
// point. A point that no bound reaches stays at NoUpper. Unit, errors, cost and
// source as Earliest.
func (n *Network) Latest(upper []int64) ([]int64, error) {
	n.prepare(&n.backward, true)
	x := make([]int64, n.points)
	n.mustFit(upper)
	for i, u := range upper {
		x[i] = mirror(u)
	}
	if err := n.backward.all(x); err != nil {
		return nil, turned(err)
	}
	for i := range x {
		x[i] = mirror(x[i])
	}
	return x, nil
}

// Raise raises the lower bound of one point, and in x, which Earliest (or
// Raise) made, all times that must follow.
//
// It returns the points that moved, the first of them the point itself; none
// if its time was no earlier anyway.
// Errors: *CycleError as Earliest, possible only where x held NoLower; x is then
// as it was.
// Cost: that of the moved points and their arcs, and one look at each point
// between them in the order.
func (n *Network) Raise(x []int64, point int, to int64) ([]int, error) {
	n.prepare(&n.forward, false)
	n.mustFit(x)
	return n.forward.raise(x, point, to)
}

// Lower lowers the upper bound of one point, and in x, which Latest (or Lower)
// made, all times that must follow. Returns, errors and cost as Raise.
func (n *Network) Lower(x []int64, point int, to int64) ([]int, error) {
	n.prepare(&n.backward, true)
	n.mustFit(x)
	for i := range x {
		x[i] = mirror(x[i])
	}
	moved, err := n.backward.raise(x, point, mirror(to))
	for i := range x {
		x[i] = mirror(x[i])
	}
	return moved, turned(err)
}

func (n *Network) prepare(s **side, backward bool) {
	if *s == nil {
		*s = newSide(n.points, n.arcs, backward)
	}
}

func (n *Network) mustFit(x []int64) {
	if x != nil && len(x) != n.points {
		panic(fmt.Sprintf("network: %d times for %d points", len(x), n.points))
	}
}

// mirror negates a time; no bound stays no bound.
func mirror(t int64) int64 {
	switch t {
	case NoUpper:
		return NoLower
	case NoLower:
		return NoUpper
	}
	return -t
}

// all propagates from every point that has a bound.
func (s *side) all(x []int64) error {
	for i, t := range x {
		s.dirty[i] = t != NoLower
	}
	if err := s.run(x, 0, len(x)-1); err != nil {
		return err
	}
	s.moved()
	return nil
}

// raise propagates from one point, and takes everything back on an error.
func (s *side) raise(x []int64, point int, to int64) ([]int, error) {
	if to <= x[point] {
		return nil, nil
	}
	s.move(x, point, to, -1)
	if err := s.run(x, s.begin[s.place[point]], s.place[point]); err != nil {
		return nil, err
	}
	return append([]int{point}, s.moved()...), nil
}

// run looks at the leaving arcs of every dirty point, component by component
// from the one that begins at place k to the one that holds place last, or
// further where a point moves there. Inside a component it makes passes until
// nothing moves.
func (s *side) run(x []int64, k, last int) error {
	for k <= last {
		end := s.until[k]
		for again := true; again; {
			again = false
			for at := k; at < end; at++ {
				v := s.order[at]
				if !s.dirty[v] {
					continue
				}
				s.dirty[v] = false
				for _, a := range s.out[s.first[v]:s.first[v+1]] {
					arc := &s.arcs[a]
					if t := x[v] + arc.Weight; t > x[arc.To] {
						s.move(x, arc.To, t, a)
						last = max(last, s.place[arc.To])
						again = again || s.place[arc.To] <= at
					}
				}
			}
			if again {
				if cycle := s.cycle(k, end); cycle != nil {
					s.undo(x)
					return &CycleError{Arcs: cycle}
				}
			}
		}
		k = end
	}
	return nil
}

// move sets a point's time, because of an arc, and notes how to take it back.
func (s *side) move(x []int64, point int, to int64, arc int) {
	s.moves = append(s.moves, move{point: point, from: x[point]})
	x[point], s.dirty[point], s.parent[point] = to, true, arc
}

// moved returns the points that some arc moved, each once, and forgets.
func (s *side) moved() []int {
	points := make([]int, 0, len(s.moves))
	for _, m := range s.moves {
		if s.parent[m.point] >= 0 {
			s.parent[m.point] = -1
			points = append(points, m.point)
		}
	}
	s.moves = s.moves[:0]
	return points
}

// undo takes all moves back.
func (s *side) undo(x []int64) {
	for _, m := range slices.Backward(s.moves) {
		x[m.point], s.parent[m.point] = m.from, -1
	}
	clear(s.dirty)
	s.moves = s.moves[:0]
}

// cycle returns the arcs of a cycle among the parents of the points at places
// k to end−1, or nil. Such a cycle is of positive length, and where there is a
// cycle of positive length, one shows up among the parents after at most as
// many passes as there are points. Source: Cherkassky and Goldberg,
// Negative-cycle detection algorithms, Math. Programming 85 (1999), from memory.
func (s *side) cycle(k, end int) []Arc {
	for _, v := range s.order[k:end] {
		s.mark[v] = 0
	}
	for walk, v := range s.order[k:end] {
		for s.mark[v] == 0 {
			s.mark[v] = walk + 1
			if s.parent[v] < 0 {
				break
			}
			if u := s.arcs[s.parent[v]].From; s.place[u] >= k {
				v = u
			}
		}
		if s.mark[v] != walk+1 || s.parent[v] < 0 || s.place[s.arcs[s.parent[v]].From] < k {
			continue
		}
		var arcs []Arc
		for u := v; len(arcs) == 0 || u != v; {
			a := s.arcs[s.parent[u]]
			arcs = append(arcs, a)
			u = a.From
		}
		slices.Reverse(arcs)
		return arcs
	}
	return nil
}
