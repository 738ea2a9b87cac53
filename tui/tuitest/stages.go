package tuitest

import (
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// Stage is a moment of the dinner that has a name.
type Stage struct {
	Name   string
	Now    time.Time
	Events []run.Event // after the opening
}

// Stages returns the moments of one dinner that every screen must show well.
func Stages() []Stage {
	_, table := Dinner()
	first := until(At(16, 26), morning())
	three := until(At(17, 12), morning())
	long := append(until(At(18, 34), morning()),
		event(run.Event{Kind: run.Prolonged, Step: "chicken/roast", By: 20 * time.Minute}, At(18, 35)))
	moved := append(append([]run.Event(nil), long...), event(run.Event{Kind: run.Adopted, Timetable: later(table), Why: []string{
		"Roast the chicken ends 18:55, 20 min later",
		"Bake the flatbreads moves to 19:27; the oven is set at 19:00",
		"Main comes at 19:50, 10 min late, within its 15",
	}}, At(18, 35)))
	return []Stage{
		{"before", At(15, 55), nil},
		{"first-start", At(16, 10).Add(20 * time.Second), nil},
		{"going", At(16, 28), first},
		{"three-at-once", At(17, 12).Add(40 * time.Second), three},
		{"time-is-up", At(17, 46).Add(20 * time.Second), until(At(17, 44), morning())},
		{"running-long", At(18, 36).Add(12 * time.Second), long},
		{"moved", At(18, 36).Add(12 * time.Second), moved},
		{"readings", At(18, 12).Add(5 * time.Second), readings()},
		{"list-on-return", At(17, 31), until(At(17, 3), morning())},
		{"served", At(20, 46), evening()},
	}
}

func event(e run.Event, at time.Time) run.Event {
	e.At, e.Noted = at, at
	return e
}

// morning is the dinner as it goes until the guests come.
func morning() []run.Event {
	of := func(k run.Kind, id string, h, m int) run.Event { return event(run.Event{Kind: k, Step: id}, At(h, m)) }
	hot := float64(plan.FromFahrenheit(400))
	return []run.Event{
		of(run.Started, "flatbreads/knead", 16, 10),
		of(run.Finished, "flatbreads/knead", 16, 25),
		of(run.Started, "flatbreads/rise", 16, 25),
		of(run.Started, "chicken/season", 16, 31),
		event(run.Event{Kind: run.OvenTurned, Oven: "oven", Temp: &hot, Step: "chicken/roast"}, At(16, 41)),
		of(run.Finished, "chicken/season", 16, 44),
		of(run.Started, "pears/peel", 16, 48),
		of(run.Finished, "pears/peel", 16, 58),
		of(run.Started, "chicken/roast", 17, 0),
		of(run.Started, "potatoes/peel", 17, 2),
		event(run.Event{Kind: run.TimerSet, Text: "tea", By: 12 * time.Minute}, At(17, 8)),
		event(run.Event{Kind: run.Acknowledged, Cue: "timer:13"}, At(17, 20)),
		of(run.Started, "pears/simmer", 17, 13),
		of(run.Finished, "potatoes/peel", 17, 16),
		of(run.Started, "beans/boil", 17, 20),
		of(run.Finished, "beans/boil", 17, 47),
		of(run.Finished, "pears/simmer", 17, 55),
		of(run.Started, "beans/dress", 18, 30),
	}
}

// readings is the afternoon with a thermometer in the chicken.
func readings() []run.Event {
	out := until(At(17, 55), morning())
	for _, r := range []struct {
		h, m int
		f    float64
	}{{17, 25, 72}, {17, 40, 98}, {17, 55, 121}, {18, 10, 141}} {
		temp := float64(plan.FromFahrenheit(r.f))
		out = append(out, event(run.Event{Kind: run.Reading, Step: "chicken/roast", Temp: &temp}, At(r.h, r.m)))
	}
	return out
}

// evening is the whole dinner.
func evening() []run.Event {
	of := func(k run.Kind, id string, h, m int) run.Event { return event(run.Event{Kind: k, Step: id}, At(h, m)) }
	serve := func(c string, h, m int) run.Event { return event(run.Event{Kind: run.Served, Course: c}, At(h, m)) }
	return append(morning(),
		of(run.Finished, "chicken/roast", 18, 35),
		of(run.Finished, "beans/dress", 18, 40),
		of(run.Started, "potatoes/boil", 18, 50),
		serve("Starter", 19, 2),
		of(run.Finished, "potatoes/boil", 19, 12),
		of(run.Started, "flatbreads/bake", 19, 15),
		of(run.Finished, "flatbreads/bake", 19, 24),
		event(run.Event{Kind: run.OvenTurned, Oven: "oven"}, At(19, 25)),
		of(run.Started, "chicken/carve", 19, 28),
		serve("Main", 19, 41),
		serve("Sweet", 20, 43),
	)
}

// until returns the events up to an instant.
func until(at time.Time, events []run.Event) []run.Event {
	var out []run.Event
	for _, e := range events {
		if !e.At.After(at) {
			out = append(out, e)
		}
	}
	return out
}

// later is the timetable after the chicken took twenty minutes more.
func later(t *plan.Timetable) *plan.Timetable {
	p, _ := Dinner()
	out := *t
	out.Slots = append([]plan.Slot(nil), t.Slots...)
	out.Sets = append([]plan.OvenSet(nil), t.Sets...)
	out.Serves = append([]time.Time(nil), t.Serves...)
	move := func(id string, start, end time.Time) {
		i := p.StepIndex(id)
		out.Slots[i].Start, out.Slots[i].End = start, end
	}
	move("chicken/roast", At(17, 0), At(18, 55))
	move("chicken/rest", At(18, 55), At(19, 38))
	move("chicken/carve", At(19, 38), At(19, 48))
	move("flatbreads/rise", At(16, 25), At(19, 27))
	move("flatbreads/bake", At(19, 27), At(19, 36))
	out.Sets[1].At, out.Sets[1].Ready = At(19, 0), At(19, 12)
	out.Sets[2].At, out.Sets[2].Ready = At(19, 36), At(19, 36)
	out.Serves[1] = At(19, 50)
	out.Status = plan.Late
	return &out
}
