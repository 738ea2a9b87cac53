package planfile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"gopkg.in/yaml.v3"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan"
)

// validator compiles the schema, which checks it against draft 2020-12's own.
func validator(t testing.TB) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("plan.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("plan.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// asJSON returns the values of a YAML text as a JSON Schema sees them.
func asJSON(text []byte) (any, bool) {
	var v any
	if err := yaml.Unmarshal(text, &v); err != nil {
		return nil, false
	}
	return jsonValue(v), true
}

func jsonValue(v any) any {
	switch v := v.(type) {
	case map[string]any:
		for k := range v {
			v[k] = jsonValue(v[k])
		}
	case map[any]any:
		out := map[string]any{}
		for k, w := range v {
			if s, ok := k.(string); ok {
				out[s] = jsonValue(w)
			}
		}
		return out
	case []any:
		for i := range v {
			v[i] = jsonValue(v[i])
		}
	case int:
		return json.Number(marshal(v))
	case float64:
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Sprint(v)
		}
		return json.Number(marshal(v))
	case string: // blanks around and within a value are of no matter
		return strings.Join(strings.Fields(v), " ")
	case time.Time: // JSON has none: editors see text
		return v.Format(time.RFC3339)
	}
	return v
}

func marshal(v any) string {
	b, _ := json.Marshal(v)
	return string(b)
}

func TestSchemaAcceptsGoodPlans(t *testing.T) {
	t.Parallel()
	s := validator(t)
	plans := map[string][]byte{}
	for _, name := range examples.Names() {
		plans[name], _ = examples.Get(name)
	}
	files, err := filepath.Glob("testdata/*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if plans[f], err = os.ReadFile(f); err != nil {
			t.Fatal(err)
		}
	}
	for name, text := range goodShapes {
		plans[name] = []byte(head + text)
	}
	for name, text := range plans {
		mustDecode(t, string(text), Options{Open: beside("testdata")})
		v, ok := asJSON(text)
		if !ok {
			t.Errorf("%s: not YAML", name)
		} else if err := s.Validate(v); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// goodShapes are plans in the less usual ways of writing.
var goodShapes = map[string]string{
	"no-kitchen":   "dishes: [{name: A, steps: ['Stir, 5m']}]",
	"null-parts":   "kitchen:\nchores:\ndishes: [{name: A, steps: ['Stir, 5m']}]",
	"null-tools":   "kitchen: {tools: , cold: }\ndishes: [{name: A, steps: ['Stir, 5m']}]",
	"numbers":      "title: 2026\nguests: '8'\nkitchen: {cooks: 2, ovens: 0}\ndishes: [{name: 7, steps: ['Stir, 5m (4-6m)']}]",
	"names":        "kitchen: {cooks: [Ines, Tomas], ovens: [top, low], tools: [pot, {pan: 2}]}\ndishes: [{name: A, steps: ['Stir, 5m']}]",
	"one-tool":     "kitchen: {tools: pot}\ndishes: [{name: A, ingredients: salt, steps: [{do: Stir, takes: 5m, uses: pot, remind: 'halfway: look', at_once: no}]}]",
	"never-free":   "kitchen: {cooks: [Ines, {name: Tomas, free: []}]}\ndishes: [{name: A, steps: ['Stir, 5m']}]",
	"spaces":       "dishes: [{name: A, steps: [{do: Bake, takes: ' 1h 30m ', oven: {at: gas mark 5, space: 1.5}, keeps: 5m (15m at most)}]}]",
	"temperatures": "dishes: [{name: A, steps: [{do: Bake, takes: 5m, oven: 400 °F (204 °C)}, {do: Brown, takes: 4m, oven: 190C to 200C, keeps: 1h in the oven at 200F (93C)}]}]",
	"gaps":         "dishes: [{name: A, steps: ['Stir, 5m', {do: X, takes: 5m, after: {stir: 0m-10m}}, {do: Y, takes: 5m, after: [x, {stir: 1h to 2h}]}]}]",
	"kitchen-file": "kitchen: small-kitchen.yml\ndishes: [{name: A, steps: ['Stir, 5m']}]",
}

// Who sees a mistake, by its code. The schema knows the shape of each value; how
// values fit together only the decoder sees.
const (
	bothSee     = "decoder and schema"
	eitherSees  = "the decoder always, the schema where it is a matter of shape"
	decoderOnly = "the decoder"
	unread      = "the decoder: there is no one tree of values for a schema to look at"
)

var whoSees = map[string]string{
	"unknown-key": bothSee, "missing": bothSee, "wrong-kind": bothSee, "empty-value": bothSee, "both": bothSee, "version": bothSee,
	"burner": bothSee, "space": bothSee, "empty-dish": bothSee, "not-a-plan": bothSee, "unknown-food": bothSee, "number": bothSee, "unknown-place": bothSee,
	"accept": bothSee, "value": bothSee, "ramp": bothSee,

	"broken-text": eitherSees, // a colon or comma may leave something of the right shape
	"duration":    eitherSees, // the order of units
	"temperature": eitherSees, // what no oven is set to; the whole of `until`
	"window":      eitherSees, // names of days
	"time":        eitherSees, // days and hours that are not
	"remind":      eitherSees, // of no time

	"tab": unread, "syntax": unread, "encoding": unread, "control-character": unread, "empty": unread, "second-document": unread, "too-deep": unread,
	"too-large": unread,

	"alias": decoderOnly, "tag": decoderOnly, "double-key": decoderOnly, // JSON has no double keys
	"too-many": decoderOnly, "range": decoderOnly, "two-units": decoderOnly, "no-such-time": decoderOnly, "double-time": decoderOnly, "zone": decoderOnly,
	"serve": decoderOnly, "name": decoderOnly, "id": decoderOnly, "double-name": decoderOnly, "double-id": decoderOnly, "double-reference": decoderOnly,
	"unknown-step": decoderOnly, "ambiguous-step": decoderOnly, "unknown-course": decoderOnly, "unknown-cook": decoderOnly, "unknown-oven": decoderOnly,
	"unknown-tool": decoderOnly, "cycle": decoderOnly, "at-once": decoderOnly, "demand": decoderOnly, "vessel": decoderOnly, "never-free": decoderOnly,
	"windows-never-meet": decoderOnly, "never-comes": decoderOnly, "empty-course": decoderOnly, "course-order": decoderOnly, "chore-order": decoderOnly,
	"ahead": decoderOnly, "place": decoderOnly, "kitchen-file": decoderOnly,
}

// What both see, the schema refuses in every broken plan; what only the decoder
// sees, it lets pass.
func TestSchemaRefusesBrokenShapes(t *testing.T) {
	t.Parallel()
	s := validator(t)
	files, err := filepath.Glob("testdata/broken/*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	refused := 0
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		_, problems := Decode(text, Options{Open: beside("testdata/broken")})
		seen := map[string]bool{}
		for _, p := range problems {
			if p.Severity == plan.Notice || p.File != "" {
				continue // the schema is of the plan's own file
			}
			if whoSees[p.Code] == "" {
				t.Errorf("%s: nobody said who sees %q", f, p.Code)
			}
			seen[whoSees[p.Code]] = true
		}
		v, ok := asJSON(text)
		if !ok || seen[unread] {
			continue // nothing that a schema could look at
		}
		refusal := s.Validate(v)
		switch {
		case seen[bothSee] && refusal == nil:
			t.Errorf("%s: the schema lets it pass", f)
		case !seen[bothSee] && !seen[eitherSees] && refusal != nil:
			t.Errorf("%s: the schema refuses what only the decoder should: %v", f, refusal)
		}
		if refusal != nil {
			refused++
		}
	}
	if refused < 15 {
		t.Errorf("the schema refuses %d broken plans only", refused)
	}
}

// One mistake each, alone in its plan.
func TestSchemaRefusesEachShape(t *testing.T) {
	t.Parallel()
	s := validator(t)
	for name, text := range map[string]string{
		"unknown-key": "kitchin: 1", "wrong-kind": "dishes: soup", "bare-number": "courses: [{name: A, seated: 40}]", "units": "units: K",
		"burner": "dishes: [{name: A, steps: [{do: B, takes: 5m, burner: huge}]}]", "bare-temperature": "dishes: [{name: A, steps: [{do: B, takes: 5m, oven: 350}]}]",
		"no-length": "dishes: [{name: A, steps: [{do: B}]}]", "two-lengths": "dishes: [{name: A, steps: [{do: B, takes: 5m, waits: 5m}]}]",
		"no-time": "dishes: [{name: A, steps: [Stir]}]", "hands": "dishes: [{name: A, steps: [{do: B, takes: 5m, hands: bussy}]}]",
		"place": "dishes: [{name: A, steps: [{do: B, takes: 5m, keeps: 1d in cellar}]}]", "chore-key": "dishes: [{name: A, steps: [{do: B, takes: 5m, ahead: 6h}]}]",
		"step-key": "chores: [{do: B, takes: 5m, at_once: true}]\ndishes: [{name: A, steps: ['B, 5m']}]", "door": "dishes: [{name: A, steps: [{do: B, takes: 5m, oven: {at: 350F, door: open}}]}]",
		"makes-serves": "dishes: [{name: A, makes: 1, serves: 1, steps: ['B, 5m']}]", "food": "dishes: [{name: A, food: cake, steps: ['B, 5m']}]",
		"accept": "dishes: [{name: A, steps: [{do: B, takes: 5m, accept: raw-egg}]}]", "remind": "dishes: [{name: A, steps: [{do: B, takes: 5m, remind: every 30m}]}]",
		"unit": "dishes: [{name: A, steps: [{do: B, takes: 5 min}]}]", "window": "kitchen: {cooks: [{name: A, free: always}]}\ndishes: [{name: A, steps: ['B, 5m']}]",
		"wash": "kitchen: {tools: {pot: {wash: 5}}}\ndishes: [{name: A, steps: ['B, 5m']}]", "cold": "kitchen: {cold: {pantry: 1}}\ndishes: [{name: A, steps: ['B, 5m']}]",
	} {
		if !strings.Contains(text, "dishes:") {
			text += "\ndishes: [{name: A, steps: ['B, 5m']}]"
		}
		if codes(head+text, Options{}) == "" {
			t.Errorf("%s: the decoder takes it", name)
		}
		if v, ok := asJSON([]byte(head + text)); !ok || s.Validate(v) == nil {
			t.Errorf("%s: the schema lets it pass", name)
		}
	}
}

func TestSchemaIsTheSameEachTime(t *testing.T) {
	t.Parallel()
	first := Schema()
	for range 3 {
		if !bytes.Equal(first, Schema()) {
			t.Fatal("two calls differ")
		}
	}
	for in, names := range keys {
		if ofScript(in) {
			continue
		}
		for _, k := range names {
			if !bytes.Contains(first, []byte(jsonText(k)+": {")) {
				t.Errorf("`%s` of %s is not in the schema", k, in)
			}
		}
	}
}

// The reference has a row for every key, and each row has four cells.
func TestReference(t *testing.T) {
	t.Parallel()
	rows := map[string]int{}
	for _, line := range strings.Split(Reference(), "\n") {
		if !strings.HasPrefix(line, "| `") {
			continue
		}
		cells := strings.Split(strings.ReplaceAll(line, `\|`, "/"), "|")
		if len(cells) != 6 || strings.TrimSpace(cells[2]) == "" || strings.TrimSpace(cells[3]) == "" {
			t.Errorf("a row of %d cells: %s", len(cells)-2, line)
		}
		rows[strings.Trim(cells[1], " `")]++
	}
	for _, m := range mappings {
		for _, k := range m.keys {
			if rows[k.name]--; rows[k.name] < 0 {
				t.Errorf("`%s` of %s has no row", k.name, m.in)
			}
		}
	}
	for _, k := range slices.Sorted(maps.Keys(rows)) {
		if rows[k] > 0 {
			t.Errorf("`%s` has a row too many", k)
		}
	}
}

// Whatever the decoder takes, the schema takes as well.
func FuzzSchema(f *testing.F) {
	for _, name := range examples.Names() {
		text, _ := examples.Get(name)
		f.Add(text)
	}
	for _, text := range goodShapes {
		f.Add([]byte(head + text))
	}
	text, err := os.ReadFile("testdata/all-keys.yaml")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text)
	for _, step := range strings.Split(string(text), "\n") { // each step of it alone
		if line := strings.TrimSpace(step); strings.HasPrefix(line, "- {do:") || strings.HasPrefix(line, "- {id:") {
			f.Add([]byte(head + "dishes: [{name: A, steps: ['B, 5m', " + line[2:] + "]}]"))
		}
	}
	s := validator(f)
	f.Fuzz(func(t *testing.T, text []byte) {
		p, _ := Decode(text, Options{Open: func(string) ([]byte, error) { return []byte("minds: 1"), nil }})
		v, ok := asJSON(text)
		if p == nil || !ok {
			return
		}
		if err := s.Validate(v); err != nil {
			t.Fatalf("the schema refuses a plan that is right: %v", err)
		}
	})
}
