package planner

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
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

// The dinners of testdata/dinners say in their first line what the best timetable
// is, and in the comment below it why: "# latest 18:05, Main 19:00, whole".
func TestDinnersOfFiles(t *testing.T) {
	t.Parallel()
	files, err := filepath.Glob("testdata/dinners/*.yaml")
	if err != nil || len(files) < 7 {
		t.Fatalf("%d dinners: %v", len(files), err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".yaml"), func(t *testing.T) {
			t.Parallel()
			src, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			want, _, _ := strings.Cut(strings.TrimPrefix(string(src), "# "), "\n")
			p, problems := planfile.Decode(src, planfile.Options{Local: time.UTC, Now: time.Date(2026, 10, 1, 12, 0, 0, 0, time.UTC)})
			if p == nil {
				t.Fatal(problems)
			}
			tt := Make(context.Background(), p)
			first, last := tt.LatestStart.Format("15:04"), len(p.Courses)-1
			if tt.LatestStart.Before(p.CookDay()) {
				first = tt.LatestStart.Format("Mon 15:04")
			}
			got := fmt.Sprintf("latest %s, %s %s, %s", first, p.Courses[last].Name, tt.Serves[last].Format("15:04"), tt.Status)
			if got != want {
				t.Errorf("got  %s\nwant %s\n%s", got, want, dump(p, tt))
			}
		})
	}
}

// A dinner moved by a week, its windows along, has the same timetable a week later.
func TestAWeekLater(t *testing.T) {
	t.Parallel()
	plans := func(serve string) (*plan.Plan, *plan.Timetable) {
		p, problems := planfile.Decode(examples.Harvest, planfile.Options{Local: time.UTC, Now: time.Date(2026, 10, 1, 12, 0, 0, 0, time.UTC), Serve: serve})
		if p == nil {
			t.Fatal(problems)
		}
		return p, Make(context.Background(), p)
	}
	p, a := plans("2026-11-14 19:00")
	_, b := plans("2026-11-21 19:00")
	for i := range a.Slots {
		if x, y := a.Slots[i], b.Slots[i]; !x.Start.AddDate(0, 0, 7).Equal(y.Start) || !x.End.AddDate(0, 0, 7).Equal(y.End) || x.Cook != y.Cook {
			t.Errorf("%s: %v–%v, a week later %v–%v", p.Steps[i].ID, x.Start, x.End, y.Start, y.End)
		}
	}
	for i := range a.Sets {
		if x, y := a.Sets[i], b.Sets[i]; !x.At.AddDate(0, 0, 7).Equal(y.At) || x.To != y.To {
			t.Errorf("oven: %v to %v, a week later %v to %v", x.At, x.To, y.At, y.To)
		}
	}
}

// The units change what is shown, and nothing else.
func TestUnitsOnlyShow(t *testing.T) {
	t.Parallel()
	p := harvest(t)
	q := *p
	q.Units = plan.Metric
	a, b := Make(context.Background(), p), Make(context.Background(), &q)
	if diff := cmp.Diff(a, b); diff != "" {
		t.Errorf("in °C (-°F +°C):\n%s", diff)
	}
}

// A hot bake before something keeps warm may not start later: the oven would still be
// too hot, though no course would be late. The arithmetic is in the file.
func TestSlackLeavesWarmBe(t *testing.T) {
	t.Parallel()
	src, err := os.ReadFile("testdata/dinners/keep-warm-after-hot.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p, problems := planfile.Decode(src, planfile.Options{Local: time.UTC})
	if p == nil {
		t.Fatal(problems)
	}
	slack := run.Slacks(p, Make(context.Background(), p))
	if bake := p.StepIndex("pie/bake"); slack[bake] != 0 {
		t.Errorf("the bake may start %v late, and the oven is then too hot to keep warm in", slack[bake])
	}
}
