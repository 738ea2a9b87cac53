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
		{"step", "`dish/step`, or `step`", "the step it befalls: with `longer`, `takes`, `reading`, `cook` or `dropped`", "", ref("text")},
		{"longer", "a duration", "how much longer the step takes", "", ref("duration")},
		{"takes", "a duration", "how long the step truly takes", "", ref("duration")},
		{"reading", "`148F`", "what the thermometer shows inside", "", ref("temperature")},
		{"cook", "the name of a cook", "with `step`: takes it over; with `away`: is not there", "", ref("text")},
		{"away", "a duration", "for how long the cook is away", "", ref("duration")},
		{"dish", "the name of a dish", "the dish it befalls: with `burnt` or `dropped`", "", ref("text")},
		{"burnt", "`again` or `dropped`", "the dish is burnt: begun again, or given up", "", words(burntWords...)},
		{"dropped", "`true`", "the step or the dish is left out", "", ref("true")},
		{"burner", "`large` or `small`", "a burner of that size: with `fails`", "", words(burnerWords...)},
		{"oven", "the name of an oven", "with `fails`", "", ref("text")},
		{"fails", "`true`", "the burner or the oven is of no more use", "", ref("true")},
		{"hold", "the name of a course", "the course that is held back: with `by`", "", ref("text")},
		{"guests", "`late`", "the guests come late: with `by`", "", words(guestWords...)},
		{"by", "a duration", "by how long", "", ref("duration")},
		{"silent", "a duration", "for how long nobody answers a cue; then all went as planned", "", ref("duration")},
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
	timed bool // needs `at`
}

var combinations = []combination{
	{mishap.Longer, []string{"step", "longer"}, false},
	{mishap.Takes, []string{"step", "takes"}, false},
	{mishap.Reading, []string{"step", "reading"}, true},
	{mishap.OtherCook, []string{"step", "cook"}, true},
	{mishap.Dropped, []string{"step", "dropped"}, true},
	{mishap.Dropped, []string{"dish", "dropped"}, true},
	{mishap.Burnt, []string{"dish", "burnt"}, true},
	{mishap.Away, []string{"cook", "away"}, true},
	{mishap.Fails, []string{"burner", "fails"}, true},
	{mishap.Fails, []string{"oven", "fails"}, true},
	{mishap.Hold, []string{"hold", "by"}, true},
	{mishap.GuestsLate, []string{"guests", "by"}, true},
	{mishap.Silent, []string{"silent"}, true},
	{mishap.TakeRemedy, []string{"take_remedy"}, true},
}

// oneMishap is the schema of the combinations.
func oneMishap() string {
	var of []string
	for _, c := range combinations {
		need := slices.Clone(c.keys)
		if c.timed {
			need = append(need, "at")
		}
		of = append(of, `{"required":[`+jsonList(need)+`],"propertyNames":{"enum":[`+jsonList(append(slices.Clone(c.keys), "at"))+`]}}`)
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
