package run_test

import (
	"fmt"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
)

// forty is a run of 40 steps in eight dishes, two cooks, all burners and the
// oven in turn, half of them done.
func forty(b *testing.B) (*run.State, time.Time) {
	b.Helper()
	d := &dinner{Builder: plantest.New("2026-10-17 19:00")}
	d.Cook("Ines", "00:00-23:59")
	d.Cook("Tomas", "00:00-23:59")
	d.Tool("board", 1)
	d.Course("Main", 0, 40*time.Minute, 20*time.Minute)
	d.Course("Sweet", time.Hour, 40*time.Minute, 20*time.Minute)
	for k := range 8 {
		d.Dish(fmt.Sprintf("Dish %d", k), k%2)
		at := d.At("12:00").Add(time.Duration(k) * 40 * time.Minute)
		next := func(minutes int, s plan.Slot) {
			s.Start, s.End = at, at.Add(time.Duration(minutes)*time.Minute)
			at = s.End
			d.t.Slots = append(d.t.Slots, s)
		}
		none := plan.Slot{Cook: -1, Oven: -1}
		d.Step("Cut", plantest.Takes(10), plantest.Uses(0))
		next(10, plan.Slot{Cook: k % 2, Oven: -1})
		d.Step("Boil", plantest.Takes(10), plantest.Burner(plan.Large))
		next(10, plan.Slot{Cook: -1, Oven: -1, Burner: plan.Large})
		i := d.Step("Bake", plantest.Takes(20), plantest.Oven(180, 4))
		d.t.Sets = append(d.t.Sets, plan.OvenSet{At: at.Add(-10 * time.Minute), To: 180, For: i, Ready: at})
		next(20, plan.Slot{Cook: -1, Oven: 0})
		d.Step("Rest", plantest.Waits(10, -1), plantest.AtOnce)
		next(10, none)
		d.Step("Plate", plantest.Takes(5))
		next(5, plan.Slot{Cook: k % 2, Oven: -1})
	}
	d.serves()
	st := d.adopted(b)
	for i, slot := range d.t.Slots {
		if slot.End.Before(d.At("15:00")) {
			next, err := st.Apply(run.Event{Kind: run.Finished, Step: d.Plan.Steps[i].ID, At: slot.End})
			if err != nil {
				b.Fatal(err)
			}
			st = next
		}
	}
	return st, d.At("15:01:30")
}

func BenchmarkProject(b *testing.B) {
	st, now := forty(b)
	b.ReportAllocs()
	for b.Loop() {
		run.Project(st, now)
	}
}

func BenchmarkConduct(b *testing.B) {
	st, now := forty(b)
	b.ReportAllocs()
	for b.Loop() {
		run.Conduct(st, now)
	}
}

func BenchmarkApply(b *testing.B) {
	st, now := forty(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := st.Apply(run.Event{Kind: run.TimerSet, At: now, By: time.Minute}); err != nil {
			b.Fatal(err)
		}
	}
}
