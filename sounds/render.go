package sounds

import (
	"math"
	"sync"
	"time"

	"example.org/kettledrum/plan/run"
)

// A motif is made louder when it comes again.
const (
	// RiseStep is by how much each time, in decibels: enough to be noticed, not
	// to startle.
	RiseStep = 2
	// MaxRise is how often at most: 6 dB in all.
	MaxRise = 3
)

// FullVolume is the greatest volume, in percent.
const FullVolume = 100

// DefaultVolume leaves room to go up when the hood runs.
const DefaultVolume = 70

// Sound is one ring: a motif, how often it was made louder, and the volume.
type Sound struct {
	Class run.Class
	// Rise is how many steps louder than the first time, 0 to MaxRise.
	Rise int
	// Volume in percent: half of it sounds half as loud; 0 is silence.
	Volume int
}

// Gap is the silence after a motif when it is measured or heard again at once.
const Gap = 150 * time.Millisecond

// gain is by what the samples of a motif are multiplied. Ten decibels less sound
// half as loud: Stevens' rule, from memory.
func (s Sound) gain() float64 {
	volume := max(0, min(s.Volume, FullVolume))
	if volume == 0 {
		return 0
	}
	db := 10*math.Log2(float64(volume)/FullVolume) + RiseStep*float64(max(0, min(s.Rise, MaxRise)))
	return math.Pow(10, db/20)
}

// Bank has all motifs as samples. It is safe for use by several goroutines.
type Bank struct {
	motifs func() map[run.Class][]float64
}

// Render returns the samples of all motifs. They are made when the first is wanted:
// that takes a part of a second, for which no screen should wait.
func Render() *Bank {
	return &Bank{motifs: sync.OnceValue(func() map[run.Class][]float64 {
		out := map[run.Class][]float64{}
		for _, m := range catalog {
			out[m.Class] = m.render()
		}
		return out
	})}
}

// render makes the samples of a motif at its loudness.
func (m Motif) render() []float64 {
	x := synthesise(m.Score)
	g := math.Pow(10, (m.Loudness-Loudness(Repeat(x)))/20)
	for i := range x {
		x[i] *= g
	}
	return x
}

// Repeat returns a motif again and again, for at least four seconds: the loudness
// measure needs blocks that are filled.
func Repeat(x []float64) []float64 {
	const atLeast = 4 * Rate
	var out []float64
	for len(out) < atLeast {
		out = append(append(out, x...), make([]float64, samples(Gap))...)
	}
	return out
}

// PCM returns a sound as 16-bit samples at Rate, one channel; nil for silence. A
// sample that would be beyond full scale is held there; none is, as a test shows.
func (b *Bank) PCM(s Sound) []int16 {
	g := s.gain()
	x := b.motifs()[s.Class]
	if g == 0 || len(x) == 0 {
		return nil
	}
	out := make([]int16, len(x))
	for i, v := range x {
		out[i] = int16(max(-math.MaxInt16, min(math.MaxInt16, math.Round(g*v*math.MaxInt16))))
	}
	return out
}

// Length is how long samples sound.
func Length(pcm []int16) time.Duration {
	return time.Duration(len(pcm)) * time.Second / Rate
}
