package safety

import (
	"maps"
	"slices"
	"testing"
)

// The two lists of words agree: a food whose kind tells an allergen is found as that
// allergen, at least to be asked about. What contains what: common practice.
func TestKindsTellTheirAllergens(t *testing.T) {
	t.Parallel()
	without := []string{
		"popcorn", // of maize
	}
	for _, word := range slices.Sorted(maps.Keys(kindWords.entries)) {
		k := kindWords.entries[word]
		for _, c := range []struct {
			kind kind
			any  allergen
		}{
			{fish, fishes}, {crustacean, crustaceans}, {bivalve | scallop, molluscs}, {egg, eggs}, {dairy, milk}, {custard, milk | eggs}, {quiche, eggs}, {pasta, wheat}, {casserole, milk}, {dough | dry, wheat},
		} {
			if k&c.kind == 0 || slices.Contains(without, word) {
				continue
			}
			var got allergen
			for _, h := range allergenWords.find(word) {
				got |= h.value.has | h.value.may
			}
			if got&c.any == 0 {
				t.Errorf("%q is a food of kind %b and tells no allergen of %b", word, c.kind, c.any)
			}
		}
	}
}

// And the other way round: fish and shellfish that tell an allergen are foods that
// spoil, but for what keeps or seasons.
func TestSeafoodAllergensAreKinds(t *testing.T) {
	t.Parallel()
	keeps := []string{"fish sauce", "nam pla", "fish stock", "dashi", "bonito", "bonito flake", "bottarga", "isinglass", "garum", "colatura", "shrimp paste", "belacan", "squid ink", "cuttlefish ink",
		"shrimp stock", "taramasalata", "puttanesca", "anchoiade"}
	for _, word := range slices.Sorted(maps.Keys(allergenWords.entries)) {
		switch allergenWords.entries[word].has {
		case fishes, crustaceans, molluscs:
			if kindsIn(word)&seafood == 0 && !slices.Contains(keeps, word) && allergenWords.entries[word].may == 0 {
				t.Errorf("%q is fish or shellfish, and no kind of food", word)
			}
		}
	}
}
