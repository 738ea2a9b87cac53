package sounds

import "time"

// Score is a motif: pulses one after another, all of one timbre.
type Score struct {
	Pulses []Pulse
	Timbre Timbre
}

// Pulse is one stroke of a motif.
type Pulse struct {
	At     time.Duration // of its onset, after the beginning of the motif
	Pitch  float64       // of its fundamental, in hertz
	Length time.Duration // with attack and release
}

// Timbre is how a pulse sounds, whatever its pitch.
type Timbre struct {
	// Partials are the levels of the harmonics in decibels, that of the
	// fundamental first.
	Partials []float64
	// Attack and Release are how long a pulse swells and dies away. Both are
	// raised cosines: a corner would click.
	Attack, Release time.Duration
	// Decay is after what time a pulse has fallen to 1/e, as something struck
	// does; zero: it does not fall.
	Decay time.Duration
}

// Onsets returns when the pulses begin.
func (s Score) Onsets() []time.Duration {
	out := make([]time.Duration, len(s.Pulses))
	for i, p := range s.Pulses {
		out[i] = p.At
	}
	return out
}

// Length is from the beginning of the first pulse to the end of the last.
func (s Score) Length() time.Duration {
	var end time.Duration
	for _, p := range s.Pulses {
		end = max(end, p.At+p.Length)
	}
	return end
}

// stroke is a pulse as a score is written: how many milliseconds after the onset
// of the one before it, and how high, in hertz.
type stroke struct {
	after int
	pitch float64
}

// score writes a motif of pulses of one length, in milliseconds.
func score(t Timbre, length int, strokes ...stroke) Score {
	s := Score{Timbre: t}
	var at time.Duration
	for _, k := range strokes {
		at += time.Duration(k.after) * time.Millisecond
		s.Pulses = append(s.Pulses, Pulse{At: at, Pitch: k.pitch, Length: time.Duration(length) * time.Millisecond})
	}
	return s
}
