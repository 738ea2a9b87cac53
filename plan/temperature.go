package plan

import (
	"fmt"
	"math"
)

// Celsius is a temperature on the Celsius scale.
type Celsius float64

// FromFahrenheit converts a temperature of f degrees Fahrenheit, exact by
// definition: C = (F − 32)·5/9. Source: NIST SP 811 (2008), appendix B.8.
func FromFahrenheit(f float64) Celsius { return Celsius((f - 32) * 5 / 9) }

// Fahrenheit returns the temperature in degrees Fahrenheit: F = C·9/5 + 32.
func (c Celsius) Fahrenheit() float64 { return float64(c)*9/5 + 32 }

// Units says in which scale temperatures are shown.
type Units int

// The scales in which temperatures are shown.
const (
	Fahrenheit Units = iota
	Metric
)

// Temp formats a temperature as the cook reads it, to the whole degree: "350 °F".
func (u Units) Temp(c Celsius) string {
	if u == Metric {
		return fmt.Sprintf("%.0f °C", math.Round(float64(c)))
	}
	return fmt.Sprintf("%.0f °F", math.Round(c.Fahrenheit()))
}
