// Command schedbench measures the scheduling engine. It is a tool for those who
// work on Kettledrum and no part of what a cook uses.
//
//	schedbench [-limit 5s] [-json] DIR...
//	schedbench -kitchen [-steps 60] [-n 50] [-seed 7] [-tight 0..2] [-limit 5s] [-json] [-print]
//
// The first form solves the published instances of folders for makespan and
// compares the answers with a best.csv beside them. The second makes kitchens
// and times the planner on them.
//
//	.sm, .sch ─ sm.go, sch.go ─▶ project ─ solve.go ─▶ answer ─ check.go, known.go ─▶ row, summary
//	seed ─ kitchen.go ─▶ plan file ─▶ plan.Plan ─ cook.go ─▶ row, summary
//
// It reads the clock; the engine does not. What it prints of an answer is what
// check.go has found to hold, from the instance alone.
package main
