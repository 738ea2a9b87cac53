// Package tui is the live screen of a cook-day and of its rehearsal.
//
// # Flow
//
//	key, heartbeat ─ program.go ─▶ Msg ─▶ Update(Model, Msg) ─▶ Model, []Effect
//	      ▲                                                       │       │
//	      │                                  View(Model) ◀────────┘       │
//	      └───────── answers ◀── session, clock, bell ◀── program.go ─────┘
//
// Update and View are pure: they read no clock, no file and no terminal. Each
// message carries two instants, that of the session (what the kitchen clock
// says, in a rehearsal a fast one) and the real one (how long something has
// been on the screen). An Effect is a plain value that says what is to be done
// outside; program.go alone does it, and is the only file that knows the
// terminal library's program.
//
// The model holds an immutable run.State and what run.Conduct makes of it. An
// action becomes events; the screen shows it as done when the state that comes
// back has it, for then the journal has it.
//
// # Where things are
//
//	model.go update.go    what is known, and what a message makes of it
//	keys.go      the one table of actions and keys; help comes from it
//	modes.go     what a key does in each mode        action.go  what an action does; answer.go  what is told
//	off.go       why a key does nothing right now    queue.go   keys that wait for the journal
//	mark.go      which row keys act on               find.go    a step by its name
//	layout.go    which pane gets which lines         view.go foot.go  panes into one frame
//	panes.go              what the panes share; each has a file: now.go going.go ovens.go burners.go cooks.go
//	                      courses.go cautions.go broken.go; places.go missing.go risk.go  what they tell of
//	far.go face.go        the far view, and its letters and digits
//	lanes.go touches.go lanes_move.go lanes_view.go   the hours: what is in them, moving about, drawing
//	step.go facts.go step_keys.go chart.go one step; dayview.go the days; log.go what was told
//	choices.go wrong.go ways.go            one of several: what went wrong, ways out
//	debrief.go walk.go    how a rehearsal went; the walk-through
//	prompt.go editor.go   what is typed              words.go   times, lengths and events in words
//	paint.go frame.go     text into cells; all text is cleaned in paint.go
//	bell.go hear.go       when it rings, and whether it is heard
//	program.go beside.go writing.go        the terminal library; display.go  frames onto a terminal
//	plain.go tell.go  the same in lines
//
// # A view
//
// A Mode with its name in modes.go, among views where the cook may stay; the row of
// keys.go that leads to it, and its alias that leads back; what the keys for moving do
// there, in moveSelection and offRows; a function of width and height to lines, which
// viewOf in view.go puts below the line of what is due (framed); how it is told in
// lines, in told of tell.go; and a row of otherViews in views_test.go for its goldens.
package tui
