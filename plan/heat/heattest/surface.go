package heattest

import "math"

// Dry is the flux into a surface by convection alone, h in W/m²K.
func Dry(h, oven float64) func(float64) float64 {
	return func(surface float64) float64 { return h * (oven - surface) }
}

// Wet is the flux into a surface that takes up heat by convection and radiation
// and gives off vapour.
type Wet struct {
	Oven                  float64 // °C
	Convection, Radiation float64 // W/m²K
	// Wetness is the share of the surface that is wet; Humidity that of the oven's
	// air, kg of vapour to kg of dry air.
	Wetness, Humidity float64
}

// Properties of humid air and water about a roast.
const (
	lewis    = 0.85
	heatAir  = 1006.0   // J/kgK
	gasAir   = 287.0    // J/kgK
	gasWater = 461.5    // J/kgK
	pressure = 101325.0 // Pa
	kelvin   = 273.15
)

// Flux is the heat that the surface takes in, W/m². Vapour leaves as heat comes in,
// by the analogy of Chilton and Colburn, driven by the difference of its densities
// (Incropera and DeWitt, 6.7; air of the film's mean temperature):
//
//	q = (h_c + h_r)(T − T_s) − β·h_c/(ρ·c_p·Le^(2/3))·L·(ρ_s − ρ_v)
func (w Wet) Flux(surface float64) float64 {
	film := (w.Oven+surface)/2 + kelvin
	mass := w.Convection * gasAir * film / (pressure * heatAir * math.Pow(lewis, 2.0/3)) // m/s
	vaporise := 2.5008e6 - 2372*surface                                                  // J/kg
	air := w.Humidity / (gasAir/gasWater + w.Humidity) * pressure / (gasWater * (w.Oven + kelvin))
	out := max(0, vapour(surface)/(gasWater*(surface+kelvin))-air)
	return (w.Convection+w.Radiation)*(w.Oven-surface) - w.Wetness*mass*vaporise*out
}

// vapour is the pressure of saturated vapour in Pa. Buck, Journal of Applied
// Meteorology 20, 1981, 1527, with the constants of 1996.
func vapour(t float64) float64 { return 611.21 * math.Exp((18.678-t/234.5)*t/(257.14+t)) }
