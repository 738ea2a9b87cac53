package safety

import (
	"slices"
	"strings"
	"testing"

	"example.org/kettledrum/plan"
)

// The nine of the United States and the fourteen of the European Union. Sources:
// FALCPA 2004 and FASTER Act 2021; Regulation (EU) 1169/2011, annex II.
func TestGroupsAreTheLists(t *testing.T) {
	t.Parallel()
	us := []string{"milk", "egg", "fish", "crustaceans", "tree nuts", "peanut", "wheat", "soy", "sesame"}
	// Wheat is in the European list with the other cereals that contain gluten.
	eu := []string{"wheat", "rye, barley, oats", "crustaceans", "egg", "fish", "peanut", "soy", "milk", "tree nuts", "celery", "mustard", "sesame", "sulphites", "lupin", "molluscs"}
	var gotUS, gotEU []string
	var bits allergen
	for _, g := range groups {
		if g.US {
			gotUS = append(gotUS, g.Name)
		}
		if g.EU {
			gotEU = append(gotEU, g.Name)
		}
		if bits&g.bits != 0 {
			t.Errorf("%s shares a bit with another group", g.Name)
		}
		bits |= g.bits
	}
	for _, l := range [][2][]string{{us, gotUS}, {eu, gotEU}} {
		slices.Sort(l[0])
		slices.Sort(l[1])
		if !slices.Equal(l[0], l[1]) {
			t.Errorf("the list is %v, want %v", l[1], l[0])
		}
	}
	if bits != allergenEnd-1 {
		t.Error("a group is in neither list")
	}
}

func TestThereAreEnoughWords(t *testing.T) {
	t.Parallel()
	n := 0
	for _, c := range allergenWords.entries {
		if c.has|c.may != 0 {
			n++
		}
	}
	if n < 250 {
		t.Errorf("%d allergen words, want at least 250", n)
	}
	for _, l := range []struct {
		name  string
		twice []string
	}{{"allergens", allergenWords.twice}, {"kinds", kindWords.twice}, {"avoid", avoidWords.twice}} {
		if len(l.twice) > 0 {
			t.Errorf("%s: %v stand in the table twice, and the last holds", l.name, l.twice)
		}
	}
}

// Words that sound like an allergen and are none, and those that are and do not.
// What contains what: common practice.
func TestAllergenWords(t *testing.T) {
	t.Parallel()
	const none, yes, ask = "", "contains", "ask"
	for _, c := range []struct{ avoid, line, want string }{
		// false friends
		{"milk", "1 (14 oz) can coconut milk", none}, {"nuts", "1 (14 oz) can coconut milk", none}, {"wheat", "2 cups buckwheat flour", none}, {"gluten", "buckwheat", none},
		{"nuts", "a pinch of nutmeg", none}, {"egg", "2 eggplants", none}, {"milk", "1 tsp cream of tartar", none}, {"milk", "2 cans butter beans", none}, {"shellfish", "8 oz oyster mushrooms", none},
		{"milk", "1 butternut squash", none}, {"nuts", "1 butternut squash", none}, {"milk", "cocoa butter", none}, {"milk", "shea butter", none}, {"milk", "1 cup rice milk", none}, {"milk", "1 head butter lettuce", none},
		{"nuts", "4 oz water chestnuts", none}, {"nuts", "1 oz tiger nuts", none}, {"shellfish", "1 crab apple", none}, {"nuts", "4 crabapples", none}, {"wheat", "8 oz rice noodles", none}, {"wheat", "2 tbsp cornflour", none}, {"wheat", "corn tortillas", none},
		{"milk", "1 cup peanut butter", none}, {"milk", "almond butter", none}, {"milk", "1 cup oat milk", none}, {"milk", "soy milk", none}, {"milk", "almond milk", none}, {"wheat", "1 cup almond flour", none}, {"wheat", "rice flour", none},
		{"milk", "Cream the sugar with lard", none}, {"fish", "Fish out the bay leaf", none}, {"egg", "Set the egg timer", none}, {"milk", "Rinse the butter dish", none}, {"wheat", "Take the bread knife", none}, {"fish", "Lift with a fish slice", none},
		{"nuts", "Fry until nut-brown", none}, {"shellfish", "lobster mushrooms", none}, {"mustard", "1 bunch watercress", none}, {"soy", "coconut cream", none}, {"sulphites", "1 cup rice vinegar", none}, {"peanut", "1 cup green peas", none},
		{"milk", "coconut cream", none}, {"milk", "1 cup coconut yogurt", none}, {"milk", "apple butter", none}, {"celery", "1 bunch parsley", none}, {"egg", "1 egg plant", none}, {"wheat", "Wash the wheatgrass tray", none},

		// plain
		{"milk", "4 oz butter", yes}, {"milk", "1 cup buttermilk", yes}, {"dairy", "2 oz Parmesan, grated", yes}, {"lactose", "crème fraîche", yes}, {"milk", "8 oz Gruyère", yes}, {"milk", "1 cup heavy cream", yes},
		{"egg", "4 egg whites", yes}, {"eggs", "3 yolks", yes}, {"egg", "2 tbsp mayonnaise", yes}, {"eggs", "lemon curd", yes}, {"egg", "8 oz egg noodles", yes},
		{"fish", "1 tbsp fish sauce", yes}, {"fish", "6 anchovies", yes}, {"fish", "1 tsp Worcestershire sauce", yes}, {"fish", "2 trout", yes}, {"seafood", "1 lb squid", yes},
		{"crustaceans", "1 lb prawns", yes}, {"shellfish", "2 lb mussels", yes}, {"molluscs", "1 tbsp oyster sauce", yes}, {"crustaceans", "2 lb mussels", none}, {"molluscs", "1 lb shrimp", none}, {"shellfish", "crab meat", yes},
		{"nuts", "3 oz hazelnuts", yes}, {"nuts", "4 oz marzipan", yes}, {"tree nuts", "1/2 cup pine nuts", yes}, {"nuts", "1 cup peanuts", yes}, {"tree nuts", "1 cup peanuts", none}, {"peanuts", "monkey nuts", yes}, {"nuts", "pistachios", yes}, {"nuts", "1 cup pecans", yes},
		{"tree nuts", "almond milk", yes}, {"nuts", "8 oz pesto", ask}, {"peanut", "4 oz mixed nuts", ask}, {"tree nuts", "4 oz mixed nuts", yes},
		{"wheat", "2 cups flour", yes}, {"gluten", "1 cup pearl barley", yes}, {"wheat", "1 cup pearl barley", none}, {"gluten", "2 cups rolled oats", yes}, {"gluten", "2 cups rye flour", yes}, {"coeliac", "8 oz couscous", yes}, {"wheat", "1 cup panko", yes}, {"wheat", "8 oz spaghetti", yes}, {"wheat", "soy sauce", yes}, {"gluten", "8 oz farro", yes},
		{"soy", "8 oz tofu", yes}, {"soya", "2 tbsp tamari", yes}, {"soy", "1 tbsp miso", yes}, {"soy", "1 cup edamame", yes}, {"sesame", "2 tbsp tahini", yes}, {"sesame", "8 oz hummus", yes}, {"sesame", "1 tbsp sesame seeds", yes},
		{"celery", "2 stalks celery", yes}, {"celery", "1 celeriac", yes}, {"mustard", "2 tbsp Dijon mustard", yes}, {"lupin", "1 cup lupini beans", yes}, {"sulphites", "1 cup white wine", ask}, {"sulfites", "1 cup dried apricots", ask},

		// of several foods
		{"wheat", "8 oz pappardelle", yes}, {"wheat", "1 lb fettuccine", yes}, {"egg", "8 oz fresh tagliolini", ask}, {"wheat", "8 oz vermicelli", yes}, {"wheat", "8 oz rice vermicelli", none}, {"wheat", "8 oz soba", ask}, {"gluten", "soba noodles", ask},
		{"wheat", "1 lasagne", yes}, {"milk", "1 lasagne", yes}, {"egg", "1 lasagne", ask}, {"gluten", "20 chicken nuggets", yes}, {"wheat", "4 breaded cutlets", yes}, {"fish", "2 Dover soles", yes}, {"fish", "1 lb sole", yes},
		{"fish", "2 skate wings", yes}, {"fish", "8 rollmops", yes}, {"milk", "1 cheesecake", yes}, {"egg", "1 cheesecake", ask}, {"gluten", "1 cheesecake", ask}, {"egg", "quiche", yes}, {"milk", "quiche", yes}, {"wheat", "quiche", yes},
		{"egg", "tiramisù", yes}, {"milk", "tiramisu", yes}, {"wheat", "tiramisu", yes}, {"milk", "1 cup skyr", yes}, {"milk", "1 cup fromage frais", yes}, {"milk", "2 cups buttercream", yes}, {"egg", "2 cups buttercream", ask},
		{"egg", "semifreddo", yes}, {"milk", "semifreddo", yes}, {"milk", "beurre blanc", yes}, {"wheat", "Toast the seeds", none}, {"wheat", "Toast the bread", yes}, {"wheat", "béchamel", yes}, {"nuts", "1 tray baklava", yes},
		{"egg", "carbonara", yes}, {"celery", "1 cup soffritto", yes}, {"fish", "vitello tonnato", yes}, {"milk", "Bake the trout", none}, {"gluten", "4 oz muesli", yes}, {"nuts", "4 oz muesli", ask},

		// unsure
		{"milk", "8 oz dark chocolate", ask}, {"celery", "1 stock cube", ask}, {"gluten", "2 cups chicken stock", ask}, {"nuts", "red curry paste", ask}, {"milk", "4 sausages", ask}, {"soy", "2 tbsp margarine", ask},
		{"fish", "1 cup kimchi", ask}, {"egg", "1 lb pasta", ask}, {"milk", "vegan cheese", ask}, {"wheat", "2 tsp baking powder", ask},

		// what says that it is without is asked about, never passed
		{"gluten", "2 tbsp gluten-free soy sauce", ask}, {"milk", "1 cup lactose-free milk", ask}, {"egg", "egg-free mayonnaise", ask}, {"milk", "1 block vegan butter", ask}, {"nuts", "nut-free pesto", ask},

		// one food of a group
		{"hazelnuts", "3 oz hazelnuts", yes}, {"hazelnuts", "3 oz almonds", none}, {"hazelnuts", "4 oz mixed nuts", ask}, {"shrimp", "1 lb shrimp", yes}, {"walnut", "2 oz walnuts", yes}, {"salmon", "1 lb trout", none},

		// neither list has it
		{"coriander", "1 bunch coriander", yes}, {"mushrooms", "8 oz mushrooms", yes}, {"mushrooms", "1 onion", none},
	} {
		got := none
		if f, ok := wishes([]string{c.avoid})[0].in(c.line); ok {
			got = ask
			if f.sure {
				got = yes
			}
		}
		if got != c.want {
			t.Errorf("avoid %s in %q: %q, want %q", c.avoid, c.line, got, c.want)
		}
	}
}

// Every word of the table is found again in a line, in the singular and the plural.
func TestEveryWordIsFound(t *testing.T) {
	t.Parallel()
	for word, want := range allergenWords.entries {
		for _, line := range []string{"2 oz " + word, "some " + strings.ToUpper(word) + ", chopped"} {
			hits := allergenWords.find(line)
			if len(hits) == 0 || hits[0].value != want {
				t.Errorf("%q is not found in %q: %v", word, line, hits)
			}
		}
	}
}

func FuzzAllergens(f *testing.F) {
	for _, s := range []string{"coconut milk", "1 (14 oz) can, nuts", "é", "free", "ss", "\xff", "без орехов"} {
		f.Add("nuts", s)
		f.Add(s, "nuts")
	}
	f.Fuzz(func(t *testing.T, avoid, line string) {
		for _, w := range wishes([]string{avoid}) {
			w.in(line)
		}
		kindsIn(line)
		pounds(plan.Ingredient{Text: line})
		atRisk(line)
	})
}

// Words that sound like a food that spoils and are none, and the other way round.
func TestKindWords(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		text string
		want kind
	}{
		{"Rice the potatoes", vegetable}, {"Cream the butter", 0}, {"Fish out the bay leaf", shelf}, {"Roast the potatoes in goose fat", vegetable}, {"Heat the chicken stock", stock},
		{"Slice the eggplant", vegetable}, {"Boil the butter beans", pulses}, {"Fry the oyster mushrooms", vegetable}, {"Set the egg timer", 0}, {"Season with black pepper", 0}, {"2 cups coconut milk", shelf},
		{"Bread the cutlets", 0}, {"Carve the chicken breasts", poultry}, {"Shape the meatballs", ground}, {"Stew the plums", shelf}, {"Beef stew", redMeat | soup}, {"Warm the gravy", stock}, {"Roll out the pastry", dough},
		{"Toast the hazelnuts", shelf}, {"Potato rolls", dry}, {"Scrape the vanilla bean", 0}, {"4 loaves of bread", dry}, {"8 anchovies", fish}, {"3 calves' livers", redMeat},
	} {
		if got := kindsIn(c.text); got != c.want {
			t.Errorf("%q is %b, want %b", c.text, got, c.want)
		}
	}
}
