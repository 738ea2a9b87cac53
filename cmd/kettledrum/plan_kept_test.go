package main

import (
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/kept"
)

// stored is a plan and a timetable written by hand in which food lies in all
// places between its steps.
func stored() (*plan.Plan, *plan.Timetable) {
	f := plan.FromFahrenheit
	after := func(steps ...int) (out []plan.Link) {
		for _, i := range steps {
			out = append(out, plan.Link{Step: i})
		}
		return out
	}
	fridge := plan.Keep{Kind: plan.Limit, For: 24 * time.Hour, Place: "fridge", Places: 1}
	warm := plan.Keep{Kind: plan.Limit, For: time.Hour, Place: "oven",
		Warm: &plan.Bake{In: -1, At: f(185), Lo: f(170), Hi: f(200), Space: 2}}
	bake := func(at float64) *plan.Bake {
		return &plan.Bake{In: -1, At: f(at), Lo: f(at - 9), Hi: f(at + 9), Space: 2}
	}
	whisk := []plan.Use{{Tool: 0, Count: 1}}
	p := &plan.Plan{
		Title: "Tart and ice", Table: at(19, 0), Units: plan.Fahrenheit,
		Kitchen: plan.Kitchen{
			Cooks: []plan.Cook{{Name: "Ines"}},
			Ovens: []plan.Oven{{Name: "oven", Shelves: 4}},
			Tools: []plan.Tool{{Name: "whisk", Count: 1, Wash: 5 * time.Minute}},
		},
		Courses: []plan.Course{{Name: "Sweet"}},
		Dishes: []plan.Dish{
			{Name: "Tart", ID: "tart", Steps: []int{0, 1, 2, 3}},
			{Name: "Ice", ID: "ice", Steps: []int{4, 5}},
			{Name: "Cream", ID: "cream", Steps: []int{6}},
			{Steps: []int{7}, Chore: &plan.Chore{After: -1}},
		},
		Steps: []plan.Step{
			{ID: "tart/crumbs", Do: "Whisk the crumbs", Hands: plan.Busy, Keeps: fridge, Uses: whisk},
			{ID: "tart/fill", Do: "Fill the tart", Hands: plan.Busy, Keeps: fridge, After: after(0)},
			{ID: "tart/bake", Do: "Bake the tart", Oven: bake(400), Keeps: warm, After: after(1)},
			{ID: "tart/plate", Do: "Plate the tart", Hands: plan.Busy, After: after(1, 2, 5)},
			{ID: "ice/freeze", Do: "Freeze the ice", Dish: 1, Length: plan.Length{Elastic: true}, Cold: "freezer"},
			{ID: "ice/soften", Do: "Soften the ice", Dish: 1, Length: plan.Length{Elastic: true}, Cold: "fridge", After: after(4)},
			{ID: "cream/whip", Do: "Whip the cream", Dish: 2, Hands: plan.Busy, Keeps: fridge, Uses: whisk},
			{ID: "wine", Do: "Chill the wine", Dish: 3, Length: plan.Length{Elastic: true}, Cold: "fridge"},
		},
	}
	slot := func(from, to time.Time, cook, oven int) plan.Slot {
		return plan.Slot{Start: from, End: to, Cook: cook, Oven: oven}
	}
	t := &plan.Timetable{
		Status: plan.Whole,
		Slots: []plan.Slot{
			slot(at(16, 0), at(16, 10), 0, -1), slot(at(16, 20), at(16, 30), 0, -1), slot(at(17, 0), at(18, 10), -1, 0),
			slot(at(18, 50), at(19, 0), 0, -1), slot(on(1, 12, 0), at(18, 30), -1, -1), slot(at(18, 30), at(18, 50), -1, -1),
			slot(at(18, 10), at(18, 20), 0, -1), slot(at(15, 0), at(19, 0), -1, -1),
		},
		Serves: []time.Time{at(19, 0)},
		Touches: []plan.Touch{
			{What: plan.TouchEnd, Step: 2, Oven: -1, At: at(18, 9), Cook: 0},
			{What: plan.TouchSet, Step: 2, Oven: 0, At: at(18, 30), Cook: 0},
		},
		Sets: []plan.OvenSet{
			{At: at(16, 45), To: f(400), For: 2, Ready: at(17, 0)},
			{At: at(18, 30), To: f(190), For: 3, Ready: at(18, 50)}, // for something else
		},
	}
	return p, t
}

// What lies in a place is taken out of it in the line of the step that takes it;
// where another takes of it later, some; what is wanted again soon stays out; what
// another dish takes next is washed.
func TestPlanTextOfWhatIsKept(t *testing.T) {
	t.Parallel()
	p, tt := stored()
	var b strings.Builder
	writeText(&b, p, tt)
	golden(t, "kept.txt", b.String())
}

// What is wanted in ten minutes stays out; nothing hot, nothing from the freezer
// and nothing that has been out for two hours is left out all the same.
func TestLeftOut(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		change func(p *plan.Plan, t *plan.Timetable)
		want   bool
	}{
		"ten-minutes":    {func(*plan.Plan, *plan.Timetable) {}, false},
		"a-quarter":      {func(_ *plan.Plan, t *plan.Timetable) { t.Slots[1].Start = at(16, 25) }, true},
		"hot":            {func(p *plan.Plan, _ *plan.Timetable) { p.Steps[0].Burner = &plan.BurnerUse{Count: 1} }, true},
		"frozen":         {func(p *plan.Plan, _ *plan.Timetable) { p.Steps[0].Keeps.Place = "freezer" }, true},
		"out-two-hours":  {func(_ *plan.Plan, t *plan.Timetable) { t.Slots[0].Start = at(14, 19) }, true},
		"taken-at-once":  {func(_ *plan.Plan, t *plan.Timetable) { t.Slots[1].Start = at(16, 10) }, false},
		"on-the-counter": {func(p *plan.Plan, _ *plan.Timetable) { p.Steps[0].Keeps.Place = "" }, false},
	} {
		p, tt := stored()
		c.change(p, tt)
		s := sheetText{p: p, t: tt, places: kept.Of(p, tt)}
		if got := s.places.Stored(0); got != c.want {
			t.Errorf("%s: goes into its place %t, want %t", name, got, c.want)
		}
	}
}

// What waits on the counter for a quarter of an hour or more says how long, and
// for how long that was assumed to be well.
func TestStands(t *testing.T) {
	t.Parallel()
	counter := func(k plan.Keep) func(*plan.Plan, *plan.Timetable) {
		return func(p *plan.Plan, t *plan.Timetable) {
			p.Steps[0].Keeps, t.Slots[1].Start = k, at(17, 30)
		}
	}
	liking := plan.Keep{Kind: plan.Liking, For: 2 * time.Hour}
	assumed := liking
	assumed.Assumed = true
	for name, c := range map[string]struct {
		change func(*plan.Plan, *plan.Timetable)
		want   string
	}{
		"stated":        {counter(liking), "then waits 1 h 20 min"},
		"assumed":       {counter(assumed), "then waits 1 h 20 min, assumed to keep 2 h"},
		"freely":        {counter(plan.Keep{Kind: plan.Freely}), ""},
		"in-the-fridge": {func(_ *plan.Plan, t *plan.Timetable) { t.Slots[1].Start = at(17, 30) }, ""},
		"soon": {func(p *plan.Plan, t *plan.Timetable) {
			p.Steps[0].Keeps, t.Slots[1].Start = liking, at(16, 24)
		}, ""},
		"skipped": {func(p *plan.Plan, t *plan.Timetable) {
			counter(liking)(p, t)
			t.Slots[0].Progress = plan.Skipped
		}, ""},
	} {
		p, tt := stored()
		c.change(p, tt)
		s := sheetText{p: p, t: tt, places: kept.Of(p, tt)}
		if got := s.stands(0); got != c.want {
			t.Errorf("%s: got %q, want %q", name, got, c.want)
		}
	}
}
