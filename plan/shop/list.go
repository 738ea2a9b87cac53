package shop

import (
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/measure"
)

// List is a shopping list. It is plain data: its JSON is that of `shop --json`.
type List struct {
	Title  string    `json:"title"`
	Guests int       `json:"guests"` // 0 where the plan does not say
	Table  time.Time `json:"table"`
	Trips  []Trip    `json:"trips"`
	Thaw   []Thaw    `json:"thaw"`
	Notes  []Note    `json:"notes"`
}

// Trip is one way to the shops: all that can be bought at By.
type Trip struct {
	By time.Time `json:"by"` // when the first of it is needed
	// From is from when on all of it may be bought; null: any time before.
	From  *time.Time `json:"from"`
	Items []Item     `json:"items"`
}

// Item is one thing to buy.
type Item struct {
	Name    string   `json:"name"`
	Amounts []Amount `json:"amounts"` // none: the plan does not say how much
	// More: some more of it is needed, how much is not said: to taste, for dusting.
	More     bool      `json:"more"`
	Optional bool      `json:"optional"`
	Frozen   bool      `json:"frozen"`
	By       time.Time `json:"by"`
	// From is the earliest at which it may be bought to be fresh; null: any time.
	From *time.Time `json:"from"`
	// Why says why not earlier, with its source; empty where From is null.
	Why string `json:"why"`
	For []Use  `json:"for"`
}

// Amount is how much of a thing, as a cook reads it and as a number.
type Amount struct {
	Text string `json:"text"`
	// Low and High are in Unit: "g", "ml", or what is counted, empty for the thing
	// itself.
	Low  float64 `json:"low"`
	High float64 `json:"high"`
	Unit string  `json:"unit"`
	// About: from a density, a rounding by more than the noise, or as the cook wrote.
	About bool `json:"about"`
}

// Use is what takes a thing.
type Use struct {
	Dish string    `json:"dish"`
	Line string    `json:"line"` // as the cook wrote it
	At   time.Time `json:"at"`
}

// Thaw is something to take out of the freezer.
type Thaw struct {
	Name string `json:"name"`
	Dish string `json:"dish"`
	// Out is when it must be in the refrigerator at the latest, Needed when it is
	// taken, Takes how long it thaws at most.
	Out    time.Time `json:"out"`
	Needed time.Time `json:"needed"`
	Takes  int       `json:"takes_h"` // hours
	Text   string    `json:"text"`
	Source string    `json:"source"`
}

// Note is something that the numbers do not say.
type Note struct {
	Dish string `json:"dish"` // empty for the whole list
	Text string `json:"text"`
}

// Make returns the shopping list of a plan whose steps stand as in the timetable.
func Make(p *plan.Plan, t *plan.Timetable) List {
	in := func(x time.Time) time.Time { return x.In(p.Table.Location()) }
	l := List{Title: p.Title, Guests: p.Guests, Table: in(p.Table), Trips: []Trip{}, Thaw: []Thaw{}, Notes: []Note{}}
	needs := gather(p, t, in)
	l.Trips = trips(purchases(p, needs))
	l.Thaw = append(l.Thaw, thaws(p, needs)...)
	l.Notes = append(l.Notes, notes(p, needs)...)
	return l
}

// system is whose cups and pints a plan's lines mean.
func system(p *plan.Plan) measure.System {
	switch {
	case p.Rules == "uk":
		return measure.Imperial
	case p.Units == plan.Metric:
		return measure.Metric
	}
	return measure.US
}
