package solve_test

import (
	"context"
	"reflect"
	"runtime"
	"slices"
	"testing"

	"example.org/kettledrum/plan/solve"
	"pgregory.net/rapid"
)

// The same problem has the same answer in ten runs, on one processor and on two.
// Not parallel: it sets how many processors there are.
func TestSolveIsDeterministicOnAnyProcessors(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		opt := solve.Options{Tries: 40, Seed: 3, Conflicts: 500}
		var first *solve.Result
		for run := range 10 {
			runtime.GOMAXPROCS(1 + run%2)
			r := solve.Solve(context.Background(), p, opt)
			if first == nil {
				first = r
			} else if !reflect.DeepEqual(first, r) {
				t.Fatalf("run %d answers %+v, the first %+v", run+1, r.Cost, first.Cost)
			}
		}
	})
}

// reordered returns the problem with its activities, lags, uses and stays in
// another order.
func reordered(p *solve.Problem, acts, lags, uses, stays []int) *solve.Problem {
	place := make([]int, len(acts)) // of each activity, its new index
	for to, from := range acts {
		place[from] = to
	}
	point := func(q solve.Point) solve.Point {
		if q.Act >= 0 {
			q.Act = place[q.Act]
		}
		return q
	}
	q := *p
	q.Acts, q.Lags, q.Uses, q.Stays = nil, nil, nil, nil
	for _, i := range acts {
		q.Acts = append(q.Acts, p.Acts[i])
	}
	for _, i := range lags {
		l := p.Lags[i]
		l.From, l.To = point(l.From), point(l.To)
		q.Lags = append(q.Lags, l)
	}
	for _, i := range uses {
		u := p.Uses[i]
		u.From, u.To = point(u.From), point(u.To)
		q.Uses = append(q.Uses, u)
	}
	for _, i := range stays {
		s := p.Stays[i]
		s.Act = place[s.Act]
		if s.Continues >= 0 {
			s.Continues = slices.Index(stays, s.Continues)
		}
		q.Stays = append(q.Stays, s)
	}
	return &q
}

// In which order a problem names what it has does not change how good its best
// answer is.
func TestOrderOfActivities(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		order := func(n int, of string) []int {
			all := make([]int, n)
			for i := range all {
				all[i] = i
			}
			return rapid.Permutation(all).Draw(t, of)
		}
		q := reordered(p, order(len(p.Acts), "acts"), order(len(p.Lags), "lags"), order(len(p.Uses), "uses"), order(len(p.Stays), "stays"))
		opt := solve.Options{Tries: 60, Seed: 3, Conflicts: 5000}
		a, b := solve.Solve(context.Background(), p, opt), solve.Solve(context.Background(), q, opt)
		if a.Status == solve.Optimal && b.Status == solve.Optimal && !slices.Equal(a.Values, b.Values) {
			t.Fatalf("both proven best, one %v, the other %v", a.Values, b.Values)
		}
		// Nor is any answer better than one that is proven best in another order.
		x, y := a.Cost, b.Cost
		x.Early, y.Early = 0, 0
		if a.Status == solve.Optimal && y.Less(x) || b.Status == solve.Optimal && x.Less(y) {
			t.Fatalf("status %d: %+v; in another order status %d: %+v", a.Status, a.Cost, b.Status, b.Cost)
		}
	})
}
