package safety

import (
	"fmt"
	"strings"

	"example.org/kettledrum/plan/source"
)

// advice is what is the same in every caution of a code.
type advice struct {
	code   string
	about  string // what draws it, for the reference
	why    string // in one line
	source source.Source
}

func roastingChart() source.Source {
	return cite("FoodSafety.gov, Meat and Poultry Roasting Charts", "2023", source.Primary)
}

// advices are all codes, by what they are about.
var advices = []advice{
	// temperatures
	{"under-minimum", "a temperature below the chart's for the food (160 °F for ground meat, 165 °F for poultry); with `rules: uk` 70 °C for two minutes",
		"germs in it are killed only at the temperature of the chart", minimumChart(source.Secondary)},
	{"no-target", "no step says how hot the `food` of a dish, or meat or fish that it names, gets inside, or by what to see that it is done",
		"colour and juices do not tell whether the middle is hot enough", minimumChart(source.Secondary)},
	{"short-rest", "a whole cut at 145 °F without its three minutes of rest",
		"the rest is a part of what kills the germs: the cut stays whole, off the heat", minimumChart(source.Secondary)},
	{"raw-food", "meat, fish or shellfish that no step cooks",
		"what is not cooked keeps the germs that it came with", minimumChart(source.Secondary)},
	{"oven-low", "a roast in an oven below 325 °F",
		"in a cooler oven it stays too long at temperatures at which germs grow", roastingChart()},
	{"partial-cook", "meat that is browned or half cooked, then stands cold",
		"half-cooked meat has been warm without being safe; it is cooked through at once or not begun", cite("USDA FSIS, partial cooking", "", source.Memory)},
	// time
	{"two-hours", "more than two hours out of the cold and off the heat, all spells added up; one where `room` is above 90 °F",
		"between 4 and 60 °C (40 and 140 °F) germs double in about twenty minutes, and the time adds up", dangerZone},
	{"hot-hold", "an oven that keeps warm below 140 °F (`rules: uk`: 63 °C)",
		"what is kept warm below that is warm enough for germs to grow", dangerZone},
	{"cool-pot", "a pot for six or more of soup, stew, stock or beans that goes hot into the cold",
		"a deep pot stays warm in the middle for hours, even in a refrigerator", cite("USDA FSIS; for the depth COMAR 10.15.03.11", "", source.Primary)},
	{"fridge-time", "longer in the refrigerator than the cold-storage chart says",
		"germs grow in the cold too, only slower", coldChart(source.Secondary)},
	{"reheat", "what was cooked and cold, heated to less than 165 °F (`rules: uk`: 70 °C for two minutes)",
		"germs that came in while it stood are killed only when all of it is hot again", cite("USDA FSIS, leftovers", "", source.Secondary)},
	{"gravy-boil", "a soup, sauce or gravy that is warmed again without boiling",
		"sauces, soups and gravies heat unevenly: a rolling boil shows that all of it is hot", cite("USDA FSIS, leftovers", "", source.Secondary)},
	{"thaw", "frozen meat, poultry or fish that no step thaws, that has too little time for its weight, or that thaws on the counter; it proposes a chore",
		"the outside is warm for hours while the middle is still frozen", bigThaw},
	// kinds of food
	{"raw-egg", "egg that is eaten raw or runny",
		"raw or runny egg may carry salmonella", cite("FDA, egg safety", "", source.Secondary)},
	{"raw-flour", "dough or batter that is eaten raw",
		"flour is raw, and heating it at home is not proven to make it safe", cite("FDA, flour", "", source.Secondary)},
	{"stuffing", "a stuffed bird",
		"the stuffing takes up raw juices and is the last to get hot", roastingChart()},
	{"wash-poultry", "poultry that is rinsed",
		"water splashes the germs over sink and worktop; cooking kills them", cite("USDA, raw poultry", "", source.Memory)},
	// burns
	{"hot-sugar", "caramel and other boiling sugar",
		"boiling sugar is far hotter than water and sticks to the skin", cite("general first aid", "", source.Memory)},
	{"hot-oil", "deep oil",
		"oil that is too hot catches fire, and water makes it burst out", cite("NFPA, cooking oil", "", source.Primary)},
	// people
	{"risk-guest", "one of these, raw sprouts, unpasteurised milk or soft cheese, where `guests_note` tells of somebody very young, old, pregnant or weak",
		"for the very young, the old, the pregnant and the weak it can be dangerous", cite("FDA, people at risk of foodborne illness", "", source.Primary)},
	{"allergen", "an ingredient that contains what `avoid` names",
		"the plan says that it must not be in any dish", allergenLists},
	{"may-contain", "an ingredient that may: ask",
		"it is sold with it and without", allergenLists},
	{"no-ingredients", "`avoid` is set, and a dish has no `ingredients`",
		"only what is written down can be looked through", allergenLists},
	{"avoid-word", "`avoid` names what is on neither list of allergens (US 9, EU 14): it is looked for as a word only",
		"the word is in neither list of allergens, so only the word itself is looked for", allergenLists},
}

var allergenLists = cite("FALCPA 2004 and FASTER Act 2021; Regulation (EU) 1169/2011, annex II", "", source.Secondary)

// Codes returns the codes of all cautions.
func Codes() []string {
	var out []string
	for _, a := range advices {
		out = append(out, a.code)
	}
	return out
}

// Deference is said wherever cautions are shown.
const Deference = "Your local food authority comes before anything said here, and a guest's doctor before both."

// CodeTable is the table of all codes, in Markdown.
func CodeTable() string {
	var b strings.Builder
	b.WriteString("| code | what draws it |\n|---|---|\n")
	for _, a := range advices {
		fmt.Fprintf(&b, "| `%s` | %s |\n", a.code, a.about)
	}
	return b.String()
}
