//go:build !race

package planner

const oneIn = 1
