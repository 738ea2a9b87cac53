package remedy

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
)

// Of any remedies the ones that are offered are beaten by none, whatever is not is
// beaten or ranked below, and the order in which they were tried changes nothing
// that counts.
func TestRank(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		var all []tried
		for range rapid.IntRange(0, 12).Draw(t, "n") {
			r := Remedy{Gains: rapid.IntRange(Worth, 12).Draw(t, "gain"), Costs: rapid.IntRange(0, 12).Draw(t, "price")}
			if r.Costs > Dear*r.Gains && len(rank([]tried{{Remedy: r}})) > 0 {
				t.Errorf("%d/%d is dear", r.Gains, r.Costs)
			}
			if r.Costs > Dear*r.Gains {
				continue
			}
			all = append(all, tried{Remedy: r, candidate: candidate{kind: rapid.SampledFrom(order).Draw(t, "kind")}})
		}
		out := rank(all)
		if len(out) > Most-1 {
			t.Fatalf("%d offered", len(out))
		}
		net := func(r tried) int { return r.Gains - r.Costs }
		for i, a := range out {
			for j, b := range all {
				if b.Gains >= a.Gains && b.Costs <= a.Costs && (b.Gains > a.Gains || b.Costs < a.Costs) {
					t.Errorf("%d/%d is beaten by %d/%d, number %d", a.Gains, a.Costs, b.Gains, b.Costs, j)
				}
			}
			if i > 0 && net(out[i-1]) < net(a) {
				t.Errorf("%d gains %d, after %d", i, net(a), net(out[i-1]))
			}
		}
		for _, b := range all {
			held := slices.ContainsFunc(out, func(a tried) bool { return a.Gains >= b.Gains && a.Costs <= b.Costs })
			if !held && (len(out) < Most-1 || net(b) > net(out[len(out)-1])) {
				t.Errorf("%d/%d is left out of %d", b.Gains, b.Costs, len(out))
			}
		}
		back := slices.Clone(all)
		slices.Reverse(back)
		for i, r := range rank(back) {
			if r.Gains != out[i].Gains || r.Costs != out[i].Costs || r.candidate.kind != out[i].candidate.kind {
				t.Errorf("tried backwards, number %d is another", i)
			}
		}
	})
}

// kitchen is a dinner with one of everything that may be given up, and of everything
// that looks like it and may not.
func kitchen() *plantest.Builder {
	b := plantest.New("2026-10-17 19:00")
	ines := b.Cook("Ines", "15:00-23:00")
	b.Sits(ines)
	b.Cook("Tomas", "15:00-23:00")
	b.Oven("small oven")
	pot, casserole := b.Tool("pot", 1), b.Tool("casserole", 1)
	starter, main := b.Course("Starter", 0, 25*time.Minute, 10*time.Minute), b.Course("Main", 45*time.Minute, 20*time.Minute, 10*time.Minute)
	long := plantest.Takes(60)
	long.Shortest = 40 * time.Minute
	ranged := func(_ *plantest.Builder, s *plan.Step) { s.Oven.Lo, s.Oven.Hi = 170, 190 }
	optional := func(_ *plantest.Builder, s *plan.Step) { s.Optional = true }
	b.Dish("Soup", starter)
	b.Step("Boil", plantest.Takes(20), plantest.Burner(plan.Large), plantest.Vessel(pot), plantest.Keeps(10, 20))
	b.Step("Stand", plantest.Waits(5, 10))
	b.Step("Ladle", plantest.Takes(10), plantest.Vessel(pot), plantest.Limit(10))
	b.Dish("Roast", main)
	b.Step("Season", plantest.Takes(12), plantest.By(ines), plantest.Chilled(24, "fridge", 1))
	b.Step("Bake", long, plantest.Oven(180, 2), plantest.In(0), ranged, plantest.Warm(20, 0, 60, 90, 2))
	b.Step("Grate", plantest.Takes(5), optional, plantest.Keeps(20, 20))
	b.Dish("Beans", main)
	b.Step("Stew", plantest.Takes(30), plantest.Burner(plan.Small), plantest.Vessel(casserole), plantest.Keeps(5, 15))
	b.Step("Rest", plantest.Takes(5), plantest.Keeps(90, 300)) // two hours are enough
	b.Step("Sort", plantest.Takes(5), plantest.Keeps(180, 300))
	b.Dish("Salad", main)
	b.Step("Toss", plantest.Takes(8), plantest.Keeps(30, 60))
	b.Plan.Dishes[3].Optional = true
	return b
}

// Everything is tried that may be given up, and nothing else: no limit, no keep in a
// fridge or an oven, no liking that is at its limit, no wait, no single temperature.
func TestCandidates(t *testing.T) {
	t.Parallel()
	b := kitchen()
	p := &b.Plan
	as := &plan.Timetable{Serves: []time.Time{p.Asked(0), p.Asked(1)}}
	for range p.Steps {
		as.Slots = append(as.Slots, plan.Slot{Start: b.At("18:00"), End: b.At("18:10"), Cook: -1, Oven: -1})
	}
	st, err := run.Fold(p, []run.Event{{Kind: run.Adopted, At: b.At("16:00"), Timetable: as}})
	if err != nil {
		t.Fatal(err)
	}
	q := Question{State: st, Now: b.At("17:00"), AsItIs: as}
	q.settle()
	var got []string
	for _, c := range q.candidates() {
		line := string(c.kind)
		for _, x := range c.changes {
			line += " " + x.Step + x.Dish + x.Course + " " + x.Cook + x.Oven + x.Tool
			if x.By > 0 {
				line += plan.Spell(x.By)
			}
			if _, err := st.Apply(run.Event{Kind: run.RemedyTaken, Text: "try", Changes: []plan.Change{x}, At: q.Now}); err != nil {
				t.Errorf("%s: %v", line, err)
			}
		}
		got = append(got, line)
	}
	slices.Sort(got)
	// At 180 °C to 95 °C inside ln(160/85) = 0.6325, at 190 °C ln(170/95) = 0.5819: of 60
	// minutes 55.2 are left, so four whole ones are won.
	want := []string{
		"cook roast/season Tomas",
		"drop roast/grate ",
		"drop_dish salad ",
		"hotter roast/bake 4 min",
		"later", "later", // all courses, and the next alone
		"leave Main 10 min", "leave Main 20 min", "leave Starter 10 min", "leave Starter 25 min",
		"place beans/stew pot", "place roast/bake small oven", "place soup/boil 20 min", "place soup/boil casserole",
		"wait beans/rest 30 min", "wait beans/stew 10 min", "wait salad/toss 30 min", "wait soup/boil 10 min",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got  %q\nwant %q", got, want)
	}
}

// A limit counts from its first whole minute on, everything else from the second.
func TestCounts(t *testing.T) {
	t.Parallel()
	b := kitchen()
	p, ladle := &b.Plan, b.Plan.StepIndex("soup/ladle")
	for _, tt := range []struct {
		name  string
		kind  plan.BreakKind
		waits time.Duration // of what keeps for ten minutes
		want  bool
	}{
		{"seconds-over", plan.BreakKeep, 10*time.Minute + 30*time.Second, false},
		{"a-minute-over", plan.BreakKeep, 11 * time.Minute, true},
		{"a-minute-of-a-cook", plan.BreakHands, 0, false},
		{"a-touch", plan.BreakTouch, 0, false},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			table := &plan.Timetable{Slots: make([]plan.Slot, len(p.Steps)), Serves: []time.Time{p.Asked(0), p.Asked(1)}}
			table.Slots[ladle].End = p.Asked(0).Add(-tt.waits)
			q := &Question{State: &run.State{Plan: p}}
			if got := q.counts(p, table, plan.Break{Kind: tt.kind, Step: ladle, Minutes: 1}); got != tt.want {
				t.Errorf("counts %v, want %v", got, tt.want)
			}
		})
	}
}
