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
// then the penalties of soft lags by level, then settings of state resources,
// then everything as late as it may.
//
// # The method
//
// Serial generation backwards in time: activities are placed one by one, from
// the last to the first, each as late as its bounds and the resources allow;
// bounds are kept by propagating the lags after each placement. Which comes next
// is a priority, and a seeded local search over priorities and due dates looks
// for the best vector. The method finds good timetables fast and proves nothing:
// its answers are Feasible or Broken, never Optimal or Infeasible.
//
// Sources: Kolisch and Hartmann, Experimental investigation of heuristics for
// resource-constrained project scheduling, EJOR 174 (2006) (serial generation,
// priority sampling); Neumann, Schwindt and Zimmermann, Project Scheduling with
// Time Windows and Scarce Resources, 2003 (greatest lags); Joslin and Clements,
// Squeaky wheel optimization, JAIR 10 (1999). From memory.
//
// # Reading order
//
// problem.go, bounds.go, profile.go, state.go, place.go, search.go.
package solve
