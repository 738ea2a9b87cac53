package run_test

import (
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
)

// The pot holds the stock from when it simmers, through the gap, until it is
// poured off at 18:00. The rice is planned to have it at 18:10.
func TestVesselIsHeldThroughTheGap(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name     string
		pots     int
		wash     int // minutes
		sameDish bool
		longer   time.Duration // the stock simmers
		begun    bool          // it has been poured for a minute at 18:36
		want     string        // start of the rice
	}{
		{"as-planned", 1, 0, false, 0, false, "18:10"},
		{"washing-fits", 1, 10, false, 0, false, "18:10"},
		{"simmers-longer", 1, 0, false, time.Hour, false, "18:45"}, // until 18:30, seasoned 18:35, poured 18:45
		{"simmers-longer-and-is-washed", 1, 5, false, time.Hour, false, "18:50"},
		{"one-dish-needs-no-washing", 1, 5, true, time.Hour, false, "18:45"},
		{"two-pots", 2, 5, false, time.Hour, false, "18:10"},
		{"pouring", 1, 5, false, time.Hour, true, "18:50"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			d := pair()
			pot := d.Tool("pot", c.pots)
			d.Wash(pot, c.wash)
			d.Dish("Stock", 0)
			d.add("Simmer", plantest.Takes(30), d.Slot("17:00", "17:30", "large"), plantest.Burner(plan.Large), plantest.Vessel(pot))
			d.add("Season", plantest.Takes(5), d.Slot("17:30", "17:35", "Ines"))
			d.add("Pour", plantest.Takes(10), d.Slot("17:50", "18:00", "Ines"), plantest.Vessel(pot))
			if !c.sameDish {
				d.Dish("Rice", 0)
			}
			rice := d.add("Boil", plantest.Takes(15), d.Slot("18:10", "18:25", "small"), plantest.Burner(plan.Small), plantest.Uses(pot), plantest.After())
			d.t.Serves = []time.Time{d.At("19:00")}
			events := []run.Event{{Kind: run.Started, Step: "stock/simmer", At: d.At("17:00")}}
			now := d.At("17:10")
			if c.longer > 0 {
				events = append(events, run.Event{Kind: run.Prolonged, Step: "stock/simmer", At: now, By: c.longer})
			}
			if c.begun {
				now = d.At("18:36")
				events = append(events, run.Event{Kind: run.Started, Step: "stock/pour", At: d.At("18:35")})
			}
			if got := hm(run.Project(d.after(t, events...), now).Start[rice]); got != c.want {
				t.Errorf("rice at %s, want %s", got, c.want)
			}
		})
	}
}

// A tool that was put down late is washed before another dish has it.
func TestWashingAfterTheFact(t *testing.T) {
	t.Parallel()
	d := pair()
	bowl := d.Tool("bowl", 1)
	d.Wash(bowl, 10)
	d.Dish("Dip", 0)
	d.add("Mix", plantest.Takes(10), d.Slot("17:00", "17:10", "Ines"), plantest.Uses(bowl))
	d.Dish("Salad", 0)
	toss := d.add("Toss", plantest.Takes(10), d.Slot("17:20", "17:30", "Tomas"), plantest.Uses(bowl))
	d.t.Serves = []time.Time{d.At("19:00")}
	st := d.after(t, run.Event{Kind: run.Started, Step: "dip/mix", At: d.At("17:00")}, run.Event{Kind: run.Finished, Step: "dip/mix", At: d.At("17:18")})
	if got := hm(run.Project(st, d.At("17:18")).Start[toss]); got != "17:28" {
		t.Errorf("tossed at %s, want 17:28", got)
	}
}

// The cream keeps in the fridge until it is folded in, planned for 18:00 and put
// off to 18:30 because its cook peels for longer. What goes in next waits.
func TestColdPlaceIsHandedOn(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		places int  // of the fridge; 0: not counted
		wait   bool // a wait goes in, else what keeps there
		want   string
	}{
		{"one-place-for-a-keep", 1, false, "18:20"}, // it is done, and goes in, at 18:30
		{"one-place-for-a-wait", 1, true, "18:30"},
		{"two-places", 2, false, "18:00"},
		{"not-counted", 0, false, "18:00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			d := pair()
			if c.places > 0 {
				d.Cold("fridge", c.places)
			}
			d.Dish("Cream", 0)
			d.add("Whip", plantest.Takes(10), d.Slot("16:00", "16:10", "Ines"), plantest.Chilled(3, "fridge", 1))
			d.add("Fold", plantest.Takes(10), d.Slot("18:00", "18:10", "Ines"))
			d.Dish("Fruit", 0)
			d.add("Peel", plantest.Takes(30), d.Slot("17:30", "18:00", "Ines"))
			d.Dish("Jelly", 0)
			jelly := 3
			if c.wait {
				d.add("Set", plantest.Waits(20, 60), d.Slot("18:00", "18:30"), plantest.Stands("fridge", 1))
			} else {
				d.add("Stir", plantest.Takes(10), d.Slot("18:00", "18:10", "Tomas"), plantest.Chilled(3, "fridge", 1))
			}
			d.add("Turn out", plantest.Takes(5), d.Slot("18:50", "18:55", "Tomas"))
			d.t.Serves = []time.Time{d.At("19:00")}
			st := d.after(t,
				run.Event{Kind: run.Started, Step: "cream/whip", At: d.At("16:00")}, run.Event{Kind: run.Finished, Step: "cream/whip", At: d.At("16:10")},
				run.Event{Kind: run.Started, Step: "fruit/peel", At: d.At("17:30")},
				run.Event{Kind: run.Prolonged, Step: "fruit/peel", At: d.At("17:40"), By: 30 * time.Minute})
			if got := hm(run.Project(st, d.At("17:40")).Start[jelly]); got != c.want {
				t.Errorf("jelly at %s, want %s", got, c.want)
			}
		})
	}
}

// An oven that is used on two days is switched off on each: what was told on one
// is not the other's.
func TestOffOnEachDay(t *testing.T) {
	t.Parallel()
	s := newWeekend()
	s.t.Slots[s.fill].Oven = -1
	s.t.Sets = append([]plan.OvenSet{
		{At: s.At("-1d 18:00"), To: 160, For: s.tart, Ready: s.At("-1d 18:10")},
		{At: s.At("-1d 18:40"), Off: true, For: -1},
	}, s.t.Sets...)
	offs := func(now string, events ...string) (n int) {
		m := run.Conduct(s.state(t, append(friday[:4:4], events...)...), s.At(now))
		for _, u := range m.Next {
			if u.Cue.ID == "set:oven:off" {
				n++
			}
		}
		for _, c := range m.Cues {
			if c.ID == "set:oven:off" {
				n++
			}
		}
		return n
	}
	saturday := []string{"18:20 started tart/bake", "19:00 finished tart/bake", "19:00 served Main", "19:01 oven_set oven"}
	if n := offs("-1d 18:42", "-1d 18:41 oven_set oven"); n != 1 {
		t.Errorf("on Friday, switched off: %d are to come, want Saturday's", n)
	}
	if n := offs("19:02", saturday...); n != 0 {
		t.Errorf("on Saturday, switched off, Friday's untold: %d still asked", n)
	}
}
