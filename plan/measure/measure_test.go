package measure

import (
	"math"
	"testing"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/source"
)

// NIST SP 811 (2008), appendix B.8, as it prints the factors: to seven digits, in
// SI. Typed from memory of the printed table, not from this package; those printed
// in bold there are exact.
func TestUnitsAgainstNIST(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		unit  string
		value float64 // kg, m³ or m
	}{
		{"pound", 4.535924e-1}, {"ounce", 2.834952e-2}, {"stone", 6.350293},
		{"US gallon", 3.785412e-3}, {"US quart", 9.463529e-4}, {"US pint", 4.731765e-4}, {"US cup", 2.365882e-4},
		{"US fluid ounce", 2.957353e-5}, {"US tablespoon", 1.478676e-5}, {"US teaspoon", 4.928922e-6},
		{"imperial gallon", 4.54609e-3}, {"imperial fluid ounce", 2.841306e-5},
		{"inch", 2.54e-2}, {"litre", 1e-3}, {"kilogram", 1},
	} {
		u := Named(c.unit)
		si := u.Size
		switch u.Dimension {
		case Mass, Length:
			si /= 1000
		case Volume:
			si /= 1e6
		}
		half := 0.5e-6 * math.Pow(10, math.Floor(math.Log10(c.value))) // of the seventh digit
		if math.Abs(si-c.value) > half*1.0001 {
			t.Errorf("%s: %.9g, want %.7g", c.unit, si, c.value)
		}
	}
}

// NIST SP 430, Household Weights and Measures, table 1 of nist.gov/pml/owm/metric-household:
// capacities in millilitres, correct to the digits that it shows.
func TestUnitsAgainstNISTHousehold(t *testing.T) {
	t.Parallel()
	for name, ml := range map[string]float64{"US teaspoon": 4.9, "US tablespoon": 15, "US fluid ounce": 30, "US cup": 237, "US pint": 473, "US quart": 946, "litre": 1000} {
		step := 1.0
		if ml < 10 {
			step = 0.1
		}
		if got := math.Round(Named(name).Size/step) * step; math.Abs(got-ml) > 1e-9 {
			t.Errorf("%s: %g ml, want %g", name, got, ml)
		}
	}
}

// The exact definitions, in ml and g: products of the inch, the pound and the
// imperial gallon, written out with all their digits by hand of the multiplication.
func TestUnitsExactly(t *testing.T) {
	t.Parallel()
	for name, want := range map[string]float64{
		"US teaspoon": 4.92892159375, "US tablespoon": 14.78676478125, "US fluid ounce": 29.5735295625, "US cup": 236.5882365,
		"US pint": 473.176473, "US quart": 946.352946, "US gallon": 3785.411784,
		"imperial fluid ounce": 28.4130625, "imperial pint": 568.26125, "imperial quart": 1136.5225, "imperial gallon": 4546.09,
		"ounce": 28.349523125, "pound": 453.59237, "inch": 25.4, "metric cup": 250, "metric tablespoon": 15, "metric teaspoon": 5,
		"Australian tablespoon": 20, "Japanese cup": 200, "metric dessertspoon": 10,
	} {
		if got := Named(name).Size; math.Abs(got-want) > 1e-12*want {
			t.Errorf("%s: %.13g, want %.13g", name, got, want)
		}
	}
}

func TestConvert(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		v        float64
		from, to string
		want, by float64 // by: the share that it may differ
		note     string
	}{
		{3, "US cup", "millilitre", 709.7647095, 1e-12, "exact"},
		{2.5, "pound", "gram", 1133.980925, 1e-12, "exact"},
		{1, "imperial pint", "US pint", 1.200949926, 1e-9, "exact"},
		{1, "Australian tablespoon", "US tablespoon", 1.35256, 1e-5, "exact"},
		{1, "kilogram", "pound", 2.2046226, 1e-8, "exact"},
		{1, "litre", "US cup", 4.2267528, 1e-8, "exact"},
		{6, "US cup", "millilitre", 1420, 0.02, "common practice"},
		{0.75, "US cup", "millilitre", 177, 0.02, "common practice"},
		{6, "ounce", "gram", 170, 0.02, "common practice; some write 171 or 173"},
		{4, "stone", "pound", 56, 1e-12, "exact"},
	} {
		if got := Convert(c.v, Named(c.from), Named(c.to)); math.Abs(got/c.want-1) > c.by {
			t.Errorf("%g %s: %g %s, want %g (%s)", c.v, c.from, got, c.to, c.want, c.note)
		}
	}
	defer func() {
		if recover() == nil {
			t.Error("a pound was turned into a cup without a density")
		}
	}()
	Convert(1, Named("pound"), Named("US cup"))
}

// Rates of a roast, and how far the cups of labels, of the United States and of
// Australia lie apart: exact by definition.
func TestRates(t *testing.T) {
	t.Parallel()
	kg, lb := Named("kilogram"), Named("pound")
	for _, c := range []struct {
		what             string
		got, want, digit float64
	}{
		{"30 min/lb in min/kg", 30 * Convert(1, kg, lb), 66.1387, 1e-4},
		{"25 min/lb in min/kg", 25 * Convert(1, kg, lb), 55.1156, 1e-4},
		{"20 min/500 g in min/lb", 20 * Convert(1, lb, Named("gram")) / 500, 18.1437, 1e-4},
		{"a label's cup of 240 ml over a US cup, %", (240/Named("US cup").Size - 1) * 100, 1.44, 0.01},
		{"a metric cup over a US cup, %", (Named("metric cup").Size/Named("US cup").Size - 1) * 100, 5.67, 0.01},
		{"a third of a cup in tablespoons", Convert(1./3, Named("US cup"), Named("US tablespoon")), 5 + 1./3, 1e-9},
		{"a third of a cup in teaspoons", Convert(1./3, Named("US cup"), Named("US teaspoon")), 16, 1e-9},
	} {
		if math.Abs(c.got-c.want) > c.digit/2 {
			t.Errorf("%s: %g, want %g", c.what, c.got, c.want)
		}
	}
}

// Kinds of salt swap by weight, never by the spoon; half an egg is 25 g.
func TestSwaps(t *testing.T) {
	t.Parallel()
	table, _ := DensityOf("salt")
	kosher, _ := DensityOf("kosher salt")
	if got := table.Grams / kosher.Grams; math.Abs(got-2.14) > 0.005 {
		t.Errorf("1 tsp of table salt is %.2f tsp of hollow flakes, want 2.14", got)
	}
	if got := table.Grams / kosher.Hi; math.Abs(got-1.25) > 0.005 {
		t.Errorf("1 tsp of table salt is %.2f tsp of rolled kosher salt, want 1.25", got)
	}
	egg, _ := DensityOf("egg")
	tsp := Named("US teaspoon")
	if got := Spell(egg.FillML(25)/tsp.Size, tsp, Loose).Text; got != "1 tbsp + 2 tsp" {
		t.Errorf("half an egg is %s, want 1 tbsp + 2 tsp", got)
	}
}

// There and back again is the same, for any two units of a dimension.
func TestConvertBack(t *testing.T) {
	t.Parallel()
	for _, a := range Units() {
		for _, b := range Units() {
			if a.Dimension == b.Dimension {
				if got := Convert(Convert(1.7, a, b), b, a); math.Abs(got-1.7) > 1e-12 {
					t.Errorf("1.7 %s through %s: %.15g", a.Name, b.Name, got)
				}
			}
		}
	}
}

func TestFind(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		word   string
		system System
		want   string
	}{
		{"Tbsp.", US, "US tablespoon"}, {"T", US, "US tablespoon"}, {"t", US, "US teaspoon"}, {"CUPS", US, "US cup"}, {"c.", US, "US cup"},
		{"fl. oz.", US, "US fluid ounce"}, {"cup", Metric, "metric cup"}, {"pint", Metric, "US pint"}, {"pint", Imperial, "imperial pint"},
		{"tsp", Imperial, "metric teaspoon"}, {"US cup", Metric, "US cup"}, {"us pints", Imperial, "US pint"}, {"imperial pint", US, "imperial pint"},
		{"lbs", Imperial, "pound"}, {"kilos", US, "kilogram"}, {"pinches", US, "pinch"}, {"cupboard", US, ""}, {"", US, ""},
	} {
		got := ""
		if u, ok := Find(c.word, c.system); ok {
			got = u.Name
		}
		if got != c.want {
			t.Errorf("%q in %d: %q, want %q", c.word, c.system, got, c.want)
		}
	}
}

// Every row says where it comes from, no spelling stands for two units, and a row
// that is exact is not vague.
func TestUnitRows(t *testing.T) {
	t.Parallel()
	seen := map[string]string{}
	for _, u := range Units() {
		if u.Source.Name == "" || u.Source.Mark == "" || u.Size <= 0 || u.Short == "" || u.Many == "" {
			t.Errorf("%s: not complete: %+v", u.Name, u)
		}
		if u.Vague && u.Source.Mark == source.Exact {
			t.Errorf("%s is vague and exact", u.Name)
		}
		for _, w := range u.words {
			if other := seen[w]; other != "" {
				t.Errorf("%q is %s and %s", w, other, u.Name)
			}
			seen[w] = u.Name
		}
	}
}

// The scale against a second copy: reference.com and wikiwand.com, Gas Mark.
func TestGasMarks(t *testing.T) {
	t.Parallel()
	want := map[string]float64{"1/4": 107.22, "½": 121.11, "1": 135, "2": 148.89, "3": 162.78, "4": 176.67, "5": 190.56, "6": 204.44,
		"7": 218.33, "8": 232.22, "9": 246.11, "10": 260}
	for mark, c := range want {
		g, ok := FindGasMark(mark)
		if !ok || math.Abs(float64(g.Celsius())-c) > 0.006 {
			t.Errorf("gas mark %s: %.2f °C, want %.2f", mark, g.Celsius(), c)
		}
		if g.ChartLo < g.Celsius()-10 || g.ChartHi > g.Celsius()+10 || g.ChartLo > g.ChartHi {
			t.Errorf("gas mark %s: charts say %g to %g °C", mark, g.ChartLo, g.ChartHi)
		}
		if near, ok := NearestGasMark(plan.Celsius(c)); !ok || near.Mark != g.Mark {
			t.Errorf("%g °C is nearest to gas mark %s, want %s", c, near.Mark, g.Mark)
		}
	}
	if len(want) != len(GasMarks()) {
		t.Errorf("%d marks, want %d", len(GasMarks()), len(want))
	}
	for i, g := range GasMarks() { // the formula of the scale
		n := []float64{0.25, 0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10}[i]
		f := 250 + 25*n
		if n < 1 {
			f = 275 + 25*math.Log2(n)
		}
		if g.F != f {
			t.Errorf("gas mark %s: %g °F, want %g", g.Mark, g.F, f)
		}
	}
	for _, c := range []plan.Celsius{50, 300} {
		if g, ok := NearestGasMark(c); ok {
			t.Errorf("%g °C is gas mark %s", c, g.Mark)
		}
	}
	if _, ok := FindGasMark("11"); ok {
		t.Error("there is a gas mark 11")
	}
}

// Common practice: 180 °C is 160 °C with a fan, 350 °F is 325 °F.
func TestFan(t *testing.T) {
	t.Parallel()
	if got := Fan(180, plan.Metric); got != 160 {
		t.Errorf("180 °C: %g", got)
	}
	if got := Fan(plan.FromFahrenheit(350), plan.Fahrenheit).Fahrenheit(); math.Abs(got-325) > 1e-9 {
		t.Errorf("350 °F: %g", got)
	}
}

// Temperatures: fixed points and the check values of kitchen charts, exact by
// definition (NIST SP 811, appendix B.8).
func TestTemperatures(t *testing.T) {
	t.Parallel()
	for f, c := range map[float64]float64{-40: -40, 32: 0, 98.6: 37, 145.4: 63, 165.2: 74, 212: 100, 356: 180, 392: 200, 325: 162.78, 350: 176.67, 400: 204.44, 450: 232.22} {
		if got := float64(plan.FromFahrenheit(f)); math.Abs(got-c) > 0.005 {
			t.Errorf("%g °F: %g °C, want %g", f, got, c)
		}
	}
}

// Weights of a cup against a second copy, and the common-practice values of cooks.
func TestDensities(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		food     string
		v        float64
		unit     string
		want, by float64
		note     string
	}{
		{"sugar", 0.5, "US cup", 100, 0.02, "common practice"},
		{"butter", 3, "US tablespoon", 43, 0.02, "common practice"},
		{"flour", 1, "US cup", 125, 1e-9, "USDA SR26 20081"},
		{"brown sugar", 1, "US cup", 220, 1e-9, "USDA SR26 19334"},
		{"salt", 1, "US tablespoon", 18, 0.01, "USDA SR26 02047, its row of a tablespoon"},
		{"butter", 1, "US tablespoon", 14.2, 0.01, "USDA SR26 01001, its row of a tablespoon"},
		{"parmesan", 1, "US tablespoon", 5, 0.3, "USDA SR26 01032, its row of a tablespoon is rounded"},
		{"cocoa", 1, "US tablespoon", 5.4, 0.01, "USDA SR26 19165, its row of a tablespoon"},
		{"honey", 1, "metric cup", 358.2, 0.001, "1.433 g/ml times 250"},
	} {
		d, ok := DensityOf(c.food)
		if !ok {
			t.Errorf("no %s", c.food)
			continue
		}
		got, least, most := d.Weigh(c.v, Named(c.unit))
		if math.Abs(got/c.want-1) > c.by || least > got+1e-9 || most < got-1e-9 {
			t.Errorf("%g %s of %s: %g g (%g to %g), want %g (%s)", c.v, c.unit, c.food, got, least, most, c.want, c.note)
		}
	}
	flour, _ := DensityOf("plain flour")
	if _, least, most := flour.Weigh(2, Named("US cup")); least != 240 || most != 284 { // the charts' 120 and 142 g a cup
		t.Errorf("2 cups of flour are %g to %g g by other charts", least, most)
	}
	for _, other := range []string{"rye flour", "coconut milk", "ice cream", "rice flour", "mustard", ""} {
		if d, ok := DensityOf(other); ok {
			t.Errorf("%s was taken for %s", other, d.Food)
		}
	}
	seen := map[string]string{}
	for _, d := range Densities() {
		if d.Grams <= 0 || d.Lo > d.Grams || d.Hi < d.Grams || d.Source.Name == "" || d.Source.Mark == "" || len(d.Names) == 0 || d.Lo != d.Hi && d.Others == "" {
			t.Errorf("%s: not complete", d.Food)
		}
		if g := d.PerML(); g < 0.1 || g > 1.5 {
			t.Errorf("%s: %g g/ml", d.Food, g)
		}
		for _, n := range d.Names {
			if seen[n] != "" {
				t.Errorf("%s is %s and %s", n, seen[n], d.Food)
			}
			seen[n] = d.Food
		}
	}
}
