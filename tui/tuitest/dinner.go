package tuitest

import (
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

var zone = time.FixedZone("here", -4*3600)

// At is an instant of the dinner's day, in its zone.
func At(hour, minute int) time.Time { return time.Date(2026, 10, 17, hour, minute, 0, 0, zone) }

// dish of the dinner, and its steps in order.
type dish struct {
	name, id string
	course   int
	steps    []step
}

type step struct {
	id, do   string
	from, to time.Time
	hands    plan.Hands
	cook     int
	oven     float64 // °F; zero: none
	burner   plan.BurnerSize
	wait     time.Duration // the longest of a wait; zero: takes
	atOnce   bool
	until    plan.Until
}

// Dinner returns a supper of three courses for six, and its timetable: a roast
// that must leave the oven to a hotter bake, a pot or two, and a wait.
func Dinner() (*plan.Plan, *plan.Timetable) {
	p := &plan.Plan{
		Title: "Garden supper", Guests: 6, Table: At(19, 0), Units: plan.Fahrenheit,
		Kitchen: plan.Kitchen{
			Cooks: []plan.Cook{
				{Name: "Ines", Free: []plan.Window{{From: At(12, 0), To: At(23, 0)}}},
				{Name: "Tomas", Free: []plan.Window{{From: At(16, 0), To: At(23, 0)}}},
			},
			Ovens:   []plan.Oven{{Name: "oven", Shelves: plan.DefaultShelves, Preheat: plan.DefaultPreheat, Cools: plan.DefaultCools}},
			Burners: plan.Burners{Large: 2, Small: 2},
			Minds:   plan.DefaultMinds, Room: plan.DefaultRoom,
		},
		Courses: []plan.Course{
			{Name: "Starter", Seated: 25 * time.Minute, LateOK: 10 * time.Minute},
			{Name: "Main", Serve: 40 * time.Minute, Seated: 40 * time.Minute, LateOK: 15 * time.Minute},
			{Name: "Sweet", Serve: 100 * time.Minute, Seated: 30 * time.Minute, LateOK: 20 * time.Minute},
		},
	}
	t := &plan.Timetable{Status: plan.Whole, Serves: []time.Time{At(19, 0), At(19, 40), At(20, 40)}, LatestStart: At(16, 10)}
	for d, in := range dishes() {
		p.Dishes = append(p.Dishes, plan.Dish{Name: in.name, ID: in.id, Course: in.course})
		for n, s := range in.steps {
			i := len(p.Steps)
			p.Dishes[d].Steps = append(p.Dishes[d].Steps, i)
			p.Steps = append(p.Steps, s.plan(in.id, d))
			if n > 0 {
				p.Steps[i].After = []plan.Link{{Step: i - 1}}
			}
			t.Slots = append(t.Slots, s.slot())
		}
	}
	roast, bake := p.StepIndex("chicken/roast"), p.StepIndex("flatbreads/bake")
	t.Sets = []plan.OvenSet{
		{Oven: 0, At: At(16, 40), To: plan.FromFahrenheit(400), For: roast, Ready: At(16, 55)},
		{Oven: 0, At: At(18, 40), To: plan.FromFahrenheit(475), For: bake, Ready: At(18, 52)},
		{Oven: 0, At: At(19, 24), Off: true, For: -1, Ready: At(19, 24)},
	}
	for i, slack := range run.Slacks(p, t) {
		t.Slots[i].Slack = slack
	}
	return p, t
}

func (s step) plan(dishID string, d int) plan.Step {
	takes := s.to.Sub(s.from)
	out := plan.Step{
		ID: dishID + "/" + s.id, Do: s.do, Dish: d, Hands: s.hands, By: -1, AtOnce: s.atOnce, Until: s.until,
		Length: plan.Length{Shortest: takes, Likely: takes, Longest: takes},
		Keeps:  plan.Keep{Kind: plan.Liking, For: 2 * time.Hour, AtMost: 4 * time.Hour, Assumed: true},
	}
	if s.wait > 0 {
		out.Length = plan.Length{Elastic: true, Shortest: takes / 2, Likely: takes / 2, Longest: s.wait}
		out.Keeps = plan.Keep{Kind: plan.Limit}
	}
	if s.oven > 0 {
		at := plan.FromFahrenheit(s.oven)
		out.Oven = &plan.Bake{In: -1, At: at, Lo: at - plan.DialError, Hi: at + plan.DialError, Space: 2}
	}
	if s.burner != plan.AnyBurner {
		out.Burner = &plan.BurnerUse{Size: s.burner, Count: 1}
	}
	return out
}

func (s step) slot() plan.Slot {
	out := plan.Slot{Start: s.from, End: s.to, Cook: -1, Oven: -1, Burner: s.burner}
	if s.hands.Working() {
		out.Cook = s.cook
	}
	if s.oven > 0 {
		out.Oven = 0
	}
	return out
}

func dishes() []dish {
	until := func(f float64) plan.Until { return plan.Until{Temp: plan.FromFahrenheit(f), HasTemp: true} }
	return []dish{
		{"Bean salad", "beans", 0, []step{
			{id: "boil", do: "Boil the beans", from: At(17, 20), to: At(17, 45), hands: plan.Near, burner: plan.Large, until: plan.Until{Sign: "tender, not soft"}},
			{id: "dress", do: "Dress the beans", from: At(18, 30), to: At(18, 40), hands: plan.Busy, cook: 1},
		}},
		{"Chicken legs", "chicken", 1, []step{
			{id: "season", do: "Season the chicken", from: At(16, 30), to: At(16, 45), hands: plan.Busy},
			{id: "roast", do: "Roast the chicken", from: At(17, 0), to: At(18, 35), oven: 400, until: until(165)},
			{id: "rest", do: "Rest the chicken under foil", from: At(18, 35), to: At(19, 28), wait: 90 * time.Minute, atOnce: true},
			{id: "carve", do: "Carve and plate the chicken", from: At(19, 28), to: At(19, 38), hands: plan.Busy},
		}},
		{"Flatbreads", "flatbreads", 1, []step{
			{id: "knead", do: "Mix and knead the dough", from: At(16, 10), to: At(16, 25), hands: plan.Busy, cook: 1},
			{id: "rise", do: "Let the dough rise", from: At(16, 25), to: At(19, 15), wait: 4 * time.Hour},
			{id: "bake", do: "Bake the flatbreads", from: At(19, 15), to: At(19, 24), oven: 475, until: plan.Until{Sign: "puffed and brown"}},
		}},
		{"Potatoes", "potatoes", 1, []step{
			{id: "peel", do: "Peel the potatoes", from: At(17, 2), to: At(17, 17), hands: plan.Busy, cook: 1},
			{id: "boil", do: "Boil the potatoes", from: At(18, 50), to: At(19, 12), hands: plan.Near, burner: plan.Large},
		}},
		{"Pears in wine", "pears", 2, []step{
			{id: "peel", do: "Peel and halve the pears", from: At(16, 48), to: At(16, 58), hands: plan.Busy, cook: 1},
			{id: "simmer", do: "Simmer the pears", from: At(17, 10), to: At(17, 50), hands: plan.Near, burner: plan.Small, until: plan.Until{Sign: "a knife slides in"}},
		}},
	}
}

// Opening returns the first events of a run of the dinner.
func Opening(p *plan.Plan, t *plan.Timetable) []run.Event {
	at := At(15, 50)
	return []run.Event{
		{Kind: run.Opened, At: at, Noted: at, Plan: &run.PlanCopy{Name: "garden.yaml", Table: p.Table}},
		{Kind: run.Adopted, At: at, Noted: at, Timetable: t},
	}
}
