package heattest

import "math"

// Series is the exact temperature of a body with a dry surface, as the sum of terms
// C·exp(−ζ²·Fo), Fo = αt/L². Source: Incropera and DeWitt, Fundamentals of Heat and
// Mass Transfer, 5.5 and 5.6; Çengel, Heat Transfer, 4-2.
type Series struct {
	Zeta, C []float64
	// Rate is α/L², per second; Initial and Oven are °C.
	Rate, Initial, Oven float64
}

// NewSeries makes a series of so many terms for a body of one temperature; h is
// in W/m²K.
func NewSeries(shape Shape, length float64, meat Meat, h, initial, oven float64, terms int) Series {
	s := Series{Rate: meat.Diffusivity / (length * length), Initial: initial, Oven: oven}
	biot := h * length / meat.Conductivity
	for n := range terms {
		z := root(shape, biot, n)
		s.Zeta = append(s.Zeta, z)
		s.C = append(s.C, coefficient(shape, z))
	}
	return s
}

// Core is the temperature in the middle after so many seconds.
func (s Series) Core(seconds float64) float64 {
	theta := 0.0
	for i, z := range s.Zeta {
		theta += s.C[i] * math.Exp(-z*z*s.Rate*seconds)
	}
	return s.Oven + theta*(s.Initial-s.Oven)
}

// Until is after how many seconds the core has a temperature: by halving.
func (s Series) Until(core float64) float64 {
	lo, hi := 0.0, 1e6
	for range 80 {
		if mid := (lo + hi) / 2; s.Core(mid) < core {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi
}

// root is the n-th root, from 0, of
//
//	slab ζ tan ζ = Bi, cylinder ζ J₁(ζ) = Bi J₀(ζ), sphere 1 − ζ cot ζ = Bi
//
// written without poles, which changes sign once in each interval.
func root(shape Shape, biot float64, n int) float64 {
	f := func(z float64) float64 { return z*math.Sin(z) - biot*math.Cos(z) }
	lo, hi := float64(n)*math.Pi, float64(n)*math.Pi+math.Pi/2
	switch shape {
	case Cylinder:
		f = func(z float64) float64 { return z*math.J1(z) - biot*math.J0(z) }
		lo, hi = besselZero(math.J1, n), besselZero(math.J0, n+1)
	case Sphere:
		f = func(z float64) float64 { return (1-biot)*math.Sin(z) - z*math.Cos(z) }
		hi = float64(n+1) * math.Pi
		if n == 0 {
			lo = 1e-6 // 0 is no root of the equation, though of f
		}
	}
	return halve(f, lo, hi)
}

// besselZero is the n-th zero of J₀ or J₁, from 1; the 0-th is 0. Zeros lie about π
// apart, near (n − ¼)π and (n + ¼)π.
func besselZero(j func(float64) float64, n int) float64 {
	if n == 0 {
		return 0
	}
	about := (float64(n) - 0.25) * math.Pi
	if j(0) == 0 {
		about += math.Pi / 2
	}
	return halve(j, about-0.5, about+0.5)
}

// halve finds where f changes sign.
func halve(f func(float64) float64, lo, hi float64) float64 {
	rises := f(hi) > f(lo)
	for range 80 {
		if mid := (lo + hi) / 2; f(mid) > 0 == rises {
			hi = mid
		} else {
			lo = mid
		}
	}
	return (lo + hi) / 2
}

// coefficient is C of a root.
func coefficient(shape Shape, z float64) float64 {
	switch shape {
	case Cylinder:
		j0, j1 := math.J0(z), math.J1(z)
		return 2 / z * j1 / (j0*j0 + j1*j1)
	case Sphere:
		return 4 * (math.Sin(z) - z*math.Cos(z)) / (2*z - math.Sin(2*z))
	}
	return 4 * math.Sin(z) / (2*z + math.Sin(2*z))
}
