package heat

import (
	"time"

	"example.org/kettledrum/plan"
)

// Reading is what a thermometer showed in the middle of the food.
type Reading struct {
	At   time.Time
	Temp plan.Celsius
}

// Roast is a piece of food on its way to a temperature inside.
type Roast struct {
	// Start is when it went into the heat, Planned how long it is to take in all.
	Start   time.Time
	Planned time.Duration
	Target  plan.Celsius
	// Oven is what the dial says; without HasOven the heat comes from below.
	Oven    plan.Celsius
	HasOven bool
	// Turned is when the dial was last turned while the food was in; zero if never.
	Turned time.Time
	// Readings are by time. One from before Start tells how cold the food was.
	Readings []Reading
}

// Basis says what a forecast rests on.
type Basis string

// What a forecast rests on.
const (
	FromPlan    Basis = "plan"    // too few readings: the plan's time stands
	FromFit     Basis = "fit"     // readings and plan, each by its weight
	Reached     Basis = "reached" // the last reading is at the target or above
	Stalled     Basis = "stalled" // the inside hardly moves: no time can be told
	FromPlateau Basis = "plateau" // a plateau lies ahead, no fit holds beyond it: the plan's time stands
)

// Forecast is when a roast will be at its target.
type Forecast struct {
	Basis Basis
	// At and Last are of the newest reading; zero without any.
	At   time.Time
	Last plan.Celsius
	// Done is when the target is reached, Early and Late are the ends of the
	// interval that holds it in four cases of five; none before At. Stalled, they are
	// what the plan says.
	Done, Early, Late time.Time
}

// Moves reports whether the forecast knows more than the plan.
func (f Forecast) Moves() bool { return f.Basis == FromFit || f.Basis == Reached }
