package planfile

// place says in which mapping of the file a key stands.
type place string

const (
	inPlan    place = "a plan"
	inKitchen place = "a kitchen"
	inCook    place = "a cook"
	inOven    place = "an oven"
	inBurners place = "burners"
	inTool    place = "a tool"
	inCourse  place = "a course"
	inDish    place = "a dish"
	inStep    place = "a step"
	inBake    place = "the oven of a step"
)

// keySet is the keys of one mapping. Those not yet built are refused by name,
// never ignored.
type keySet struct {
	known  []string
	notYet []string
}

// keys is the one table of what may stand where.
var keys = map[place]keySet{
	inPlan: {
		known:  []string{"kettledrum", "title", "guests", "table", "zone", "units", "kitchen", "courses", "dishes"},
		notYet: []string{"chores", "guests_note", "avoid", "rules"},
	},
	inKitchen: {
		known:  []string{"cooks", "ovens", "burners", "tools"},
		notYet: []string{"room", "minds", "cold"},
	},
	inCook: {
		known:  []string{"name", "free"},
		notYet: []string{"sits", "slips_away"},
	},
	inOven:    {known: []string{"name", "shelves", "preheat", "cools"}},
	inBurners: {known: []string{"large", "small"}},
	inTool: {
		known:  []string{"count"},
		notYet: []string{"wash"},
	},
	inCourse: {
		known:  []string{"name", "serve", "seated", "late_ok"},
		notYet: []string{"slips_away"},
	},
	inDish: {
		known:  []string{"name", "course", "steps"},
		notYet: []string{"makes", "serves", "food", "ingredients", "optional", "note"},
	},
	inStep: {
		known: []string{"do", "id", "takes", "waits", "hands", "by", "oven", "burner", "uses", "after", "at_once",
			"keeps", "until", "note"},
		notYet: []string{"vessel", "remind", "optional", "before", "ahead", "accept"},
	},
	inBake: {
		known:  []string{"at", "in", "space"},
		notYet: []string{"door"},
	},
}

// all returns every key of the set, built or not: what a misspelt key is
// compared with.
func (k keySet) all() []string {
	return append(append([]string(nil), k.known...), k.notYet...)
}
