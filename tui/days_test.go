package tui_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui"
	"example.org/kettledrum/tui/tuitest"
)

// weekend is a dinner begun two days ahead: dough on Thursday, a marinade that
// stands in the fridge overnight from Friday, and a chore on the day.
func weekend(t *testing.T, events ...run.Event) *run.State {
	t.Helper()
	b := plantest.New("2026-10-17 19:00")
	b.Plan.Title = "Harvest supper"
	b.Cook("Ines", "-2d 19:00-21:30", "-1d 18:00-21:00", "10:00-23:00")
	main := b.Course("Main", 0, 40*time.Minute, 20*time.Minute)
	sweet := b.Course("Sweet", time.Hour, 30*time.Minute, 20*time.Minute)
	b.Dish("Plum tart", sweet)
	b.Step("Make the dough", plantest.Takes(20), plantest.Chilled(72, "fridge", 1))
	b.Step("Bake", plantest.Takes(40), plantest.Oven(180, 2), plantest.Remind(plan.Halfway, 0))
	b.Plan.Steps[1].Reminds[0].Text = "turn the tray"
	b.Dish("Pork neck", main)
	b.Step("Rub with salt", plantest.Takes(15))
	b.Step("Marinate", plantest.Waits(8*60, 24*60), plantest.Stands("fridge", 1))
	b.Step("Roast", plantest.Takes(150), plantest.Oven(180, 2))
	b.Chore("Lay the table", main, plan.Chore{After: -1}, plantest.Takes(20))
	table := &plan.Timetable{
		Status: plan.Whole, Serves: []time.Time{b.At("19:00"), b.At("20:00")},
		Slots: []plan.Slot{
			b.Slot("-2d 19:00", "-2d 19:20", "Ines"), b.Slot("18:10", "18:50", "oven"),
			b.Slot("-1d 18:00", "-1d 18:15", "Ines"), b.Slot("-1d 18:15", "16:15"), b.Slot("16:15", "18:45", "oven"),
			b.Slot("17:00", "17:20", "Ines"),
		},
		Sets: []plan.OvenSet{{At: b.At("16:00"), To: 180, For: 4, Ready: b.At("16:12")}, {At: b.At("18:50"), Off: true, For: -1}},
	}
	at := b.At("-2d 18:50")
	state, err := run.Fold(&b.Plan, append([]run.Event{
		{Kind: run.Opened, At: at, Plan: &run.PlanCopy{}}, {Kind: run.Adopted, At: at, Timetable: table},
	}, events...))
	if err != nil {
		t.Fatal(err)
	}
	return state
}

func on(day, hour, minute int) time.Time {
	return time.Date(2026, 10, day, hour, minute, 0, 0, time.UTC)
}

var (
	doughMade = []run.Event{
		{Kind: run.Started, Step: "plum-tart/make-the-dough", At: on(15, 19, 0)}, {Kind: run.Finished, Step: "plum-tart/make-the-dough", At: on(15, 19, 20)},
	}
	porkSalted = append(doughMade[:2:2],
		run.Event{Kind: run.Started, Step: "pork-neck/rub-with-salt", At: on(16, 18, 0)},
		run.Event{Kind: run.Finished, Step: "pork-neck/rub-with-salt", At: on(16, 18, 15)},
		run.Event{Kind: run.Started, Step: "pork-neck/marinate", At: on(16, 18, 15)})
	tartBaking = append(porkSalted[:5:5],
		run.Event{Kind: run.Started, Step: "pork-neck/roast", At: on(17, 16, 15)},
		run.Event{Kind: run.Finished, Step: "lay-the-table", At: on(17, 17, 20)},
		run.Event{Kind: run.Started, Step: "plum-tart/bake", At: on(17, 18, 10)})
)

func TestScreensOfOtherDays(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		now    time.Time
		events []run.Event
	}{
		{"thursday-work", on(15, 19, 5), doughMade[:1]},
		{"thursday-done", on(15, 19, 22), doughMade},
		{"friday-missed", on(16, 20, 30), doughMade},
		{"friday-done", on(16, 18, 20), porkSalted},
		{"saturday-reminder", on(17, 18, 31), tartBaking},
	} {
		for _, size := range sizes {
			name := fmt.Sprintf("days-%s-%dx%d", c.name, size[0], size[1])
			t.Run(name, func(t *testing.T) {
				t.Parallel()
				golden(t, name, tuitest.NewOf(t, tuitest.Config{Width: size[0], Height: size[1], Now: c.now}, weekend(t, c.events...)).Frame())
			})
		}
	}
}

// Between two days' work one key quits, though the marinade stands; the screen has
// said how to go on.
func TestQuitBetweenDays(t *testing.T) {
	t.Parallel()
	s := tuitest.NewOf(t, tuitest.Config{Width: 80, Height: 24, Now: on(16, 18, 20)}, weekend(t, porkSalted...))
	for _, say := range []string{"Nothing to do until Sat 16:00", "q quits and keeps everything; go on with: kettledrum cook garden.yaml"} {
		if !strings.Contains(s.Frame(), say) {
			t.Errorf("%q is not in:\n%s", say, s.Frame())
		}
	}
	s.Press("q")
	if _, ok := s.Effects[len(s.Effects)-1].(tui.Quit); !ok {
		t.Errorf("asked %q", s.Model.Question())
	}
}

// A time typed for what was due days ago is that day's.
func TestWhenDaysAgo(t *testing.T) {
	t.Parallel()
	for typed, want := range map[string]time.Time{"18:05": on(16, 18, 5), "0:10": on(17, 0, 10), "23:50": on(16, 23, 50)} {
		s := tuitest.NewOf(t, tuitest.Config{Width: 80, Height: 24, Now: on(17, 12, 0)}, weekend(t, doughMade...))
		s.Press("w")
		s.Type(typed)
		s.Press("enter")
		if len(s.Run.Told) != 1 || !s.Run.Told[0].At.Equal(want) {
			t.Errorf("%s: told %+v, want it at %s: %s", typed, s.Run.Told, want, s.Model.Message())
		}
	}
}

// Leaving out a reminder does not skip its step.
func TestReminderLeftOut(t *testing.T) {
	t.Parallel()
	s := tuitest.NewOf(t, tuitest.Config{Width: 80, Height: 24, Now: on(17, 18, 31)}, weekend(t, tartBaking...))
	s.Keys("down x y")
	want(t, "recorded", recorded(s), []string{"record(acknowledged remind:plum-tart/bake:1.1)"})
}
