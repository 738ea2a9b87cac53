package sounds

import (
	"math"
	"time"
)

// Rate is how many samples a second there are. The loudness meter's filters are
// for this rate.
const Rate = 48000

// highest is the frequency in hertz above which no harmonic is made.
const highest = 6000

// samples is how many samples a time has.
func samples(d time.Duration) int { return int(math.Round(d.Seconds() * Rate)) }

// synthesise makes the samples of a score, of any amplitude: the pulses add up.
//
//	x(t) = envelope(t) · Σ 10^(partial[k]/20) · sin(2π·k·pitch·t + phase[k])
//
// The phases keep the peaks of a pulse low, so that it can be loud without
// clipping. Source: M. R. Schroeder, Synthesis of low-peak-factor signals, IEEE
// Transactions on Information Theory 16 (1970), from memory.
func synthesise(s Score) []float64 {
	out := make([]float64, samples(s.Length()))
	for _, p := range s.Pulses {
		from, tone := samples(p.At), s.Timbre.tone(p.Pitch)
		for i := range samples(p.Length) {
			if from+i >= len(out) {
				break
			}
			t := float64(i) / Rate
			out[from+i] += s.Timbre.envelope(t, p.Length.Seconds()) * tone(t)
		}
	}
	return out
}

// tone returns the sum of the harmonics as a function of the time since the onset.
func (b Timbre) tone(pitch float64) func(t float64) float64 {
	type partial struct{ amplitude, omega, phase float64 }
	var partials []partial
	for i, level := range b.Partials {
		if k := float64(i + 1); k*pitch <= highest {
			partials = append(partials, partial{
				math.Pow(10, level/20), 2 * math.Pi * k * pitch, -math.Pi * k * (k - 1) / float64(len(b.Partials))})
		}
	}
	return func(t float64) (x float64) {
		for _, p := range partials {
			x += p.amplitude * math.Sin(p.omega*t+p.phase)
		}
		return x
	}
}

// envelope is the amplitude t seconds after the onset of a pulse, from 0 to 1.
func (b Timbre) envelope(t, length float64) float64 {
	e := swell(t, b.Attack.Seconds()) * swell(length-t, b.Release.Seconds())
	if b.Decay > 0 {
		e *= math.Exp(-t / b.Decay.Seconds())
	}
	return e
}

// swell rises from 0 to 1 within a time, as a raised cosine.
func swell(t, within float64) float64 {
	switch {
	case t <= 0:
		return 0
	case t >= within:
		return 1
	}
	return (1 - math.Cos(math.Pi*t/within)) / 2
}
