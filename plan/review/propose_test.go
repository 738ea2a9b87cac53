package review_test

import (
	"math"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/review"
)

// length reads a length as a plan has it.
func length(t testing.TB, s string) plan.Length {
	t.Helper()
	p := decoded(t, "kettledrum: 1\ntable: 2026-10-17 19:00\nzone: UTC\ndishes: [{name: A, steps: [{do: B, takes: \""+s+"\"}]}]\n")
	return p.Steps[0].Length
}

// TestPropose: worked by hand from the formula of Propose.
func TestPropose(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		prior string
		took  []int // minutes
		want  string
	}{
		{"35m (30m-40m)", nil, "35m (30m-40m)"},
		// r = ln(48/35) = 0.3159, z = 1/4, s = 1.0822: 37.9, 32.5, 43.3 · (48/43.3)^¼ = 44.4
		{"35m (30m-40m)", []int{48}, "38m (32m-44m)"},
		// z = 1/2, s = 1.1711: 41.0, 35.1, 46.8 · (48/46.8)^½ = 47.4
		{"35m (30m-40m)", []int{48, 48, 48}, "41m (35m-47m)"},
		{"35m", []int{48}, "38m"},
		// mean r = 0.2723, z = 2/5, s = 1.1151: 39.0; 39.0 · (48/39.0)^0.4 = 42.4
		{"35m", []int{48, 44}, "39m (39m-42m)"},
		// sooner: r = ln(20/30) = −0.4055, s = 0.9036: 27.1, 22.6 · (20/22.6)^¼ = 21.9, 40.7
		{"30m (25m-45m)", []int{20}, "27m (22m-41m)"},
		// an hour's slip counts for twice: s = 2^¼ = 1.1892
		{"10m", []int{180}, "12m"},
		// the middle of three is 0; the slip counts for ln 2: mean = 0.231, s = 1.1225; 11.2 · (20/11.2)^½ = 15.0, 11.2 · (10/11.2)^½ = 10.6
		{"10m", []int{10, 180, 10}, "11m (11m-15m)"},
		// less than half of five minutes is no difference
		{"1h12m (1h-1h30m)", []int{75}, "1h12m (1h-1h30m)"},
		// s = 1.0466: 314 min
		{"5h", []int{360}, "5h15m"},
		// as planned, within the range
		{"30m (25m-45m)", []int{30, 30}, "30m (25m-45m)"},
	} {
		var took []time.Duration
		for _, m := range c.took {
			took = append(took, time.Duration(m)*time.Minute)
		}
		if got := planfile.WriteLength(review.Propose(length(t, c.prior), took)); got != c.want {
			t.Errorf("%s, took %v min: %s, want %s", c.prior, c.took, got, c.want)
		}
	}
}

// TestWeightIsThatOfANormalPosterior: the weight n/(n + k) is what the mean of the
// posterior gives where a normal prior counts for k observations with normal errors:
// found by integrating numerically. Source: as of Propose.
func TestWeightIsThatOfANormalPosterior(t *testing.T) {
	t.Parallel()
	const prior = 100 * time.Hour // so that no grain matters
	for _, r := range [][]float64{{0.2}, {0.1, -0.3}, {0.3, 0.1, 0.2, 0.25}} {
		var took []time.Duration
		for _, x := range r {
			took = append(took, time.Duration(float64(prior)*math.Exp(x)))
		}
		// prior N(0, 1), observations N(θ, k)
		var sum, weight float64
		for theta := -8.0; theta <= 8; theta += 0.001 {
			log := -theta * theta / 2
			for _, x := range r {
				log -= (x - theta) * (x - theta) / (2 * review.PlanCounts)
			}
			sum, weight = sum+theta*math.Exp(log), weight+math.Exp(log)
		}
		want := time.Duration(float64(prior) * math.Exp(sum/weight))
		got := review.Propose(plan.Length{Shortest: prior, Likely: prior, Longest: prior}, took)
		if d := (got.Likely - want).Abs(); d > 8*time.Minute { // half of a grain
			t.Errorf("%v: %v, want %v", r, got.Likely, want)
		}
	}
}

// TestProposeProperties: the order of the evenings does not matter; the points are in
// their order and are read back as written; the likely one lies between the plan's and
// what was seen, never more than a quarter of the way after one evening; longer evenings never make it shorter.
func TestProposeProperties(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		minute := func(lo, hi int, name string) time.Duration {
			return time.Duration(rapid.IntRange(lo, hi).Draw(t, name)) * time.Minute
		}
		a := minute(1, 200, "shortest")
		m := a + minute(0, 100, "likely")
		prior := plan.Length{Shortest: a, Likely: m, Longest: m + minute(0, 200, "longest")}
		took := make([]time.Duration, rapid.IntRange(1, 8).Draw(t, "evenings"))
		for i := range took {
			took[i] = minute(1, 900, "took")
		}
		got := review.Propose(prior, took)
		if got.Shortest > got.Likely || got.Likely > got.Longest || got.Shortest < time.Minute {
			t.Fatalf("%v", got)
		}
		back := slices.Clone(took)
		slices.Reverse(back)
		if review.Propose(prior, back) != got {
			t.Fatal("the order matters")
		}
		const grain = 15 * time.Minute
		lo, hi := min(slices.Min(took), m), max(slices.Max(took), m)
		if got.Likely < lo-grain || got.Likely > hi+grain {
			t.Fatalf("likely %v is not between %v and %v", got.Likely, lo, hi)
		}
		if len(took) == 1 {
			if most := time.Duration(float64(m) * math.Pow(2, 0.25)); got.Likely > most+grain/2 {
				t.Fatalf("one evening made %v of %v", got.Likely, m)
			}
		}
		longer := slices.Clone(took)
		k := rapid.IntRange(0, len(took)-1).Draw(t, "which")
		longer[k] += minute(1, 60, "more")
		if len(took) < 3 && review.Propose(prior, longer).Likely < got.Likely {
			t.Fatal("it took longer, and is proposed to take less")
		}
	})
}

// evenings are dinners of one plan in which a step had a length and took so long; 0:
// not judged.
func evenings(t testing.TB, lines ...[2]any) (out []*review.Evening) {
	t.Helper()
	for _, l := range lines {
		p := decoded(t, soup)
		i := p.StepIndex("soup/simmer")
		p.Steps[i].Length = length(t, l[0].(string))
		ev := &review.Evening{Plan: p, Steps: make([]review.Step, len(p.Steps))}
		for k := range ev.Steps {
			ev.Steps[k].Why = review.Untold
		}
		if m := l[1].(int); m > 0 {
			ev.Steps[i] = review.Step{Took: time.Duration(m) * time.Minute}
		}
		out = append(out, ev)
	}
	return out
}

// TestCompare: which evenings count, and what is a habit.
func TestCompare(t *testing.T) {
	t.Parallel()
	const first = "30m (25m-40m)"
	write := func(took ...int) string { // what those propose for the first plan
		var d []time.Duration
		for _, m := range took {
			d = append(d, time.Duration(m)*time.Minute)
		}
		return planfile.WriteLength(review.Propose(length(t, first), d))
	}
	for _, c := range []struct {
		name  string
		lines [][2]any
		count int
		want  string
		tends int
	}{
		{"one", [][2]any{{first, 40}}, 1, write(40), 0},
		{"long-by-habit", [][2]any{{first, 40}, {first, 36}}, 2, write(40, 36), 1},
		{"short-by-habit", [][2]any{{first, 20}, {first, 24}, {first, 27}}, 3, write(20, 24, 27), -1},
		{"three-of-four", [][2]any{{first, 40}, {first, 30}, {first, 36}, {first, 38}}, 4, write(40, 30, 36, 38), 1},
		{"two-of-three", [][2]any{{first, 40}, {first, 30}, {first, 36}}, 3, write(40, 30, 36), 0},
		{"a-minute-is-too-little", [][2]any{{first, 31}, {first, 31}}, 2, first, 0},
		{"not-judged", [][2]any{{first, 40}, {first, 0}, {first, 36}}, 2, write(40, 36), 1},
		{"never-judged", [][2]any{{first, 0}, {first, 0}}, 0, first, 0},
		{"applied-between", [][2]any{{first, 40}, {write(40), 36}}, 2, write(40, 36), 1},
		{"applied-late", [][2]any{{first, 40}, {first, 38}, {write(40, 38), 36}, {write(40, 38), 0}}, 3, write(40, 38, 36), 1},
		{"applied-from-an-older-review", [][2]any{{first, 40}, {first, 38}, {write(40), 39}}, 3, write(40, 38, 39), 1},
		{"changed-by-hand", [][2]any{{first, 40}, {first, 38}, {"50m", 0}}, 0, "50m", 0},
		{"changed-by-hand-and-cooked", [][2]any{{first, 60}, {"50m", 60}}, 1, planfile.WriteLength(review.Propose(length(t, "50m"), []time.Duration{time.Hour})), 0},
	} {
		got := review.Compare(evenings(t, c.lines...))
		k := slices.IndexFunc(got, func(h review.Habit) bool { return h.Step == "soup/simmer" })
		h := got[k]
		if len(h.Took) != c.count || planfile.WriteLength(h.Proposed) != c.want || h.Tends != c.tends || len(h.On) != c.count {
			t.Errorf("%s: %d evenings, %s, tends %d; want %d, %s, %d", c.name, len(h.Took), planfile.WriteLength(h.Proposed), h.Tends, c.count, c.want, c.tends)
		}
		if h.Changes() != (h.Proposed != h.Is) || h.Is != length(t, c.lines[len(c.lines)-1][0].(string)) {
			t.Errorf("%s: is %v", c.name, h.Is)
		}
	}
	if len(review.Compare(nil)) != 0 {
		t.Error("habits of no evening")
	}
}

// TestCompareOtherWork: what was done at another heat, or is no longer in the plan, does not count.
func TestCompareOtherWork(t *testing.T) {
	t.Parallel()
	evs := evenings(t, [2]any{"30m", 40}, [2]any{"30m", 40}, [2]any{"30m", 40})
	i := evs[0].Plan.StepIndex("soup/simmer")
	evs[0].Plan.Steps[i].Burner = &plan.BurnerUse{Size: plan.Large, Count: 1}
	evs[1].Plan.Steps[i].ID = "soup/simmered"
	for _, h := range review.Compare(evs) {
		if h.Step == "soup/simmer" && len(h.Took) != 1 {
			t.Errorf("%d evenings count, want 1", len(h.Took))
		}
	}
}
