package run_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

var update = flag.Bool("update", false, "rewrite testdata")

// samples is one event of every kind, with all fields that the kind uses.
func samples() []run.Event {
	zone := time.FixedZone("", -4*3600)
	at := time.Date(2026, 10, 17, 18, 20, 30, 0, zone)
	told := at.Add(95 * time.Second)
	temp, oven := 87.5, 232.0
	t := &plan.Timetable{
		Status: plan.Late,
		Slots: []plan.Slot{{
			Start: at, End: told, Cook: 0, Oven: -1, Burner: plan.Large, Slack: 5 * time.Minute, Progress: plan.Begun,
		}},
		Serves:      []time.Time{told},
		Touches:     []plan.Touch{{What: plan.TouchSet, Step: 0, Oven: 0, At: at, Cook: 1}},
		Sets:        []plan.OvenSet{{Oven: 0, At: at, To: 163, For: 0, Ready: told}, {Oven: 0, At: told, Off: true, For: -1}},
		LatestStart: at,
		Breaks:      []plan.Break{{Kind: plan.BreakLate, Step: -1, Course: 0, At: told, Minutes: 5, Text: "Main 5 min late"}},
		Cautions:    []plan.Caution{{Code: "warm-rest", Step: 0, Text: "Serve hot", Source: "local food authority"}},
	}
	copied := &run.PlanCopy{Name: "supper.yaml", Source: "kettledrum: 1\n", Table: at, Zone: "America/New_York", Rehearse: true}
	out := []run.Event{
		{Kind: run.Opened, Plan: copied},
		{Kind: run.Adopted, Timetable: t, Why: []string{"Main moves to 19:25"}, Cause: 4},
		{Kind: run.Started, Step: "lamb/roast"},
		{Kind: run.Finished, Step: "lamb/roast"},
		{Kind: run.Prolonged, Step: "lamb/roast", By: 20 * time.Minute},
		{Kind: run.Paused, Step: "lamb/roast"},
		{Kind: run.Resumed, Step: "lamb/roast"},
		{Kind: run.SkippedStep, Step: "lamb/roast"},
		{Kind: run.Added, Text: "More rice", By: 12 * time.Minute},
		{Kind: run.Reassigned, Step: "lamb/carve", Cook: "Ines"},
		{Kind: run.Acknowledged, Cue: "late:Main:25"},
		{Kind: run.Reading, Step: "lamb/roast", Temp: &temp},
		{Kind: run.OvenTurned, Oven: "oven", Temp: &oven, Step: "flatbreads/bake"},
		{Kind: run.Served, Course: "Main"},
		{Kind: run.Held, Course: "Main", By: 10 * time.Minute},
		{Kind: run.TimerSet, Text: "eggs", By: 9 * time.Minute},
		{Kind: run.Away, Cook: "Ines"},
		{Kind: run.Back, Cook: "Ines"},
		{Kind: run.RemedyTaken, Text: "No flatbreads"},
		{Kind: run.Noted, Step: "lamb/roast", Text: "Salt it less"},
		{Kind: run.PlanChanged, Plan: copied},
		{Kind: run.Undone, Undoes: 17},
		{Kind: run.Released, Course: "Main"},
		{Kind: run.Failed, Burner: "large", Step: "rice/boil"},
		{Kind: run.Works, Oven: "oven"},
		{Kind: run.Put, Step: "rice/boil", Burner: "small", Tool: "pot"},
		{Kind: run.Redone, Step: "lamb/roast"},
		{Kind: run.Dropped, Dish: "flatbreads"},
		{Kind: run.RemedyTaken, Text: "Hotter by 12 °C", Changes: []plan.Change{
			{Kind: plan.BakeAt, Step: "gratin/bake", Temp: &oven, By: 5 * time.Minute},
			{Kind: plan.NotThere, Cook: "Ines", From: at, To: told},
		}},
	}
	for i := range out {
		out[i].At, out[i].Noted = at, told
	}
	return out
}

// The lines are those of journals on disks: what they say must stay readable.
func TestEventFormat(t *testing.T) {
	t.Parallel()
	const golden = "testdata/events.golden"
	var b bytes.Buffer
	for _, e := range samples() {
		line, err := json.Marshal(e)
		if err != nil {
			t.Fatal(err)
		}
		b.Write(append(line, '\n'))
	}
	if *update {
		if err := os.WriteFile(golden, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), b.String()); diff != "" {
		t.Errorf("written: %s", diff)
	}
	for i, line := range bytes.Split(bytes.TrimSpace(want), []byte("\n")) {
		var e run.Event
		if err := json.Unmarshal(line, &e); err != nil {
			t.Fatalf("line %d: %v", i+1, err)
		}
		if diff := cmp.Diff(samples()[i], e); diff != "" {
			t.Errorf("line %d read back: %s", i+1, diff)
		}
	}
}

// No kind may be without a golden line.
func TestEveryKindHasASample(t *testing.T) {
	t.Parallel()
	var kinds []run.Kind
	for _, e := range samples() {
		kinds = append(kinds, e.Kind)
	}
	for _, k := range run.Kinds() {
		if !slices.Contains(kinds, k) {
			t.Errorf("no sample of %q", k)
		}
	}
}
