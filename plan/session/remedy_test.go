package session_test

import (
	"context"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/remedy"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

// byHand are dinners for 19:00 in which, at a time, a step takes so much longer, and
// what the remedy of a kind then is, by the arithmetic beside it.
var byHand = []struct {
	name   string
	kind   remedy.Kind
	build  func(b *plantest.Builder)
	at     string
	step   string
	longer int
	want   string
}{
	{
		// Ines works until 19:05 in place of 18:50, then carves for ten minutes: 19:15.
		// With Tomas carving meanwhile, all is ready at 19:05.
		name: "other-cook", kind: remedy.OtherCook, at: "18:40", step: "sauce/stir", longer: 15,
		build: func(b *plantest.Builder) {
			ines := b.Cook("Ines", "15:00-23:00")
			b.Cook("Tomas", "15:00-23:00")
			main := b.Course("Main", 0, 20*time.Minute, 20*time.Minute)
			b.Dish("Sauce", main)
			b.Step("Stir", plantest.Takes(30), plantest.By(ines), plantest.Keeps(60, 90))
			b.Dish("Ham", main)
			b.Step("Carve", plantest.Takes(10), plantest.By(ines), plantest.Keeps(5, 15))
		},
		want: "Tomas does “Ham: Carve” instead of Ines: Main at 19:05, 10 min sooner",
	},
	{
		// At 190 °C to 95 °C inside: ln(170/95) = 0.5819; at 200 °C ln(180/105) = 0.5390: 60
		// minutes become 55.6. The dough is ready at 18:10, so 19:10 becomes 19:06.
		name: "hotter", kind: remedy.Hotter, at: "17:50", step: "bread/knead", longer: 10,
		build: func(b *plantest.Builder) {
			b.Cook("Ines", "15:00-23:00")
			b.Dish("Bread", b.Course("Main", 0, 20*time.Minute, 20*time.Minute))
			b.Step("Knead", plantest.Takes(20))
			long := plantest.Takes(60)
			long.Shortest = 45 * time.Minute
			b.Step("Bake", long, plantest.Oven(190, 2), plantest.Keeps(5, 15), func(_ *plantest.Builder, s *plan.Step) {
				s.Oven.Lo, s.Oven.Hi = 180, 200
			})
		},
		want: "“Bread: Bake” at 200 °C, about 56 min instead of 1 h: Main at 19:06, 4 min sooner",
	},
	{
		// The roast fills the oven until 18:55 in place of 18:40, the bread bakes for
		// twenty minutes: 19:15. The small oven is hot by 18:43 at the latest.
		name: "other-oven", kind: remedy.OtherPlace, at: "18:25", step: "roast/bake", longer: 15,
		build: func(b *plantest.Builder) {
			b.Cook("Ines", "15:00-23:00")
			b.Oven("small oven")
			main := b.Course("Main", 0, 20*time.Minute, 20*time.Minute)
			b.Dish("Roast", main)
			b.Step("Bake", plantest.Takes(60), plantest.Oven(160, 4), plantest.In(0), plantest.Keeps(60, 90))
			b.Dish("Bread", main)
			b.Step("Bake", plantest.Takes(20), plantest.Oven(160, 4), plantest.In(0), plantest.Keeps(5, 15))
		},
		want: "“Bread: Bake” in the small oven instead of the oven: Main at 19:00, 15 min sooner",
	},
	{
		// The stew has the large burner until 19:05 in place of 18:50, then the potatoes boil
		// for ten minutes: 19:15. On the small one they take twenty, beside the stew.
		name: "small-burner", kind: remedy.OtherPlace, at: "18:40", step: "stew/simmer", longer: 15,
		build: func(b *plantest.Builder) {
			b.Cook("Ines", "15:00-23:00")
			b.Plan.Kitchen.Burners = plan.Burners{Large: 1, Small: 1}
			main := b.Course("Main", 0, 20*time.Minute, 20*time.Minute)
			b.Dish("Stew", main)
			b.Step("Simmer", plantest.Takes(60), plantest.Burner(plan.Large), plantest.Keeps(60, 90))
			b.Dish("Potatoes", main)
			b.Step("Boil", plantest.Takes(10), plantest.Burner(plan.Large), plantest.Keeps(5, 15))
		},
		want: "“Potatoes: Boil” on a small burner instead of a large one, about 20 min instead of 10 min, if the pot is not too large: Main at 19:05, 10 min sooner",
	},
	{
		// Out at 18:48, the roast is carved until 19:00; the salad is dressed in four
		// minutes after that, or before, and then waits for twelve.
		name: "wait", kind: remedy.WaitLonger, at: "18:30", step: "roast/bake", longer: 4,
		build: func(b *plantest.Builder) {
			b.Cook("Ines", "15:00-23:00")
			main := b.Course("Main", 0, 20*time.Minute, 20*time.Minute)
			b.Dish("Roast", main)
			b.Step("Bake", plantest.Takes(60), plantest.Oven(160, 4), plantest.Keeps(10, 20))
			b.Step("Carve", plantest.Takes(12), plantest.Keeps(15, 30))
			b.Dish("Salad", main)
			b.Step("Dress", plantest.Takes(4), plantest.Keeps(5, 30))
		},
		want: "“Salad: Dress” waits 12 min instead of 5 min: Main at 19:00, 4 min sooner",
	},
	{
		// The stock is done at 19:05 in place of 18:45 and Ines at table until 19:25: sauce
		// until 19:40, plates until 20:00. Away from 19:05 to 19:20 she is in time.
		name: "leave", kind: remedy.LeaveTable, at: "18:30", step: "sauce/steep", longer: 20,
		build: func(b *plantest.Builder) {
			b.Sits(b.Cook("Ines", "15:00-23:00"))
			b.Course("Starter", 0, 25*time.Minute, 20*time.Minute)
			main := b.Course("Main", 45*time.Minute, 20*time.Minute, 20*time.Minute)
			b.Dish("Sauce", main)
			b.Step("Steep", plantest.Takes(60), plantest.Hands(plan.Free), plantest.Keeps(60, 90))
			b.Step("Finish", plantest.Takes(15), plantest.Keeps(60, 90))
			b.Step("Plate", plantest.Takes(20), plantest.Keeps(5, 15))
		},
		want: "Ines may leave the table for 15 min with the Starter: Main at 19:45, 15 min sooner; 15 min away from the guests",
	},
	{
		// Ines is there until 19:20, to the end of what the dinner may take; the work lasts
		// until 19:25.
		name: "later", kind: remedy.ServeLater, at: "18:40", step: "stew/stir", longer: 25,
		build: func(b *plantest.Builder) {
			b.Cook("Ines", "15:00-19:20")
			b.Dish("Stew", b.Course("Main", 0, 20*time.Minute, 20*time.Minute))
			b.Step("Stir", plantest.Takes(50), plantest.Keeps(60, 90))
			b.Step("Ladle", plantest.Takes(10), plantest.Keeps(5, 15))
		},
		want: "serve Main 25 min later than asked: Main at 19:25, all else holds",
	},
	{
		name: "drop-step", kind: remedy.DropStep, at: "18:40", step: "stew/stir", longer: 15,
		build: func(b *plantest.Builder) {
			b.Cook("Ines", "15:00-23:00")
			b.Dish("Stew", b.Course("Main", 0, 20*time.Minute, 20*time.Minute))
			b.Step("Stir", plantest.Takes(50), plantest.Keeps(60, 90))
			b.Step("Garnish", plantest.Takes(10), plantest.Keeps(5, 15), func(_ *plantest.Builder, s *plan.Step) { s.Optional = true })
		},
		want: "leave out “Stew: Garnish”: Main at 19:05, 10 min sooner",
	},
	{
		name: "drop-dish", kind: remedy.DropDish, at: "18:40", step: "stew/stir", longer: 15,
		build: func(b *plantest.Builder) {
			b.Cook("Ines", "15:00-23:00")
			main := b.Course("Main", 0, 20*time.Minute, 20*time.Minute)
			b.Dish("Stew", main)
			b.Step("Stir", plantest.Takes(50), plantest.Keeps(60, 90))
			b.Dish("Salad", main)
			b.Step("Dress", plantest.Takes(10), plantest.Keeps(5, 15))
			b.Plan.Dishes[1].Optional = true
		},
		want: "leave out Salad: Main at 19:05, 10 min sooner",
	},
}

// situationOf cooks a dinner as planned until a time and tells what takes longer.
func situationOf(t *testing.T, b *plantest.Builder, at, step string, longer int) situation {
	t.Helper()
	log, c := &journal.Memory{}, clocktest.New(start(b))
	s, err := session.Open(context.Background(), config(&b.Plan, log, c))
	if err != nil {
		t.Fatal(err)
	}
	c.Set(b.At(at))
	if _, err := s.FastForward(b.At(at)); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Record(run.Event{Kind: run.Prolonged, Step: step, By: time.Duration(longer) * time.Minute}); err != nil {
		t.Fatal(err)
	}
	return situation{&b.Plan, log, b.At(at)}
}

func TestRemediesByHand(t *testing.T) {
	t.Parallel()
	for _, tt := range byHand {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			b := plantest.New("2026-10-17 19:00")
			tt.build(b)
			x := situationOf(t, b, tt.at, tt.step, tt.longer)
			s, _, _ := x.open(t)
			got, lines := "", []string{}
			for _, r := range s.Remedies(context.Background()) {
				lines = append(lines, r.Line())
				if r.Kind == tt.kind && got == "" {
					got = r.Line()
				}
			}
			if got != tt.want {
				t.Errorf("got  %s\nwant %s\nof %q", got, tt.want, lines)
			}
			keepsPromises(t, x)
		})
	}
}

// TestNoRemedyWithoutNeed: a dinner that goes as planned, or that has not begun, is
// offered nothing.
func TestNoRemedyWithoutNeed(t *testing.T) {
	t.Parallel()
	c := cookUntil(t, supper(), "19:02", planner.Again)
	asked := c.asked
	if list := c.Remedies(context.Background()); c.NeedsRemedy() || list != nil || c.asked != asked {
		t.Errorf("offered %v, planned again %d times", list, c.asked-asked)
	}
}

// TestRemediesAreGivenUp: a search that is called off offers nothing, and the same
// question has the same answer.
func TestRemediesAreGivenUp(t *testing.T) {
	t.Parallel()
	c := cookUntil(t, supper(), "19:02", planner.Again)
	c.tell(t, longer)
	ctx, cancel := context.WithCancel(context.Background())
	first := c.Remedies(ctx)
	second := c.Remedies(ctx)
	cancel()
	if len(first) == 0 || len(first) != len(second) {
		t.Fatalf("%d remedies, then %d", len(first), len(second))
	}
	for i := range first {
		if first[i].Line() != second[i].Line() {
			t.Errorf("%q, then %q", first[i].Line(), second[i].Line())
		}
	}
	if list := c.Remedies(ctx); list != nil {
		t.Errorf("offered %v though called off", list)
	}
}

// TestRemedyPanics: a bug in the search for remedies comes up where it was asked for,
// with the trace of where it was, and nothing is left going.
func TestRemedyPanics(t *testing.T) {
	t.Parallel()
	var plannings atomic.Int32
	c := cookUntil(t, supper(), "19:02", func(ctx context.Context, s *run.State, now time.Time) *plan.Timetable {
		if n := plannings.Add(1); n > 2 { // of the event, and once more as it is
			panic("on purpose")
		}
		return planner.Again(ctx, s, now)
	})
	c.tell(t, longer)
	defer func() {
		r, _ := recover().(string)
		if !strings.HasPrefix(r, "on purpose") || !strings.Contains(r, "remedy.(*Question).try") {
			t.Errorf("came up: %q", r)
		}
	}()
	t.Errorf("offered %v", c.Remedies(context.Background()))
}

// TestTakenTooLate: what was promised at one time and is taken when it cannot be any
// more is planned again, with the same thing given up.
func TestTakenTooLate(t *testing.T) {
	t.Parallel()
	for _, tt := range byHand {
		if tt.kind != remedy.DropStep {
			continue
		}
		b := plantest.New("2026-10-17 19:00")
		tt.build(b)
		x := situationOf(t, b, tt.at, tt.step, tt.longer)
		s, c, log := x.open(t)
		r := s.Remedies(context.Background())[0]
		if _, err := s.Record(run.Event{Kind: run.Prolonged, Step: tt.step, By: 3 * time.Minute}); err != nil {
			t.Fatal(err)
		}
		c.Advance(10 * time.Second)
		st, err := s.Take(r)
		if err != nil {
			t.Fatal(err)
		}
		if got := st.Timetable.Serves[0].Format("15:04"); got != "19:08" || st.Steps[1].Status != plan.Skipped {
			t.Errorf("Main at %s, want 19:08; garnish %v", got, st.Steps[1].Status)
		}
		consistent(t, s, log)
	}
}
