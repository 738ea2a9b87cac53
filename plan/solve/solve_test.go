package solve_test

import (
	"context"
	"fmt"
	"math"
	"reflect"
	"testing"

	"example.org/kettledrum/plan/solve"
	"pgregory.net/rapid"
)

// check recounts an answer tick by tick, with nothing of the engine's.
func check(p *solve.Problem, r *solve.Result) []string {
	var bad []string
	say := func(format string, args ...any) { bad = append(bad, fmt.Sprintf(format, args...)) }
	when := func(q solve.Point) solve.Tick {
		switch {
		case q.Act < 0:
			return 0
		case q.End:
			return r.End[q.Act]
		}
		return r.Start[q.Act]
	}
	for i, a := range p.Acts {
		if d := r.End[i] - r.Start[i]; !a.FixedEnd && (d < a.Min || d > a.Max) {
			say("activity %d lasts %d, not %d to %d", i, d, a.Min, a.Max)
		}
		if !a.Fixed && r.Start[i] < a.Earliest {
			say("activity %d begins at %d, before %d", i, r.Start[i], a.Earliest)
		}
	}
	for k, l := range p.Lags {
		if !l.Soft && when(l.To)-when(l.From) < l.Min {
			say("lag %d: %d − %d < %d", k, when(l.To), when(l.From), l.Min)
		}
	}
	for res := range p.Resources {
		used := map[solve.Tick]int32{}
		for k, u := range p.Uses {
			if r.Choice[k] < 0 {
				say("use %d has no option", k)
				continue
			}
			for _, d := range u.Options[r.Choice[k]] {
				for t := when(u.From) + u.FromPlus; d.Resource == res && t < when(u.To)+u.ToPlus; t++ {
					used[t] += d.Amount
				}
			}
		}
		for k, s := range p.Stays {
			for t := r.Start[s.Act]; p.SpaceOf[r.StateOf[k]] == res && t < r.End[s.Act]; t++ {
				used[t] += s.Space
			}
		}
		for _, s := range r.Settings {
			if s.Choice < 0 {
				say("setting for stay %d has no option", s.Stay)
				continue
			}
			for _, d := range p.States[s.State].Setting[s.Choice] {
				if d.Resource == res {
					used[s.Tick] += d.Amount
				}
			}
		}
		for t, n := range used {
			var capacity int32
			for _, c := range p.Resources[res].Calendar {
				if c.From <= t {
					capacity = c.Amount
				}
			}
			if n > capacity {
				say("resource %d holds %d of %d at %d", res, n, capacity, t)
			}
		}
	}
	for a, x := range p.Stays {
		for b, y := range p.Stays {
			if a == b || r.StateOf[a] != r.StateOf[b] || y.Continues == a || x.Continues == b {
				continue
			}
			if r.Start[x.Act] < r.End[y.Act] && r.Start[y.Act] < r.End[x.Act] {
				if max(x.Lo, y.Lo) > min(x.Hi, y.Hi) {
					say("stays %d and %d share a state at unlike values", a, b)
				}
				continue
			}
			gap := 0.0
			switch drift := p.States[r.StateOf[a]].Drift; {
			case x.Hi < y.Lo:
				gap = drift(x.Hi, y.Lo)
			case y.Hi < x.Lo:
				gap = drift(x.Lo, y.Hi)
			}
			if r.End[x.Act] <= r.Start[y.Act] && float64(r.Start[y.Act]-r.End[x.Act]) < gap-1e-9 {
				say("stay %d follows %d without the changeover of %g", b, a, gap)
			}
		}
	}
	return bad
}

// drawProblem draws a problem that has a timetable: everything can be done one
// after the other before the milestone, if that is late enough.
func drawProblem(t *rapid.T) *solve.Problem {
	n := rapid.IntRange(1, 12).Draw(t, "n")
	p := &solve.Problem{Horizon: 2000}
	for range 3 {
		p.Resources = append(p.Resources, solve.Resource{Calendar: []solve.Capacity{
			{Amount: 0}, {From: 100, Amount: int32(rapid.IntRange(1, 3).Draw(t, "capacity"))},
		}})
	}
	p.Resources = append(p.Resources, solve.Resource{Calendar: []solve.Capacity{{Amount: 2}}})
	drift := func(from, to float64) float64 { return math.Abs(to-from) / 7 }
	p.States = []solve.State{{Drift: drift, Rest: 20, Initial: 20, Idle: 60, Setting: []solve.Option{{{Resource: 0, Amount: 1}}}}}
	p.SpaceOf = []int{3}
	for i := range n {
		d := solve.Tick(rapid.IntRange(1, 40).Draw(t, "length"))
		a := solve.Activity{Min: d, Max: d, Earliest: 100}
		if rapid.IntRange(0, 4).Draw(t, "elastic") == 0 {
			a.Max = d + solve.Tick(rapid.IntRange(0, 40).Draw(t, "stretch"))
		}
		p.Acts = append(p.Acts, a)
		if rapid.Bool().Draw(t, "uses") {
			opts := []solve.Option{{{Resource: rapid.IntRange(0, 2).Draw(t, "resource"), Amount: 1}}}
			if rapid.Bool().Draw(t, "or") {
				opts = append(opts, solve.Option{{Resource: rapid.IntRange(0, 2).Draw(t, "other"), Amount: 1}})
			}
			p.Uses = append(p.Uses, solve.Use{From: solve.StartOf(i), To: solve.EndOf(i), Options: opts})
		}
		if rapid.IntRange(0, 3).Draw(t, "stay") == 0 {
			lo := float64(rapid.IntRange(10, 25).Draw(t, "value") * 10)
			p.Stays = append(p.Stays, solve.Stay{Act: i, States: []int{0}, Lo: lo, Hi: lo + 10, Goal: lo + 5, Space: int32(rapid.IntRange(1, 2).Draw(t, "space")), Continues: -1})
		}
		if i > 0 && rapid.Bool().Draw(t, "after") {
			j := rapid.IntRange(0, i-1).Draw(t, "before")
			p.Lags = append(p.Lags, solve.Lag{From: solve.EndOf(j), To: solve.StartOf(i), Min: solve.Tick(rapid.IntRange(0, 5).Draw(t, "gap"))})
			p.Lags = append(p.Lags, solve.Lag{From: solve.StartOf(i), To: solve.EndOf(j), Min: -20, Soft: true, Weight: 1})
		}
	}
	due := len(p.Acts)
	p.Acts = append(p.Acts, solve.Activity{Due: true, Earliest: 300})
	for i := range n {
		p.Lags = append(p.Lags, solve.Lag{From: solve.EndOf(i), To: solve.StartOf(due)})
	}
	p.Lags = append(p.Lags, solve.Lag{From: solve.StartOf(due), To: solve.Origin, Min: -300, Soft: true, Weight: 1})
	return p
}

// Whatever the engine calls feasible is: every lag, resource and state holds.
// There is room for all one after the other, so it must find something.
func TestSolveAnswersHold(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		r := solve.Solve(context.Background(), p, solve.Options{Tries: 60, Seed: 3, Conflicts: 5000})
		if r.Status != solve.Feasible && r.Status != solve.Optimal {
			t.Fatalf("no timetable found for a problem that has one: status %d, cost %+v", r.Status, r.Cost)
		}
		if bad := check(p, r); len(bad) > 0 {
			t.Fatalf("called feasible, but %q", bad)
		}
	})
}

// The same problem always gives the same answer.
func TestSolveIsDeterministic(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		opt := solve.Options{Tries: 40, Seed: 3, Conflicts: 5000}
		a := solve.Solve(context.Background(), p, opt)
		b := solve.Solve(context.Background(), p, opt)
		if !reflect.DeepEqual(a, b) {
			t.Fatalf("two answers: %+v and %+v", a.Cost, b.Cost)
		}
	})
}

// What is impossible for want of a resource alone, without a lag to give up, is the
// least broken, and no panic.
func TestBrokenWithoutLags(t *testing.T) {
	t.Parallel()
	p := &solve.Problem{Horizon: 12, Resources: []solve.Resource{{Calendar: []solve.Capacity{{Amount: 1}}}}}
	for i := range 2 {
		p.Acts = append(p.Acts, solve.Activity{Min: 10, Max: 10})
		p.Uses = append(p.Uses, solve.Use{From: solve.StartOf(i), To: solve.EndOf(i), Options: []solve.Option{{{Resource: 0, Amount: 1}}}})
	}
	p.Acts = append(p.Acts, solve.Activity{Due: true})
	if r := solve.Solve(t.Context(), p, solve.Options{Conflicts: 100, Tries: 200, Seed: 1}); !r.Impossible {
		t.Errorf("cost %+v, not proven to be impossible", r.Cost)
	}
}

// An answer that is worse than what is proven is made better at the levels before the
// last as well, though the model goes on from that very answer.
func TestWorkable(t *testing.T) {
	t.Parallel()
	as := 0
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		best := solve.Solve(context.Background(), p, solve.Options{Conflicts: 2000, Tries: 20})
		first, _ := solve.Around(p, 1, 5)
		if best.Status != solve.Optimal || first.Cost.Broken > 0 || len(best.Bounds) < 2 || first.Cost.Soft[0] == best.Cost.Soft[0] {
			return
		}
		if r := solve.Workable(p, first, best.Bounds); r.Cost.Soft[0] < best.Cost.Soft[0] || first.Cost.Less(r.Cost) {
			t.Fatalf("%+v became %+v, the best is %+v", first.Cost, r.Cost, best.Cost)
		} else if r.Cost.Soft[0] == best.Cost.Soft[0] {
			as++
		}
	})
	if as == 0 {
		t.Error("nothing was made as good as it can be")
	}
}
