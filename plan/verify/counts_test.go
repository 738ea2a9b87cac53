package verify

import (
	"cmp"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
)

// users draws up to seven steps of up to three dishes, each of which uses one or
// two pieces of the only tool for a while.
func users(t *rapid.T, count, wash int) *checker {
	b := plantest.New("2026-10-17 19:00")
	b.Cook("Ines", "08:00-23:00")
	tool := b.Tool("pan", count)
	b.Wash(tool, wash)
	b.Course("Main", 0, time.Hour, time.Hour)
	dishes := rapid.IntRange(1, 3).Draw(t, "dishes")
	tt := plan.Timetable{Serves: []time.Time{b.Plan.Table}}
	for range dishes {
		b.Dish("Dish", 0)
	}
	for range rapid.IntRange(1, 7).Draw(t, "steps") {
		i := b.Step("Use", plantest.Takes(1), plantest.After())
		b.Plan.Steps[i].Dish = rapid.IntRange(0, dishes-1).Draw(t, "dish")
		b.Plan.Steps[i].Uses = []plan.Use{{Tool: tool, Count: rapid.IntRange(1, min(2, count)).Draw(t, "pieces")}}
		from := b.At("12:00").Add(time.Duration(rapid.IntRange(0, 20).Draw(t, "from")) * time.Minute)
		to := from.Add(time.Duration(rapid.IntRange(0, 6).Draw(t, "long")) * time.Minute)
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
	rapid.Check(t, func(t *rapid.T) {
		count, wash := rapid.IntRange(1, 4).Draw(t, "count"), rapid.IntRange(0, 6).Draw(t, "wash")
		c := users(t, count, wash)
		var units []need
		for _, n := range c.used(0) {
			if !n.empty() {
				units = append(units, slices.Repeat([]need{n}, n.amount)...)
			}
		}
		slices.SortStableFunc(units, func(a, b need) int { return cmp.Compare(a.from, b.from) })
		want := canBeHandedOut(c, units, slices.Repeat([]need{{step: -1}}, count), time.Duration(wash)*time.Minute)
		if c.tools(); (len(c.breaks) == 0) != want {
			t.Fatalf("%d pieces, washed in %d min, can be handed out: %v; breaks %v", count, wash, want, c.breaks)
		}
	})
}

// TestOverAgainstMinutes: needs exceed what there is in just the minutes in which
// a count of each minute by itself finds it so.
func TestOverAgainstMinutes(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		c := users(t, 3, 0)
		if rapid.Bool().Draw(t, "past") {
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
				t.Fatalf("at %s %d of %d wanted: told %v", c.clock(m), sum, there(m), got[m])
			}
		}
	})
}
