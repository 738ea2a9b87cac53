package tui

import (
	"time"

	"example.org/kettledrum/plan/remedy"
	"example.org/kettledrum/plan/run"
)

// Effect is something to be done outside the model: a plain value, so that
// tests compare it. program.go does it.
type Effect interface{ effect() }

// Record writes events into the journal. The answer is a RecordedMsg.
type Record struct {
	Events []run.Event
	// Said tells in the cook's words what was done, once it is.
	Said string
}

// Tick lets the session look whether the timetable still holds, once a minute
// of session time. The answer is a TickedMsg.
type Tick struct{}

// Ring sounds once for a cue of the class, so many steps louder than the first time.
type Ring struct {
	Class  run.Class
	Louder int
}

// SetVolume changes how loud rings are, in percent.
type SetVolume struct{ Percent int }

// Notify tells of something due while the terminal is not in front.
type Notify struct{ Text string }

// Title names the terminal's window.
type Title struct{ Text string }

// SeekRemedies looks for ways out of what is late, beside the screen; what was
// sought before is given up. The answer, where there is any, is a RemediesMsg.
type SeekRemedies struct{}

// TakeRemedy takes a way out. The answer is a RecordedMsg.
type TakeRemedy struct {
	Remedy remedy.Remedy
	Said   string
}

// SetSpeed changes the speed of a rehearsal's clock.
type SetSpeed struct{ Speed float64 }

// Pause stops a rehearsal's clock, or lets it go on.
type Pause struct{ On bool }

// HoldAt holds a rehearsal's clock at an instant; the zero time lets it run.
type HoldAt struct{ At time.Time }

// Jump moves a rehearsal's clock ahead.
type Jump struct{ To time.Time }

// SeekDebrief looks back at a rehearsal whose courses are served; Change: with what to
// change, for which it is played again beside the screen. The answer is a DebriefMsg.
type SeekDebrief struct{ Change bool }

// Quit ends the program. The journal is written already.
type Quit struct{}

func (Record) effect()    {}
func (Tick) effect()      {}
func (SetVolume) effect() {}
func (Ring) effect()      {}
func (Notify) effect()    {}
func (Title) effect()     {}

func (SeekDebrief) effect()  {}
func (SeekRemedies) effect() {}
func (TakeRemedy) effect()   {}
func (SetSpeed) effect()     {}
func (Pause) effect()        {}
func (HoldAt) effect()       {}
func (Jump) effect()         {}
func (Quit) effect()         {}

// turn does what an effect asks of the clock of a rehearsal, if it asks for anything.
func turn(r Rehearsal, e Effect) {
	switch e := e.(type) {
	case SetSpeed:
		r.SetSpeed(e.Speed)
	case Pause:
		if e.On {
			r.Pause()
		} else {
			r.Resume()
		}
	case HoldAt:
		r.HoldAt(e.At)
	case Jump:
		r.Jump(e.To)
	}
}
