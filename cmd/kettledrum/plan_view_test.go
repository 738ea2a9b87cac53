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

// A step in the oven names what the dial says while it is in, never the middle of
// a range that nobody dials.
func TestPlanTextNamesTheDial(t *testing.T) {
	t.Parallel()
	f := plan.FromFahrenheit
	set := func(h, m int, to float64) plan.OvenSet { return plan.OvenSet{At: at(h, m), To: f(to), For: -1} }
	off := func(h, m int) plan.OvenSet { return plan.OvenSet{At: at(h, m), Off: true, For: -1} }
	for name, c := range map[string]struct {
		sets []plan.OvenSet
		want string
	}{
		"at-an-end":         {[]plan.OvenSet{set(17, 30, 475)}, "oven 475 °F, 1.5 shelves"},
		"the-last-before":   {[]plan.OvenSet{set(15, 0, 325), set(17, 30, 450)}, "oven 450 °F, 1.5 shelves"},
		"turned-meanwhile":  {[]plan.OvenSet{set(17, 30, 475), set(18, 10, 450)}, "oven 475 °F, then 450 °F, 1.5 shelves"},
		"turned-after":      {[]plan.OvenSet{set(17, 30, 475), set(18, 40, 325)}, "oven 475 °F, 1.5 shelves"},
		"not-set":           {nil, "oven 450 °F to 475 °F, 1.5 shelves"},
		"switched-off":      {[]plan.OvenSet{set(15, 0, 325), off(16, 0)}, "oven 450 °F to 475 °F, 1.5 shelves"},
		"of-the-other-oven": {[]plan.OvenSet{{Oven: 1, At: at(17, 0), To: f(325), For: -1}}, "oven 450 °F to 475 °F, 1.5 shelves"},
	} {
		p, tt := dinner()
		p.Kitchen.Ovens = append(p.Kitchen.Ovens, plan.Oven{Name: "other oven", Shelves: 2})
		p.Steps[1].Oven.At, p.Steps[1].Oven.Lo, p.Steps[1].Oven.Hi = f(462.5), f(450), f(475)
		tt.Sets = c.sets
		var b strings.Builder
		writeText(&b, p, tt)
		if got := b.String(); !strings.Contains(got, c.want) || strings.Contains(got, "46") {
			t.Errorf("%s: want %q in\n%s", name, c.want, got)
		}
	}
}

// Of a dish with two things on the heat, what ends is told by its step.
func TestPlanTextTellsTwoEndsApart(t *testing.T) {
	t.Parallel()
	p, tt := dinner()
	p.Steps[0].Burner = &plan.BurnerUse{Size: plan.Small, Count: 1}
	tt.Touches = append(tt.Touches, plan.Touch{What: plan.TouchEnd, Step: 0, Oven: -1, At: at(17, 49), Cook: 0})
	var b strings.Builder
	writeText(&b, p, tt)
	for _, want := range []string{
		"17:50  Ines        Leek pie: Fill the pie, off the burner\n",
		"18:40  Bartholom…  Leek pie: Bake, out of the oven\n",
	} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("want %q in\n%s", want, b.String())
		}
	}
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
