package soundtest

import (
	"math/rand/v2"
	"testing"
	"time"

	"example.org/kettledrum/sounds"
)

// Margin is by how much the rhythms of two motifs differ at least: see Apart.
// Slack is how far off a gap may be that is taken for a motif's: less than half of
// it, so that no onsets fit two motifs.
const (
	Margin = 90 * time.Millisecond
	Slack  = 40 * time.Millisecond
)

// Floats returns 16-bit samples as numbers from -1 to 1.
func Floats(pcm []int16) []float64 {
	out := make([]float64, len(pcm))
	for i, v := range pcm {
		out[i] = float64(v) / 32768
	}
	return out
}

// Pad returns samples with silence before and after.
func Pad(x []float64, d time.Duration) []float64 {
	n := int(d.Seconds() * sounds.Rate)
	out := make([]float64, len(x)+2*n)
	copy(out[n:], x)
	return out
}

// pause is the time before and after a motif in a trial.
const pause = 450 * time.Millisecond

// TellApart holds that a motif is found by its onsets in pink noise that is as strong
// as it is, in 95 of 100 seeded trials. The motif comes without silence around it.
func TellApart(t *testing.T, m sounds.Motif, motif []float64, trials int) {
	t.Helper()
	rms, right := RMS(motif), 0
	x := Pad(motif, pause)
	for seed := range trials {
		rng := rand.New(rand.NewPCG(uint64(seed), uint64(m.Class)))
		if found, ok := Which(Onsets(Add(x, Pink(rng, len(x), rms))), Slack); ok && found.Class == m.Class {
			right++
		}
	}
	t.Logf("%v: found in %d of %d trials in pink noise at 0 dB", m.Class, right, trials)
	if right*100 < trials*95 {
		t.Errorf("%v is found in %d of %d trials in pink noise at 0 dB, want 95 %%", m.Class, right, trials)
	}
}
