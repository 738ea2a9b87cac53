package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/planner"
)

// What stands in the usage and in sizesOf's comment.
func TestSizes(t *testing.T) {
	t.Parallel()
	for steps, want := range map[int]sizes{
		1:    {dishes: 1, cooks: 2, ovens: 1, burners: 4, courses: 1},
		60:   {dishes: 10, cooks: 2, ovens: 1, burners: 4, courses: 3},
		200:  {dishes: 34, cooks: 3, ovens: 2, burners: 6, courses: 4},
		1000: {dishes: 167, cooks: 15, ovens: 11, burners: 24, courses: 6},
	} {
		if got := sizesOf(steps); got != want {
			t.Errorf("%d steps: %+v, want %+v", steps, got, want)
		}
	}
}

// Every kitchen is a plan file without a mistake, of as many steps as asked
// for, with what a kitchen of that size has.
func TestKitchensArePlans(t *testing.T) {
	t.Parallel()
	for _, steps := range []int{1, 6, 13, 60, 200, 1000} {
		for tight := range tightness {
			t.Run(fmt.Sprintf("%d-%d", steps, tight), func(t *testing.T) {
				t.Parallel()
				for seed := uint64(1); seed <= 5; seed++ {
					text := dinner(steps, tight, seed)
					p, problems := planfile.Decode(text, planfile.Options{Local: time.UTC, Now: time.Date(2026, 10, 1, 12, 0, 0, 0, time.UTC)})
					if len(problems) > 0 {
						t.Fatalf("seed %d: %v\n%s", seed, problems, text)
					}
					size := sizesOf(steps)
					if len(p.Steps) != steps || len(p.Dishes) != size.dishes || len(p.Courses) != size.courses ||
						len(p.Kitchen.Cooks) != size.cooks || len(p.Kitchen.Ovens) != size.ovens ||
						p.Kitchen.Burners.Large+p.Kitchen.Burners.Small != size.burners {
						t.Errorf("seed %d: %d steps, %d dishes, %d courses, %d cooks, %d ovens, want %d and %+v", seed,
							len(p.Steps), len(p.Dishes), len(p.Courses), len(p.Kitchen.Cooks), len(p.Kitchen.Ovens), steps, size)
					}
				}
			})
		}
	}
}

// Kitchens of sixty steps have, between them, all the usual kinds of step.
func TestKitchensHaveEveryKind(t *testing.T) {
	t.Parallel()
	has := map[string]bool{}
	for seed := range uint64(10) {
		p, err := kitchenPlan(60, 1, seed)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range p.Steps {
			has["work"] = has["work"] || s.Hands == plan.Busy && s.Burner == nil
			has["tied"] = has["tied"] || s.Hands == plan.Tied
			has["simmer near"] = has["simmer near"] || s.Burner != nil && s.Hands == plan.Near
			has["simmer free"] = has["simmer free"] || s.Burner != nil && s.Hands == plan.Free
			has["bake in a range"] = has["bake in a range"] || s.Oven != nil && s.Oven.Hi-s.Oven.Lo >= 10
			has["rest at once, with a longest"] = has["rest at once, with a longest"] || s.Length.Elastic && s.AtOnce && s.Length.Longest < plan.Forever
			has["chill"] = has["chill"] || s.Cold == "fridge"
			has["hot with a keep"] = has["hot with a keep"] || s.Oven != nil && s.Keeps.Kind == plan.Liking
			has["branches that join"] = has["branches that join"] || len(s.After) > 1
			has["vessel"] = has["vessel"] || s.Vessel != nil
			has["reminder"] = has["reminder"] || len(s.Reminds) > 0
		}
	}
	if len(has) != 11 {
		t.Fatalf("%d kinds", len(has))
	}
	for kind, ok := range has {
		if !ok {
			t.Errorf("no %s", kind)
		}
	}
}

// The same arguments make the same kitchen, another seed another one.
func TestKitchensAreSeeded(t *testing.T) {
	t.Parallel()
	if a, b := dinner(60, 1, 7), dinner(60, 1, 7); !bytes.Equal(a, b) {
		t.Errorf("two of the same:\n%s\n%s", a, b)
	}
	dishes := func(seed uint64) string {
		_, after, _ := strings.Cut(string(dinner(60, 1, seed)), "dishes:")
		return after
	}
	if dishes(7) == dishes(8) {
		t.Error("seeds 7 and 8 make the same dishes")
	}
}

// The cooks of a tighter kitchen have less time for the same kind of dinner.
func TestTightIsTighter(t *testing.T) {
	t.Parallel()
	var hours [3]time.Duration
	for tight := range tightness {
		for seed := range uint64(20) {
			p, err := kitchenPlan(60, tight, seed)
			if err != nil {
				t.Fatal(err)
			}
			hours[tight] += p.Table.Sub(p.Kitchen.Cooks[0].Free[0].From)
		}
	}
	if hours[0] <= hours[1] || hours[1] <= hours[2] {
		t.Errorf("hours before the table, of twenty kitchens each: %v", hours)
	}
}

// A delayed run has the past as the timetable says, and one step under way that
// takes a quarter of an hour longer.
func TestDelayed(t *testing.T) {
	t.Parallel()
	for seed := range uint64(6) {
		p, err := kitchenPlan(18, 0, seed)
		if err != nil {
			t.Fatal(err)
		}
		tt := planner.Make(context.Background(), p)
		s, now, err := delayed(p, tt, seed)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		longer := 0
		for i, st := range s.Steps {
			slot := tt.Slots[i]
			switch {
			case st.Extra > 0:
				longer++
				if st.Status != plan.Begun || st.Extra != delay || !slot.End.Equal(now.Add(time.Minute)) {
					t.Errorf("seed %d: %s is %v, longer by %v, was to end at %v, it is %v", seed, p.Steps[i].ID, st.Status, st.Extra, slot.End, now)
				}
			case !slot.End.After(now) && (st.Status != plan.Done || !st.Started.Equal(slot.Start) || !st.Finished.Equal(slot.End)):
				t.Errorf("seed %d: %s is %v from %v to %v, planned %v to %v, it is %v", seed, p.Steps[i].ID, st.Status, st.Started, st.Finished, slot.Start, slot.End, now)
			case slot.Start.After(now) && st.Status != plan.Ahead:
				t.Errorf("seed %d: %s is %v before its start", seed, p.Steps[i].ID, st.Status)
			}
		}
		if longer != 1 {
			t.Errorf("seed %d: %d steps run long, want one", seed, longer)
		}
	}
}

// The real command: a line each, with what the planner tells and no more.
func TestKitchens(t *testing.T) {
	t.Parallel()
	var out, log strings.Builder
	if code := execute(strings.Fields("-kitchen -steps 12 -n 3 -seed 7 -limit 1m -json"), time.Now, &out, &log); code != exitFine {
		t.Fatalf("exit code %d: %s", code, log.String())
	}
	var seeds []uint64
	for l := range strings.Lines(out.String()) {
		d := json.NewDecoder(strings.NewReader(l))
		d.DisallowUnknownFields()
		var r kitchenRow
		if err := d.Decode(&r); err != nil {
			t.Fatalf("%v in %s", err, l)
		}
		seeds = append(seeds, r.Seed)
		if r.Steps != 12 || r.Tight != int(r.Seed%3) || r.Status == "" || r.MsPlan <= 0 || r.MsReplan == nil || r.MBHeap <= 0 || r.MBAlloc <= 0 {
			t.Errorf("row %s", l)
		}
	}
	if fmt.Sprint(seeds) != "[7 8 9]" {
		t.Errorf("seeds %v, want 7, 8 and 9", seeds)
	}
	if want := "3 kitchens of 12 steps: "; !strings.HasPrefix(log.String(), want) {
		t.Errorf("summary %q, want %q first", log.String(), want)
	}
}

// A kitchen that is printed is the one that is planned.
func TestPrint(t *testing.T) {
	t.Parallel()
	var out, log strings.Builder
	if code := execute(strings.Fields("-kitchen -steps 12 -n 1 -seed 9 -tight 2 -print"), time.Now, &out, &log); code != exitFine {
		t.Fatalf("exit code %d: %s", code, log.String())
	}
	if want := string(dinner(12, 2, 9)); out.String() != want || log.Len() > 0 {
		t.Errorf("printed:\n%s\nsaid: %s", out.String(), log.String())
	}
}
