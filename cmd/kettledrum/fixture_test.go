package main

import (
	"flag"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// here is the folder of the package: a test may go elsewhere.
var here, _ = os.Getwd()

// golden compares got with testdata/name.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join(here, "testdata", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), got); d != "" {
		t.Errorf("%s (-want +got):\n%s", path, d)
	}
}

// at is an instant of the fixture's day, in its own zone.
func at(h, m int) time.Time {
	return time.Date(2026, 10, 17, h, m, 0, 0, time.FixedZone("", -4*3600))
}

// dinner is a plan and a timetable written by hand that show every kind of
// row: it is laid out by what a view has to say, not by what a planner finds.
func dinner() (*plan.Plan, *plan.Timetable) {
	bake := &plan.Bake{In: 0, At: plan.FromFahrenheit(425), Space: 3}
	p := &plan.Plan{
		Title: "Pie <for> eight", Guests: 8, Table: at(19, 0), Units: plan.Fahrenheit,
		Kitchen: plan.Kitchen{
			Cooks: []plan.Cook{{Name: "Ines"}, {Name: "Bartholomew-James"}},
			Ovens: []plan.Oven{{Name: "oven", Shelves: 4}},
			Tools: []plan.Tool{{Name: "sheet pan", Count: 2}, {Name: "bowl", Count: 1}},
		},
		Courses: []plan.Course{{Name: "Main"}, {Name: "Sweet", Serve: 45 * time.Minute}},
		Dishes: []plan.Dish{
			{Name: "Leek pie", ID: "leek-pie", Course: 0, Steps: []int{0, 1, 2}},
			{Name: "里芋の煮物と大根おろし", ID: "satoimo", Course: 1, Steps: []int{3, 4}},
		},
		Steps: []plan.Step{
			{ID: "leek-pie/fill", Do: "Fill the pie", Dish: 0, Hands: plan.Busy, By: -1,
				Uses: []plan.Use{{Tool: 0, Count: 2}, {Tool: 1, Count: 1}}},
			{ID: "leek-pie/bake", Do: "Bake", Dish: 0, Hands: plan.Free, Oven: bake,
				Until: plan.Until{HasTemp: true, Temp: plan.FromFahrenheit(165), Sign: "deep amber"}},
			{ID: "leek-pie/rest", Do: "Rest", Dish: 0, Length: plan.Length{Elastic: true}},
			{ID: "satoimo/simmer", Do: "Simmer very gently, and turn each of the pieces over once the broth has sunk to half", Dish: 1, Hands: plan.Near,
				Burner: &plan.BurnerUse{Size: plan.Small, Count: 1}},
			{ID: "satoimo/plate", Do: "Plate\x1b[31m", Dish: 1, Hands: plan.Tied},
		},
	}
	t := &plan.Timetable{
		Status: plan.Broken,
		Slots: []plan.Slot{
			{Start: at(17, 30), End: at(17, 50), Cook: 0, Oven: -1, Slack: 12 * time.Minute},
			{Start: at(17, 55), End: at(18, 40), Cook: -1, Oven: 0, Slack: 70 * time.Minute},
			{Start: at(18, 40), End: at(19, 0), Cook: -1, Oven: -1},
			{Start: at(18, 40), End: at(19, 20), Cook: -1, Oven: -1, Burner: plan.Large},
			{Start: at(19, 40), End: at(19, 50), Cook: 1, Oven: -1},
		},
		Serves: []time.Time{at(19, 0), at(19, 50)},
		Touches: []plan.Touch{
			{What: plan.TouchSet, Step: 1, Oven: 0, At: at(17, 38), Cook: 0},
			{What: plan.TouchStart, Step: 1, Oven: -1, At: at(17, 55), Cook: 0},
			{What: plan.TouchEnd, Step: 1, Oven: -1, At: at(18, 39), Cook: 1},
			{What: plan.TouchStart, Step: 3, Oven: -1, At: at(18, 40), Cook: 1},
			{What: plan.TouchEnd, Step: 3, Oven: -1, At: at(19, 19), Cook: -1},
		},
		Sets: []plan.OvenSet{
			{Oven: 0, At: at(17, 38), To: plan.FromFahrenheit(425), For: 1, Ready: at(17, 54)},
			{Oven: 0, At: at(18, 40), Off: true, For: -1},
		},
		LatestStart: at(17, 30).UTC(),
		Cautions: []plan.Caution{
			{Code: "hot-hold", Step: 3, Text: "stands warm for 20 min", Why: "a made-up reason", Do: "keep it hot", Source: "a made-up source"},
			{Code: "two-hours", Step: 3, Text: "2 h 5 min out", Source: "a made-up source", Accepted: "it is pickled"},
		},
		Breaks: []plan.Break{
			{Kind: plan.BreakLiking, Step: 3, Course: -1, At: at(19, 40), Minutes: 10, Text: "里芋の煮物: Simmer is kept 20 min, 10 min is liked"},
			{Kind: plan.BreakTouch, Step: 3, Course: -1, At: at(19, 19), Minutes: 1, Text: "nobody is free to take the pot off the burner"},
			{Kind: plan.BreakLate, Step: -1, Course: 1, At: at(19, 50), Minutes: 5, Text: "Sweet is 5 min late"},
		},
	}
	return p, t
}
