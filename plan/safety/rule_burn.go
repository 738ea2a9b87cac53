package safety

import (
	"slices"

	"example.org/kettledrum/plan"
)

var (
	sugarWork = []string{"caramel", "caramelise the sugar", "caramelize the sugar", "brittle", "toffee", "praline", "spun sugar", "sugar syrup", "nougat", "fudge", "candy", "marshmallow", "croquembouche", "brulee"}
	deepOil   = []string{"deep fry", "deep fries", "deep frying", "deep fried", "deep oil", "deep fat", "hot oil", "frying oil", "heat the oil", "doughnut", "donut", "tempura", "fritter", "french fries"}
)

// Targets in degrees Fahrenheit from which on what is on a burner is no water.
const (
	threadF = 234 // 112 °C, the least of boiled sugar; common practice
	fryingF = 300 // common practice
)

// burns looks for hot sugar and deep oil, once in a dish.
func (f *finder) burns() {
	f.dishes(func(d *plan.Dish, steps []int) {
		sugar := slices.IndexFunc(steps, func(i int) bool { return f.boilsSugar(i) })
		if sugar >= 0 {
			f.add("hot-sugar", steps[sugar], "boiling sugar, at 112 to 177 °C (234 to 350 °F)",
				"keep children away and cold water at hand; hold a burn under running water for 20 minutes")
		}
		oil := slices.IndexFunc(steps, func(i int) bool {
			s := &f.p.Steps[i]
			return s.Oven == nil && (says(s.Do, deepOil...) ||
				s.Burner != nil && s.Until.HasTemp && s.Until.Temp >= plan.FromFahrenheit(fryingF) && says(s.Do, "oil", "fry", "fat"))
		})
		if oil >= 0 {
			f.add("hot-oil", steps[oil], "deep hot oil", "stay with it, dry the food and the pan; if it burns: lid on, heat off, no water")
		}
	})
}

func (f *finder) boilsSugar(i int) bool {
	s := &f.p.Steps[i]
	if (s.Oven != nil || !heats(s)) && !says(s.Do, "spun sugar", "brulee") || says(s.Do, "onion", "shallot") {
		return false
	}
	if says(s.Do, sugarWork...) || says(s.Do, "boil") && says(s.Do, "sugar", "syrup") && !says(s.Do, "vinegar", "brine") {
		return true
	}
	return s.Until.HasTemp && s.Until.Temp >= plan.FromFahrenheit(threadF) && says(s.Do, "sugar", "syrup", "honey", "jam")
}
