package main

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan"
)

// on is an instant so many days before the fixture's day.
func on(daysBefore, h, m int) time.Time { return at(h, m).AddDate(0, 0, -daysBefore) }

// overDays is a plan and a timetable written by hand that show what lies before
// the cook-day, and all that a dinner of several days has to say: cold places, a
// keep in the oven, a vessel, reminders, chores.
func overDays() (*plan.Plan, *plan.Timetable) {
	p := &plan.Plan{
		Title: "Ham and beans", Guests: 6, Table: at(19, 0), Units: plan.Fahrenheit,
		Kitchen: plan.Kitchen{
			Cooks: []plan.Cook{
				{Name: "Ines", Free: []plan.Window{{From: on(2, 19, 0), To: on(2, 21, 30)}, {From: on(1, 20, 0), To: on(0, 1, 0)}, {From: at(10, 0), To: at(23, 0)}}, Sits: true},
				{Name: "Tomas", Free: []plan.Window{{From: at(16, 0), To: at(23, 0)}}},
			},
			Ovens: []plan.Oven{{Name: "oven", Shelves: 4}},
			Tools: []plan.Tool{{Name: "roasting pan", Count: 1}, {Name: "big pot", Count: 1}},
		},
		Courses: []plan.Course{{Name: "Main"}},
		Dishes: []plan.Dish{
			{Name: "Ham", ID: "ham", Steps: []int{0, 1, 2}},
			{Name: "Beans", ID: "beans", Steps: []int{3, 4}},
			{Steps: []int{5}, Chore: &plan.Chore{After: -1}},
			{Steps: []int{6}, Chore: &plan.Chore{After: -1}},
		},
		Steps: []plan.Step{
			{ID: "ham/rub", Do: "Rub the ham", Hands: plan.Busy,
				Keeps: plan.Keep{Kind: plan.Limit, For: 2 * 24 * time.Hour, Place: "fridge", Places: 2}},
			{ID: "ham/roast", Do: "Roast", Oven: &plan.Bake{At: plan.FromFahrenheit(325), Lo: plan.FromFahrenheit(300), Hi: plan.FromFahrenheit(350), Space: 2, Shut: true},
				Vessel: &plan.Use{Tool: 0, Count: 1}, After: []plan.Link{{Step: 0}},
				Reminds: []plan.Remind{{When: plan.Every, For: time.Hour, Text: "baste"}},
				Keeps: plan.Keep{Kind: plan.Limit, For: time.Hour, Place: "oven",
					Warm: &plan.Bake{In: -1, At: plan.FromFahrenheit(185), Lo: plan.FromFahrenheit(170), Hi: plan.FromFahrenheit(200), Space: 2}}},
			{ID: "ham/carve", Do: "Carve the ham", Hands: plan.Busy, After: []plan.Link{{Step: 1}}},
			{ID: "beans/soak", Do: "Soak the beans", Dish: 1, Length: plan.Length{Elastic: true}, Cold: "fridge", ColdPlaces: 1},
			{ID: "beans/boil", Do: "Boil the beans", Dish: 1, Hands: plan.Near, Burner: &plan.BurnerUse{Size: plan.Large, Count: 1},
				Vessel: &plan.Use{Tool: 1, Count: 1}, After: []plan.Link{{Step: 3}}},
			{ID: "coffee", Do: "Grind the coffee", Dish: 2, Hands: plan.Busy},
			{ID: "candles", Do: "Warm the plates", Dish: 3, Burner: &plan.BurnerUse{Size: plan.Small, Count: 1}},
		},
	}
	t := &plan.Timetable{
		Status: plan.Whole,
		Slots: []plan.Slot{
			{Start: on(2, 19, 5), End: on(2, 19, 20), Cook: 0, Oven: -1, Slack: 9 * time.Hour}, // says nothing: she leaves at half past nine
			{Start: at(16, 0), End: at(18, 10), Cook: -1, Oven: 0},
			{Start: at(18, 45), End: at(19, 0), Cook: 0, Oven: -1},
			{Start: on(1, 23, 58), End: at(17, 0), Cook: -1, Oven: -1, Slack: 20 * time.Minute},
			{Start: at(17, 0), End: at(18, 30), Cook: -1, Oven: -1, Burner: plan.Large},
			{Start: on(1, 21, 0), End: on(1, 21, 5), Cook: 0, Oven: -1},
			{Start: at(18, 35), End: at(18, 45), Cook: -1, Oven: -1, Burner: plan.Small},
		},
		Serves: []time.Time{at(19, 0)},
		Touches: []plan.Touch{
			{What: plan.TouchStart, Step: 3, Oven: -1, At: on(1, 23, 58), Cook: 0},
			{What: plan.TouchSet, Step: 1, Oven: 0, At: at(15, 50), Cook: 0},
			{What: plan.TouchStart, Step: 1, Oven: -1, At: at(16, 0), Cook: 0},
			{What: plan.TouchRemind, Step: 1, Oven: -1, At: at(17, 0), Cook: 1},
			{What: plan.TouchStart, Step: 4, Oven: -1, At: at(17, 1), Cook: 1},
			{What: plan.TouchRemind, Step: 1, Oven: -1, At: at(18, 0), Cook: 0},
			{What: plan.TouchEnd, Step: 1, Oven: -1, At: at(18, 9), Cook: 0},
			{What: plan.TouchSet, Step: 1, Oven: 0, At: at(18, 10), Cook: 0},
			{What: plan.TouchEnd, Step: 4, Oven: -1, At: at(18, 29), Cook: 1},
			{What: plan.TouchEnd, Step: 6, Oven: -1, At: at(18, 44), Cook: 1},
		},
		Sets: []plan.OvenSet{
			{Oven: 0, At: at(15, 50), To: plan.FromFahrenheit(320), For: 1, Ready: at(16, 0)},
			{Oven: 0, At: at(18, 10), To: plan.FromFahrenheit(200), For: 1, Ready: at(18, 40)},
			{Oven: 0, At: at(18, 45), Off: true, For: -1},
		},
		LatestStart: at(16, 0),
	}
	return p, t
}

func TestPlanTextOfDays(t *testing.T) {
	t.Parallel()
	var b strings.Builder
	p, tt := overDays()
	writeText(&b, p, tt)
	golden(t, "days.txt", b.String())
}

func TestPlanJSONOfDays(t *testing.T) {
	t.Parallel()
	var b bytes.Buffer
	writeJSON(&results{w: &b}, viewJSON(overDays()))
	golden(t, "days.json", b.String())
	if err := validate(t, timetableSchema, b.Bytes()); err != nil {
		t.Error(err)
	}
}

// A dinner soon after midnight is cooked the evening before: no day ahead.
func TestDayBegins(t *testing.T) {
	t.Parallel()
	for name, tt := range map[string]struct{ table, want time.Time }{
		"evening":        {at(19, 0), at(0, 0)},
		"after-midnight": {at(0, 30), on(1, 18, 30)},
	} {
		if got := dayBegins(&plan.Plan{Table: tt.table}); !got.Equal(tt.want) {
			t.Errorf("%s: %v, want %v", name, got, tt.want)
		}
	}
}
