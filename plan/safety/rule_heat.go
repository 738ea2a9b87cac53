package safety

import (
	"fmt"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/source"
)

// bigPot is for how many a pot is made that cools too slowly by itself, and
// hotEnough how long a simmer makes all of a sauce hot. Common practice.
const (
	bigPot    = 6
	hotEnough = 10 * time.Minute
)

// pots looks for big pots that go into the cold as they are.
func (f *finder) pots() {
	f.dishes(func(d *plan.Dish, steps []int) {
		made := d.Makes
		if made == 0 {
			made = f.p.Guests
		}
		if made > 0 && made < bigPot {
			return
		}
		for _, i := range steps {
			if says(f.p.Steps[i].Do, "shallow", "ice bath", "over ice", "on ice", "ice water", "iced water", "cold water") {
				return
			}
		}
		for _, i := range steps {
			b := &f.points[i]
			if b.kinds&(soup|stock|pulses) == 0 || b.kinds&casserole != 0 || !b.cooked || !f.goesCold(i) {
				continue
			}
			text := "it goes into the cold straight from the heat"
			if made > 0 {
				text = fmt.Sprintf("made for %d, it goes into the cold straight from the heat", made)
			}
			f.add("cool-pot", i, text, "spread it 2 to 3 inches (5 to 8 cm) deep in shallow boxes, or stand the pot in ice water, and have it cold within 2 hours")
			return
		}
	})
}

// goesCold reports whether the food of a step comes hot into the cold.
func (f *finder) goesCold(i int) bool {
	b, s := &f.points[i], &f.p.Steps[i]
	if b.stage == cooling {
		return true
	}
	if b.chilled || s.Keeps.Place != "fridge" && s.Keeps.Place != "freezer" {
		return false
	}
	for _, j := range f.followers[i] {
		if f.gap(i, j) >= coldFor {
			return true
		}
	}
	return false
}

// reheats looks whether what was cooked and cold gets hot enough again.
func (f *finder) reheats() {
	for i := range f.p.Steps {
		s, b := &f.p.Steps[i], &f.points[i]
		if f.chore(i) || f.skipped(i) || b.stage != reheating || !b.kinds.spoils(true) {
			continue
		}
		least, from := plan.FromFahrenheit(LeftoverF), source.Source{}
		switch {
		case f.p.Rules == "uk":
			least, from = ukCore, fsa(source.Secondary)
		case f.p.Dishes[s.Dish].Food == "ham-reheat":
			row, _ := Minimum("ham-reheat")
			least, from = row.Temp(), row.Source
		}
		if s.Until.HasTemp && Reaches(s.Until.Temp, least) {
			continue
		}
		text := s.Do + " " + s.Until.Sign
		if says(text, "boil", "boiling", "boils", "bubbling", "rolling boil") || says(text, "simmer", "reduce") && s.Length.Likely >= hotEnough {
			continue
		}
		liquid := b.kinds&(soup|stock) != 0 && b.kinds&(meats|seafood) == 0 || says(text, "soup", "sauce", "gravy", "stock", "broth", "jus")
		what := "no step says how hot it gets"
		if s.Until.HasTemp {
			what = fmt.Sprintf("the plan says done at %s", f.temp(s.Until.Temp))
		}
		switch {
		case liquid:
			f.add("gravy-boil", i, "it was cold, and is warmed without boiling: "+what, "bring it to a rolling boil", orOf(from, "gravy-boil"))
		case b.kinds&(cookedSpoils|rice|grain|pasta|pulses) != 0:
			do := "heat it to " + f.temp(least) + " in the middle"
			if f.p.Rules == "uk" {
				do += fmt.Sprintf(" for 2 minutes (in Scotland to %s)", f.temp(ukScotlandReheat))
			}
			f.add("reheat", i, fmt.Sprintf("it was cold, and is heated again: %s; advice is %s for leftovers", what, f.temp(least)), do, orOf(from, "reheat"))
		}
	}
}

// orOf is a source or, where there is none, that of a code.
func orOf(s source.Source, code string) source.Source {
	if s.Name != "" {
		return s
	}
	for _, a := range advices {
		if a.code == code {
			return a.source
		}
	}
	return s
}
