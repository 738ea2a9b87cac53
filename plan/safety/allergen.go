package safety

// allergen is one of the groups of the two lists.
type allergen uint32

// The groups. Wheat is a group of its own, for the American list has it without the
// other cereals.
const (
	milk allergen = 1 << iota
	eggs
	fishes
	crustaceans
	molluscs
	treeNuts
	peanut
	wheat
	gluten // rye, barley, oats
	soy
	sesame
	celery
	mustard
	sulphites
	lupin
	allergenEnd
)

// Group is one group of allergens, as the lists have it.
type Group struct {
	Name   string
	US, EU bool
	bits   allergen
}

// groups are the nine of the United States (FALCPA 2004, FASTER Act 2021) and the
// fourteen of the European Union (Regulation 1169/2011, annex II), which are the
// United Kingdom's too.
var groups = []Group{
	{"milk", true, true, milk},
	{"egg", true, true, eggs},
	{"fish", true, true, fishes},
	{"crustaceans", true, true, crustaceans},
	{"molluscs", false, true, molluscs},
	{"tree nuts", true, true, treeNuts},
	{"peanut", true, true, peanut},
	{"wheat", true, true, wheat},
	{"rye, barley, oats", false, true, gluten}, // with wheat, one group of the European list
	{"soy", true, true, soy},
	{"sesame", true, true, sesame},
	{"celery", false, true, celery},
	{"mustard", false, true, mustard},
	{"sulphites", false, true, sulphites},
	{"lupin", false, true, lupin},
}

// avoidWords are what people write below `avoid`, and the groups they mean. What
// people mean by nuts and by shellfish is more than one group.
var avoidWords = func() (l lexicon[allergen]) {
	l.addAll(milk, "milk, dairy, lactose, cows milk, milk protein, casein, whey")
	l.addAll(eggs, "egg")
	l.addAll(fishes, "fish")
	l.addAll(crustaceans, "crustacean, crustacean shellfish")
	l.addAll(molluscs, "mollusc, mollusk")
	l.addAll(crustaceans|molluscs, "shellfish")
	l.addAll(fishes|crustaceans|molluscs, "seafood")
	l.addAll(treeNuts, "tree nut")
	l.addAll(treeNuts|peanut, "nut")
	l.addAll(peanut, "peanut, groundnut")
	l.addAll(wheat, "wheat")
	l.addAll(wheat|gluten, "gluten, cereals containing gluten, coeliac, celiac")
	l.addAll(soy, "soy, soya, soybean, soyabean")
	l.addAll(sesame, "sesame")
	l.addAll(celery, "celery, celeriac")
	l.addAll(mustard, "mustard")
	l.addAll(sulphites, "sulphite, sulfite, sulphur dioxide, sulfur dioxide")
	l.addAll(lupin, "lupin, lupine, lupini")
	return l
}()

// content is what an ingredient word tells: what it contains, and what it may.
type content struct{ has, may allergen }
