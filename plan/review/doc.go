// Package review looks back at dinners that were cooked: what was planned, what
// really happened, and what the plan should say the next time. It knows no file, no
// screen and no clock: it takes runs as they were folded and returns values; the
// command prints them.
//
//	run.State ─ Of ─▶ Evening: steps, courses, notes ─ Compare ─▶ Habits: proposed lengths
//	run.State ─ Mishaps ─▶ Script: what went wrong, for a rehearsal
//
// # What counts
//
// A length counts only if the cook told both of its ends when they were: not what was
// said afterwards to have gone as planned, not what followed from something else, not
// what was made ahead without a word. What was left out, begun again, moved because its
// place failed, or done otherwise for a remedy says nothing of the plan either. Time for
// which a step was interrupted, or its cook away, is not its own (judge.go).
//
// # What is proposed
//
// One evening does not overturn a plan: see Propose. What is proposed depends on the
// runs alone, each with the plan that it was opened with, never on the file as it
// stands; so once a proposal is in the file, the same runs propose what is there
// already, and a run that was planned with a proposal goes on where those before it
// stopped (habit.go).
//
// # Reading order
//
// evening.go (the types), judge.go, told.go, propose.go, habit.go, mishaps.go.
package review
