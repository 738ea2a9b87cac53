// Package walk goes through a cook-day cue by cue, without a clock: what each cue asks
// to be there (tools, a burner, room in the oven and in the cold, what is taken out of
// it, a thermometer), and what of all that was not found.
//
// It reads a plan, a timetable and its cues, and knows no clock and no screen.
//
// Reading order: walk.go, things.go, ticks.go.
package walk
