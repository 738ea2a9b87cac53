package soundtest

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/dsp/fourier"

	"example.org/kettledrum/sounds"
)

// Pink returns noise of equal power in every octave from 20 Hz to 20 kHz, with the
// given root mean square.
func Pink(rng *rand.Rand, n int, rms float64) []float64 {
	const low, high = 20, 20000
	size := 1 // a power of two is transformed fastest
	for size < n {
		size *= 2
	}
	fft := fourier.NewFFT(size)
	c := make([]complex128, size/2+1)
	for i := range c {
		hz := float64(i) * sounds.Rate / float64(size)
		if hz < low || hz > high {
			continue
		}
		a := 1 / math.Sqrt(hz)
		c[i] = complex(a*rng.NormFloat64(), a*rng.NormFloat64())
	}
	x := fft.Sequence(nil, c)[:n]
	g := rms / RMS(x)
	for i := range x {
		x[i] *= g
	}
	return x
}

// RMS is the root mean square.
func RMS(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v * v
	}
	return math.Sqrt(sum / float64(len(x)))
}

// Add returns the sum of two signals, as long as the longer.
func Add(a, b []float64) []float64 {
	out := make([]float64, max(len(a), len(b)))
	copy(out, a)
	for i, v := range b {
		out[i] += v
	}
	return out
}
