package run_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
)

// TestDialTurnedTooEarly: the dial is turned for the flatbreads, then the roast takes
// longer. The oven is told to be set back as soon as that is known; once it is,
// the setting for the flatbreads is asked for again, at the roast's end.
func TestDialTurnedTooEarly(t *testing.T) {
	t.Parallel()
	s := newSupper()
	const id = "conflict:oven:lamb/roast:dial"
	turned := []string{"18:18 oven_set oven 230C flatbreads/bake"}
	for _, tt := range []struct {
		name   string
		at     string
		events []string
		want   string
	}{
		{"in-the-last-minutes", "18:19", turned, ""},
		{"and-the-roast-takes-longer", "18:19", append(turned, "18:19 prolonged lamb/roast 30m"),
			"Oven: it is set to 230 °C, Roast · Lamb needs 165 °C until 18:50: set it to 165 °C"},
		{"and-set-back", "18:21", append(turned, "18:19 prolonged lamb/roast 30m", "18:20 oven_set oven 165C lamb/roast"), ""},
		{"switched-off", "18:00", []string{"17:59 oven_set oven"}, "Oven: it is off, Roast · Lamb needs 165 °C until 18:20: set it to 165 °C"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			m := run.Conduct(s.run(t, s.upTo("17:15", tt.events...)...), s.At(tt.at))
			if diff := cmp.Diff(tt.want, find(m, id).Text); diff != "" {
				t.Errorf("text (-want +got):\n%s", diff)
			}
			if c := find(m, id); tt.want != "" && (c.Class != run.LateCue || len(c.Answer) != 1 || c.Answer[0].Kind != run.OvenTurned || c.Answer[0].Step != "lamb/roast") {
				t.Errorf("class %s, answer %+v", c.Class, c.Answer)
			}
		})
	}
	m := run.Conduct(s.run(t, s.upTo("17:15", append(turned, "18:19 prolonged lamb/roast 30m", "18:20 oven_set oven 165C lamb/roast")...)...), s.At("18:21"))
	asked := ""
	for _, n := range m.Next {
		if n.Cue.ID == "set:oven:flatbreads/bake" {
			asked = hm(n.At)
		}
	}
	if asked != "18:50" {
		t.Errorf("the flatbreads' setting is asked for at %q, want at the roast's end, 18:50", asked)
	}
}

// TestOvenWorksAgain: an oven that failed is cold when it works again. It is asked to
// be set, from then on: back for what is in it, and for what was to go in meanwhile,
// told before or not.
func TestOvenWorksAgain(t *testing.T) {
	t.Parallel()
	s := newSupper()
	const dial, set = "conflict:oven:lamb/roast:dial", "set:oven:flatbreads/bake"
	for _, tt := range []struct {
		name, upTo string
		events     []string
		at         string
		cue        string // asked at, from due on; nothing where due is empty
		due        string
	}{
		{"while-something-is-in-it", "17:50", []string{"17:55 failed oven", "18:03 works oven"}, "18:03", dial, "17:55"},
		{"not-while-it-does-not-work", "17:50", []string{"17:55 failed oven"}, "18:03", dial, ""},
		{"not-once-it-is-set", "17:50", []string{"17:55 failed oven", "18:03 works oven", "18:04 oven_set oven 165C lamb/roast"}, "18:05", dial, ""},
		{"put-in-meanwhile", "18:19", []string{"18:15 failed oven", "18:20 finished lamb/roast", "18:45 started flatbreads/bake", "18:46 works oven"}, "18:46", "conflict:oven:flatbreads/bake:dial", "18:45"},
		{"set-before-it-failed", "18:20", []string{"18:22 oven_set oven 230C flatbreads/bake", "18:23 failed oven", "18:33 works oven"}, "18:33", set, "18:33"},
		{"to-be-set-meanwhile", "18:19", []string{"18:15 failed oven", "18:20 finished lamb/roast", "18:35 works oven"}, "18:36", set, "18:35"},
		{"set-since", "18:19", []string{"18:15 failed oven", "18:20 finished lamb/roast", "18:35 works oven", "18:35 oven_set oven 230C flatbreads/bake"}, "18:36", set, ""},
		{"failed-again", "18:19", []string{"18:15 failed oven", "18:20 finished lamb/roast", "18:35 works oven", "18:36 failed oven"}, "18:37", set, ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			m := run.Conduct(s.run(t, s.upTo(tt.upTo, tt.events...)...), s.At(tt.at))
			c, due := find(m, tt.cue), ""
			if !c.Due.IsZero() {
				due = hm(c.Due)
				if len(c.Answer) != 1 || c.Answer[0].Kind != run.OvenTurned || c.Answer[0].Temp == nil {
					t.Errorf("answered by %+v, want the oven set", c.Answer)
				}
			}
			if due != tt.due {
				t.Errorf("%s asked for from %q, want %q", tt.cue, due, tt.due)
			}
			for _, u := range m.Unconfirmed {
				if u.Cue.ID == tt.cue {
					t.Errorf("%s is taken to have been done", tt.cue)
				}
			}
		})
	}
}

// TestKeepsWarmWhileTheOvenIsSet: what keeps warm in the oven is to be taken before
// the oven is set for something hotter. When its taking is put off, both are told;
// as planned, nothing is.
func TestKeepsWarmWhileTheOvenIsSet(t *testing.T) {
	t.Parallel()
	b := plantest.New("2026-10-17 19:00")
	b.Cook("Ines", "12:00-23:00")
	main := b.Course("Main", 0, 40*time.Minute, 40*time.Minute)
	b.Dish("Scones", main)
	b.Step("Fry", plantest.Takes(20))
	plate := b.Step("Plate", plantest.Takes(10))
	b.Dish("Flatbreads", main)
	knead := b.Step("Knead", plantest.Takes(15), plantest.Keeps(120, 240))
	bake := b.Step("Bake", plantest.Takes(12), plantest.Oven(230, 2), plantest.Keeps(10, 30))
	b.Dish("Sauce", main)
	sauce := b.Step("Whisk", plantest.Takes(15), plantest.Keeps(120, 240))
	b.Plan.Steps[plate-1].Keeps = plan.Keep{Kind: plan.Limit, For: time.Hour, AtMost: time.Hour, Place: "oven", Warm: &plan.Bake{In: 0, At: 80, Lo: 70, Hi: 90, Space: 1}}
	tt := plan.Timetable{
		Status: plan.Whole,
		Slots: []plan.Slot{b.Slot("17:30", "17:50", "Ines"), b.Slot("18:15", "18:25", "Ines"),
			b.Slot("17:00", "17:15", "Ines"), b.Slot("18:45", "18:57", "oven"), b.Slot("17:55", "18:10", "Ines")},
		Serves: []time.Time{b.At("19:00")},
		Sets: []plan.OvenSet{{At: b.At("17:40"), To: 80, For: plate - 1, Ready: b.At("17:45")},
			{At: b.At("18:25"), To: 230, For: bake, Ready: b.At("18:40")}, {At: b.At("18:57"), Off: true, For: -1}},
	}
	low := 80.0
	events := []run.Event{
		{Kind: run.Opened, At: b.At("14:00"), Plan: &run.PlanCopy{}}, {Kind: run.Adopted, At: b.At("14:00"), Timetable: &tt},
		{Kind: run.Started, At: b.At("17:00"), Step: b.Plan.Steps[knead].ID}, {Kind: run.Finished, At: b.At("17:15"), Step: b.Plan.Steps[knead].ID},
		{Kind: run.Started, At: b.At("17:30"), Step: b.Plan.Steps[plate-1].ID},
		{Kind: run.OvenTurned, At: b.At("17:40"), Oven: "oven", Temp: &low, Step: b.Plan.Steps[plate-1].ID},
		{Kind: run.Finished, At: b.At("17:50"), Step: b.Plan.Steps[plate-1].ID},
	}
	at := func(more ...run.Event) run.Moment {
		st, err := run.Fold(&b.Plan, append(events[:len(events):len(events)], more...))
		if err != nil {
			t.Fatal(err)
		}
		return run.Conduct(st, b.At("18:00"))
	}
	const id = "conflict:oven:scones/fry:warm:dial"
	if c := find(at(), id); c.ID == id {
		t.Errorf("as planned: %s", c.Text)
	}
	// Ines whisks for longer: what waits for her hands moves, the setting does not.
	whisks := run.Event{Kind: run.Started, At: b.At("17:55"), Step: b.Plan.Steps[sauce].ID}
	longer := run.Event{Kind: run.Prolonged, At: b.At("17:59"), Step: b.Plan.Steps[sauce].ID, By: 30 * time.Minute}
	want := "Oven: Fry · Scones keeps warm at 70–90 °C until 18:40, and at 18:25 it is to be set to 230 °C for Bake · Flatbreads"
	if diff := cmp.Diff(want, find(at(whisks, longer), id).Text); diff != "" {
		t.Errorf("put off (-want +got):\n%s", diff)
	}
	hot := 230.0
	turned := run.Event{Kind: run.OvenTurned, At: b.At("17:58"), Oven: "oven", Temp: &hot, Step: b.Plan.Steps[bake].ID}
	want = "Oven: it is set to 230 °C, Fry · Scones keeps warm at 70–90 °C until 18:15"
	if diff := cmp.Diff(want, find(at(turned), id).Text); diff != "" {
		t.Errorf("text (-want +got):\n%s", diff)
	}
}

// TestWasItSet: nobody said that the oven was set for the flatbreads; when they are to
// go in, that is asked.
func TestWasItSet(t *testing.T) {
	t.Parallel()
	s := newSupper()
	for name, tt := range map[string]struct {
		events []string
		want   string
	}{
		"told":     {s.upTo("18:39"), "Put in: Bake · Flatbreads · oven at 230 °C"},
		"not-told": {s.upTo("18:19", "18:20 finished lamb/roast"), "Put in: Bake · Flatbreads · oven at 230 °C · was it set?"},
	} {
		if got := find(run.Conduct(s.run(t, tt.events...), s.At("18:40")), "start:flatbreads/bake").Text; got != tt.want {
			t.Errorf("%s: %q, want %q", name, got, tt.want)
		}
	}
}
