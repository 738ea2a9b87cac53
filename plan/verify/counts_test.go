package verify

import (
	"cmp"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
)

// users draws up to seven steps of up to three dishes, each of which uses one or
// two pieces of the only tool for a while.
func users(r *rand.Rand, count, wash int) *checker {
	b := plantest.New("2026-10-17 19:00")
	b.Cook("Ines", "08:00-23:00")
	tool := b.Tool("pan", count)
	b.Wash(tool, wash)
	b.Course("Main", 0, time.Hour, time.Hour)
	dishes := 1 + r.IntN(3)
	tt := plan.Timetable{Serves: []time.Time{b.Plan.Table}}
	for range dishes {
		b.Dish("Dish", 0)
	}
	for range 1 + r.IntN(7) {
		i := b.Step("Use", plantest.Takes(1), plantest.After())
		b.Plan.Steps[i].Dish = r.IntN(dishes)
		b.Plan.Steps[i].Uses = []plan.Use{{Tool: tool, Count: 1 + r.IntN(min(2, count))}}
		from := b.At("12:00").Add(time.Duration(r.IntN(20)) * time.Minute)
		to := from.Add(time.Duration(r.IntN(7)) * time.Minute)
		tt.Slots = append(tt.Slots, plan.Slot{Start: from, End: to, Oven: -1})
	}
	return newChecker(&b.Plan, &tt, time.Time{})
}

// canBeHandedOut tries every way of giving pieces to needs, by time.
func canBeHandedOut(c *checker, needs []need, last []need, wash time.Duration) bool {
	if len(needs) == 0 {
		return true
	}
	n := needs[0]
	for k, was := range last {
		ready := was.to
		if was.step >= 0 && c.p.Steps[was.step].Dish != c.p.Steps[n.step].Dish {
			ready += wash
		}
		if was.step >= 0 && ready > n.from {
			continue
		}
		last[k] = n
		if canBeHandedOut(c, needs[1:], last, wash) {
			return true
		}
		last[k] = was
	}
	return false
}

// TestToolsAgainstAllWays: a break is told of a tool where, and only where, no way
// of handing out its pieces keeps all rules.
func TestToolsAgainstAllWays(t *testing.T) {
	t.Parallel()
	for seed := range uint64(5000) {
		r := rand.New(rand.NewPCG(seed, 0))
		count, wash := 1+r.IntN(4), r.IntN(7)
		c := users(r, count, wash)
		var units []need
		for _, n := range c.used(0) {
			if !n.empty() {
				units = append(units, slices.Repeat([]need{n}, n.amount)...)
			}
		}
		slices.SortStableFunc(units, func(a, b need) int { return cmp.Compare(a.from, b.from) })
		want := canBeHandedOut(c, units, slices.Repeat([]need{{step: -1}}, count), time.Duration(wash)*time.Minute)
		if c.tools(); (len(c.breaks) == 0) != want {
			t.Fatalf("seed %d: %d pieces, washed in %d min, can be handed out: %v; breaks %v", seed, count, wash, want, c.breaks)
		}
	}
}

// TestOverAgainstMinutes: needs exceed what there is in just the minutes in which
// a count of each minute by itself finds it so.
func TestOverAgainstMinutes(t *testing.T) {
	t.Parallel()
	for seed := range uint64(1000) {
		r := rand.New(rand.NewPCG(seed, 0))
		c := users(r, 3, 0)
		if r.IntN(2) == 0 {
			c.since = c.off(c.t.Slots[0].Start) + 90*time.Second
		}
		needs := c.used(0)
		less := c.off(c.t.Slots[0].End) // one fewer from then on
		there := func(m time.Duration) int {
			if m >= less {
				return 2
			}
			return 3
		}
		got := map[time.Duration]bool{}
		for _, o := range c.over(needs, there, less) {
			for m := o.from; m < o.to; m += time.Minute {
				got[m] = true
			}
		}
		for m := -8 * time.Hour; m < -6*time.Hour; m += time.Minute {
			sum := 0
			for _, n := range needs {
				if n.holds(m) {
					sum += n.amount
				}
			}
			if want := m >= c.since && sum > there(m); got[m] != want {
				t.Fatalf("seed %d: at %s %d of %d wanted: told %v", seed, c.clock(m), sum, there(m), got[m])
			}
		}
	}
}
