package tui

import (
	"time"

	"example.org/kettledrum/plan/run"
)

// Msg is something that happened outside the model.
type Msg interface{ msg() }

// Instants are the two times that a message carries.
type Instants struct {
	At   time.Time // of the session: what the kitchen clock says
	Real time.Time // of the real clock
}

// BeatMsg is the heartbeat: the time goes on.
type BeatMsg struct {
	Instants
	// Speed and Paused are those of a rehearsal's clock.
	Speed  float64
	Paused bool
}

// KeyMsg is a key that was pressed.
type KeyMsg struct {
	Instants
	Key   string // "a", "space", "enter", "up", "ctrl+c"
	Text  string // what it types, or what was pasted
	Paste bool
}

// SizeMsg is the size of the terminal, in cells.
type SizeMsg struct{ Width, Height int }

// RecordedMsg answers a Record.
type RecordedMsg struct {
	Instants
	State *run.State // nil where Err is not
	Err   error
	Said  string
}

// TickedMsg answers a Tick.
type TickedMsg struct {
	Instants
	State *run.State
	Err   error
}

func (BeatMsg) msg()     {}
func (KeyMsg) msg()      {}
func (SizeMsg) msg()     {}
func (RecordedMsg) msg() {}
func (TickedMsg) msg()   {}
