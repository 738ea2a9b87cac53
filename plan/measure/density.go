package measure

import "example.org/kettledrum/plan/source"

// Density is how much a volume of a food weighs, as cooks spoon it.
type Density struct {
	Food string // as a cook reads it
	// Names are the names by which it is found, in the singular and lower case.
	Names []string
	// Grams are what one of Per weighs.
	Grams float64
	Per   *Unit
	// Liquid: it is bought by volume, and its weight tells a cook nothing.
	Liquid bool
	// Lo and Hi are the least and the most that other charts print; equal to Grams
	// where there is no other.
	Lo, Hi float64
	// Others says who prints them.
	Others string
	Source source.Source
}

// PerML is the density in grams a millilitre.
func (d Density) PerML() float64 { return d.Grams / d.Per.Size }

// Weigh returns about how many grams v of a unit of volume weigh, with the least and
// the most by other charts.
func (d Density) Weigh(v float64, u *Unit) (grams, least, most float64) {
	n := Convert(v, u, d.Per)
	return n * d.Grams, n * d.Lo, n * d.Hi
}

// FillML returns about how many millilitres so many grams fill.
func (d Density) FillML(grams float64) float64 { return grams / d.PerML() }

// DensityOf returns the row of the food with that name, in the singular and lower
// case: "all-purpose flour". Only whole names are found: rye flour is not flour.
func DensityOf(name string) (Density, bool) {
	i, ok := densityByName[name]
	if !ok {
		return Density{}, false
	}
	return densities[i], true
}

// Densities returns the table.
func Densities() []Density { return append([]Density(nil), densities...) }

var densityByName = map[string]int{}

func init() {
	for i, d := range densities {
		for _, n := range d.Names {
			densityByName[n] = i
		}
	}
}

// sr26 is a row of the measure weights of the USDA data base.
func sr26(ndb string) source.Source {
	return source.Source{Name: "USDA National Nutrient Database SR26, food " + ndb, Edition: "2013", Mark: source.DataSet}
}

var label = source.Source{Name: "weight of a teaspoon on the package", Mark: source.Memory}
