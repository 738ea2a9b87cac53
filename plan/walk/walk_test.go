package walk_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	pt "example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/walk"
)

// supper is a dinner by hand: two dishes that want saucepans at once, a roast that rests
// in its tin, and a cream out of the fridge.
func supper() (*plan.Plan, *plan.Timetable, []run.Cue) {
	b := pt.New("2026-10-17 19:00")
	b.Cook("Ana", "10:00-23:00")
	pan, tin, whisk := b.Tool("saucepan", 2), b.Tool("roasting tin", 1), b.Tool("whisk", 1)
	main := b.Course("Main", 0, 30*time.Minute, 20*time.Minute)
	b.Dish("Roast", main)
	roast := b.Step("Roast the celeriac", pt.Takes(60), pt.Hands(plan.Free), pt.Oven(180, 2), pt.Vessel(tin))
	b.Plan.Steps[roast].Until = plan.Until{Temp: 90, HasTemp: true}
	rest := b.Step("Rest it", pt.Waits(10, 30), pt.AtOnce, pt.Vessel(tin), pt.Uses(whisk))
	b.Dish("Beans", main)
	beans := b.Step("Boil the beans", pt.Takes(20), pt.Hands(plan.Near), pt.Burner(plan.Small), pt.Vessel(pan))
	drain := b.Step("Drain the beans", pt.Takes(5), pt.Vessel(pan))
	b.Dish("Rice", main)
	rice := b.Step("Boil the rice", pt.Takes(20), pt.Hands(plan.Near), pt.Burner(plan.Small), pt.Uses(pan))
	b.Dish("Cream", main)
	whip := b.Step("Whip the cream", pt.Takes(5), pt.Uses(whisk), pt.Chilled(600, "fridge", 2))
	spoon := b.Step("Spoon out the cream", pt.Takes(5))
	slots := make([]plan.Slot, len(b.Plan.Steps))
	for i, s := range map[int]plan.Slot{
		roast: b.Slot("17:40", "18:40", "oven"), rest: b.Slot("18:40", "19:00"),
		beans: b.Slot("18:20", "18:40", "small"), drain: b.Slot("18:40", "18:45", "Ana"),
		rice: b.Slot("18:30", "18:50", "small"), whip: b.Slot("15:00", "15:05", "Ana"), spoon: b.Slot("18:50", "18:55", "Ana"),
	} {
		slots[i] = s
	}
	t := &plan.Timetable{Slots: slots, Serves: []time.Time{b.At("19:00")}}
	var cues []run.Cue
	cue := func(clock, text string, class run.Class, e ...run.Event) {
		cues = append(cues, run.Cue{Class: class, Due: b.At(clock), Text: text, Answer: e})
	}
	step := func(kind run.Kind, i int) run.Event { return run.Event{Kind: kind, Step: b.Plan.Steps[i].ID} }
	cue("15:00", "whip", run.Act, step(run.Started, whip))
	cue("15:05", "whipped", run.Look, step(run.Finished, whip))
	cue("17:20", "set", run.Act, run.Event{Kind: run.OvenTurned, Oven: "oven"})
	cue("17:38", "soon roast", run.Soon)
	cue("17:40", "roast", run.Act, step(run.Started, roast))
	cue("18:20", "beans", run.Act, step(run.Started, beans))
	cue("18:30", "rice", run.Act, step(run.Started, rice))
	cue("18:40", "roasted", run.Look, step(run.Finished, roast))
	cue("18:40", "drain", run.Act, step(run.Started, drain))
	cue("18:50", "spoon", run.Act, step(run.Started, spoon))
	cue("18:55", "moved", run.Note, step(run.Finished, spoon))
	cue("19:00", "serve", run.Act, run.Event{Kind: run.Served, Course: "Main"})
	return &b.Plan, t, cues
}

// TestOf: what each cue asks for. Standbys and notes are no stops; what a dish has its
// food in already is not asked for again; what goes on at once belongs to what ends then.
func TestOf(t *testing.T) {
	t.Parallel()
	stops := walk.Of(supper())
	var got []string
	for _, s := range stops {
		got = append(got, s.At.Format("15:04 ")+s.Text)
		for _, x := range s.Things {
			got = append(got, "  "+x.Text)
		}
	}
	want := []string{
		"15:00 whip", "  whisk",
		"15:05 whipped", "  room in the fridge, 2 places",
		"17:20 set",
		"17:40 roast", "  roasting tin", "  oven: 1 shelf", "  thermometer, to read 90 °C",
		"18:20 beans", "  saucepan", "  small burner",
		"18:30 rice", "  one more saucepan: 1 in use", "  one more small burner: 1 in use",
		"18:40 roasted", "  whisk",
		"18:40 drain",
		"18:50 spoon", "  Cream: out of the fridge",
		"19:00 serve",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	totals := []walk.Total{{"whisk", 1}, {"roasting tin", 1}, {"thermometer", 1}, {"saucepan", 2}, {"small burner", 2}}
	if diff := cmp.Diff(totals, walk.Totals(stops)); diff != "" {
		t.Errorf("altogether (-want +got):\n%s", diff)
	}
	if n := walk.All(stops); n != 8 { // five kinds and a place, a shelf, the cream
		t.Errorf("%d things, want 8", n)
	}
}

// TestTicks: a thing that was found is found wherever it is asked for; two of it are more
// than one; a tick can be taken off.
func TestTicks(t *testing.T) {
	t.Parallel()
	one, two := walk.Thing{Name: "pan", Need: 1, Text: "pan"}, walk.Thing{Name: "pan", Need: 2, Text: "one more"}
	stops := []walk.Stop{{Text: "a", Things: []walk.Thing{one}}, {Text: "b", Things: []walk.Thing{two}}, {Text: "c", Things: []walk.Thing{one}}}
	var none walk.Ticks
	missing := func(ticks walk.Ticks) (out []string) {
		for _, m := range ticks.Missing(stops) {
			out = append(out, m.For.Text+": "+m.Text)
		}
		return out
	}
	first := none.With(one, true)
	all := first.With(two, true)
	for name, c := range map[string]struct {
		ticks walk.Ticks
		want  []string
	}{
		"none":         {none, []string{"a: pan"}},
		"one":          {first, []string{"b: one more"}},
		"both":         {all, nil},
		"other-first":  {none.With(two, true), nil}, // who has two has one
		"second-off":   {all.With(two, false), []string{"b: one more"}},
		"first-off":    {all.With(one, false), []string{"a: pan"}},
		"ticked-again": {all.With(one, true), nil},
	} {
		if diff := cmp.Diff(c.want, missing(c.ticks)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
	if first.Has(two) || none.Has(one) {
		t.Error("ticks changed that were handed on")
	}
}
