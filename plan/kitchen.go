package plan

import "time"

// Kitchen is what the plan has to cook with.
type Kitchen struct {
	Cooks   []Cook
	Ovens   []Oven
	Burners Burners
	Tools   []Tool
	// Cold are the cold places that the plan counts; one that is not listed
	// holds as much as it is asked to.
	Cold []Cold
	// Minds is how many pots (steps whose hands are Near) one cook who is
	// present can mind at once.
	Minds int
	// Room is the temperature of the kitchen: where an oven starts and what it
	// cools towards.
	Room Celsius
}

// Cook is a person who works, and when.
type Cook struct {
	Name string
	Free []Window // sorted, not overlapping
	// Sits: the cook is at table from each serve for as long as the course is
	// seated, but for what Course.SlipsAway lets them do.
	Sits bool
	Pos  Pos
}

// Cold is a cold place, "fridge" or "freezer", and how many things find room in it.
type Cold struct {
	Name   string
	Places int
	Pos    Pos
}

// Window is a stretch of time [From, To).
type Window struct {
	From, To time.Time
}

// Oven holds one temperature at a time. Heating and cooling are of the first
// order (package heat); the two stated times fix their constants.
type Oven struct {
	Name string
	// Shelves is the oven's space in half shelves: two shelves are 4.
	Shelves int
	// Preheat says how long the oven takes from room temperature up to To.
	Preheat Ramp
	// Cools says how long the oven, switched down, takes from From to To.
	Cools Ramp
	Pos   Pos
}

// Ramp is a stated time between two temperatures.
type Ramp struct {
	Takes    time.Duration
	From, To Celsius // From is unused by Preheat, which starts at room temperature
}

// Burners counts the burners by size.
type Burners struct {
	Large, Small int
}

// Tool is something a step uses or a vessel that holds its food.
type Tool struct {
	Name  string
	Count int
	// Wash is how long a piece is out of use between two dishes.
	Wash time.Duration
	// Listed is false for a tool that steps name and the kitchen does not:
	// it is taken to exist once.
	Listed bool
	Pos    Pos
}

// The kitchen that a plan has where it says nothing else.
const (
	DefaultMinds   = 3
	DefaultShelves = 4 // half shelves
	DefaultLarge   = 2
	DefaultSmall   = 2
	// DefaultLead is how long before the first serve a cook is free by default.
	DefaultLead = 6 * time.Hour
)

// DefaultRoom is 70 °F.
var DefaultRoom = FromFahrenheit(70)

// DefaultPreheat and DefaultCools describe an ordinary oven: 12 minutes from
// the room to 350 °F, 14 minutes from 425 °F down to 350 °F. Common practice.
var (
	DefaultPreheat = Ramp{Takes: 12 * time.Minute, To: FromFahrenheit(350)}
	DefaultCools   = Ramp{Takes: 14 * time.Minute, From: FromFahrenheit(425), To: FromFahrenheit(350)}
)
