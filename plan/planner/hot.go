package planner

import "example.org/kettledrum/plan/solve"

// waitsHot counts the minutes that hot food waits until it is taken, whatever is
// written of how long it may.
func (j *job) waitsHot(i int, taken solve.Point) {
	if j.hot[i] {
		j.liked(solve.EndOf(i), taken, hotWait, 1)
	}
}
