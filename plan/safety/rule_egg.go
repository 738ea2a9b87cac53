package safety

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// hardBoiled is how long an egg boils until its yolk is firm. Common practice.
const hardBoiled = 9 * time.Minute

var (
	eggWords = []string{"egg", "yolk", "egg white", "whites"}
	// rawEggDishes are made with raw egg as a rule.
	rawEggDishes = []string{"mayonnaise", "aioli", "mousse", "caesar", "tiramisu", "semifreddo", "eggnog", "egg nog", "soft meringue", "royal icing"}
	// softEggDishes warm it without setting it.
	softEggDishes = []string{"soft boiled", "soft boil", "soft boiled egg", "runny", "poached egg", "poach the egg", "poach egg", "coddled", "jammy", "sunny side", "over easy", "hollandaise", "bearnaise",
		"sabayon", "zabaglione", "soft scrambled", "soft yolk"}
	// softEggVerbs leave an egg runny unless it is long on the heat.
	softEggVerbs = []string{"boil", "simmer", "poach", "coddle", "steam"}
	// notCooking are steps on the heat in which what is cooked is not the egg.
	notCooking  = []string{"melt", "warm", "toast", "syrup", "caramel", "water", "infuse", "coffee"}
	pasteurised = []string{"pasteurised", "pasteurized"}
)

// eggs looks for egg that is eaten raw or runny.
func (f *finder) eggs() {
	f.dishes(func(d *plan.Dish, steps []int) {
		inLines, known := false, len(d.Ingredients) > 0
		for _, line := range d.Ingredients {
			if !has(line.Text, eggWords) {
				continue
			}
			if says(line.Text, pasteurised...) {
				return
			}
			inLines = true
		}
		if i := f.softEgg(d, steps); i >= 0 {
			f.add("raw-egg", i, "the egg is cooked so little that it stays runny", "cook it until white and yolk are firm, a sauce to "+f.degrees(160)+", or use pasteurised egg")
			return
		}
		i, raw := f.rawEgg(steps, inLines)
		named := says(d.Name, rawEggDishes...) || slices.ContainsFunc(steps, func(i int) bool { return says(f.p.Steps[i].Do, rawEggDishes...) })
		if !raw && named && !known && !f.heatsEgg(steps) {
			i, raw = steps[0], true
		}
		if raw {
			f.add("raw-egg", i, "the egg is eaten raw", "use pasteurised egg, or heat the egg with a part of the liquid to "+f.degrees(160))
		}
	})
}

// has reports whether a text names one of the words, and not only within a phrase
// that means something else (egg noodles are cooked).
func has(text string, words []string) bool {
	return says(text, words...) && !says(text, "egg noodle", "egg free", "eggless", "egg replacer", "egg substitute", "flax egg")
}

// softEgg returns a step that leaves egg runny, -1 for none.
func (f *finder) softEgg(d *plan.Dish, steps []int) int {
	for _, i := range steps {
		s := &f.p.Steps[i]
		text := s.Do + ", " + s.Until.Sign
		if s.Until.HasTemp && Reaches(s.Until.Temp, plan.FromFahrenheit(160)) {
			continue
		}
		if says(text, softEggDishes...) && (heats(s) || f.points[i].kinds&egg != 0) {
			return i
		}
		if heats(s) && has(object(s.Do), eggWords) && says(s.Do, softEggVerbs...) && s.Length.Likely < hardBoiled && !says(s.Do, "potato", "potatoes", "pasta", "soup") {
			return i
		}
	}
	if says(d.Name, softEggDishes...) {
		for _, i := range steps {
			if s := &f.p.Steps[i]; heats(s) && !(s.Until.HasTemp && Reaches(s.Until.Temp, plan.FromFahrenheit(160))) && s.Length.Likely < hardBoiled {
				return i
			}
		}
	}
	return -1
}

// rawEgg returns the step in which egg comes in that nothing cooks afterwards.
func (f *finder) rawEgg(steps []int, inLines bool) (int, bool) {
	named := false
	for _, i := range steps {
		s := &f.p.Steps[i]
		if !has(s.Do, eggWords) && !says(s.Do, "mayonnaise", "aioli", "meringue") {
			continue
		}
		named = true
		if !has(s.Do, eggWords) && f.heatsEgg(steps) {
			continue // baked
		}
		if says(s.Do, "mayonnaise", "aioli") && !has(s.Do, eggWords) && !inLines && !says(s.Do, "whisk", "make") {
			continue // from a jar
		}
		if b := &f.points[i]; !b.wasCooked && !f.cookedFrom(i, 0) {
			return i, true
		}
	}
	if named || !inLines || f.heatsEgg(steps) {
		return 0, false
	}
	return steps[0], true
}

// heatsEgg reports whether a step of the dish is on the heat and may cook the egg.
func (f *finder) heatsEgg(steps []int) bool {
	return slices.ContainsFunc(steps, func(i int) bool {
		return f.setsEgg(i)
	})
}

// setsEgg reports whether a step is on the heat and may cook egg that came in before:
// it names egg, or is hot enough by its target, or is not about something else.
func (f *finder) setsEgg(i int) bool {
	s := &f.p.Steps[i]
	what := object(s.Do) // "Bake in a water bath" is not about water
	switch {
	case !heats(s):
		return false
	case has(s.Do, eggWords), s.Until.HasTemp && s.Until.Temp <= hottest && Reaches(s.Until.Temp, plan.FromFahrenheit(160)):
		return true
	case s.Oven != nil: // a caramel custard is baked
		return !says(what, "melt", "toast")
	}
	return !says(what, notCooking...)
}

// cookedFrom reports whether a step or one that follows it cooks what is in it.
func (f *finder) cookedFrom(i, depth int) bool {
	if f.setsEgg(i) {
		return true
	}
	if depth > len(f.p.Steps) {
		return false
	}
	return slices.ContainsFunc(f.followers[i], func(j int) bool { return f.cookedFrom(j, depth+1) })
}

// flours looks for flour that is eaten raw.
func (f *finder) flours() {
	f.dishes(func(d *plan.Dish, steps []int) {
		for _, i := range steps {
			if s := &f.p.Steps[i]; says(s.Do+" "+s.Note, "taste the dough", "taste the batter", "lick", "raw cookie dough", "edible cookie dough") {
				f.add("raw-flour", i, "raw dough or batter is eaten", "do not taste it raw; for what is not baked use flour that is sold as ready to eat")
				return
			}
		}
		flour := slices.ContainsFunc(d.Ingredients, func(l plan.Ingredient) bool {
			return says(l.Text, "flour") && !says(l.Text, "almond flour", "coconut flour", "ready to eat")
		})
		for _, i := range steps {
			dough := says(f.p.Steps[i].Do, "dough", "batter", "flour")
			if dough && !f.points[i].wasCooked && !f.cookedFrom(i, 0) || flour && !slices.ContainsFunc(steps, func(j int) bool { return f.cookedFrom(j, 0) }) {
				f.add("raw-flour", i, "no step bakes or cooks the flour", "bake or cook it, or use flour that is sold as ready to eat")
				return
			}
		}
	})
}
