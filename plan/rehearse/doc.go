// Package rehearse plays mishaps on a run under way: the very session of the
// cook-day, whose clock is a fast one and whose events come from a script.
//
//	mishap.Mishap ─ Player.Play(now) ─▶ session.Record ─▶ timetables adopted ─▶ Watcher
//
// Without a screen session.Play moves the clock and answers the cues, and the
// player is its Part; on a screen the cook answers, and the player plays what is
// due at each tick (Conductor).
//
// Draw draws a script by a seed, Recorded reads one off a run that was recorded, and a
// Stage plays a dinner again to see whether an idea (package debrief) makes it less late.
//
// Reading order: player.go, event.go, replan.go, conductor.go, told.go; draw.go;
// recorded.go, again.go.
package rehearse
