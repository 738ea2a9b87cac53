package solve_test

import (
	"context"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.org/kettledrum/plan/solve"
	"pgregory.net/rapid"
)

// What the neighbourhoods make of an answer holds, is no worse, and is the same
// each time.
func TestNeighbourhoods(t *testing.T) {
	t.Parallel()
	better := 0
	rapid.Check(t, func(t *rapid.T) {
		p, size := drawProblem(t), rapid.IntRange(1, 8).Draw(t, "size")
		first, last := solve.Around(p, size, 5)
		if first.Cost.Less(last.Cost) {
			t.Fatalf("%+v became %+v", first.Cost, last.Cost)
		}
		if last.Cost.Less(first.Cost) {
			better++
		}
		if bad := check(p, last); last.Cost.Broken == 0 && len(bad) > 0 {
			t.Fatalf("called whole, but %q", bad)
		}
		if _, again := solve.Around(p, size, 5); !reflect.DeepEqual(last, again) {
			t.Fatalf("two answers: %+v and %+v", last.Cost, again.Cost)
		}
	})
	if better == 0 {
		t.Error("nothing was made better")
	}
}

// Where everything of a large problem has happened and something of it is broken, there
// is nothing to let go.
func TestNothingToLetGo(t *testing.T) {
	t.Parallel()
	drift := func(from, to float64) float64 { return math.Abs(to - from) }
	p := &solve.Problem{Horizon: 2000, Now: 500, SpaceOf: []int{0},
		Resources: []solve.Resource{{Calendar: []solve.Capacity{{Amount: 1}}}, {Calendar: []solve.Capacity{{Amount: 0}}}},
		States:    []solve.State{{Drift: drift, Idle: 10, Setting: []solve.Option{{{Resource: 1, Amount: 1}}}}}, // nobody to set it
	}
	for i := range solve.Tick(400) {
		p.Acts = append(p.Acts, solve.Activity{Min: 1, Max: 1, Fixed: true, FixedEnd: true, Start: 2 * i, End: 2*i + 1})
	}
	p.Lags = []solve.Lag{{From: solve.EndOf(398), To: solve.StartOf(399)}}
	p.Stays = []solve.Stay{{Act: 399, States: []int{0}, Lo: 100, Hi: 110, Goal: 105, Space: 1, Continues: -1}}
	if r := solve.Solve(context.Background(), p, solve.Options{Conflicts: 1000, Tries: 10}); r.Cost.Broken == 0 {
		t.Errorf("status %d, cost %+v: want a setting that nobody makes", r.Status, r.Cost)
	}
}

// A region has the answer that it was made of. Any answer of it is one of the
// whole, and differs in what it costs by what it costs in the region. Of settings,
// which resource 0 is for, the model knows less: where something that needs a state
// moves only what the other resources hold is sure.
func TestRegion(t *testing.T) {
	t.Parallel()
	looked := 0
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		r := solve.Solve(context.Background(), p, solve.Options{Tries: 60, Seed: 3, Conflicts: 200})
		if r.Cost.Broken > 0 {
			return // nothing whole was found
		}
		looked++
		free, wish := make([]bool, len(p.Acts)), make([]solve.Tick, len(p.Acts))
		for i := range free {
			free[i] = rapid.Bool().Draw(t, "free")
			wish[i] = r.Start[rapid.IntRange(0, len(free)-1).Draw(t, "wish")] // where something is
		}
		if same, _, _ := solve.Region(p, r, free, nil); same == nil {
			t.Fatal("the region lacks the answer that it was made of")
		}
		other, was, is := solve.Region(p, r, free, wish)
		if other == nil {
			t.Fatal("the region has no answer")
		}
		for i := range free {
			if !free[i] && (other.Start[i] != r.Start[i] || other.End[i] != r.End[i]) {
				t.Fatalf("activity %d moved", i)
			}
		}
		if got, want := other.Cost.Soft[0]-r.Cost.Soft[0], is.Soft[0]-was.Soft[0]; got != want {
			t.Fatalf("costs %d more, in the region %d", got, want)
		}
		sure := !slices.ContainsFunc(p.Stays, func(s solve.Stay) bool { return free[s.Act] })
		for _, bad := range check(p, other) {
			if sure || strings.HasPrefix(bad, "resource ") && !strings.HasPrefix(bad, "resource 0 ") {
				t.Fatal(bad)
			}
		}
	})
	if looked == 0 {
		t.Error("no problem had a whole answer to look at")
	}
}

// From an earlier answer to a large problem that leaves something to begin before it can
// the neighbourhoods begin further out, where nothing does.
func TestFarOutFirst(t *testing.T) {
	t.Parallel()
	const facts, now, back = 400, 1000, 1240
	p := &solve.Problem{Horizon: 2000, Now: now, Resources: []solve.Resource{
		{Calendar: []solve.Capacity{{Amount: 1}, {From: now}, {From: back, Amount: 1}}}, // nobody there until then
	}}
	from := &solve.Answer{}
	add := func(a solve.Activity, end solve.Tick) int {
		p.Acts = append(p.Acts, a)
		from.Start, from.End = append(from.Start, end-a.Min), append(from.End, end)
		return len(p.Acts) - 1
	}
	for i := range solve.Tick(facts) {
		add(solve.Activity{Min: 1, Max: 1, Fixed: true, FixedEnd: true, Start: 2 * i, End: 2*i + 1}, 2*i+1)
	}
	due := add(solve.Activity{Due: true, Earliest: now}, now+60)
	p.Lags = append(p.Lags, solve.Lag{From: solve.StartOf(due), To: solve.Origin, Min: -now, Soft: true, Weight: 1})
	for k := range solve.Tick(2) {
		i := add(solve.Activity{Min: 10, Max: 10, Earliest: now}, now+60-10*k)
		p.Lags = append(p.Lags,
			solve.Lag{From: solve.EndOf(i), To: solve.StartOf(due)},
			solve.Lag{From: solve.StartOf(due), To: solve.EndOf(i), Min: -5, Relaxable: true, Weight: 1})
		p.Uses = append(p.Uses, solve.Use{From: solve.StartOf(i), To: solve.EndOf(i), Options: []solve.Option{{{Amount: 1}}}})
		from.Choice = append(from.Choice, 0)
	}
	var first *solve.Result
	solve.Solve(context.Background(), p, solve.Options{Conflicts: 1000, Tries: 10, From: from, Found: func(r *solve.Result) {
		if first == nil {
			first = r
		}
	}})
	for i, a := range p.Acts {
		if !a.Fixed && first.Start[i] < now {
			t.Errorf("activity %d begins at %d, before %d", i, first.Start[i], now)
		}
	}
}
