package sounds

import (
	"io"
	"slices"
	"sync"

	"example.org/kettledrum/plan/run"
)

// Player makes cues audible. Ring returns at once and never fails: a cook-day
// goes on without sound.
type Player interface {
	// Ring sounds once for a cue of class c, if the catalog lets it ring.
	Ring(c run.Class)
}

// bel is the control character that rings a terminal's bell.
var bel = []byte{'\a'}

// Bell rings the terminal's bell. Its writer must write each call whole, with
// nothing of the screen's output in between: give it the same locked writer as
// the screen.
type Bell struct{ w io.Writer }

// NewBell returns a Bell that writes to w.
func NewBell(w io.Writer) *Bell { return &Bell{w} }

// Ring implements Player. A write error is dropped: a terminal that is gone is
// noticed by the screen.
func (b *Bell) Ring(c run.Class) {
	if Of(c).Rings {
		_, _ = b.w.Write(bel)
	}
}

// Silent rings nothing.
type Silent struct{}

// Ring implements Player.
func (Silent) Ring(run.Class) {}

// Recorder remembers what it was asked to ring, for tests. The zero Recorder
// is ready; it is safe for use by several goroutines.
type Recorder struct {
	mu   sync.Mutex
	rung []run.Class
}

// Ring implements Player. It keeps only what the catalog lets ring.
func (r *Recorder) Ring(c run.Class) {
	if !Of(c).Rings {
		return
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	r.rung = append(r.rung, c)
}

// Rung returns what has rung so far, oldest first.
func (r *Recorder) Rung() []run.Class {
	r.mu.Lock()
	defer r.mu.Unlock()
	return slices.Clone(r.rung)
}
