// Package solve finds times for activities that compete for resources. It
// knows no kitchen word, no clock and no file; one tick is what the caller says.
//
// # The problem
//
// Activity i has a start sᵢ and an end eᵢ, whole ticks, with
//
//	minᵢ ≤ eᵢ − sᵢ ≤ maxᵢ                    (fixed length when both are equal)
//	x_to − x_from ≥ w                        for each hard lag; w < 0: a greatest lag
//	Σ amounts of the uses that cover t ≤ capacity(t)   for each resource and tick
//	stays of a state resource that overlap have a value in common; others are at
//	least the changeover between their ranges apart, and somebody is there to set it
//
// A use runs from any point to any point plus offsets, on one of several options.
// The objective is a vector compared level by level: broken relaxable lags first,
// then the penalties of soft lags by level, then settings of state resources, then
// a late first start of the day, then calls spread over the day, then everything
// as late as it may.
//
// # The method
//
// Serial generation backwards in time (place.go) makes a first answer in well
// under a millisecond: activities are put down one by one, from the last to the
// first, each as late as lags and resources allow. A model of the problem in the
// language of package lcg (model.go, stays.go, pooled.go) begins from there: lazy
// clause generation minimises level after level and proves each bound, a sum by
// what cannot all be at its least (cores.go), then by bisection (solve.go). What the model says is decoded and costed by the code of
// serial generation (decode.go), so nothing of the model is believed; the model is
// a relaxation of that, so its bounds are bounds. Last, everything is moved as late
// as it may be alone (late.go), and out of spans with many calls (spread.go): these
// two are searches of the neighbourhood, without a proof. An answer of the model that cannot be worked out is
// looked for again among those that surely can.
//
// From a hundred activities on, where that is not soon proven best, the model of
// the whole comes down slowly, and from four hundred it is slow to make. There some
// activities are let go, the others hold (region.go), the same model of that region
// is solved, and what is better is kept (neighbourhood.go).
//
// Where the model proves that nothing is whole, a seeded local search over the
// order of serial generation looks for the least broken answer (search.go), and
// Conflict (conflict.go) names a least set of guards that clash.
//
// Problems without milestones and states, projects, begin from forward serial
// generation (forward.go).
//
// The same problem and budget give the same answer: budgets are counted in
// conflicts, and nothing here reads a clock but through ctx, which only cuts off.
//
// Sources: package lcg's; Kolisch and Hartmann, Experimental investigation of
// heuristics for resource-constrained project scheduling, EJOR 174 (2006) (serial
// generation, justification); Neumann, Schwindt and Zimmermann, Project Scheduling
// with Time Windows and Scarce Resources, 2003 (greatest lags); Joslin and Clements,
// Squeaky wheel optimization, JAIR 10 (1999). From memory.
//
// # Reading order
//
// problem.go, solve.go, cores.go, meal.go, model.go, stays.go, decode.go, conflict.go,
// region.go, neighbourhood.go; then bounds.go, profile.go, state.go, place.go, search.go.
package solve
