package main

import (
	"bytes"
	"encoding/json"
	"os"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/planner"
)

// compiled compiles a schema, formats asserted.
func compiled(t *testing.T, schema []byte) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(schema))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.AssertFormat()
	if err := c.AddResource("schema.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// validate holds text against a schema.
func validate(t *testing.T, schema, text []byte) error {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return compiled(t, schema).Validate(doc)
}

func TestTimetableSchemaFitsTheGolden(t *testing.T) {
	t.Parallel()
	text, err := os.ReadFile("testdata/plan.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := validate(t, timetableSchema, text); err != nil {
		t.Error(err)
	}
}

// The schema fits what is printed of a real dinner, with every kind of row.
func TestTimetableSchemaFitsTheExamples(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"harvest", "weeknight", "too-much"} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			text, ok := examples.Get(name)
			if !ok {
				t.Fatal("there is no such example")
			}
			src := source{name: name, text: text}
			p, err := src.load(&world{clock: clocktest.New(utc(1, 12, 0)), msg: messages{os.Stderr}}, reading{})
			if err != nil {
				t.Fatal(err)
			}
			var b bytes.Buffer
			writeJSON(&results{w: &b}, viewJSON(p, planner.Make(t.Context(), p)))
			if err := validate(t, timetableSchema, b.Bytes()); err != nil {
				t.Error(err)
			}
		})
	}
}

// The schema bites: each change of the golden output is refused.
func TestTimetableSchemaRefuses(t *testing.T) {
	t.Parallel()
	text, err := os.ReadFile("testdata/plan.json")
	if err != nil {
		t.Fatal(err)
	}
	step := func(doc map[string]any) map[string]any { return doc["steps"].([]any)[0].(map[string]any) }
	for name, change := range map[string]func(doc map[string]any){
		"unknown-key":   func(doc map[string]any) { doc["extra"] = 1 },
		"missing-key":   func(doc map[string]any) { delete(doc, "oven") },
		"null-list":     func(doc map[string]any) { doc["breaks"] = nil },
		"no-time":       func(doc map[string]any) { doc["table"] = "Saturday" },
		"wrong-status":  func(doc map[string]any) { doc["status"] = "fine" },
		"wrong-hands":   func(doc map[string]any) { step(doc)["hands"] = "both" },
		"missing-need":  func(doc map[string]any) { delete(step(doc), "cold") },
		"unknown-need":  func(doc map[string]any) { step(doc)["pan"] = nil },
		"text-for-int":  func(doc map[string]any) { step(doc)["slack_min"] = "12" },
		"unknown-touch": func(doc map[string]any) { doc["touches"].([]any)[0].(map[string]any)["what"] = "stir" },
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			if validate(t, timetableSchema, altered(t, text, change)) == nil {
				t.Error("the schema takes it")
			}
		})
	}
}

// altered returns a JSON document after a change of it.
func altered(t *testing.T, text []byte, change func(map[string]any)) []byte {
	t.Helper()
	var doc map[string]any
	if err := json.Unmarshal(text, &doc); err != nil {
		t.Fatal(err)
	}
	change(doc)
	changed, err := json.Marshal(doc)
	if err != nil {
		t.Fatal(err)
	}
	return changed
}
