// Package mishap is what goes wrong in a rehearsal, as values: a script is a list
// of mishaps, each of one kind, at a time or when a step's time is up.
//
// It knows nothing of how a script is written (package planfile reads it) and
// nothing of what becomes of a run by it (package rehearse plays it).
package mishap
