package measure

import (
	"slices"
	"strings"

	"example.org/kettledrum/plan/source"
)

// Dimension is what a unit measures.
type Dimension int

// What units measure.
const (
	Mass   Dimension = iota + 1 // in grams
	Volume                      // in millilitres
	Length                      // in millimetres
)

// System is where a unit is at home. Some names stand for different units in
// different systems: a cup, a pint.
type System int

// Systems of units.
const (
	US System = iota
	Metric
	Imperial
)

// Unit is one unit of measure.
type Unit struct {
	Name string // in the singular, unique: "US cup"
	// Short is how a cook writes it, Many the same for more than one: "cup", "cups".
	Short, Many string
	Dimension   Dimension
	System      System
	// Size is in grams, millilitres or millimetres.
	Size float64
	// Vague: a habit of the trade, not a measure: a pinch.
	Vague  bool
	Source source.Source
	// words are the spellings by which it is found, lower case without full stops.
	words []string
}

// The units that others are made of, exact by definition. The yard and pound
// agreement of 1959 fixed the inch and the pound, the United States Code of
// Federal Regulations and NIST Handbook 44, appendix C, the gallon of 231 cubic
// inches, the Weights and Measures Act 1985 the imperial gallon.
const (
	inch           = 25.4                            // mm
	pound          = 453.59237                       // g
	usGallon       = 231 * inch * inch * inch / 1000 // ml
	imperialGallon = 4546.09                         // ml
	usCup          = usGallon / 16                   // ml
	usSpoon        = usCup / 16                      // ml, a tablespoon
)

var (
	nist     = source.Source{Name: "NIST SP 811, appendix B.8, and NIST Handbook 44, appendix C", Edition: "2008", Mark: source.Exact}
	si       = source.Source{Name: "NIST SP 811, tables 5 and 6", Edition: "2008", Mark: source.Exact}
	metricNs = source.Source{Name: "metric cups and spoons of Australia, New Zealand, Canada and the United Kingdom", Mark: source.Memory}
	japanNs  = source.Source{Name: "cups of Japan", Mark: source.Memory}
	habit    = source.Source{Name: "habit of the trade, no standard: a dash of 1/8 teaspoon is in unitofconversion.com's table of volumes", Mark: source.Secondary}
	habitMem = source.Source{Name: "habit of the trade, no standard", Mark: source.Memory}
)

// units is the table, in each dimension from small to large within a system.
var units = []*Unit{
	{"milligram", "mg", "mg", Mass, Metric, 0.001, false, si, []string{"mg", "milligram", "milligrams", "milligramme", "milligrammes"}},
	{"gram", "g", "g", Mass, Metric, 1, false, si, []string{"g", "gr", "gm", "gms", "gram", "grams", "gramme", "grammes"}},
	{"kilogram", "kg", "kg", Mass, Metric, 1000, false, si, []string{"kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"}},
	{"ounce", "oz", "oz", Mass, US, pound / 16, false, nist, []string{"oz", "ozs", "ounce", "ounces"}},
	{"pound", "lb", "lb", Mass, US, pound, false, nist, []string{"lb", "lbs", "pound", "pounds", "#"}},
	{"stone", "st", "st", Mass, Imperial, 14 * pound, false, nist, []string{"stone"}},

	{"millilitre", "ml", "ml", Volume, Metric, 1, false, si, []string{"ml", "mls", "millilitre", "millilitres", "milliliter", "milliliters", "cc"}},
	{"centilitre", "cl", "cl", Volume, Metric, 10, false, si, []string{"cl", "centilitre", "centilitres", "centiliter", "centiliters"}},
	{"decilitre", "dl", "dl", Volume, Metric, 100, false, si, []string{"dl", "decilitre", "decilitres", "deciliter", "deciliters"}},
	{"litre", "l", "l", Volume, Metric, 1000, false, si, []string{"l", "lt", "ltr", "litre", "litres", "liter", "liters"}},
	{"metric teaspoon", "tsp", "tsp", Volume, Metric, 5, false, metricNs, []string{"metric teaspoon", "metric teaspoons", "metric tsp"}},
	{"metric dessertspoon", "dsp", "dsp", Volume, Metric, 10, false, metricNs, []string{"dsp", "dstspn", "dessertspoon", "dessertspoons", "dessertspoonful", "dessertspoonfuls"}},
	{"metric tablespoon", "tbsp", "tbsp", Volume, Metric, 15, false, metricNs, []string{"metric tablespoon", "metric tablespoons", "metric tbsp"}},
	{"Australian tablespoon", "tbsp", "tbsp", Volume, Metric, 20, false, metricNs, []string{"australian tablespoon", "australian tablespoons", "australian tbsp"}},
	{"metric cup", "cup", "cups", Volume, Metric, 250, false, metricNs, []string{"metric cup", "metric cups"}},
	{"Japanese cup", "cup", "cups", Volume, Metric, 200, false, japanNs, []string{"japanese cup", "japanese cups"}},

	{"smidgen", "smidgen", "smidgens", Volume, US, usSpoon / 3 / 32, true, habitMem, []string{"smidgen", "smidgens", "smidge"}},
	{"pinch", "pinch", "pinches", Volume, US, usSpoon / 3 / 16, true, habitMem, []string{"pinch", "pinches"}},
	{"dash", "dash", "dashes", Volume, US, usSpoon / 3 / 8, true, habit, []string{"dash", "dashes"}},
	{"US teaspoon", "tsp", "tsp", Volume, US, usSpoon / 3, false, nist, []string{"tsp", "tsps", "t", "teaspoon", "teaspoons", "teaspoonful", "teaspoonfuls", "us teaspoon", "us teaspoons", "us tsp"}},
	{"US tablespoon", "tbsp", "tbsp", Volume, US, usSpoon, false, nist, []string{"tbsp", "tbsps", "tbs", "tbl", "T", "tablespoon", "tablespoons", "tablespoonful", "tablespoonfuls", "us tablespoon", "us tablespoons", "us tbsp"}},
	{"US fluid ounce", "fl oz", "fl oz", Volume, US, 2 * usSpoon, false, nist, []string{"fl oz", "floz", "fluid ounce", "fluid ounces", "fluid oz", "us fl oz", "us fluid ounce", "us fluid ounces"}},
	{"US cup", "cup", "cups", Volume, US, usCup, false, nist, []string{"c", "cup", "cups", "cupful", "cupfuls", "us cup", "us cups"}},
	{"US pint", "pt", "pt", Volume, US, 2 * usCup, false, nist, []string{"pt", "pts", "pint", "pints", "us pint", "us pints"}},
	{"US quart", "qt", "qt", Volume, US, 4 * usCup, false, nist, []string{"qt", "qts", "quart", "quarts", "us quart", "us quarts"}},
	{"US gallon", "gal", "gal", Volume, US, usGallon, false, nist, []string{"gal", "gals", "gallon", "gallons", "us gallon", "us gallons"}},

	{"imperial fluid ounce", "fl oz", "fl oz", Volume, Imperial, imperialGallon / 160, false, nist, []string{"imperial fl oz", "imp fl oz", "uk fl oz", "imperial fluid ounce", "imperial fluid ounces"}},
	{"imperial pint", "pt", "pt", Volume, Imperial, imperialGallon / 8, false, nist, []string{"imperial pint", "imperial pints", "imp pint", "imp pints", "uk pint", "uk pints"}},
	{"imperial quart", "qt", "qt", Volume, Imperial, imperialGallon / 4, false, nist, []string{"imperial quart", "imperial quarts", "uk quart", "uk quarts"}},
	{"imperial gallon", "gal", "gal", Volume, Imperial, imperialGallon, false, nist, []string{"imperial gallon", "imperial gallons", "uk gallon", "uk gallons"}},

	{"millimetre", "mm", "mm", Length, Metric, 1, false, si, []string{"mm", "millimetre", "millimetres", "millimeter", "millimeters"}},
	{"centimetre", "cm", "cm", Length, Metric, 10, false, si, []string{"cm", "cms", "centimetre", "centimetres", "centimeter", "centimeters"}},
	{"inch", "in", "in", Length, US, inch, false, nist, []string{"inch", "inches", "\""}},
}

// elsewhere says which unit a bare name stands for in another system than that of
// the United States, whose words the table has.
var elsewhere = map[System]map[string]string{
	Imperial: {"US teaspoon": "metric teaspoon", "US tablespoon": "metric tablespoon", "US cup": "metric cup",
		"US fluid ounce": "imperial fluid ounce", "US pint": "imperial pint", "US quart": "imperial quart", "US gallon": "imperial gallon"},
	Metric: {"US teaspoon": "metric teaspoon", "US tablespoon": "metric tablespoon", "US cup": "metric cup"},
}

var byWord, byName = index()

func index() (words, names map[string]*Unit) {
	words, names = map[string]*Unit{}, map[string]*Unit{}
	for _, u := range units {
		names[u.Name] = u
		for _, w := range u.words {
			words[w] = u
		}
	}
	return words, names
}

// Units returns every unit of the table.
func Units() []*Unit { return slices.Clone(units) }

// Named returns the unit of that name in the table. It panics where there is none:
// the name is a slip in the program.
func Named(name string) *Unit {
	u, ok := byName[name]
	if !ok {
		panic("measure: there is no unit " + name)
	}
	return u
}

// Find returns the unit that a cook's word stands for: "Tbsp.", "cups", "imperial
// pint". A name that several systems share is the one of s. T is a tablespoon and
// t a teaspoon; in all other words capitals do not matter.
func Find(word string, s System) (*Unit, bool) {
	word = strings.TrimSpace(strings.ReplaceAll(word, ".", ""))
	u, ok := byWord[word]
	if !ok {
		u, ok = byWord[strings.Join(strings.Fields(strings.ToLower(word)), " ")]
	}
	if !ok {
		return nil, false
	}
	if other, differs := elsewhere[s][u.Name]; differs && !strings.Contains(strings.ToLower(word), "us ") {
		u = byName[other]
	}
	return u, true
}
