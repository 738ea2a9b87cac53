package ingredient

import "testing"

func TestKey(t *testing.T) {
	t.Parallel()
	for item, want := range map[string]string{
		"large onions": "onion", "onion": "onion", "red onions": "red onion", "finely chopped walnuts": "walnut", "Eggs": "egg",
		"egg yolks": "egg yolk", "cherries": "cherry", "waxy potatoes": "waxy potato", "bay leaves": "bay leaf", "molasses": "molasses",
		"asparagus": "asparagus", "couscous": "couscous", "olives": "olive", "large": "large", "boneless, skinless chicken thighs": "boneless skinless chicken thigh",
		"unsalted butter": "unsalted butter", "ground beef": "ground beef", "cress": "cress", "peaches": "peach", "ripe, large tomatoes": "tomato",
	} {
		if got := Key(item); got != want {
			t.Errorf("%s: %q, want %q", item, got, want)
		}
	}
}

func TestPlural(t *testing.T) {
	t.Parallel()
	for item, want := range map[string]string{
		"large onion": "large onions", "onions": "onions", "cherry": "cherries", "Tomato": "Tomatoes", "bay leaf": "bay leaves", "peach": "peaches",
		"asparagus": "asparagus", "turkey": "turkeys", "molasses": "molasses", "trout": "trout", "": "",
	} {
		if got := Plural(item); got != want {
			t.Errorf("%s: %q, want %q", item, got, want)
		}
	}
}
