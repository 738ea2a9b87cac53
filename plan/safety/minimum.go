package safety

import (
	"time"

	"example.org/kettledrum/plan"
)

// Row is one row of the consumer chart of safe minimum internal temperatures.
type Row struct {
	ID   string // what `food` names in a plan
	Food string // what it stands for, as a cook reads it
	// F is the least internal temperature in degrees Fahrenheit, as the chart
	// prints it; 0 where the chart gives a sign in its place.
	F int
	// Sign is what to see: in place of a temperature, or of fish beside it.
	Sign string
	// Rest is the least time off the heat after the temperature is reached, a part
	// of what makes the food safe.
	Rest   time.Duration
	Source Source
}

// HasTemp reports whether the chart gives a temperature.
func (r Row) HasTemp() bool { return r.F > 0 }

// Temp returns the least internal temperature, exact from degrees Fahrenheit.
// Without HasTemp it means nothing.
func (r Row) Temp() plan.Celsius { return plan.FromFahrenheit(float64(r.F)) }

// Minimum returns the row of the chart for a food class; false where there is none.
func Minimum(food string) (Row, bool) {
	for _, r := range minimums {
		if r.ID == food {
			return r, true
		}
	}
	return Row{}, false
}

// Foods returns the ids of all food classes, in the order of the chart.
func Foods() []string {
	var ids []string
	for _, r := range minimums {
		ids = append(ids, r.ID)
	}
	return ids
}

// Minimums returns all rows of the chart.
func Minimums() []Row { return append([]Row(nil), minimums...) }

func minimumChart(m Mark) Source {
	return Source{"FoodSafety.gov, Safe Minimum Internal Temperatures", "2019–2024", m}
}

// minimums is the consumer chart: FoodSafety.gov "Safe Minimum Internal
// Temperatures", and the USDA FSIS chart of the same name. One extension page
// lists 165 °F for all ground meat; the chart says 160 °F for red meat.
var minimums = []Row{
	{"whole-red", "beef, bison, veal, goat, lamb: steaks, chops, roasts", 145, "", 3 * time.Minute, minimumChart(Secondary)},
	{"whole-pork", "pork: steaks, chops, roasts", 145, "", 3 * time.Minute, minimumChart(Secondary)},
	{"ground-red", "ground beef, pork, veal, lamb, and sausage of these", 160, "", 0, minimumChart(Secondary)},
	{"poultry", "all poultry: whole, parts, ground, giblets, and stuffing in the bird", 165, "", 0, minimumChart(Secondary)},
	{"ham-raw", "ham, fresh or smoked, uncooked", 145, "", 3 * time.Minute, minimumChart(Secondary)},
	{"ham-reheat", "cooked ham from an inspected plant, in the plant's packaging", 140, "", 0, minimumChart(Secondary)},
	{"ham-reheat-other", "any other cooked ham: repacked, left over, sliced in the shop", 165, "", 0, minimumChart(Secondary)},
	{"egg", "eggs alone", 0, "white and yolk are both firm", 0, minimumChart(Secondary)},
	{"egg-dish", "frittata, quiche, custard, sauces with egg", 160, "", 0, minimumChart(Secondary)},
	{"leftover", "leftovers of any kind", 165, "", 0, minimumChart(Secondary)},
	{"casserole", "casseroles, with meat or without", 165, "", 0, minimumChart(Secondary)},
	{"rabbit-venison", "rabbit and venison", 160, "", 0, minimumChart(Memory)},
	{"fish", "fin fish", 145, "flesh is opaque and flakes under a fork", 0, minimumChart(Secondary)},
	{"crustacean", "shrimp, lobster, crab", 0, "flesh is pearly or white, and opaque", 0, minimumChart(Secondary)},
	{"scallop", "scallops", 0, "flesh is milky white or opaque, and firm", 0, minimumChart(Secondary)},
	{"bivalve", "clams, oysters, mussels", 0, "shells open while cooking", 0, minimumChart(Secondary)},
}
