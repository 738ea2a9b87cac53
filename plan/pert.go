package plan

import (
	"math"
	"slices"
	"time"
)

// CautiousAt is the percentile at which a cautious timetable plans each uncertain
// length: in one dinner of five the step takes longer all the same.
const CautiousAt = 0.80

// Percentile returns the length that an uncertain step does not exceed with
// probability p, 0 ≤ p ≤ 1. Its three points are taken as a beta-PERT
// distribution:
//
//	X = a + (b − a)·Beta(α, β), α = 1 + 4(m − a)/(b − a), β = 1 + 4(b − m)/(b − a)
//
// with a, m, b the shortest, likely and longest. A length without spread, and an
// elastic one, which the cook decides, is its Likely.
//
// Source: Malcolm, Roseboom, Clark and Fazar, Application of a Technique for
// Research and Development Program Evaluation, Operations Research 7(5), 1959,
// 646–669, in its usual form with a beta distribution of those shapes.
func (l Length) Percentile(p float64) time.Duration { return l.Percentiles([]float64{p})[0] }

// Percentiles returns the Percentile of each p.
func (l Length) Percentiles(ps []float64) []time.Duration {
	out := make([]time.Duration, len(ps))
	spread := float64(l.Longest - l.Shortest)
	alpha := 1 + 4*float64(l.Likely-l.Shortest)/spread
	beta := 1 + 4*float64(l.Longest-l.Likely)/spread
	near := 0.5
	for k, p := range ps {
		switch {
		case l.Elastic || l.Longest <= l.Shortest:
			out[k] = l.Likely
		case p <= 0:
			out[k] = l.Shortest
		case p >= 1:
			out[k] = l.Longest
		default:
			near = betaQuantile(p, alpha, beta, near)
			out[k] = l.Shortest + time.Duration(math.Round(spread*near))
		}
	}
	return out
}

// Cautious returns a copy of the plan that takes each uncertain length at its
// CautiousAt percentile, where that is longer than the likely one. Whatever is
// made of the copy, timetable and run, plans with those lengths. The copy shares
// all but its steps with p.
func (p *Plan) Cautious() *Plan {
	c := *p
	c.Steps = make([]Step, len(p.Steps))
	copy(c.Steps, p.Steps)
	for i := range c.Steps {
		l := &c.Steps[i].Length
		l.Likely = max(l.Likely, l.Percentile(CautiousAt))
	}
	return &c
}

// Slack returns a copy of the plan that takes each step longer than is likely, by as
// much as by says: if it does not, what follows has slack. What the step made keeps as
// much less, a greatest gap after it is as much less, and a wait that begins with its end may be so much shorter at most, so that
// both hold even where the step takes no longer than is likely. The copy shares all but
// its steps with p.
//
// Shape: one entry for each step; what it says of waits is not looked at.
func (p *Plan) Slack(by []time.Duration) *Plan {
	c := *p
	c.Steps = make([]Step, len(p.Steps))
	copy(c.Steps, p.Steps)
	for i := range c.Steps {
		s := &c.Steps[i]
		if by[i] <= 0 || s.Length.Elastic {
			continue
		}
		s.Length.Likely += by[i]
		s.Length.Longest = max(s.Length.Longest, s.Length.Likely)
		s.Keeps.For = max(0, s.Keeps.For-by[i])
		s.Keeps.AtMost = max(0, s.Keeps.AtMost-by[i])
	}
	for j := range c.Steps {
		s := &c.Steps[j]
		for k, l := range s.After {
			if l.HasMax && by[l.Step] > 0 && !p.Steps[l.Step].Length.Elastic {
				if &s.After[0] == &p.Steps[j].After[0] {
					s.After = slices.Clone(s.After)
				}
				s.After[k].Max = max(l.Min, l.Max-by[l.Step])
			}
		}
		if l := &s.Length; s.AtOnce && l.Elastic && l.Longest != Forever {
			for _, k := range s.After {
				l.Longest = max(l.Shortest, min(l.Longest, p.Steps[j].Length.Longest-max(0, by[k.Step])))
			}
		}
	}
	return &c
}

// betaQuantile returns x with betaBelow(x, a, b) = p, for shapes a, b ≥ 1, near a
// guess: by Newton's method, and by halving where that would leave what is known to
// hold x, to 10⁻¹⁴.
func betaQuantile(p, a, b, near float64) float64 {
	lo, hi, x := 0.0, 1.0, near
	lgA, _ := math.Lgamma(a)
	lgB, _ := math.Lgamma(b)
	lgAB, _ := math.Lgamma(a + b)
	for range 200 {
		off := betaBelow(x, a, b) - p
		if off < 0 {
			lo = x
		} else {
			hi = x
		}
		slope := math.Exp((a-1)*math.Log(x) + (b-1)*math.Log1p(-x) + lgAB - lgA - lgB)
		next := x - off/slope
		if !(lo < next && next < hi) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-x) <= 1e-14 || hi-lo <= 1e-14 {
			return next
		}
		x = next
	}
	return x
}

// betaBelow returns the regularised incomplete beta function I_x(a, b), the
// probability that a beta variable of shapes a, b is at most x, 0 ≤ x ≤ 1.
//
//	I_x(a, b) = x^a (1 − x)^b / (a B(a, b)) · 1/(1 + d1/(1 + d2/(1 + …)))
//
// The fraction converges fast for x < (a + 1)/(a + b + 2); beyond that
// I_x(a, b) = 1 − I_{1−x}(b, a). Source: Abramowitz and Stegun, Handbook of
// Mathematical Functions, 26.5.2 and 26.5.8.
func betaBelow(x, a, b float64) float64 {
	switch {
	case x <= 0:
		return 0
	case x >= 1:
		return 1
	case x > (a+1)/(a+b+2):
		return 1 - betaBelow(1-x, b, a)
	}
	// Evaluated from the inside out: for shapes up to 5 forty terms are far more
	// than a float64 can tell.
	const terms = 40
	f := 1.0
	for m := terms; m >= 1; m-- {
		k := float64(m)
		even := k * (b - k) * x / ((a + 2*k - 1) * (a + 2*k))
		odd := -(a + k - 1) * (a + b + k - 1) * x / ((a + 2*k - 2) * (a + 2*k - 1))
		f = 1 + odd/(1+even/f)
	}
	lgA, _ := math.Lgamma(a)
	lgB, _ := math.Lgamma(b)
	lgAB, _ := math.Lgamma(a + b)
	return math.Exp(a*math.Log(x)+b*math.Log1p(-x)+lgAB-lgA-lgB) / (a * f)
}
