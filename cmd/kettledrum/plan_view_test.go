package main

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/kettledrum/plan"
)

func TestPlanText(t *testing.T) {
	t.Parallel()
	var b strings.Builder
	p, tt := dinner()
	writeText(&b, p, tt)
	golden(t, "plan.txt", b.String())
}

func TestPlanTextFitsTheSheet(t *testing.T) {
	t.Parallel()
	p, tt := dinner()
	for i := range p.Steps {
		p.Steps[i].Do = strings.Repeat("里芋", 30) + p.Steps[i].Do
	}
	p.Title = strings.Repeat("long ", 40)
	var b strings.Builder
	writeText(&b, p, tt)
	for line := range strings.Lines(b.String()) {
		if w := ansi.StringWidth(strings.TrimRight(line, "\n")); w > textWidth {
			t.Errorf("%d cells wide, want at most %d: %q", w, textWidth, line)
		}
	}
}

func TestPlanTextHasNoControlCharacters(t *testing.T) {
	t.Parallel()
	var b strings.Builder
	p, tt := dinner()
	writeText(&b, p, tt)
	if strings.ContainsAny(b.String(), "\x1b\a\r") {
		t.Errorf("a control character of the plan is printed:\n%q", b.String())
	}
}

func TestPlanJSON(t *testing.T) {
	t.Parallel()
	var b bytes.Buffer
	writeJSON(&results{w: &b}, viewJSON(dinner()))
	golden(t, "plan.json", b.String())
}

// Lists are never null, for those who loop over them.
func TestPlanJSONOfLittle(t *testing.T) {
	t.Parallel()
	p := &plan.Plan{Title: "Bread", Table: at(19, 0), Dishes: []plan.Dish{{Name: "Bread"}},
		Steps: []plan.Step{{ID: "bread/cut", By: -1}}}
	tt := &plan.Timetable{Status: plan.Whole, Slots: []plan.Slot{{Start: at(18, 0), End: at(18, 1), Cook: -1, Oven: -1}}, LatestStart: time.Time{}}
	var b bytes.Buffer
	writeJSON(&results{w: &b}, viewJSON(p, tt))
	var got map[string]any
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{"courses", "steps", "touches", "oven", "cautions", "breaks"} {
		if _, ok := got[key].([]any); !ok {
			t.Errorf("%s is %v, want a list", key, got[key])
		}
	}
	step := got["steps"].([]any)[0].(map[string]any)
	for _, key := range []string{"oven", "burner", "vessel", "cold"} {
		if v, ok := step[key]; !ok || v != nil {
			t.Errorf("step's %s is %v, want null", key, v)
		}
	}
	if _, ok := step["cooks"].([]any); !ok {
		t.Errorf("step's cooks is %v, want a list", step["cooks"])
	}
	if got["latest_start"] != nil {
		t.Errorf("latest_start is %v, want null", got["latest_start"])
	}
}
