package heat

import (
	"math"
	"time"

	"example.org/kettledrum/plan"
)

// FullPower is the temperature that a heating oven tends to.
const FullPower plan.Celsius = 300

// Oven is an oven as a first-order system. The time constants are in minutes.
type Oven struct {
	Room           plan.Celsius
	TauUp, TauDown float64
}

// Of returns the oven that takes o.Preheat from the room and o.Cools between
// its two temperatures. Both ramps must be possible: room < To < FullPower, and
// room < To < From.
func Of(o plan.Oven, room plan.Celsius) Oven {
	up := math.Log(float64((FullPower - room) / (FullPower - o.Preheat.To)))
	down := math.Log(float64((o.Cools.From - room) / (o.Cools.To - room)))
	return Oven{
		Room:    room,
		TauUp:   o.Preheat.Takes.Minutes() / up,
		TauDown: o.Cools.Takes.Minutes() / down,
	}
}

// Never is returned for a temperature that the oven cannot reach.
const Never = time.Duration(math.MaxInt64)

// Heating returns how long the oven takes from one temperature up to another:
// τ_h·ln((T_max − from)/(T_max − to)); zero if it is there already.
func (o Oven) Heating(from, to plan.Celsius) time.Duration {
	switch {
	case to <= from:
		return 0
	case to >= FullPower:
		return Never
	}
	return minutes(o.TauUp * math.Log(float64((FullPower-from)/(FullPower-to))))
}

// Cooling returns how long the oven takes from one temperature down to another:
// τ_c·ln((from − T_room)/(to − T_room)); zero if it is there already.
func (o Oven) Cooling(from, to plan.Celsius) time.Duration {
	switch {
	case to >= from:
		return 0
	case to <= o.Room:
		return Never
	}
	return minutes(o.TauDown * math.Log(float64((from-o.Room)/(to-o.Room))))
}

// Change returns how long the oven takes from one temperature to another, up or
// down.
func (o Oven) Change(from, to plan.Celsius) time.Duration {
	if to > from {
		return o.Heating(from, to)
	}
	return o.Cooling(from, to)
}

// Between returns the changeover from a bake that accepts [aLo, aHi] to one
// that accepts [bLo, bHi]: the time from the nearest end of the first range to
// the nearest end of the second; zero where they overlap.
func (o Oven) Between(aLo, aHi, bLo, bHi plan.Celsius) time.Duration {
	switch {
	case aHi < bLo:
		return o.Heating(aHi, bLo)
	case bHi < aLo:
		return o.Cooling(aLo, bHi)
	}
	return 0
}

// After returns the temperature d after the dial was set, from start towards
// set, or towards the room where off.
func (o Oven) After(start, set plan.Celsius, off bool, d time.Duration) plan.Celsius {
	if off {
		set = o.Room
	}
	t := d.Minutes()
	if set > start {
		full := FullPower - (FullPower-start)*plan.Celsius(math.Exp(-t/o.TauUp))
		return min(set, full)
	}
	down := o.Room + (start-o.Room)*plan.Celsius(math.Exp(-t/o.TauDown))
	return max(set, down)
}

func minutes(m float64) time.Duration { return time.Duration(m * float64(time.Minute)) }
