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
//	keys.go      the one table of actions and keys; help comes from it
//	modes.go     what a key does in each mode        action.go  what an action does
//	layout.go    which pane gets which lines          view.go    panes into one frame
//	panes.go     now.go list.go                       the panes themselves
//	paint.go     text into cells; all text is cleaned here
package tui
