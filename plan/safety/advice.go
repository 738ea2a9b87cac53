package safety

import "example.org/kettledrum/plan/source"

// advice is what is the same in every caution of a code.
type advice struct {
	code, why string
	source    source.Source
}

func roastingChart() source.Source {
	return cite("FoodSafety.gov, Meat and Poultry Roasting Charts", "2023", source.Primary)
}

// advices are all codes, by what they are about.
var advices = []advice{
	// temperatures
	{"under-minimum", "germs in it are killed only at the temperature of the chart", minimumChart(source.Secondary)},
	{"no-target", "colour and juices do not tell whether the middle is hot enough", minimumChart(source.Secondary)},
	{"short-rest", "the rest is a part of what kills the germs: the cut stays whole, off the heat", minimumChart(source.Secondary)},
	{"raw-food", "what is not cooked keeps the germs that it came with", minimumChart(source.Secondary)},
	{"oven-low", "in a cooler oven it stays too long at temperatures at which germs grow", roastingChart()},
	{"partial-cook", "half-cooked meat has been warm without being safe; it is cooked through at once or not begun", cite("USDA FSIS, partial cooking", "", source.Memory)},
	// time
	{"two-hours", "between 40 and 140 °F germs double in about twenty minutes, and the time adds up", dangerZone},
	{"hot-hold", "what is kept warm below that is warm enough for germs to grow", dangerZone},
	{"cool-pot", "a deep pot stays warm in the middle for hours, even in a refrigerator", cite("USDA FSIS, leftovers; COMAR 10.15.03.11 (layers)", "", source.Primary)},
	{"fridge-time", "germs grow in the cold too, only slower", coldChart(source.Secondary)},
	{"reheat", "germs that came in while it stood are killed only when all of it is hot again", cite("USDA FSIS, leftovers", "", source.Secondary)},
	{"gravy-boil", "sauces, soups and gravies heat unevenly: a rolling boil shows that all of it is hot", cite("USDA FSIS, leftovers", "", source.Secondary)},
	{"thaw", "the outside is warm for hours while the middle is still frozen", bigThaw},
	// kinds of food
	{"raw-egg", "raw or runny egg may carry salmonella", cite("FDA, egg safety", "", source.Secondary)},
	{"raw-flour", "flour is raw, and heating it at home is not proven to make it safe", cite("FDA, flour is a raw food", "", source.Secondary)},
	{"stuffing", "the stuffing takes up raw juices and is the last to get hot", roastingChart()},
	{"wash-poultry", "water splashes the germs over sink and worktop; cooking kills them", cite("USDA FSIS, washing raw poultry", "", source.Memory)},
	// burns
	{"hot-sugar", "boiling sugar is far hotter than water and sticks to the skin", cite("general first aid", "", source.Memory)},
	{"hot-oil", "oil that is too hot catches fire, and water makes it burst out", cite("NFPA, cooking with oil", "", source.Primary)},
	// people
	{"risk-guest", "for the very young, the old, the pregnant and the weak it can be dangerous", cite("FDA, people at risk of foodborne illness", "", source.Primary)},
	{"allergen", "the plan says that it must not be in any dish", allergenLists},
	{"may-contain", "it is sold with it and without", allergenLists},
	{"no-ingredients", "only what is written down can be looked through", allergenLists},
	{"avoid-word", "the word is in neither list of allergens, so only the word itself is looked for", allergenLists},
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
