package safety

import (
	"fmt"
	"math"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/source"
)

// classes are the rows of the chart that words stand for, where a dish states no
// `food`; the first that fits.
var classes = []struct {
	kind  kind
	class string
}{
	{poultry, "poultry"}, {ground, "ground-red"}, {sausage, "ground-red"}, {game, "rabbit-venison"}, {casserole, "casserole"},
	{custard | quiche, "egg-dish"}, {pork, "whole-pork"}, {redMeat, "whole-red"}, {fish, "fish"},
}

// classAt returns the row of the chart for the food of a step, and whether the plan
// states it.
func (f *finder) classAt(i int) (r Row, stated, ok bool) {
	if food := f.p.Dishes[f.p.Steps[i].Dish].Food; food != "" {
		r, ok = Minimum(food)
		return r, true, ok
	}
	k := f.points[i].kinds
	for _, c := range classes {
		if k&c.kind != 0 {
			r, ok = Minimum(c.class)
			return r, false, ok
		}
	}
	return Row{}, false, false
}

// reaches reports whether a target of the plan is up to a temperature of a chart. A
// target in whole degrees Celsius is compared with what the chart prints in those.
func reaches(target, least plan.Celsius) bool {
	if c := float64(target); math.Abs(c-math.Round(c)) < 1e-6 {
		return c >= math.Round(float64(least))-1e-6
	}
	return target >= least-1e-6
}

// cooks reports whether a step's target is of the food, and not of what it lies in.
func cooks(s *plan.Step) bool {
	return heats(s) && s.Until.HasTemp && !says(s.Do, "oil", "fat", "sugar", "syrup", "caramel", "milk", "water")
}

// targets looks at the temperature that each dish is cooked to.
func (f *finder) targets() {
	f.dishes(func(d *plan.Dish, steps []int) {
		best := -1
		for _, i := range steps {
			if s := &f.p.Steps[i]; cooks(s) && (best < 0 || s.Until.Temp > f.p.Steps[best].Until.Temp) {
				best = i
			}
		}
		if best < 0 {
			f.noTarget(d, steps)
			return
		}
		row, stated, ok := f.classAt(best)
		if !ok || !stated && f.points[best].stage == reheating {
			return // heating again is looked at as such
		}
		target := f.p.Steps[best].Until.Temp
		switch {
		case !row.HasTemp():
		case f.p.Rules == "uk" && row.F >= LeastOfUK:
			if target < ukCore-1e-6 {
				f.add("under-minimum", best,
					fmt.Sprintf("%s says done at %s; British advice for %s is %s for 2 minutes, or 75 °C for 30 seconds", f.isFor(stated), f.temp(target), row.Food, f.temp(ukCore)),
					"cook on to "+f.temp(ukCore)+" in the middle and hold it there for 2 minutes", fsa(source.Secondary))
			}
		case !reaches(target, row.Temp()):
			f.add("under-minimum", best,
				fmt.Sprintf("%s says done at %s; the consumer chart says %s for %s%s", f.isFor(stated), f.temp(target), f.temp(row.Temp()), row.Food, f.beside(row, target)),
				"cook on to "+f.temp(row.Temp())+" in the thickest part"+andRest(row), row.Source)
		default:
			f.rest(best, row)
		}
	})
}

// LeastOfUK is the figure of the American chart, in degrees Fahrenheit, from which on
// British advice (70 °C for two minutes) is looked at in its place.
const LeastOfUK = 160

func (f *finder) isFor(stated bool) string {
	if stated {
		return "the plan"
	}
	return "the plan, which states no `food`,"
}

func andRest(r Row) string {
	if r.Rest == 0 {
		return ""
	}
	return fmt.Sprintf(", then let it rest %d minutes", plan.Minutes(r.Rest))
}

// beside names the Food Code's figure, which is for kitchens that time it.
func (f *finder) beside(r Row, target plan.Celsius) string {
	switch r.ID {
	case "ground-red":
		return fmt.Sprintf(" (the Food Code, for kitchens that time it: %s for 17 seconds)", f.degrees(155))
	case "whole-red", "whole-pork", "ham-raw":
		if d, ok := roastTime(target); ok && d > 0 {
			return fmt.Sprintf(" (the Food Code, for whole roasts, if every part is held there: %s)", spell(d))
		}
	}
	return ""
}

// spell writes a time that may be of seconds.
func spell(d time.Duration) string {
	if d%time.Minute != 0 && d < 5*time.Minute {
		return fmt.Sprintf("%d s", int(d.Seconds()))
	}
	return plan.Spell(d)
}

// longMoist is how long food must boil, simmer or braise for no temperature to be
// missed: it is far past the chart then. Common practice.
const longMoist = 30 * time.Minute

// noTarget is about a dish that states its food and no step that says how hot it
// gets.
func (f *finder) noTarget(d *plan.Dish, steps []int) {
	row, ok := Minimum(d.Food)
	last := -1
	for _, i := range steps {
		s := &f.p.Steps[i]
		if !heats(s) {
			continue
		}
		last = i
		moist := says(s.Do, "boil", "simmer", "braise", "stew", "poach") || says(f.p.Dishes[s.Dish].Name, "stew", "soup")
		if moist && s.Length.Likely >= longMoist || row.Sign != "" && s.Until.Sign != "" {
			return
		}
	}
	if !ok || last < 0 {
		return
	}
	if !row.HasTemp() {
		f.add("no-target", last, "no step says by what to see that it is done", "cook until "+row.Sign, row.Source)
		return
	}
	f.add("no-target", last, fmt.Sprintf("no step says to what temperature it is cooked; the consumer chart says %s for %s", f.temp(row.Temp()), row.Food),
		fmt.Sprintf("write `until: %s`, and measure in the thickest part%s", f.written(row), andRest(row)), row.Source)
}

// written is the row's temperature as a plan writes it.
func (f *finder) written(r Row) string {
	if f.p.Units == plan.Metric {
		return fmt.Sprintf("%.0fC", math.Round(float64(r.Temp())))
	}
	return fmt.Sprintf("%dF", r.F)
}

// restless is the temperature in degrees Fahrenheit from which on the Food Code asks
// of a whole roast no time at all.
const restless = 158

// rest looks whether a cut that needs its rest gets it.
func (f *finder) rest(i int, row Row) {
	s := &f.p.Steps[i]
	if row.Rest == 0 || s.Until.Temp.Fahrenheit() >= restless-1e-6 || s.Keeps.Place == "oven" {
		return
	}
	if got, cut := f.rests(i); cut && got < row.Rest {
		f.add("short-rest", i, fmt.Sprintf("it rests %s when it is done at %s; the chart asks for %d minutes", plan.Spell(got), f.temp(s.Until.Temp), plan.Minutes(row.Rest)),
			fmt.Sprintf("let it rest whole for %d minutes, off the heat", plan.Minutes(row.Rest)), row.Source)
	}
}

// rests returns how long after a step its food is left alone until it is cut or
// served; false where it goes on to the heat.
func (f *finder) rests(i int) (time.Duration, bool) {
	if f.last(i) {
		return f.toTable(i), true
	}
	least, found := time.Duration(math.MaxInt64), false
	for _, j := range f.followers[i] {
		if heats(&f.p.Steps[j]) {
			continue
		}
		got, cut := f.gap(i, j), true
		if f.p.Steps[j].Length.Elastic {
			var more time.Duration
			more, cut = f.rests(j)
			got += f.length(j) + more
		}
		if cut {
			least, found = min(least, got), true
		}
	}
	return least, found
}

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
