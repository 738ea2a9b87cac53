package measure

import "fmt"

// Convert turns v of one unit into another of the same dimension: v·from/to. It
// panics where the dimensions differ; Density joins mass and volume.
func Convert(v float64, from, to *Unit) float64 {
	if from.Dimension != to.Dimension {
		panic(fmt.Sprintf("measure: %s is no %s", from.Name, to.Name))
	}
	if from == to {
		return v
	}
	return v * from.Size / to.Size
}
