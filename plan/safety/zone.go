package safety

import (
	"time"

	"example.org/kettledrum/plan/source"
)

// The consumer's danger zone: between ColdF and HotF, in degrees Fahrenheit, food
// that spoils may be for OutOfControl in all, over several spells; where it is
// warmer around it than WarmF, for OutInTheWarm.
//
// Source: USDA FSIS, Danger Zone (40 °F–140 °F), as quoted in its releases of 2016.
const (
	ColdF = 40
	HotF  = 140
	WarmF = 90 // exactly this is not yet warm

	OutOfControl = 2 * time.Hour
	OutInTheWarm = time.Hour
)

// Others of the consumer's limits.
const (
	FreezerF = 0   // FoodSafety.gov: freezer at this or below
	OvenF    = 325 // FoodSafety.gov, roasting charts: no oven below this for roasts

	LeftoverF = 165 // FoodSafety.gov: what is heated again
)

var dangerZone = cite("USDA FSIS, Danger Zone (40 °F–140 °F)", "2016", source.Secondary)

// outOfControl returns how long food that spoils may be in the danger zone, in a
// kitchen of so many degrees Fahrenheit.
func outOfControl(roomF float64) time.Duration {
	if roomF > WarmF+1e-6 { // exact 90 °F comes back from Celsius a hair off
		return OutInTheWarm
	}
	return OutOfControl
}

// cite makes a source.
func cite(name, edition string, m source.Mark) source.Source {
	return source.Source{Name: name, Edition: edition, Mark: m}
}
