package sounds

import (
	"time"

	"example.org/kettledrum/plan/run"
)

// Motif is how a class of cue is heard.
type Motif struct {
	Class   run.Class
	Meaning string // what it tells the cook
	Heard   string // how it sounds, in words
	Score   Score
	// Loudness at full volume, when it rings for the first time, in LUFS: the
	// motif repeated without end.
	Loudness float64
}

// Loudnesses leave room for MaxRise below the greatest sample, and lie at least
// two decibels apart, so that the more urgent of two is the louder.

// Timbres. Bright has much in the range between 500 and 3000 Hz, where a hood and
// a tap leave most room and a laptop's loudspeaker still sounds; it is for what
// must be heard. Soft is for what may be missed.
var (
	bright = Timbre{Partials: []float64{0, -1, -2, -4, -7, -10},
		Attack: 6 * time.Millisecond, Release: 16 * time.Millisecond, Decay: 300 * time.Millisecond}
	soft = Timbre{Partials: []float64{0, -4, -8, -11, -14},
		Attack: 10 * time.Millisecond, Release: 40 * time.Millisecond, Decay: 120 * time.Millisecond}
)

// catalog has one motif a class, most urgent first.
//
// Every gap between two pulses of a motif differs from those that another motif
// has in the same place by enough to be told apart, also where the beginning or
// the end is not heard: a test states by how much.
var catalog = []Motif{
	// One, two, three, four: each group higher than the one before.
	{run.Danger, "a safety limit is about to be passed: act now", "ten pulses that pile up: one, two, three, four, each group higher", score(bright, 76,
		stroke{0, 622}, stroke{252, 698}, stroke{106, 698}, stroke{252, 784}, stroke{106, 784}, stroke{106, 784},
		stroke{252, 932}, stroke{106, 932}, stroke{106, 932}, stroke{106, 932}), -16.5},
	// A run downward, as something that slips away.
	{run.LateCue, "a course will be late, or something keeps no longer", "six quick even pulses, falling", score(bright, 100,
		stroke{0, 831}, stroke{158, 740}, stroke{158, 659}, stroke{158, 587}, stroke{158, 523}, stroke{158, 466}), -19},
	// Twice the same question.
	{run.Look, "a time is up: look, test, take out", "two pairs, each rising", score(bright, 115,
		stroke{0, 523}, stroke{175, 698}, stroke{430, 523}, stroke{175, 698}), -21},
	{run.Act, "start this now", "three even pulses, climbing", score(bright, 150,
		stroke{0, 440}, stroke{290, 494}, stroke{290, 587}), -23},
	{run.Soon, "in two minutes something is to be done", "two slow soft pulses on one tone", score(soft, 200,
		stroke{0, 415}, stroke{560, 415}), -27},
	{run.Note, "something moved: see the screen when it suits", "one soft low pulse", score(soft, 260,
		stroke{0, 330}), -30},
}

// Motifs returns all motifs, most urgent first.
func Motifs() []Motif { return append([]Motif(nil), catalog...) }

// Of returns the motif of a class; ok is false for a class that has none.
func Of(c run.Class) (m Motif, ok bool) {
	for _, m := range catalog {
		if m.Class == c {
			return m, true
		}
	}
	return Motif{}, false
}
