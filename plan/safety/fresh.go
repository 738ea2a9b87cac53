package safety

// preserved are the words of what keeps by other means than cold, or is no piece of
// meat or fish.
var preserved = []string{"can", "cans", "tin", "tins", "tinned", "canned", "jar", "jars", "dried", "smoked", "cured", "cooked", "salted", "confit",
	"pickled", "sauce", "paste", "powder", "cube", "cubes", "fat", "dripping", "stock", "broth", "bouillon", "gelatine", "in oil", "in brine", "seasoning",
	"egg", "mushroom", "bean", "tomato", "chilli", "chili", "lettuce", "cheese", "apple"} // quail's eggs, oyster mushrooms, kidney beans, bird's eye chillies

// Raw returns the row of the storage chart for the raw meat, fish or shellfish that
// a line of ingredients names; false where it names none, or such as keeps by other
// means than cold.
func Raw(line string) (StorageRow, bool) {
	k := kindsIn(line)
	if k&(meats|seafood) == 0 || k&(soup|stock) != 0 || says(line, preserved...) {
		return StorageRow{}, false
	}
	if says(line, "bacon", "lardons", "pancetta") {
		return Storage("bacon")
	}
	for _, r := range rowsRaw {
		if k&r.kind != 0 {
			return Storage(r.row)
		}
	}
	return StorageRow{}, false
}
