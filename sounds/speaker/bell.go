package speaker

import (
	"io"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/sounds"
)

// bel is the control character that rings a terminal's bell.
var bel = []byte{'\a'}

// Bell rings the terminal's bell: it is heard where the terminal is, also when the
// program runs on another machine. Its writer must write each call whole, with
// nothing of the screen's output in between: give it the same locked writer as the
// screen.
type Bell struct{ w io.Writer }

// NewBell returns a Bell that writes to w.
func NewBell(w io.Writer) *Bell { return &Bell{w} }

// Ring rings once for what needs hands. A bell has one tone only: what is to be
// done soon, or merely told, does not ring it. A write error is dropped: a terminal
// that is gone is noticed by the screen.
func (b *Bell) Ring(s sounds.Sound) {
	if s.Class <= run.Act && s.Volume > 0 {
		_, _ = b.w.Write(bel)
	}
}
