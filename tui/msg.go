package tui

import (
	"time"
	"unicode/utf8"

	"example.org/kettledrum/plan/debrief"
	"example.org/kettledrum/plan/remedy"
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
	// Soundless: the last ring came out of no loudspeaker.
	Soundless bool
	// News say what befell a rehearsal since the last one: mishaps, how long things take.
	News []string
}

// KeyMsg is a key that was pressed.
type KeyMsg struct {
	Instants
	Key   string // "a", "space", "enter", "up", "ctrl+c"
	Text  string // what it types, or what was pasted
	Paste bool
}

// apart splits keys that a fast typist, or a slow line, had read in one go. What
// was pasted stays whole: it types and presses nothing.
func (k KeyMsg) apart() []KeyMsg {
	if k.Paste || utf8.RuneCountInString(k.Text) < 2 {
		return []KeyMsg{k}
	}
	var out []KeyMsg
	for _, r := range k.Text {
		one := KeyMsg{Instants: k.Instants, Key: string(r), Text: string(r)}
		if r == ' ' {
			one.Key = "space"
		}
		out = append(out, one)
	}
	return out
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

// FollowedMsg brings what another program wrote into the journal that is followed.
type FollowedMsg struct {
	Instants
	State *run.State
	Err   error
}

// RemediesMsg answers a SeekRemedies: the ways out of what was late after so many
// events, the best first; none where nothing is late.
type RemediesMsg struct {
	Found []remedy.Remedy
	After int
}

// DebriefMsg answers a SeekDebrief. Sections is nil where there was nothing more to
// find out; Final: it has what to change, or that is not known.
type DebriefMsg struct {
	Sections []debrief.Section
	Final    bool
}

// HintMsg is something to be told that nobody asked for.
type HintMsg struct {
	Instants
	Text string
}

// FocusMsg tells whether the terminal is in front.
type FocusMsg struct{ Front bool }

func (FollowedMsg) msg() {}
func (RemediesMsg) msg() {}
func (DebriefMsg) msg()  {}
func (FocusMsg) msg()    {}
func (HintMsg) msg()     {}
func (BeatMsg) msg()     {}
func (KeyMsg) msg()      {}
func (SizeMsg) msg()     {}
func (RecordedMsg) msg() {}
func (TickedMsg) msg()   {}
