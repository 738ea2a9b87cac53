package safety

import (
	"fmt"
	"math"

	"example.org/kettledrum/plan"
)

// rawDishes are words of dishes whose meat or fish is not cooked.
var rawDishes = []string{"tartare", "carpaccio", "ceviche", "sushi", "sashimi", "crudo", "poke", "gravlax", "oysters on the half shell", "raw oyster", "raw fish", "raw beef"}

// raws looks for meat, fish and shellfish that no step cooks.
func (f *finder) raws() {
	f.dishes(func(d *plan.Dish, steps []int) {
		cooked, named := false, says(d.Name, rawDishes...)
		for _, i := range steps {
			cooked = cooked || f.points[i].cooked
			named = named || says(f.p.Steps[i].Do, rawDishes...)
		}
		row, ok := Minimum(d.Food)
		if cooked || !named && (!ok || d.Food == "ham-reheat" || d.Food == "leftover") {
			return
		}
		do := "buy what is sold to be eaten raw, keep it cold, and tell the guests"
		if ok && row.HasTemp() {
			do = fmt.Sprintf("cook it to %s%s, or %s", f.temp(row.Temp()), andRest(row), do)
		}
		f.add("raw-food", steps[len(steps)-1], "no step cooks it: it is eaten raw", do)
	})
}

// ovens looks for roasts in an oven that is too cool.
func (f *finder) ovens() {
	for i := range f.p.Steps {
		s := &f.p.Steps[i]
		if s.Oven == nil || s.Oven.Grill || f.skipped(i) || f.chore(i) || f.points[i].stage != cooking || f.points[i].wasCooked {
			continue
		}
		row, _, ok := f.classAt(i)
		if !ok || says(s.Do, "braise", "stew", "simmer", "confit", "warm", "dry", "smoke") {
			continue
		}
		switch row.ID {
		case "whole-red", "whole-pork", "poultry", "ham-raw":
		default:
			continue
		}
		if f.points[i].kinds&meats == 0 && f.p.Dishes[s.Dish].Food == "" {
			continue
		}
		if s.Oven.At.Fahrenheit() < OvenF-0.5 && math.Round(float64(s.Oven.At)) < math.Round(float64(plan.FromFahrenheit(OvenF))) {
			f.add("oven-low", i, fmt.Sprintf("it roasts at %s; consumer advice is an oven of at least %s", f.temp(s.Oven.At), f.degrees(OvenF)),
				fmt.Sprintf("set the oven to %s or more, and go by the thermometer", f.degrees(OvenF)))
		}
	}
}
