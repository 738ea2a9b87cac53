package safety_test

import (
	"slices"
	"strings"
	"testing"
)

// A cook who leaves out what is named must not keep the rest.
func TestEveryIngredientWithAnAllergenIsNamed(t *testing.T) {
	t.Parallel()
	_, tt := supper(t, "avoid: [nuts]\n"+ingredients("Salad", "", `["2 oz pesto", "3 pecans", "4 oz almonds", "1 lettuce"]`, "Toss the salad, 5m"))
	var got []string
	for _, c := range tt.Cautions {
		got = append(got, c.Code+": "+c.Text)
	}
	for _, want := range [][]string{{"allergen", "pecans", "almonds"}, {"may-contain", "pesto"}} {
		named := func(c string) bool {
			return strings.HasPrefix(c, want[0]+":") && !slices.ContainsFunc(want[1:], func(w string) bool { return !strings.Contains(c, w) })
		}
		if !slices.ContainsFunc(got, named) {
			t.Errorf("no %v in %q", want, got)
		}
	}
}
