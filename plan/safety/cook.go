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
	named  bool     // the step names the food
	words  []string // of the food: the step's own or, where it has none, those before it
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
	// addVerbs begin a step in which something comes to the food.
	addVerbs = []string{"add", "stir", "pour", "return", "cover", "top", "finish", "baste", "turn"}
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
	named := len(words) > 0
	if !named {
		words = f.before(i)
	}
	if strict && !about {
		return cook{}, false
	}
	c := cook{i, row, stated, named, words, f.doneAt(i, row), f.points[i].stage == reheating}
	// Without `food` only meat and fish are asked for, and not what is sold cooked.
	if !stated && c.done == silent && (f.points[i].kinds&(meats|seafood) == 0 || row.ID == "casserole" || says(s.Do, "smoked", "tinned", "canned")) {
		return cook{}, false
	}
	return c, true
}

// about reports whether a step is about the food of its class, and by what words it
// names that. One that names only something else (gravy, potatoes, the oil) is not;
// one that names nothing, or adds something, is about what came before it.
func (f *finder) about(i int) (words []string, ok bool) {
	what := object(f.p.Steps[i].Do)
	hits := kindWords.find(what)
	whole := false // names a dish that the food is in
	for _, h := range hits {
		if h.value&f.its(i) != 0 {
			words = append(words, h.text)
		}
		whole = whole || h.value&(soup|casserole|quiche|custard) != 0
	}
	first, _, _ := strings.Cut(what, " ")
	switch {
	case len(words) > 0 || whole || slices.Contains(addVerbs, first):
		return words, true
	case says(what, "stock", "broth"), says(what, "sauce") && f.points[i].kinds&(ground|soup) != 0:
		return nil, len(f.before(i)) > 0 // it is in there
	}
	return nil, len(hits) == 0 && !says(what, besides...)
}

// its are the kinds of food that a dish's class may be meant by.
func (f *finder) its(i int) kind {
	k := foodKinds[f.p.Dishes[f.p.Steps[i].Dish].Food]
	return k | (meats|seafood)&^ham
}

// before returns by what words the steps before one name its food.
func (f *finder) before(i int) (words []string) {
	for j := range f.p.Steps {
		if f.chore(j) || !f.leads(j, i) {
			continue
		}
		for _, h := range kindWords.find(object(f.p.Steps[j].Do)) {
			if h.value&f.its(i) != 0 {
				words = append(words, h.text)
			}
		}
	}
	return words
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
