package safety

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"

	"example.org/kettledrum/plan"
)

// Ages, in years, at which a guest is at special risk: under five, and from 65 on.
const (
	riskUnder = 5
	riskFrom  = 65
)

var riskWords = []string{"pregnant", "pregnancy", "expecting", "baby", "infant", "newborn", "toddler", "elderly", "very old", "frail", "grandmother", "grandfather", "grandma", "grandpa", "granny", "grandad",
	"nan", "great aunt", "chemo", "chemotherapy", "transplant", "immune", "immunity", "immunocompromised", "cancer", "dialysis", "hiv", "months old"}

// ageForm finds an age: "aged 3", "is 82", "Ben (4)", "Ada, 84", "3 years", "82-year-old".
var ageForm = regexp.MustCompile(`(?i)(?:\baged?\s+|\bis\s+|\(|,\s*)(\d{1,3})\b|\b(\d{1,3})[\s-]*(?:years?|yrs?|y/?o)\b`)

// atRisk reports whether what the plan says of its guests tells of somebody who is
// at special risk, or of a child whose age it does not say.
func atRisk(note string) bool {
	if says(note, riskWords...) {
		return true
	}
	aged := false
	for _, m := range ageForm.FindAllStringSubmatch(note, -1) {
		age, err := strconv.Atoi(m[1] + m[2])
		if err != nil {
			continue
		}
		aged = true
		if age < riskUnder || age >= riskFrom && age < 120 {
			return true
		}
	}
	return !aged && says(note, "child", "children", "kid", "boy", "girl", "little one")
}

// riskFoods are foods that are for nobody at special risk, beside what is raw.
var riskFoods = []struct {
	words []string
	say   string
}{
	{[]string{"bean sprout", "alfalfa sprout", "mung sprout", "radish sprout", "raw sprout", "sprouted seed"}, "raw sprouts"},
	{[]string{"raw milk", "unpasteurised milk", "unpasteurized milk", "raw milk cheese"}, "unpasteurised milk"},
	{[]string{"brie", "camembert", "blue cheese", "roquefort", "gorgonzola", "queso fresco", "soft cheese", "reblochon", "vacherin", "epoisses"}, "a soft cheese that may be of unpasteurised milk"},
	{[]string{"smoked salmon", "cold smoked", "lox", "gravlax"}, "fish that is not cooked"},
	{[]string{"raw oyster", "oysters on the half shell"}, "raw shellfish"},
}

// guests looks at what was found, and at the ingredients, for guests at special risk.
func (f *finder) guests() {
	if !atRisk(f.p.GuestsNote) {
		return
	}
	for _, c := range slices.Clone(f.found) {
		what := map[string]string{"raw-egg": "raw or runny egg", "raw-food": "raw meat, fish or shellfish", "under-minimum": "food that is not cooked to the chart", "raw-flour": "raw flour"}[c.Code]
		if what != "" {
			f.forGuest(c.Step, what)
		}
	}
	f.dishes(func(d *plan.Dish, steps []int) {
		for _, x := range riskFoods {
			if x.say == "fish that is not cooked" && f.points[steps[len(steps)-1]].cooked {
				continue
			}
			if slices.ContainsFunc(d.Ingredients, func(l plan.Ingredient) bool { return says(l.Text, x.words...) }) || says(d.Name, x.words...) {
				f.forGuest(steps[0], x.say)
			}
		}
	})
}

func (f *finder) forGuest(step int, what string) {
	f.add("risk-guest", step, fmt.Sprintf("%s, and the plan speaks of a guest at special risk (%q)", what, f.p.GuestsNote),
		"give that guest something else, or ask the guest's doctor")
}
