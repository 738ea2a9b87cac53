package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/debrief"
)

// supperScript has a mishap of every kind that a small dinner can have.
const supperScript = `mishaps:
  - {at: "17:00", burner: large, fails: true}
  - {step: leek-pie/bake-the-pie, takes: 1h20m}
  - {at: "17:56", cook: Cook, away: 10m}
  - {at: "18:30", burner: small, fails: true}
  - {at: "18:35", burner: small, works: true}
  - {at: "18:36", silent: 4m}
  - {at: "18:41", hold: Dinner, by: 5m}
  - {at: "18:42", take_remedy: 5}
  - {at: "18:43", step: leek-pie/fill-the-pie, longer: 5m}
`

const supperPlan = `kettledrum: 1
title: Story supper
guests: 2
table: 2026-10-17 19:00
zone: America/New_York
dishes:
  - name: Leek pie
    steps:
      - Fill the pie, 20m
      - {do: Bake the pie, takes: 40m, oven: 400F}
      - Cut the pie, 5m
  - name: Cress salad
    steps:
      - {do: Wash the cress, takes: 10m, uses: [colander]}
      - Dress the cress, 3m
`

// rehearseJSON runs `rehearse --json` on the supper.
func rehearseJSON(t *testing.T, script string) ([]byte, rehearsalJSON) {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{"supper.yaml": supperPlan, "script.yaml": script} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	var out, msg bytes.Buffer
	w := &world{out: &results{w: &out}, msg: messages{&msg}, clock: clocktest.New(utc(1, 12, 0))}
	args := []string{"rehearse", filepath.Join(dir, "supper.yaml"), "--json", "--mishaps", filepath.Join(dir, "script.yaml")}
	if code := execute(args, w); code != exitFine {
		t.Fatalf("exit code %d:\n%s", code, msg.String())
	}
	var got rehearsalJSON
	if err := json.Unmarshal(out.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	return out.Bytes(), got
}

func TestRehearsalSchemaFits(t *testing.T) {
	t.Parallel()
	text, got := rehearseJSON(t, supperScript)
	if err := validate(t, rehearsalSchema(), text); err != nil {
		t.Error(err)
	}
	if len(got.Replans) == 0 || len(got.Cues) == 0 {
		t.Fatalf("%d replans, %d cues: nothing to hold the schema to", len(got.Replans), len(got.Cues))
	}
	refused := 0
	for _, m := range got.Mishaps {
		if m.Refused != nil {
			refused++
			t.Logf("%s: %s", m.Text, *m.Refused)
		}
	}
	if len(got.Mishaps) != 9 || refused != 2 {
		t.Errorf("%d mishaps, %d refused; want 9, 2: there are no 5 remedies, and what is done takes no longer", len(got.Mishaps), refused)
	}
	for _, s := range got.Timetable.Steps {
		if took := s.End.Sub(s.Start).Minutes(); s.ID == "leek-pie/bake-the-pie" && took != 80 {
			t.Errorf("the pie truly baked %v min, want 80", took)
		}
	}
}

// Without a script the rehearsal goes as planned.
func TestRehearsalWithoutMishaps(t *testing.T) {
	t.Parallel()
	text, got := rehearseJSON(t, "mishaps: []")
	if err := validate(t, rehearsalSchema(), text); err != nil {
		t.Error(err)
	}
	if len(got.Replans) != 0 || got.Timetable.Status != "whole" || len(got.Cues) < 10 {
		t.Errorf("%d replans, status %s, %d cues", len(got.Replans), got.Timetable.Status, len(got.Cues))
	}
}

// A course that is not served has no minutes of lateness, and the schema takes that.
func TestRehearsalUnserved(t *testing.T) {
	t.Parallel()
	d := debrief.Dinner{Plan: &plan.Plan{}}
	tried := []debrief.Tried{
		{Late: []time.Duration{4 * time.Minute, 360 * time.Minute}, Unserved: []int{1}},
		{Do: "plan cautiously", Late: []time.Duration{0, 0}},
	}
	printed, err := json.Marshal(viewDebrief(d, debrief.Debrief{}, tried, time.Time.UTC).Tried)
	if err != nil {
		t.Fatal(err)
	}
	var got []any
	if err := json.Unmarshal(printed, &got); err != nil {
		t.Fatal(err)
	}
	for i, want := range []struct {
		late     []any
		unserved bool
	}{{[]any{4., nil}, true}, {[]any{0., 0.}, false}} {
		x := got[i].(map[string]any)
		if !reflect.DeepEqual(x["late_min"], want.late) || x["unserved"] != want.unserved {
			t.Errorf("%v, want %v", x, want)
		}
	}
	text, _ := rehearseJSON(t, "mishaps: []")
	if err := validate(t, rehearsalSchema(), altered(t, text, func(doc map[string]any) { doc["debrief"].(map[string]any)["tried"] = got })); err != nil {
		t.Error(err)
	}
}

// The schema bites: each change of what is printed is refused.
func TestRehearsalSchemaRefuses(t *testing.T) {
	t.Parallel()
	text, _ := rehearseJSON(t, supperScript)
	first := func(doc map[string]any, list string) map[string]any { return doc[list].([]any)[0].(map[string]any) }
	for name, change := range map[string]func(doc map[string]any){
		"unknown-key":     func(doc map[string]any) { doc["extra"] = 1 },
		"missing-key":     func(doc map[string]any) { delete(doc, "replans") },
		"unknown-kind":    func(doc map[string]any) { first(doc, "mishaps")["kind"] = "flood" },
		"unknown-class":   func(doc map[string]any) { first(doc, "cues")["class"] = "shout" },
		"null-moved":      func(doc map[string]any) { first(doc, "replans")["moved"] = nil },
		"four-lines":      func(doc map[string]any) { first(doc, "replans")["why"] = []any{"a", "b", "c", "d"} },
		"broken-time":     func(doc map[string]any) { first(doc, "cues")["at"] = "noon" },
		"timetable-of-it": func(doc map[string]any) { delete(doc["timetable"].(map[string]any), "oven") },
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			if validate(t, rehearsalSchema(), altered(t, text, change)) == nil {
				t.Error("the schema takes it")
			}
		})
	}
}
