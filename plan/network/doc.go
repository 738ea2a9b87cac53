// Package network works on time points and the least distances between them:
// a simple temporal network. It knows what no point stands for.
//
// A point is a number from 0; an arc (i, j, w) says x[j] − x[i] ≥ w, in ticks
// whose length the caller chooses. A greatest distance is an arc back with a
// negative weight: x[j] − x[i] ≤ m is the arc (j, i, −m). A fixed distance is
// both.
//
// # Flow
//
//	New, AddPoint, AddArc ─▶ Earliest(lower bounds) ─▶ Raise one bound ─▶ …
//	                         Latest(upper bounds)   ─▶ Lower one bound ─▶ …
//
// # Reading order
//
// network.go holds the arcs, order.go brings the points into the order in
// which they are best visited, propagate.go is the one algorithm, written for
// one direction of time and run on the mirrored network for the other, cycle.go
// is the one thing that can go wrong.
//
// Sources: R. Dechter, I. Meiri and J. Pearl, Temporal constraint networks,
// Artificial Intelligence 49 (1991); K. Neumann, C. Schwindt and
// J. Zimmermann, Project Scheduling with Time Windows and Scarce Resources,
// 2003, chapter 1 (both from memory).
package network
