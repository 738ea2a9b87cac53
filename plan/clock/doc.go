// Package clock hands out the time. The domain never reads a clock: commands
// make one and hand it inward.
//
//	System   the wall clock: the cook-day
//	Fast     runs faster than another clock, pauses, jumps, holds: a rehearsal
//
// Package clocktest has one that is turned by hand.
//
// It knows nothing of plans and runs, and imports the standard library only.
package clock
