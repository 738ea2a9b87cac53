package measure

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestSpell(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		v         float64
		unit      string
		tolerance float64
		want      string
	}{
		// Exact by the ratios of spoons and cups.
		{0.75 * 1.5, "US cup", Loose, "1 cup + 2 tbsp"},
		{1. / 3 / 2, "US cup", Loose, "2 tbsp + 2 tsp"},
		{2. / 3 / 2, "US cup", Loose, "⅓ cup"},
		{1. / 3, "US tablespoon", Loose, "1 tsp"},
		{12, "US teaspoon", Loose, "¼ cup"},
		{6, "US teaspoon", Loose, "2 tbsp"},
		{3, "US teaspoon", Loose, "1 tbsp"},
		{2.5, "US cup", Loose, "2½ cups"},
		{1, "US cup", Loose, "1 cup"},
		{1. / 8, "US cup", Loose, "2 tbsp"},
		{0.375, "US teaspoon", Loose, "¼ tsp + ⅛ tsp"},
		{0.4, "US cup", Loose, "⅓ cup + 1 tbsp"},
		{99.5, "US teaspoon", Loose, "2 cups + 1 tbsp + ½ tsp"}, // exact in three before about in one
		{1.5, "US tablespoon", Loose, "1½ tbsp"},
		{0.01, "US teaspoon", Loose, "⅛ tsp"},
		{4, "metric tablespoon", Loose, "4 tbsp"},
		{3, "metric teaspoon", Loose, "1 tbsp"},
		{2, "metric cup", Loose, "2 cups"},
		{2.25, "pound", Loose, "2¼ lb"},
		{1.125, "pound", Loose, "1 lb 2 oz"},
		{24, "ounce", Loose, "1½ lb"},
		{4.5, "ounce", Loose, "4½ oz"},
		{7, "pound", Loose, "7 lb"},
		{1250, "gram", Loose, "1.25 kg"},
		{1.5, "kilogram", Loose, "1.5 kg"},
		{333, "gram", Loose, "335 g"},
		{0.7, "gram", Loose, "0.7 g"},
		{13.2, "gram", Loose, "13 g"},
		{2.5, "decilitre", Loose, "250 ml"},
		{5, "decilitre", Loose, "500 ml"},
		{75, "centilitre", Loose, "750 ml"},
		{1.2, "litre", Loose, "1.2 l"},
		{1, "pinch", Loose, "1 pinch"},
		{3, "pinch", Loose, "3 pinches"},
		{8, "pinch", Loose, "½ tsp"},
		{1, "dash", Loose, "1 dash"},
		{1.5, "US quart", Loose, "1½ qt"},
		{0.5, "imperial pint", Loose, "½ pt"},
		{2, "inch", Loose, "2 in"},
		{0, "gram", Loose, "0 g"},
	} {
		got := Spell(c.v, Named(c.unit), c.tolerance)
		if got.Text != c.want {
			t.Errorf("%g %s: %s, want %s", c.v, c.unit, got.Text, c.want)
		}
	}
}

// What is spelled is within the tolerance, and called exact only where it is.
func TestSpellKeepsTheTolerance(t *testing.T) {
	t.Parallel()
	var real []*Unit
	for _, u := range Units() {
		if !u.Vague && u.Dimension != Length {
			real = append(real, u)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.SampledFrom(real).Draw(t, "unit")
		tolerance := rapid.SampledFrom([]float64{Loose, Strict}).Draw(t, "tolerance")
		v := math.Exp(rapid.Float64Range(math.Log(0.5), math.Log(200)).Draw(t, "log"))
		s := Spell(v, u, tolerance)
		base := v * u.Size
		off := math.Abs(s.Value/base - 1)
		if s.Exact && off > 1e-8 || !s.Exact && off < 1e-10 { // between is the noise of computing
			t.Fatalf("%g %s: %s is exact: %t, off by %g", v, u.Name, s.Text, s.Exact, off)
		}
		if off > tolerance+1e-9 && base > Named("US tablespoon").Size {
			t.Fatalf("%g %s: %s is off by %.3f", v, u.Name, s.Text, off)
		}
	})
}

func TestNumber(t *testing.T) {
	t.Parallel()
	for v, want := range map[float64]string{1: "1", 0.5: "½", 2.5: "2½", 1. / 3: "⅓", 3 + 2./3: "3⅔", 0.125: "⅛", 1.1: "1.1", 12: "12", 0.666666667: "⅔", 1.23456: "1.23"} {
		if got := Number(v); got != want {
			t.Errorf("%g: %s, want %s", v, got, want)
		}
	}
}
