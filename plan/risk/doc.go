// Package risk tells how a dinner may turn out: it cooks it ten thousand times, with
// steps that take as long as they might, and counts. It knows no clock, no screen and
// no disk, and plans nothing itself: whoever does is handed in.
//
//	plan ─ Sampler.Draw(seed, run) ─▶ lengths ─┐
//	timetable ─ Compile ─▶ Dispatcher ─ Run ───┴▶ Evening: times, what they waited for
//
// # Three points
//
// How long an uncertain step takes is a beta-PERT distribution of its shortest, likely
// and longest; a step of which the plan says only one figure has a default spread. Bakes
// in one oven, and the steps that tie a cook's hands, have a factor in common
// (sample.go has the formula and the figures).
//
// # What a dispatched evening is
//
// Everything happens as soon as it is due and possible: no step begins before the
// timetable has it, none before what it follows is over, and each resource goes from
// one step to the next in the order of the timetable, as run.Project has it. Nobody
// knows beforehand how long a step will take; that it takes longer shows when its time is up.
// Nothing is planned again. It is the evening that a session conducts whose first
// timetable stays in force (session.Config.Hold), and a test compares the two.
//
// One thing is simpler than there: which of several like pieces (burners of a size, pots,
// places in the cold) a step takes is as the timetable has it, where run.Project hands out
// anew whichever is free first. A kitchen with more of a kind than one may come out some
// minutes earlier or later than conducted, in few of its evenings; Sample counts them.
//
// As in run.Project, presence, minding and touches are no order: a cook whose hours
// are over stays, and two minutes' touches at once are done.
//
// # Slack
//
// BeSure plans single steps longer than is likely, where the simulation says that it buys
// the most, and takes away again what buys nothing (sure.go has the method).
//
// Reading order: dispatch.go, compile.go; sample.go, simulate.go, report.go; script.go,
// sampled.go; sure.go.
package risk
