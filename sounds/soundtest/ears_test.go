package soundtest_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"gonum.org/v1/gonum/dsp/fourier"

	"example.org/kettledrum/sounds"
	"example.org/kettledrum/sounds/soundtest"
)

// tone is a tenth of a second of harmonics.
func tone(pitch float64, harmonics int) []float64 {
	x := make([]float64, sounds.Rate/10)
	for i := range x {
		for k := 1; k <= harmonics; k++ {
			x[i] += 0.1 / float64(k) * math.Sin(2*math.Pi*float64(k)*pitch*float64(i)/sounds.Rate)
		}
	}
	return x
}

// TestPitch: the ear finds pitches that no motif has, and not their octaves.
func TestPitch(t *testing.T) {
	t.Parallel()
	for _, want := range []float64{203.7, 331.4, 415 * 1.04, 577.3, 698 / 1.04, 951.2} {
		if got := soundtest.Pitch(tone(want, 5), 150, 1000); math.Abs(got/want-1) > 0.005 {
			t.Errorf("Pitch = %.1f Hz, want %.1f", got, want)
		}
	}
}

// TestPink: each octave has as much power as any other.
func TestPink(t *testing.T) {
	t.Parallel()
	const n = 1 << 17
	x := soundtest.Pink(rand.New(rand.NewPCG(1, 2)), n, 0.1)
	if got := soundtest.RMS(x); math.Abs(got-0.1) > 1e-6 {
		t.Errorf("root mean square %v, want 0.1", got)
	}
	c := fourier.NewFFT(n).Coefficients(nil, x)
	octave := func(low float64) (sum float64) {
		for i := int(low * n / sounds.Rate); i < int(2*low*n/sounds.Rate); i++ {
			sum += real(c[i])*real(c[i]) + imag(c[i])*imag(c[i])
		}
		return 10 * math.Log10(sum)
	}
	for low := 125.0; low <= 8000; low *= 2 {
		if d := octave(low) - octave(1000); math.Abs(d) > 1 {
			t.Errorf("the octave above %v Hz has %.1f dB more than that above 1000", low, d)
		}
	}
}

// TestWhichBites: a pulse too many or too few, or one in the wrong place, is no motif.
func TestWhichBites(t *testing.T) {
	t.Parallel()
	for _, m := range sounds.Motifs() {
		on := m.Score.Onsets()
		if got, ok := soundtest.Which(on, soundtest.Slack); !ok || got.Class != m.Class {
			t.Errorf("%v is taken for %v, %v", m.Class, got.Class, ok)
		}
		if got, ok := soundtest.Which(on[1:], soundtest.Slack); ok && len(on) > 2 {
			t.Errorf("%v without its first pulse is taken for %v", m.Class, got.Class)
		}
		if len(on) > 1 {
			on[1] += soundtest.Slack + time.Millisecond
			if _, ok := soundtest.Which(on, soundtest.Slack); ok {
				t.Errorf("%v with a late pulse is taken for a motif", m.Class)
			}
		}
	}
}
