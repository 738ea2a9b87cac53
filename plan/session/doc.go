// Package session glues a run together: the journal, the fold, the planner.
package session
