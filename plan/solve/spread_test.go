package solve_test

import (
	"context"
	"testing"

	"example.org/kettledrum/plan/solve"
)

// Three short activities would all start in the last ten ticks before the meal,
// a long one a good while before: one of the three moves out, and neither the
// meal nor the first start pays for it.
func TestCallsAreSpread(t *testing.T) {
	t.Parallel()
	const meal = 30
	p := &solve.Problem{Horizon: 60, CallSpan: 10}
	p.Resources = []solve.Resource{{Calendar: []solve.Capacity{{Amount: 2}}}}
	for _, long := range []solve.Tick{1, 1, 1, 25} {
		i := len(p.Acts)
		p.Acts = append(p.Acts, solve.Activity{Min: long, Max: long})
		p.Lags = append(p.Lags, solve.Lag{From: solve.EndOf(i), To: solve.StartOf(4)})
		p.Uses = append(p.Uses, solve.Use{From: solve.StartOf(i), To: solve.EndOf(i), Options: []solve.Option{{{Resource: 0, Amount: 1}}}})
		p.Calls = append(p.Calls, solve.Call{At: solve.StartOf(i)})
	}
	p.Acts = append(p.Acts, solve.Activity{Due: true, Earliest: meal})
	p.Lags = append(p.Lags, solve.Lag{From: solve.StartOf(4), To: solve.Origin, Min: -meal, Soft: true, Weight: 1})

	r := solve.Solve(context.Background(), p, solve.Options{Conflicts: 1000, Tries: 50, Seed: 1})
	if r.Cost.Broken != 0 || r.Cost.Soft[0] != 0 || r.Start[3] != 5 {
		t.Fatalf("cost %+v, the long one starts at %d, want 5", r.Cost, r.Start[3])
	}
	if want := int64(1 + 1 + 2*2); r.Cost.Calls != want {
		t.Errorf("calls cost %d, want %d: starts %v", r.Cost.Calls, want, r.Start)
	}
}
