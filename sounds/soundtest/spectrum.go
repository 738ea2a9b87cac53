package soundtest

import (
	"math"
	"math/cmplx"

	"gonum.org/v1/gonum/dsp/fourier"
	"gonum.org/v1/gonum/dsp/window"

	"example.org/kettledrum/sounds"
)

// frames are magnitudes over time: one row each hop, one column each bin.
type frames struct {
	power [][]float64
	bin   float64 // hertz from one column to the next
}

// analyse cuts samples into windows and transforms each, zero-padded to n, and keeps
// what is below highest, in hertz. Row i is centred on sample i*hop.
func analyse(x []float64, size, hop, n int, highest float64) frames {
	f := frames{bin: float64(sounds.Rate) / float64(n)}
	fft := fourier.NewFFT(n)
	buf, spectrum := make([]float64, n), make([]complex128, n/2+1)
	for centre := 0; centre < len(x); centre += hop {
		clear(buf)
		for i := range size {
			if k := centre - size/2 + i; k >= 0 && k < len(x) {
				buf[i] = x[k]
			}
		}
		window.Hann(buf[:size])
		row := make([]float64, int(highest/f.bin))
		fft.Coefficients(spectrum, buf)
		for i, c := range spectrum[:len(row)] {
			row[i] = real(c)*real(c) + imag(c)*imag(c)
		}
		f.power = append(f.power, row)
	}
	return f
}

// Harmonics returns the levels of the first n harmonics of a pitch in a stretch of
// samples, in decibels relative to the strongest.
func Harmonics(x []float64, pitch float64, n int) []float64 {
	mag, bin := magnitudes(x)
	out, most := make([]float64, n), math.Inf(-1)
	for k := range out {
		out[k] = 20 * math.Log10(peakNear(mag, float64(k+1)*pitch/bin, pitch/bin/4)+1e-12)
		most = max(most, out[k])
	}
	for k := range out {
		out[k] -= most
	}
	return out
}

// Pitch returns the fundamental of a harmonic tone between low and high, in hertz:
// the one whose multiples hold most of the power, weighed so that half of it, which
// has the same multiples and more, does not win.
func Pitch(x []float64, low, high float64) float64 {
	const harmonics = 5
	mag, bin := magnitudes(x)
	best, found := math.Inf(-1), 0.0
	for f := low; f <= high; f += 0.5 {
		sum := 0.0
		for k := 1; k <= harmonics; k++ {
			i := int(math.Round(float64(k) * f / bin))
			between := int(math.Round((float64(k) - 0.5) * f / bin))
			if i < len(mag) {
				sum += mag[i] - mag[between]
			}
		}
		if sum > best {
			best, found = sum, f
		}
	}
	return found
}

// magnitudes transforms a stretch of samples as a whole, zero-padded.
func magnitudes(x []float64) (mag []float64, bin float64) {
	n := 1 << 16
	buf := make([]float64, n)
	size := copy(buf, x)
	window.Hann(buf[:size])
	c := fourier.NewFFT(n).Coefficients(nil, buf)
	mag = make([]float64, len(c))
	for i := range c {
		mag[i] = cmplx.Abs(c[i])
	}
	return mag, float64(sounds.Rate) / float64(n)
}

func peakNear(mag []float64, at, within float64) float64 {
	most := 0.0
	for i := max(0, int(at-within)); i <= int(at+within) && i < len(mag); i++ {
		most = max(most, mag[i])
	}
	return most
}
