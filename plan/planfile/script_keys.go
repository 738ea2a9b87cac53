package planfile

import (
	"slices"
	"strings"

	"example.org/kettledrum/plan/mishap"
)

const (
	inScript place = "a mishap script"
	inMishap place = "a mishap"
)

// scriptMappings is the table of what may stand where in a mishap script: its
// decoder, its JSON Schema and its reference are made of it.
var scriptMappings = []mapping{
	{in: inScript, about: "What goes wrong in a rehearsal.", keys: []key{
		{"mishaps", "a list of mishaps", "what goes wrong, in any order", needed, listOf(refTo(inMishap))},
	}},
	{in: inMishap, about: "One thing that goes wrong: whom or what it befalls, and how.", keys: []key{
		{"at", "`17:40`, `Fri 18:30`, `-1d 18:30`, `2026-10-16 18:30`", "when it happens, or is told; a time alone is on the dinner's day",
			"with `step` and `longer` or `takes`: when the step's time is up; else required", form(pAt)},
		{"step", "`dish/step`, or `step`", "the step it befalls", "", ref("text")},
		{"longer", "a duration", "how much longer the step takes", "", ref("duration")},
		{"takes", "a duration", "how long the step truly takes", "", ref("duration")},
		{"reading", "`148F`", "what the thermometer shows inside", "", ref("temperature")},
		{"dish", "the name of a dish", "the dish it befalls: with `burnt` or `dropped`", "", ref("text")},
		{"burnt", "`again` or `dropped`", "the dish is burnt: begun again, from the step on if one is named, or given up", "", words(burntWords...)},
		{"dropped", "`true`", "the step or the dish is left out", "", ref("true")},
		{"cook", "the name of a cook", "with `step`: does it; with `away` or `back`: is not there, or is there again", "", ref("text")},
		{"away", "a duration", "for how long the cook is away: what they are at stands still meanwhile", "", ref("duration")},
		{"back", "`true`", "the cook is back, sooner than told", "", ref("true")},
		{"burner", "`large` or `small`", "with `fails` or `works`: a burner of that size; with `step`: the step goes on there", "", words(burnerWords...)},
		{"oven", "the name of an oven", "with `fails` or `works`; with `step`: the step goes in there", "", ref("text")},
		{"fails", "`true`", "the burner (under the `step`, if one is named) or the oven is of no more use", "", ref("true")},
		{"works", "`true`", "the burner or the oven that failed works again", "", ref("true")},
		{"hold", "the name of a course", "the course is held back `by` so much, or until released", "", ref("text")},
		{"release", "the name of a course", "the course is held back no longer", "", ref("text")},
		{"guests", "`late`", "the guests come late, `by` so much", "", words(guestWords...)},
		{"by", "a duration", "with `hold` or `guests`: by how much", "", ref("duration")},
		{"silent", "a duration", "for how long nobody answers a cue; then all of it went as planned", "", ref("duration")},
		{"take_remedy", "a number", "takes that of the remedies offered, from 1", "", wholeNumber(1, mostRemedies)},
	}, rest: oneMishap()},
}

var (
	burntWords  = []string{"again", "dropped"}
	burnerWords = []string{"large", "small"}
	guestWords  = []string{"late"}
)

// mostRemedies is how many remedies are offered at a time.
const mostRemedies = 5

// pAt is the pattern of `at`.
const pAt = `(?:(?:[^\s\d:-]+|-[0-9]{1,3}d|[0-9]{4}-[0-9]{2}-[0-9]{2})[ T]+)?[0-9]{1,2}:[0-9]{2}`

// scriptShapes are the named values of the schema that plans do not have.
var scriptShapes = []shape{
	{"temperature", form(pHeat)},
	{"true", `{"type":["boolean","string"],"pattern":` + jsonText(whole(`[Tt][Rr][Uu][Ee]|[Yy][Ee][Ss]`)) + `,"not":{"const":false}}`},
}

// combination is what together makes one kind of mishap.
type combination struct {
	kind  mishap.Kind
	keys  []string
	may   string // a key that may stand with them
	timed bool   // needs `at`
}

var combinations = []combination{
	{mishap.Longer, []string{"step", "longer"}, "", false},
	{mishap.Takes, []string{"step", "takes"}, "", false},
	{mishap.Reading, []string{"step", "reading"}, "", true},
	{mishap.Burnt, []string{"step", "burnt"}, "", true},
	{mishap.Burnt, []string{"dish", "burnt"}, "", true},
	{mishap.Dropped, []string{"step", "dropped"}, "", true},
	{mishap.Dropped, []string{"dish", "dropped"}, "", true},
	{mishap.GivenTo, []string{"step", "cook"}, "", true},
	{mishap.PutOn, []string{"step", "burner"}, "", true},
	{mishap.PutOn, []string{"step", "oven"}, "", true},
	{mishap.Away, []string{"cook", "away"}, "", true},
	{mishap.Back, []string{"cook", "back"}, "", true},
	{mishap.Fails, []string{"burner", "fails"}, "step", true},
	{mishap.Fails, []string{"oven", "fails"}, "", true},
	{mishap.Works, []string{"burner", "works"}, "", true},
	{mishap.Works, []string{"oven", "works"}, "", true},
	{mishap.Hold, []string{"hold"}, "by", true},
	{mishap.Release, []string{"release"}, "", true},
	{mishap.GuestsLate, []string{"guests", "by"}, "", true},
	{mishap.Silent, []string{"silent"}, "", true},
	{mishap.TakeRemedy, []string{"take_remedy"}, "", true},
}

// oneMishap is the schema of the combinations.
func oneMishap() string {
	var of []string
	for _, c := range combinations {
		need, may := slices.Clone(c.keys), append(slices.Clone(c.keys), "at")
		if c.timed {
			need = may
		}
		if c.may != "" {
			may = append(slices.Clone(may), c.may)
		}
		of = append(of, `{"required":[`+jsonList(need)+`],"propertyNames":{"enum":[`+jsonList(may)+`]}}`)
	}
	return `"oneOf":[` + strings.Join(of, ",") + `]`
}

func jsonList(words []string) string {
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = jsonText(w)
	}
	return strings.Join(quoted, ",")
}
