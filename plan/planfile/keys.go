package planfile

import "slices"

// place says in which mapping of the file a key stands.
type place string

const (
	inPlan    place = "a plan"
	inKitchen place = "a kitchen"
	inCook    place = "a cook"
	inOven    place = "an oven"
	inBurners place = "burners"
	inTool    place = "a tool"
	inCold    place = "cold places"
	inCourse  place = "a course"
	inDish    place = "a dish"
	inIngr    place = "an ingredient"
	inStep    place = "a step"
	inBake    place = "the oven of a step"
	inChore   place = "a chore"
)

// key is one row of the table: what may stand where, and what it says. Backquotes
// mark what is written in the file.
type key struct {
	name   string
	form   string // its value in words
	means  string
	def    string // where it is left out; needed: it may not be
	schema string // JSON Schema of the value's shape
}

const needed = "required"

// mapping is the keys of one place.
type mapping struct {
	in    place
	about string
	like  place    // its keys may stand here too …
	but   []string // … but for these
	keys  []key
	rest  string // more of the JSON Schema
}

// mappings is the one table of what may stand where: the decoder, the JSON
// Schema and the reference are made of it.
var mappings = []mapping{
	{in: inPlan, about: "The file as a whole.", keys: []key{
		{"kettledrum", "`1`", "the version of the file's format; the first line", needed, `{"enum":[1,"1"]}`},
		{"title", "text", "what the dinner is called", "", ref("text")},
		{"guests", "a number", "how many sit at the table", "", wholeNumber(1, 10000)},
		{"guests_note", "text", "what to know of them: ages, who must be careful", "", ref("text")},
		{"avoid", "a list: `[nuts, milk]`", "what must not be in any dish", "", ref("texts")},
		{"rules", "`us` or `uk`", "whose rules the cautions follow, and whose cups and pints the ingredients mean", "`us`", words("us", "uk")},
		{"table", "`2026-10-17 19:00`", "when the first course is on the table", needed, form(pTable)},
		{"zone", "`Europe/Vienna`", "the time zone of all times in the file", "that of the computer", ref("text")},
		{"units", "`F` or `C`", "how temperatures are shown; with `C` cups and spoons are metric ones: 250, 15 and 5 ml", "as the country has it", words("F", "C")},
		{"kitchen", "keys and values, or a file: `my-kitchen.yaml`", "what there is to cook with", "one cook, one oven, four burners",
			anyOf(refTo(inKitchen), form(`.+\.ya?ml`), nothing)},
		{"courses", "a list of courses", "what comes to the table together, in its order", "one", listOfSome(refTo(inCourse))},
		{"dishes", "a list of dishes", "what there is to eat", needed, listOfSome(refTo(inDish))},
		{"chores", "a list of chores", "what else there is to do: lay the table, make coffee", "",
			anyOf(listOf(anyOf(refTo(inChore), form(pShortStep))), nothing)},
	}},
	{in: inKitchen, about: "What there is to cook with. It may be a file of its own.", keys: []key{
		{"cooks", "a number, a list of names, or a list of cooks", "who cooks", "one, free from six hours before the first course to the last",
			anyOf(wholeNumber(1, 100), listOfSome(anyOf(ref("text"), refTo(inCook))))},
		{"ovens", "a number, a list of names, or a list of ovens", "each holds one temperature at a time", "one",
			anyOf(wholeNumber(0, 20), listOf(anyOf(ref("text"), refTo(inOven))))},
		{"burners", "`{large: 2, small: 2}`", "how many of each size", "two of each", refTo(inBurners)},
		{"tools", "`{big pot: 1, blender: {count: 1, wash: 5m}}`", "how many of each; one that is not listed exists once", "",
			anyOf(mapOf(anyOf(wholeNumber(1, 1000), refTo(inTool))), ref("text"),
				listOf(anyOf(ref("text"), mapOf(anyOf(wholeNumber(1, 1000), refTo(inTool))))), nothing)},
		{"cold", "`{fridge: 6, freezer: 2}`", "how many things find room; a place that is not listed is not counted", "without limit", anyOf(refTo(inCold), nothing)},
		{"room", "a temperature", "how warm the kitchen is", "`70F`", ref("oven-temperature")},
		{"minds", "a number", "how many pots one cook can mind at once", "`3`", wholeNumber(1, 100)},
	}},
	{in: inCook, about: "Somebody who cooks.", keys: []key{
		{"name", "text", "what the cook is called", needed, ref("text")},
		{"free", "`Sat 10:00-23:00`, `-2d 18:00-21:00`, `2026-10-16 18:00-21:00`, or a list", "when the cook is there; a weekday is the last such day up to the dinner's",
			"from six hours before the first course to the last", anyOf(form(pWindow), listOf(form(pWindow)))},
		{"sits", "`true`", "sits at table with each course", "`false`", ref("yes-or-no")},
	}},
	{in: inOven, about: "An oven.", keys: []key{
		{"name", "text", "what the oven is called", needed, ref("text")},
		{"shelves", "a number", "how many things fit side by side or above each other", "`2`", wholeNumber(1, 100)},
		{"preheat", "`12m to 350F`", "how long it takes from the room's temperature", "`12m to 350F`", form(pTime + ` to +` + pHeat)},
		{"cools", "`14m from 425F to 350F`", "how long it takes to come down", "`14m from 425F to 350F`", form(pTime + ` from +` + pHeat + ` to +` + pHeat)},
	}},
	{in: inBurners, about: "Burners by size. A large one can do a small one's work.", keys: []key{
		{"large", "a number", "how many large ones", "`0`", wholeNumber(0, 100)},
		{"small", "a number", "how many small ones", "`0`", wholeNumber(0, 100)},
	}},
	{in: inTool, about: "A tool, where its number alone does not say enough.", keys: []key{
		{"count", "a number", "how many there are", "`1`", wholeNumber(1, 1000)},
		{"wash", "a duration", "how long one is out of use between two dishes; washing that takes hands is a step whose `vessel` it is, after the one that used it as its `vessel`", "`0m`", ref("duration")},
	}},
	{in: inCold, about: "How many things find room in a cold place.", keys: []key{
		{"fridge", "a number", "places in the refrigerator", "without limit", wholeNumber(0, 1000)},
		{"freezer", "a number", "places in the freezer", "without limit", wholeNumber(0, 1000)},
	}},
	{in: inCourse, about: "What comes to the table together.", keys: []key{
		{"name", "text", "what the course is called", needed, ref("text")},
		{"serve", "a duration", "when it is on the table, after `table`", "`0m`", ref("duration")},
		{"seated", "a duration", "how long the guests sit with it", "`20m`", ref("duration")},
		{"late_ok", "a duration", "how late it may be", "`20m`", ref("duration")},
		{"slips_away", "a duration", "a cook who sits may leave the table for so long, once in ten minutes", "they stay", ref("duration")},
	}},
	{in: inDish, about: "One thing to eat.", keys: []key{
		{"name", "text", "what the dish is called", needed, ref("text")},
		{"course", "the name of a course", "the course it belongs to", "the only one", ref("text")},
		{"makes", "a number", "how many the recipe is for; `shop` scales it to the guests", "", wholeNumber(1, 10000)},
		{"serves", "a number", "the same as `makes`", "", wholeNumber(1, 10000)},
		{"food", "`poultry`, `whole-red`, …", "what it is in the table of safe temperatures", "", words(foods...)},
		{"ingredients", "a list: `[\"2 lb leeks, sliced\"]`", "what to buy, a line each, as it is spoken, or keys and values", "",
			anyOf(ref("text"), listOf(anyOf(ref("text"), refTo(inIngr), colonLine)), nothing)},
		{"optional", "`true`", "may be dropped when time runs out", "`false`", ref("yes-or-no")},
		{"note", "text", "longer text, shown when the dish is opened", "", ref("text")},
		{"steps", "a list of steps", "what to do and what to wait for, in order", needed, listOfSome(anyOf(refTo(inStep), form(pShortStep)))},
	}, rest: `"not":{"required":["makes","serves"]}`},
	{in: inIngr, about: "One thing to buy, where a line does not say enough.", keys: []key{
		{"what", "text", "what it is", needed, ref("text")},
		{"amount", "`2 lb`, `1 (14 oz) can`, `3-4 cloves`", "how much", "", ref("text")},
		{"note", "text", "what else there is to say", "", ref("text")},
		{"for", "the `id` of a step of the dish", "the step that takes it first", "the dish's first", ref("text")},
		{"frozen", "`true`", "comes frozen and must thaw before that step", "`false`", ref("yes-or-no")},
		{"fresh", "a duration", "how long before that step it may be bought at the earliest", "as the kind of food has it", ref("duration")},
		{"scales", "`false`", "the same amount for any number of guests", "`true`", ref("yes-or-no")},
	}},
	{in: inStep, about: "One thing to do or to wait for. The short form is text with a time at its end: `Boil the potatoes, 22m`.", keys: stepKeys, rest: oneLength},
	{in: inBake, about: "The oven of a step, where its temperature alone does not say enough.", keys: []key{
		{"at", "`400F`, `375-400F`, `400F (204C)`, `gas mark 5` or `grill`", "the temperature; one alone accepts 5 °C on either side", needed, anyOf(ref("oven-temperature"), words("grill"))},
		{"in", "the name of an oven", "which one", "any", ref("text")},
		{"space", "`half`, `a shelf`, or a number of shelves", "how much room it takes", "`a shelf`",
			`{"type":["string","number"],"exclusiveMinimum":0,"pattern":` + jsonText(whole(pSpace)) + `}`},
		{"door", "`shut`", "nothing goes in or out meanwhile", "", words("shut")},
	}},
	{in: inChore, about: "A step of no dish.", like: inStep, but: []string{"after", "at_once", "vessel"}, keys: []key{
		{"before", "the name of a course", "the course it must be done for", "the first", ref("text")},
		{"after", "the name of a course", "the course from whose serving on it may be done", "", ref("text")},
		{"ahead", "a duration", "how early before that course it may be started", "on the day of the dinner", ref("duration")},
	}, rest: oneLength},
}

const oneLength = `"oneOf":[{"required":["takes"]},{"required":["waits"]}]`

var stepKeys = []key{
	{"do", "text", "what the cook reads, short, in the imperative", needed, ref("text")},
	{"id", "a word", "a name for references, unique in its dish; elsewhere `dish/id`", "made from `do`", ref("text")},
	{"takes", "`8m`, `25-35m`, `30m (25m-45m)`", "how long, where the food decides: likely (shortest-longest)", "one of `takes` and `waits`", form(pTakes)},
	{"waits", "`10m to 20m`, `at least 2h`, `2h to 2d in fridge`, `2h to 2d in fridge (2 places)`", "how long, where the cook decides", "one of `takes` and `waits`", form(pWaits)},
	{"hands", "`tied`, `busy`, `near` or `free`", "what it asks of a cook: cannot be left, can be left for a minute, somebody in the kitchen minds it, nothing",
		"`free` with `oven` and `waits`, `near` with `burner`, else `busy`", words("tied", "busy", "near", "free")},
	{"by", "the name of a cook", "who must do it", "whoever is there", ref("text")},
	{"oven", "`400F`, `375-400F`, `grill`, or `{at: 400F, in: top oven, space: half, door: shut}`", "it bakes", "",
		anyOf(ref("oven-temperature"), words("grill"), refTo(inBake))},
	{"burner", "`large`, `small`, `any`, `2 large`", "it cooks on a burner", "", form(pBurner)},
	{"uses", "`[sheet pan]`, `{sheet pan: 2}`", "tools in use during the step", "",
		anyOf(ref("text"), ref("name-and-count"), listOf(anyOf(ref("text"), ref("name-and-count"))))},
	{"vessel", "the name of a tool", "a tool that holds the food: taken up to the next step of the dish with the same vessel", "", ref("text")},
	{"after", "`[sauce, {bake: 0m-10m}]`, or `none`", "the steps it follows, with the least and the greatest gap", "the step above it",
		anyOf(ref("text"), mapOf(form(pTimes)), listOf(anyOf(ref("text"), mapOf(form(pTimes)))))},
	{"at_once", "`true`", "starts the moment the one before it ends", "`false`", ref("yes-or-no")},
	{"keeps", "`20m`, `5m (15m at most)`, `3d in fridge`, `3d in fridge (2 places)`, `1mo in freezer`, `1h in oven at 170-200F`, `freely`", "how long what it made may wait for the next step, and where",
		"`10m` after `oven` or `burner`, `freely` for a chore, nothing after `waits`, else `2h`", form(pKeeps)},
	{"until", "`165F`, `deep amber`, or both: `165F, juices run clear`", "the sign that it is done", "", ref("text")},
	{"remind", "`every 30m: baste`, `halfway: turn the tray`, `5m before end: warm the plates`, or a list", "what to do meanwhile", "",
		anyOf(form(pRemind), remindMap, listOf(anyOf(form(pRemind), remindMap)))},
	{"optional", "`true`", "may be dropped when time runs out", "`false`", ref("yes-or-no")},
	{"note", "text", "longer text, shown when the step is opened", "", ref("text")},
	{"accept", "`[code, reason]`, or a list of such", "cautions that the cook has seen and accepts", "",
		anyOf(acceptPair, listOf(acceptPair))},
}

var (
	// colonLine is a line of ingredients with a colon in it: YAML takes it for a key.
	colonLine  = `{"type":"object","minProperties":1,"maxProperties":1,"additionalProperties":{"type":["string","number","boolean","null"]}}`
	remindMap  = `{"type":"object","patternProperties":{` + jsonText(whole(pWhen)) + `:` + ref("text") + `},"additionalProperties":false}`
	acceptPair = `{"type":"array","minItems":2,"maxItems":2,"prefixItems":[{"type":["string","boolean"],"pattern":` + jsonText(whole(pCode)) + `},` + ref("text") + `]}`
)

// all returns every key of the mapping, those it shares with another first.
func (m mapping) all() []key {
	var out []key
	for _, o := range mappings {
		if o.in == m.like {
			for _, k := range o.keys {
				if !slices.Contains(m.but, k.name) {
					out = append(out, k)
				}
			}
		}
	}
	return append(out, m.keys...)
}

// keys are the names of all that may stand in a place.
var keys = map[place][]string{}

func init() {
	for _, m := range slices.Concat(mappings, scriptMappings) {
		for _, k := range m.all() {
			keys[m.in] = append(keys[m.in], k.name)
		}
	}
}
