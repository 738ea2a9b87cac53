//go:build race

package planner

// oneIn is how many draws of the costly properties there are for one that is looked
// at: the race detector makes each twenty times as long, and sees as much in a part.
const oneIn = 25
