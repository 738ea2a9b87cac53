package safety

import (
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan"
)

// doneness is what a step says of how far its food is cooked.
type doneness int

// How far food is cooked.
const (
	silent  doneness = iota // nothing is said
	under                   // to less than the chart
	reached                 // to the chart or more
	vouched                 // by its time in what boils, or by the chart's sign
)

// cook is a step that cooks food of a class of the chart.
type cook struct {
	step   int
	row    Row
	stated bool     // the plan states the class
	words  []string // of the food, as far as the step names it
	done   doneness
	again  bool // it was cooked and cold before
}

const (
	// longMoist is how long food must boil, simmer or braise for no temperature to be
	// missed: it is far past the chart then. Common practice.
	longMoist = 30 * time.Minute
	// hottest is the hottest that the middle of food gets: what is hotter is said of
	// the oil or the sugar. Common practice.
	hottest plan.Celsius = 105
)

var (
	moistWords = []string{"boil", "boiling", "simmer", "braise", "stew", "poach"}
	// besides are things on the heat that are not the food of a dish, where they are
	// what the step is about.
	besides = []string{"oil", "fat", "sugar", "syrup", "caramel", "milk", "water", "sauce", "glaze", "dressing", "topping", "crumble", "pan", "plate", "oven", "grill", "griddle"}
	// prepositions begin what food is cooked in or with.
	prepositions = []string{"with", "in", "into", "on", "onto", "over", "under", "for", "to", "at", "until", "from"}
	// anyFood are words for food of any kind of its class.
	anyFood = []string{"meat", "bird", "fish", "poultry", "mince", "bones"}
)

// object is what the words of a step say that it is about, without what that is
// cooked in or with: "Poach the chicken in water" is about chicken.
func object(do string) string {
	tokens := tokenise(do)
	if k := slices.IndexFunc(tokens, func(t string) bool { return slices.Contains(prepositions, t) }); k > 0 {
		tokens = tokens[:k]
	}
	return strings.Join(tokens, " ")
}

// cooks returns the steps that cook food of a class of the chart. In a dish that
// states its food and names it nowhere, all that cooks counts.
func (f *finder) cooks() []cook {
	var all []cook
	f.dishes(func(d *plan.Dish, steps []int) {
		var its []cook
		for _, strict := range []bool{true, false} {
			for _, i := range steps {
				if c, ok := f.cookAt(i, strict); ok {
					its = append(its, c)
				}
			}
			if len(its) > 0 || d.Food == "" {
				break
			}
		}
		all = append(all, its...)
	})
	return all
}

func (f *finder) cookAt(i int, strict bool) (cook, bool) {
	s := &f.p.Steps[i]
	row, stated, ok := f.classAt(i)
	if !ok || !heats(s) {
		return cook{}, false
	}
	words, about := f.about(i)
	if strict && !about {
		return cook{}, false
	}
	c := cook{i, row, stated, words, f.doneAt(i, row), f.points[i].stage == reheating}
	// Without `food` only meat and fish are asked for, and not what is sold cooked.
	if !stated && c.done == silent && (f.points[i].kinds&(meats|seafood) == 0 || row.ID == "casserole" || says(s.Do, "smoked", "tinned", "canned")) {
		return cook{}, false
	}
	return c, true
}

// about reports whether a step is about the food of its class, and by what words it
// names that. One that names only something else (gravy, potatoes, the oil) is not;
// one that names nothing is about what came before it.
func (f *finder) about(i int) (words []string, ok bool) {
	what := object(f.p.Steps[i].Do)
	hits := kindWords.find(what)
	its := meats | seafood | foodKinds[f.p.Dishes[f.p.Steps[i].Dish].Food]
	whole := false // names a dish that the food is in
	for _, h := range hits {
		if h.value&its != 0 {
			words = append(words, h.text)
		}
		whole = whole || h.value&(soup|casserole|quiche|custard) != 0
	}
	if len(words) > 0 || whole {
		return words, true
	}
	if says(what, "stock", "broth") && f.points[i].kinds&its != 0 {
		return nil, true // it is in there
	}
	return nil, len(hits) == 0 && !says(what, besides...)
}

func (f *finder) doneAt(i int, row Row) doneness {
	s := &f.p.Steps[i]
	least := row.Temp()
	if f.british(row) {
		least = ukCore
	}
	hasTemp := s.Until.HasTemp && s.Until.Temp <= hottest && row.HasTemp()
	moist := says(s.Do, moistWords...) || (kindsIn(s.Do)|kindsIn(f.p.Dishes[s.Dish].Name))&soup != 0
	switch {
	case hasTemp && f.british(row) && s.Until.Temp >= least-1e-6, hasTemp && !f.british(row) && Reaches(s.Until.Temp, least):
		return reached
	case hasTemp:
		return under
	case moist && s.Length.Likely >= longMoist, row.Sign != "" && s.Until.Sign != "":
		return vouched
	}
	return silent
}

// sameFood reports whether two steps may be about the same piece of food: one of
// them names none, or they have a word in common.
func sameFood(a, b *cook) bool {
	if len(a.words) == 0 || len(b.words) == 0 {
		return true
	}
	words := tokenise(strings.Join(a.words, " "))
	others := tokenise(strings.Join(b.words, " "))
	return slices.ContainsFunc(words, func(w string) bool {
		return slices.ContainsFunc(others, func(o string) bool {
			return isOf(w, o) || isOf(o, w) || slices.Contains(anyFood, o) || slices.Contains(anyFood, w)
		})
	})
}

// leads reports whether what a step makes comes into another.
func (x *path) leads(from, to int) bool {
	seen := make([]bool, len(x.p.Steps))
	var walk func(i int) bool
	walk = func(i int) bool {
		seen[i] = true
		return slices.ContainsFunc(x.followers[i], func(j int) bool { return j == to || !seen[j] && walk(j) })
	}
	return walk(from)
}
