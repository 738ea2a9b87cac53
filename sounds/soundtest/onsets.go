package soundtest

import (
	"math"
	"slices"
	"time"

	"example.org/kettledrum/sounds"
)

// Of the onset detector, in samples where not said otherwise.
const (
	onsetWindow  = sounds.Rate * 28 / 1000
	onsetHop     = sounds.Rate * 5 / 1000
	onsetFFT     = 2048
	onsetHighest = 5000 // hertz that are looked at
	combs        = 5    // harmonics that are listened to
	floorShare   = 0.2  // of the frames have no more than the noise at a frequency
	apart        = 80   // ms between two onsets at least
	riseOver     = 32   // ms in which a pulse rises
)

// early is by how much a window sees a pulse before its onset is in the middle.
const early = 10 * time.Millisecond

// Onsets returns when the pulses of a motif begin in samples that may be full of
// noise. There is to be a moment without a pulse before and after: what the noise is
// like is learnt from it.
func Onsets(x []float64) []time.Duration {
	return peaks(salience(x))
}

// salience says for each hop how much there is of the multiples of any pitch that
// the motifs have, above what is there all the time.
func salience(x []float64) []float64 {
	f := analyse(x, onsetWindow, onsetHop, onsetFFT, onsetHighest)
	floor := f.floor()
	out := make([]float64, len(f.power))
	for row := range f.power {
		for _, pitch := range pitches() {
			sum := 0.0
			for k := 1; k <= combs; k++ {
				i := int(math.Round(float64(k) * pitch / f.bin))
				if i >= len(floor) {
					break
				}
				sum += math.Log2(1 + f.power[row][i]/floor[i])
			}
			out[row] = max(out[row], sum/combs)
		}
	}
	return out
}

// floor is the power of the noise at each frequency: a low quantile over time,
// brought to the mean of noise, smoothed over neighbours.
func (f frames) floor() []float64 {
	bins := len(f.power[0])
	raw := make([]float64, bins)
	column := make([]float64, len(f.power))
	for i := range raw {
		for row := range f.power {
			column[row] = f.power[row][i]
		}
		slices.Sort(column)
		// The power of noise is exponentially distributed.
		raw[i] = column[int(floorShare*float64(len(column)))] / -math.Log(1-floorShare)
	}
	out := make([]float64, bins)
	for i := range out {
		sum, n := 0.0, 0
		for j := max(0, i-i/8-2); j <= min(bins-1, i+i/8+2); j++ {
			sum += raw[j]
			n++
		}
		out[i] = sum/float64(n) + 1e-7
	}
	return out
}

// enough is what part of the greatest rise of the salience is an onset.
const enough = 0.45

// peaks picks the onsets: where the salience rises most, and by enough.
func peaks(e []float64) []time.Duration {
	smooth := movingMean(e, 3)
	back := riseOver * sounds.Rate / 1000 / onsetHop
	rise := make([]float64, len(e))
	most := 0.0
	for i := range rise {
		least := smooth[i]
		for j := max(0, i-back); j < i; j++ {
			least = min(least, smooth[j])
		}
		rise[i] = smooth[i] - least
		most = max(most, rise[i])
	}
	var out []time.Duration
	gap := apart * sounds.Rate / 1000 / onsetHop
	for i := range rise {
		if rise[i] < enough*most {
			continue
		}
		top := true
		for j := max(0, i-gap); j <= min(len(rise)-1, i+gap); j++ {
			if rise[j] > rise[i] || rise[j] == rise[i] && j < i {
				top = false
			}
		}
		if top {
			out = append(out, early+time.Duration(halfway(smooth, i, back)*onsetHop)*time.Second/sounds.Rate)
		}
	}
	return out
}

// halfway is the frame before the top of a rise in which half of it was done: the
// window is then half over the onset.
func halfway(e []float64, top, back int) int {
	least := e[top]
	for j := max(0, top-back); j < top; j++ {
		least = min(least, e[j])
	}
	i := top
	for i > 0 && e[i] > (least+e[top])/2 {
		i--
	}
	return i
}

func movingMean(x []float64, n int) []float64 {
	out := make([]float64, len(x))
	for i := range x {
		sum, k := 0.0, 0
		for j := max(0, i-n/2); j <= min(len(x)-1, i+n/2); j++ {
			sum += x[j]
			k++
		}
		out[i] = sum / float64(k)
	}
	return out
}

// pitches are all that the motifs have.
func pitches() []float64 {
	var out []float64
	for _, m := range sounds.Motifs() {
		for _, p := range m.Score.Pulses {
			if !slices.Contains(out, p.Pitch) {
				out = append(out, p.Pitch)
			}
		}
	}
	return out
}
