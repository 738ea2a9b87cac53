package heat

import (
	"math"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

const (
	// probe is the standard deviation of a reading in °C: the thermometer's and that
	// of rounding to the degree.
	probe = 1.0
	// outlier is how many of its standard deviations a reading may be off.
	outlier = 3
)

// line is ln(T_eff − T) against the time in minutes after the last reading.
type line struct {
	effective float64 // °C
	k         float64 // per minute; what falls is −k
	meanX     float64 // minutes
	meanY     float64
	sumW, sxx float64 // Σw and Σw(x − x̄)²
	// sigma is the standard deviation of a reading in °C: probe, or more where the
	// readings themselves lie farther from the line (Birge's ratio, Physical Review
	// 40, 1932, 207).
	sigma float64
}

// fit lays a line through readings, each with the weight (T_eff − T)²: a degree
// counts the same wherever it is read. With three or more, a reading that is off
// the line through the others by more than 3σ is left out, the farthest first. ok
// is false for fewer than two, or where one is at T_eff or above.
//
//	y = ln(T_eff − T), w = (T_eff − T)², k = −Σw(x − x̄)(y − ȳ)/S, S = Σw(x − x̄)²
func fit(readings []Reading, effective plan.Celsius) (l line, ok bool) {
	if len(readings) < 2 || slices.ContainsFunc(readings, func(r Reading) bool { return r.Temp >= effective }) {
		return line{}, false
	}
	zero := readings[len(readings)-1].At
	for kept := slices.Clone(readings); ; {
		l = through(kept, zero, float64(effective))
		if len(kept) == 2 {
			return l, l.sxx > 0
		}
		far, most := -1, float64(outlier)
		for i, r := range kept {
			rest := through(slices.Delete(slices.Clone(kept), i, i+1), zero, float64(effective))
			if off := rest.off(r, zero); off > most {
				far, most = i, off
			}
		}
		if far < 0 {
			return l, l.sxx > 0
		}
		kept = slices.Delete(kept, far, far+1)
	}
}

// through is the weighted line through readings.
func through(readings []Reading, zero time.Time, effective float64) line {
	l := line{effective: effective, sigma: probe}
	point := func(r Reading) (x, y, w float64) {
		below := effective - float64(r.Temp)
		return r.At.Sub(zero).Minutes(), math.Log(below), below * below
	}
	for _, r := range readings {
		x, y, w := point(r)
		l.sumW += w
		l.meanX += w * x
		l.meanY += w * y
	}
	l.meanX /= l.sumW
	l.meanY /= l.sumW
	sxy := 0.0
	for _, r := range readings {
		x, y, w := point(r)
		l.sxx += w * (x - l.meanX) * (x - l.meanX)
		sxy += w * (x - l.meanX) * (y - l.meanY)
	}
	if l.sxx > 0 {
		l.k = -sxy / l.sxx
	}
	if n := len(readings); n > 2 {
		chi := 0.0
		for _, r := range readings {
			x, y, w := point(r)
			d := y - l.meanY + l.k*(x-l.meanX)
			chi += w * d * d
		}
		l.sigma = math.Max(probe, math.Sqrt(chi/float64(n-2)))
	}
	return l
}

// off is how far a reading that is not of the line is from it, in standard
// deviations of that distance: σ·√(1 + w(1/W + (x − x̄)²/S)).
func (l *line) off(r Reading, zero time.Time) float64 {
	x := r.At.Sub(zero).Minutes()
	below := l.effective - float64(r.Temp)
	expected := math.Exp(l.meanY - l.k*(x-l.meanX))
	v := 1 / l.sumW
	if l.sxx > 0 {
		v += (x - l.meanX) * (x - l.meanX) / l.sxx
	}
	return math.Abs(expected-below) / (probe * math.Sqrt(1+expected*expected*v))
}

// slope is how fast a temperature rises, in °C per minute.
func (l *line) slope(at plan.Celsius) float64 { return l.k * (l.effective - float64(at)) }

// reach returns when the line is at a temperature and how sure that is, in
// minutes after the last reading, for k > 0.
//
//	r = x̄ + (ȳ − ln(T_eff − T))/k, sd = (σ/k)·√(1/W + (r − x̄)²/S)
//
// with σ of 1 °C, or what the readings scatter by if that is more.
func (l *line) reach(t plan.Celsius) (r, sd float64) {
	ahead := (l.meanY - math.Log(l.effective-float64(t))) / l.k
	return l.meanX + ahead, l.sigma / l.k * math.Sqrt(1/l.sumW+ahead*ahead/l.sxx)
}
