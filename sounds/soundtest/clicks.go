package soundtest

import "math"

// Of the click detector.
const (
	clickAbove = 10000 // hertz: no motif has a harmonic there
	clickFrame = 240   // samples: 5 ms
	clickFFT   = 256
)

// Click returns the greatest power above 10 kHz in any five milliseconds, in
// decibels relative to the mean power of all samples. A corner in a waveform, a
// sample that is missing or a step has power at all frequencies.
func Click(x []float64) float64 {
	f := analyse(x, clickFrame, clickFrame/4, clickFFT, 24000)
	// The power of a window is its sum over all bins, twice, by Parseval's theorem.
	const hann = 3.0 / 8 // the mean of the squared window
	most := 0.0
	for _, row := range f.power {
		sum := 0.0
		for i := int(clickAbove / f.bin); i < len(row); i++ {
			sum += 2 * row[i]
		}
		most = max(most, sum/clickFFT/clickFrame/hann)
	}
	rms := RMS(x)
	return 10 * math.Log10(most/(rms*rms)+1e-20)
}
