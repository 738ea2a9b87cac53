package heattest

import "math"

// Shape of a solid: heat goes through surfaces that grow with r^Shape.
type Shape int

// Shapes. The length of a solid is half the thickness of a slab, else the radius.
const (
	Slab Shape = iota
	Cylinder
	Sphere
)

// Meat is what a solid is made of.
type Meat struct {
	Diffusivity  float64 // m²/s
	Conductivity float64 // W/mK
}

// Solid is a body whose temperature depends on the distance from its middle only.
type Solid struct {
	shape Shape
	meat  Meat
	dr    float64
	temp  []float64 // °C at r = 0, dr, 2dr, …, length
	area  []float64 // at r = ½dr, 1½dr, …
	vol   []float64 // of the part about each point
	// scratch of the tridiagonal solver
	lo, di, up, rhs []float64
}

// NewSolid makes a body of one temperature, of n shells.
func NewSolid(shape Shape, length float64, meat Meat, temp float64, n int) *Solid {
	s := &Solid{shape: shape, meat: meat, dr: length / float64(n)}
	volume := func(r float64) float64 { return math.Pow(r, float64(shape+1)) / float64(shape+1) }
	for i := range n + 1 {
		r := float64(i) * s.dr
		outer := min(r+s.dr/2, length)
		s.temp = append(s.temp, temp)
		s.area = append(s.area, math.Pow(r+s.dr/2, float64(shape)))
		s.vol = append(s.vol, volume(outer)-volume(max(0, r-s.dr/2)))
	}
	s.area[n] = math.Pow(length, float64(shape))
	for _, p := range []*[]float64{&s.lo, &s.di, &s.up, &s.rhs} {
		*p = make([]float64, n+1)
	}
	return s
}

// Core and Surface are the temperatures in the middle and outside.
func (s *Solid) Core() float64    { return s.temp[0] }
func (s *Solid) Surface() float64 { return s.temp[len(s.temp)-1] }

// Step goes on by dt seconds, with half of the old and half of the new slopes
// (Crank and Nicolson, Proceedings of the Cambridge Philosophical Society 43, 1947,
// 50). Flux is the heat that a surface of a temperature takes in, W/m²; it is
// taken as straight about the old temperature.
func (s *Solid) Step(dt float64, flux func(surface float64) float64) {
	n := len(s.temp) - 1
	conduct := s.meat.Conductivity / s.dr
	heat := s.meat.Conductivity / s.meat.Diffusivity // ρc, J/m³K
	for i := range n + 1 {
		m := heat * s.vol[i] / dt
		s.lo[i], s.up[i], s.di[i], s.rhs[i] = 0, 0, m, m*s.temp[i]
		if i > 0 {
			g := conduct * s.area[i-1] / 2
			s.lo[i] = -g
			s.di[i] += g
			s.rhs[i] -= g * (s.temp[i] - s.temp[i-1])
		}
		if i < n {
			g := conduct * s.area[i] / 2
			s.up[i] = -g
			s.di[i] += g
			s.rhs[i] -= g * (s.temp[i] - s.temp[i+1])
		}
	}
	const small = 0.01
	q, t := flux(s.temp[n]), s.temp[n]
	bend := (flux(t+small) - flux(t-small)) / (2 * small)
	s.di[n] -= s.area[n] * bend / 2
	s.rhs[n] += s.area[n] * (q - bend*t/2)
	for i := 1; i <= n; i++ {
		f := s.lo[i] / s.di[i-1]
		s.di[i] -= f * s.up[i-1]
		s.rhs[i] -= f * s.rhs[i-1]
	}
	s.temp[n] = s.rhs[n] / s.di[n]
	for i := n - 1; i >= 0; i-- {
		s.temp[i] = (s.rhs[i] - s.up[i]*s.temp[i+1]) / s.di[i]
	}
}

// Until goes on in steps of dt seconds until the core has a temperature, and
// returns after how many seconds, between the steps in a straight line. It gives up
// after limit seconds.
func (s *Solid) Until(core, dt, limit float64, flux func(float64) float64) (seconds float64, ok bool) {
	for t := 0.0; t < limit; t += dt {
		before := s.Core()
		s.Step(dt, flux)
		if s.Core() >= core {
			return t + dt*(core-before)/(s.Core()-before), true
		}
	}
	return limit, false
}
