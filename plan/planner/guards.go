package planner

import "example.org/kettledrum/plan/solve"

// guarded is a fact of the plan that could be otherwise, or a means of the
// kitchen: what a conflict is told in.
type guarded struct {
	what  guardKind
	index int // of the step, course, cook, tool, …
	from  int // of a gap: the step before
}

type guardKind int

// Facts first, in the order in which a conflict rather leaves them out: what the
// kitchen has, who is there, how the guests sit, then what the dishes ask for.
const (
	thePlaces guardKind = iota
	theTools
	theBurners
	theShelves
	theHours
	theSeated
	theGap
	atOnce
	theKeep
	theServe
	theMinds // the means begin here
	theHands
	theOven
)

// guardOf returns the guard of a fact or means for solve: the same for the same.
func (j *job) guardOf(g guarded) int {
	for i, have := range j.guards {
		if have == g {
			return i + 1
		}
	}
	j.guards = append(j.guards, g)
	j.prob.Guards = append(j.prob.Guards, solve.Guard{Means: g.what >= theMinds})
	return len(j.guards)
}

// guardHouse names what the kitchen has before all else: a conflict leaves out
// first what stands first.
func (j *job) guardHouse() {
	k := &j.p.Kitchen
	add := func(what guardKind, n int) {
		for i := range n {
			j.guardOf(guarded{what: what, index: i})
		}
	}
	add(thePlaces, len(k.Cold))
	add(theTools, len(k.Tools))
	add(theShelves, len(k.Ovens))
	add(theHours, len(k.Cooks))
}

// counted is a resource of which there is a number.
func (j *job) counted(n int, g guarded) solve.Resource {
	r := always(n)
	r.Guard = j.guardOf(g)
	return r
}
