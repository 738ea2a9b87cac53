package network_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.org/kettledrum/plan/network"
)

// random draws a network of up to nine points, with weights of both signs, and
// bounds of which some are missing.
func random(t *rapid.T) (n *network.Network, bounds []int64) {
	points := rapid.IntRange(1, 9).Draw(t, "points")
	n = network.New(points)
	at := rapid.IntRange(0, points-1)
	for range rapid.IntRange(0, 3*points).Draw(t, "arcs") {
		n.AddArc(at.Draw(t, "from"), at.Draw(t, "to"), rapid.Int64Range(-12, 6).Draw(t, "weight"), n.Points())
	}
	for range points {
		b := network.NoLower
		if rapid.IntRange(0, 3).Draw(t, "bounded") > 0 {
			b = rapid.Int64Range(-20, 20).Draw(t, "bound")
		}
		bounds = append(bounds, b)
	}
	return n, bounds
}

// bellmanFord is the plain way: all arcs, as often as there are points. It
// returns false where it has not come to rest by then.
func bellmanFord(n *network.Network, lower []int64) ([]int64, bool) {
	x := slices.Clone(lower)
	for range n.Points() + 1 {
		rest := true
		for _, a := range n.Arcs() {
			if x[a.From] != network.NoLower && x[a.From]+a.Weight > x[a.To] {
				x[a.To], rest = x[a.From]+a.Weight, false
			}
		}
		if rest {
			return x, true
		}
	}
	return nil, false
}

// mustBeCycle fails the test unless err is a closed cycle of positive length
// out of the network's own arcs.
func mustBeCycle(t *rapid.T, n *network.Network, err error) {
	t.Helper()
	var cycle *network.CycleError
	if !errors.As(err, &cycle) {
		t.Fatalf("got %v, want a cycle", err)
	}
	if cycle.Excess() <= 0 {
		t.Fatalf("cycle %v of length %d, want more than 0", cycle.Arcs, cycle.Excess())
	}
	for i, a := range cycle.Arcs {
		if next := cycle.Arcs[(i+1)%len(cycle.Arcs)]; a.To != next.From {
			t.Fatalf("cycle %v breaks off after %v", cycle.Arcs, a)
		}
		if !slices.Contains(n.Arcs(), a) {
			t.Fatalf("arc %v of the cycle is not in the network", a)
		}
	}
}

func TestEarliestAgainstBellmanFord(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		n, lower := random(t)
		want, ok := bellmanFord(n, lower)
		got, err := n.Earliest(lower)
		switch {
		case !ok:
			mustBeCycle(t, n, err)
		case err != nil:
			t.Fatalf("got %v, want %v", err, want)
		case !slices.Equal(got, want):
			t.Fatalf("got %v, want %v", got, want)
		}
	})
}

func TestLatestIsEarliestMirrored(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		n, lower := random(t)
		mirrored := network.New(n.Points())
		for _, a := range n.Arcs() {
			mirrored.AddArc(a.To, a.From, a.Weight, a.Tag)
		}
		upper := make([]int64, len(lower))
		for i, b := range lower {
			upper[i] = -b
			if b == network.NoLower {
				upper[i] = network.NoUpper
			}
		}
		want, ok := bellmanFord(mirrored, lower)
		got, err := n.Latest(upper)
		if !ok {
			mustBeCycle(t, n, err)
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		for i := range want {
			if w := -want[i]; want[i] != network.NoLower && got[i] != w || want[i] == network.NoLower && got[i] != network.NoUpper {
				t.Fatalf("point %d: got %d, want %d mirrored", i, got[i], want[i])
			}
		}
	})
}

// TestRaiseIsEarliestAgain raises bounds one after another, all with the same
// working memory, and compares with a fresh start each time.
func TestRaiseIsEarliestAgain(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		n, lower := random(t)
		x, err := n.Earliest(lower)
		if err != nil {
			return
		}
		for range 4 {
			point := rapid.IntRange(0, n.Points()-1).Draw(t, "raise")
			to := rapid.Int64Range(-10, 60).Draw(t, "to")
			before := slices.Clone(x)
			moved, err := n.Raise(x, point, to)
			raised := slices.Clone(lower)
			raised[point] = max(raised[point], to)
			want, ok := bellmanFord(n, raised)
			if !ok {
				mustBeCycle(t, n, err)
				if !slices.Equal(x, before) {
					t.Fatalf("after the error %v, want %v as before", x, before)
				}
				continue
			}
			lower = raised
			if err != nil || !slices.Equal(x, want) {
				t.Fatalf("got %v (%v), want %v", x, err, want)
			}
			var differ []int
			for i := range x {
				if x[i] != before[i] {
					differ = append(differ, i)
				}
			}
			if len(moved) > 0 && moved[0] != point {
				t.Fatalf("moved %v, want %d first", moved, point)
			}
			slices.Sort(moved)
			if !slices.Equal(moved, differ) {
				t.Fatalf("moved %v, want %v", moved, differ)
			}
		}
	})
}

func TestLowerIsLatestAgain(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		n, _ := random(t)
		upper := make([]int64, n.Points())
		y, err := n.Latest(upper)
		if err != nil {
			return
		}
		point := rapid.IntRange(0, n.Points()-1).Draw(t, "lower")
		upper[point] = rapid.Int64Range(-30, 5).Draw(t, "to")
		if _, err := n.Lower(y, point, upper[point]); err != nil {
			t.Fatal(err)
		}
		upper[point] = min(upper[point], 0)
		want, err := n.Latest(upper)
		if err != nil || !slices.Equal(y, want) {
			t.Fatalf("got %v, want %v (%v)", y, want, err)
		}
	})
}

func TestShiftingBoundsShiftsTimes(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		n, lower := random(t)
		x, err := n.Earliest(lower)
		if err != nil {
			return
		}
		for i := range lower {
			if lower[i] != network.NoLower {
				lower[i] += 1000
			}
		}
		y, err := n.Earliest(lower)
		if err != nil {
			t.Fatal(err)
		}
		for i := range x {
			if x[i] != network.NoLower && y[i] != x[i]+1000 {
				t.Fatalf("point %d moved from %d to %d, want %d", i, x[i], y[i], x[i]+1000)
			}
		}
	})
}

func TestCycleError(t *testing.T) {
	t.Parallel()
	n := network.New(10)
	for i := range 10 {
		n.AddArc(i, (i+1)%10, 1, 100+i)
	}
	_, err := n.Earliest(nil)
	var cycle *network.CycleError
	if !errors.As(err, &cycle) || len(cycle.Arcs) != 10 || cycle.Excess() != 10 {
		t.Fatalf("got %v, want all ten arcs", err)
	}
	if a := cycle.Arcs[0]; a.Tag != 100+a.From {
		t.Errorf("arc %v lost its tag", a)
	}
	if got := err.Error(); !strings.Contains(got, "and 4 more") || !strings.Contains(got, "by 10 ticks") {
		t.Errorf("got %q, want six points, 4 more and the 10 ticks", got)
	}
	_, err = n.Latest(nil)
	if !errors.As(err, &cycle) || cycle.Arcs[0].To != cycle.Arcs[1].From {
		t.Errorf("got %v from Latest, want the cycle head to tail", err)
	}
}

func TestGrowsAfterUse(t *testing.T) {
	t.Parallel()
	var n network.Network
	a, b := n.AddPoint(), n.AddPoint()
	n.AddArc(a, b, 5, 0)
	if x, err := n.Earliest(nil); err != nil || x[b] != 5 {
		t.Fatalf("got %v, %v, want 5", x, err)
	}
	c := n.AddPoint()
	n.AddArc(b, c, 7, 0)
	if x, err := n.Earliest([]int64{1, network.NoLower, network.NoLower}); err != nil || x[c] != 13 {
		t.Fatalf("got %v, %v, want 13", x, err)
	}
}
