package planner

import (
	"context"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
)

// Dinners whose best timetable is worked out by hand, the arithmetic beside
// each. The oven: room 20 °C, 12 min to 180 °C, 14 min from 220 down to 180, so
// τ up 14.163 and τ down 14/ln(200/160) = 62.74 minutes.
func TestDinnersByHand(t *testing.T) {
	t.Parallel()
	const minute = time.Minute
	for _, c := range []struct {
		name   string
		build  func(b *plantest.Builder)
		latest string // start of the first step
		serve  string // of the last course
		status plan.Status
	}{
		{
			// One pair of hands: 10 + 15 + 20 minutes of work before seven.
			name: "one-cook",
			build: func(b *plantest.Builder) {
				b.Cook("Ines", "12:00-23:00")
				b.Course("Main", 0, 20*minute, 20*minute)
				for _, m := range []int{10, 15, 20} {
					b.Dish("Dish"+time.Duration(m).String(), 0)
					b.Step("work", plantest.Takes(m), plantest.Keeps(60, 120))
				}
			},
			latest: "18:15", serve: "19:00", status: plan.Whole,
		},
		{
			// Two pairs of hands: {20} and {10, 15}, so 25 minutes.
			name: "two-cooks",
			build: func(b *plantest.Builder) {
				b.Cook("Ines", "12:00-23:00")
				b.Cook("Tomas", "12:00-23:00")
				b.Course("Main", 0, 20*minute, 20*minute)
				for _, m := range []int{10, 15, 20} {
					b.Dish("Dish"+time.Duration(m).String(), 0)
					b.Step("work", plantest.Takes(m), plantest.Keeps(60, 120))
				}
			},
			latest: "18:35", serve: "19:00", status: plan.Whole,
		},
		{
			// Two bakes that fill the oven, 30 min at 175–185 and 20 min at 215–225,
			// both needed at seven. The hotter last: up from 185 to 215 takes
			// 14.163·ln(115/85) = 4.28, so 5 min: 18:40–19:00 and 18:05–18:35. The
			// hotter first would need cooling from 215 to 185: 62.74·ln(195/165) =
			// 10.48, so 11 min. Keep is liked for an hour either way.
			name: "oven-up",
			build: func(b *plantest.Builder) {
				b.Cook("Ines", "12:00-23:00")
				b.Course("Main", 0, 20*minute, 20*minute)
				b.Dish("Gratin", 0)
				b.Step("bake", plantest.Takes(30), plantest.Oven(180, 4), plantest.Keeps(60, 120))
				b.Dish("Tart", 0)
				b.Step("bake", plantest.Takes(20), plantest.Oven(220, 4), plantest.Keeps(60, 120))
			},
			latest: "18:05", serve: "19:00", status: plan.Whole,
		},
		{
			// A roast of two hours rests 15 to 45 min; 10 min of carving. A bake of 8
			// min at 240 must be eaten within 5 minutes, so it ends at 18:55 or later.
			// Roast at 160 accepts 155–165, the bake 235–245: up from 165 to 235 takes
			// 14.163·ln(135/65) = 10.36, so 11 min. The cook takes the bake out in its
			// last minute and cannot be away from carving but for that minute. Latest:
			// carve 18:50–19:00, bake 18:52–19:00, so the roast is out by 18:41, but the
			// rest of 15 min puts it out at 18:35; start 16:35.
			name: "roast-leaves-oven",
			build: func(b *plantest.Builder) {
				b.Cook("Ines", "12:00-23:00")
				b.Course("Main", 0, 20*minute, 20*minute)
				b.Dish("Roast", 0)
				b.Step("roast", plantest.Takes(120), plantest.Oven(160, 4))
				b.Step("rest", plantest.Waits(15, 45), plantest.AtOnce)
				b.Step("carve", plantest.Takes(10), plantest.Keeps(5, 15))
				b.Dish("Bread", 0)
				b.Step("bake", plantest.Takes(8), plantest.Oven(240, 4), plantest.Keeps(5, 15))
			},
			latest: "16:35", serve: "19:00", status: plan.Whole,
		},
		{
			// Four pots that simmer 30 minutes near one cook who minds three: one
			// must be done before the others begin, kept 30 minutes, as it may be.
			name: "three-pots",
			build: func(b *plantest.Builder) {
				b.Cook("Ines", "12:00-23:00")
				b.Course("Main", 0, 20*minute, 20*minute)
				for _, n := range []string{"A", "B", "C", "D"} {
					b.Dish(n, 0)
					b.Step("simmer", plantest.Takes(30), plantest.Burner(plan.AnyBurner), plantest.Keeps(60, 120))
				}
			},
			// Ends want a minute of the cook each: 19:00, 18:59, 18:58; the first
			// of the three begins at 18:28, so the fourth ends then and begins 17:58.
			latest: "17:58", serve: "19:00", status: plan.Whole,
		},
		{
			// Three quarters of an hour of work, and the cook comes at half past six:
			// a quarter of an hour late.
			name: "late",
			build: func(b *plantest.Builder) {
				b.Cook("Ines", "18:30-23:00")
				b.Course("Main", 0, 20*minute, 20*minute)
				b.Dish("Stew", 0)
				b.Step("work", plantest.Takes(45), plantest.Keeps(60, 120))
			},
			latest: "18:30", serve: "19:15", status: plan.Late,
		},
		{
			// The same with an hour of work: half an hour late, ten minutes more than
			// is tolerated.
			name: "too-late",
			build: func(b *plantest.Builder) {
				b.Cook("Ines", "18:30-23:00")
				b.Course("Main", 0, 20*minute, 20*minute)
				b.Dish("Stew", 0)
				b.Step("work", plantest.Takes(60), plantest.Keeps(60, 120))
			},
			latest: "18:30", serve: "19:30", status: plan.Broken,
		},
		{
			// The second course is asked for 19:10, but the guests sit with the first
			// for half an hour: 19:30.
			name: "pacing",
			build: func(b *plantest.Builder) {
				b.Cook("Ines", "12:00-23:00")
				b.Course("Soup", 0, 30*minute, 20*minute)
				b.Course("Main", 10*minute, 20*minute, 20*minute)
				b.Dish("Soup", 0)
				b.Step("work", plantest.Takes(5), plantest.Keeps(10, 30))
				b.Dish("Stew", 1)
				b.Step("work", plantest.Takes(5), plantest.Keeps(10, 30))
			},
			latest: "18:55", serve: "19:30", status: plan.Late,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			b := plantest.New("2026-10-17 19:00")
			c.build(b)
			tt := Make(context.Background(), &b.Plan)
			if got := tt.LatestStart; !got.Equal(b.At(c.latest)) {
				t.Errorf("latest start %s, want %s", got.Format("15:04"), c.latest)
			}
			if got := tt.Serves[len(tt.Serves)-1]; !got.Equal(b.At(c.serve)) {
				t.Errorf("last course %s, want %s", got.Format("15:04"), c.serve)
			}
			if tt.Status != c.status {
				t.Errorf("status %s, want %s: %v", tt.Status, c.status, tt.Breaks)
			}
			if t.Failed() {
				t.Log(dump(&b.Plan, tt))
			}
		})
	}
}
