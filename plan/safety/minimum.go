package safety

import (
	"fmt"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/source"
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
	Source source.Source
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

func minimumChart(m source.Mark) source.Source {
	return cite("FoodSafety.gov, Safe Minimum Internal Temperatures", "2019–2024", m)
}

// minimums is the consumer chart: FoodSafety.gov "Safe Minimum Internal
// Temperatures", and the USDA FSIS chart of the same name. One extension page
// lists 165 °F for all ground meat; the chart says 160 °F for red meat.
var minimums = []Row{
	{"whole-red", "beef, bison, veal, goat, lamb: steaks, chops, roasts", 145, "", 3 * time.Minute, minimumChart(source.Secondary)},
	{"whole-pork", "pork: steaks, chops, roasts", 145, "", 3 * time.Minute, minimumChart(source.Secondary)},
	{"ground-red", "ground beef, pork, veal, lamb, and sausage of these", 160, "", 0, minimumChart(source.Secondary)},
	{"poultry", "all poultry: whole, parts, ground, giblets, and stuffing in the bird", 165, "", 0, minimumChart(source.Secondary)},
	{"ham-raw", "ham, fresh or smoked, uncooked", 145, "", 3 * time.Minute, minimumChart(source.Secondary)},
	{"ham-reheat", "cooked ham from an inspected plant, in the plant's packaging", 140, "", 0, minimumChart(source.Secondary)},
	{"ham-reheat-other", "any other cooked ham: repacked, left over, sliced in the shop", 165, "", 0, minimumChart(source.Secondary)},
	{"egg", "eggs alone", 0, "white and yolk are both firm", 0, minimumChart(source.Secondary)},
	{"egg-dish", "frittata, quiche, custard, sauces with egg", 160, "", 0, minimumChart(source.Secondary)},
	{"leftover", "leftovers of any kind", 165, "", 0, minimumChart(source.Secondary)},
	{"casserole", "casseroles, with meat or without", 165, "", 0, minimumChart(source.Secondary)},
	{"rabbit-venison", "rabbit and venison", 160, "", 0, minimumChart(source.Memory)},
	{"fish", "fin fish", 145, "flesh is opaque and flakes under a fork", 0, minimumChart(source.Secondary)},
	{"crustacean", "shrimp, lobster, crab", 0, "flesh is pearly or white, and opaque", 0, minimumChart(source.Secondary)},
	{"scallop", "scallops", 0, "flesh is milky white or opaque, and firm", 0, minimumChart(source.Secondary)},
	{"bivalve", "clams, oysters, mussels", 0, "shells open while cooking", 0, minimumChart(source.Secondary)},
}

// FoodTable is the table of food classes, in Markdown.
func FoodTable() string {
	var b strings.Builder
	b.WriteString("| `food` | what it is | done at |\n|---|---|---|\n")
	for _, r := range minimums {
		var done []string
		if r.HasTemp() {
			done = append(done, fmt.Sprintf("%d °F (%.0f °C)", r.F, float64(r.Temp())))
		}
		if r.Rest > 0 {
			done = append(done, fmt.Sprintf("then %d minutes of rest", plan.Minutes(r.Rest)))
		}
		if r.Sign != "" {
			if r.HasTemp() {
				done = append(done, "or "+r.Sign)
			} else {
				done = append(done, r.Sign)
			}
		}
		if r.Source.Mark == source.Memory {
			done = append(done, "from memory")
		}
		fmt.Fprintf(&b, "| `%s` | %s | %s |\n", r.ID, r.Food, strings.Join(done, ", "))
	}
	return b.String()
}
