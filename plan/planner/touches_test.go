package planner

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/solve"
	"pgregory.net/rapid"
)

// A wait that lasts longer than it must is seen to until its end: Ines mixes at
// 15:00, Tomas plates at 18:50, and in between the dough is folded every half hour
// from 15:40 to 18:40, and turned in the middle of the 220 minutes, at 17:00.
func TestRemindersOfALongWait(t *testing.T) {
	t.Parallel()
	b := plantest.New("2026-10-17 19:00")
	ines := b.Cook("Ines", "15:00-15:10")
	tomas := b.Cook("Tomas", "15:00-23:00")
	b.Course("Main", 0, 20*time.Minute, 20*time.Minute)
	b.Dish("Dough", 0)
	b.Step("Mix", plantest.Takes(10), plantest.By(ines), plantest.Limit(0))
	rest := b.Step("Rest", plantest.Waits(60, 360), plantest.Limit(0), plantest.Remind(plan.Every, 30), plantest.Remind(plan.Halfway, 0))
	b.Step("Plate", plantest.Takes(10), plantest.By(tomas), plantest.Limit(0))
	tt := Make(context.Background(), &b.Plan)
	var got []string
	for _, x := range tt.Touches {
		if x.What == plan.TouchRemind {
			got = append(got, x.At.Format("15:04"))
			if x.Step != rest || x.Cook != tomas {
				t.Errorf("the reminder at %s is of step %d with cook %d", x.At.Format("15:04"), x.Step, x.Cook)
			}
		}
	}
	want := []string{"15:40", "16:10", "16:40", "17:00", "17:10", "17:40", "18:10", "18:40"}
	if !slices.Equal(got, want) {
		t.Errorf("reminders at %v, want %v", got, want)
	}
	if tt.Status != plan.Whole {
		t.Errorf("the timetable is %s: %v", tt.Status, tt.Breaks)
	}
}

// Who is asked to take the roast out at 18:00, of three who are all there: the
// search had Ines.
func TestWhoTouches(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		change func(b *plantest.Builder, tt *plan.Timetable)
		want   string
	}{
		"as-it-was":   {func(*plantest.Builder, *plan.Timetable) {}, "Ines"},
		"who-had-it":  {func(_ *plantest.Builder, tt *plan.Timetable) { tt.Slots[0].Cook = 2 }, "Olu"},
		"who-is-idle": {func(_ *plantest.Builder, tt *plan.Timetable) { tt.Slots[2].Cook = 0 }, "Tomas"},
		"idle-before-who-had-it": {func(_ *plantest.Builder, tt *plan.Timetable) {
			tt.Slots[0].Cook, tt.Slots[2].Cook = 2, 2
		}, "Ines"},
		"seated-last": {func(b *plantest.Builder, tt *plan.Timetable) {
			b.Sits(0)
			tt.Serves[0] = b.At("17:50")
		}, "Tomas"},
		"never-to-table": {func(b *plantest.Builder, tt *plan.Timetable) {
			b.Sits(2)
			tt.Slots[0].Cook, tt.Serves[0] = 2, b.At("17:50")
		}, "Ines"},
		"who-is-there": {func(b *plantest.Builder, tt *plan.Timetable) {
			tt.Slots[2].Cook = 0
			b.Plan.Kitchen.Cooks[1].Free[0].To = b.At("18:00")
		}, "Olu"},
		"not-tied": {func(b *plantest.Builder, tt *plan.Timetable) {
			b.Plan.Steps[2].Hands = plan.Tied
			tt.Slots[0].Cook, tt.Slots[2].Cook = 2, 2
		}, "Ines"},
		"one-thing-a-minute": {func(b *plantest.Builder, tt *plan.Timetable) {
			tt.Slots[0].Cook = 2
			tt.Touches = append(tt.Touches, plan.Touch{What: plan.TouchStart, Step: 2, Oven: -1, At: b.At("18:00"), Cook: 2})
		}, "Ines"},
	} {
		b := plantest.New("2026-10-17 19:00")
		for _, cook := range []string{"Ines", "Tomas", "Olu"} {
			b.Cook(cook, "12:00-23:00")
		}
		b.Course("Main", 0, 30*time.Minute, 20*time.Minute)
		b.Dish("Roast", 0)
		b.Step("Tie", plantest.Takes(10))
		b.Step("Roast", plantest.Takes(61), plantest.Oven(180, 2))
		b.Dish("Salad", 0)
		b.Step("Wash", plantest.Takes(20))
		tt := &plan.Timetable{
			Slots:   []plan.Slot{b.Slot("16:00", "16:10"), b.Slot("17:00", "18:01", "oven"), b.Slot("17:50", "18:10")},
			Serves:  []time.Time{b.At("19:00")},
			Touches: []plan.Touch{{What: plan.TouchEnd, Step: 1, Oven: -1, At: b.At("18:00"), Cook: 0}},
		}
		c.change(b, tt)
		x := touchTimes{p: &b.Plan, t: tt}
		if got := b.Plan.Kitchen.Cooks[x.pick(tt.Touches[0])].Name; got != c.want {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
	}
}

// However long a wait gets, its reminders are those that the verifier looks for,
// also where nobody is there for them, which is another break.
func TestRemindersAgreeWithTheVerifier(t *testing.T) {
	t.Parallel()
	draws := 0
	rapid.Check(t, func(t *rapid.T) {
		if draws++; draws%oneIn > 0 {
			return
		}
		p := drawHouse(t)
		for i := range p.Steps {
			if s := &p.Steps[i]; s.Length.Elastic {
				s.Reminds = []plan.Remind{
					{When: plan.Every, For: time.Duration(rapid.IntRange(300, 5400).Draw(t, "every")) * time.Second},
					{When: plan.Halfway}, {When: plan.BeforeEnd, For: 10 * time.Minute},
				}
			}
		}
		state, now := drawRun(t, p)
		for _, f := range []facts{{}, factsOf(state, now)} {
			j := translate(p, f)
			tt := j.read(solve.Solve(context.Background(), j.prob, solve.Options{Conflicts: 2000, Tries: 60, Seed: 1}))
			for _, b := range tt.Breaks {
				missing := strings.Contains(b.Text, "nobody is there to see to it") || strings.Contains(b.Text, "it is due at")
				if b.Kind == plan.BreakTouch && (missing || strings.Contains(b.Text, "need not be")) {
					t.Errorf("%s\n%s", b.Text, dump(p, tt))
				}
			}
		}
	})
}
