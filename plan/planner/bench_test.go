package planner

import (
	"context"
	"os"
	"slices"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/solve"
)

func harvest(tb testing.TB) *plan.Plan { return example(tb, "harvest") }

// example returns one of the built-in dinners.
func example(tb testing.TB, name string) *plan.Plan {
	tb.Helper()
	src, err := os.ReadFile("../../examples/" + name + ".yaml")
	if err != nil {
		tb.Fatal(err)
	}
	p, problems := planfile.Decode(src, planfile.Options{Local: time.UTC, Now: time.Date(2026, 10, 1, 12, 0, 0, 0, time.UTC)})
	if p == nil {
		tb.Fatal(problems)
	}
	return p
}

func BenchmarkMakeHarvest(b *testing.B) {
	p := harvest(b)
	for b.Loop() {
		Make(context.Background(), p)
	}
}

// prolonged is the harvest dinner with the roast twenty minutes longer, told
// half an hour after it went in.
func prolonged(tb testing.TB) (*run.State, time.Time) {
	tb.Helper()
	p := harvest(tb)
	tt := Make(context.Background(), p)
	roast := p.StepIndex("pork-shoulder/roast")
	if roast < 0 {
		tb.Fatal("the harvest dinner has no roast")
	}
	at := tt.Slots[roast].Start
	now := at.Add(30 * time.Minute)
	set := tt.Sets[slices.IndexFunc(tt.Sets, func(s plan.OvenSet) bool { return s.For == roast })]
	to := float64(set.To)
	s, err := run.Fold(p, []run.Event{
		{Kind: run.Adopted, Timetable: tt, At: at.Add(-time.Hour)},
		{Kind: run.OvenTurned, Oven: "oven", Temp: &to, Step: p.Steps[roast].ID, At: set.At},
		{Kind: run.Started, Step: p.Steps[roast].ID, At: at},
		{Kind: run.Prolonged, Step: p.Steps[roast].ID, By: 20 * time.Minute, At: now},
	})
	if err != nil {
		tb.Fatal(err)
	}
	return s, now
}

func BenchmarkAgainHarvest(b *testing.B) {
	s, now := prolonged(b)
	for b.Loop() {
		Again(context.Background(), s, now)
	}
}

// A roast that runs long leaves every course but its own at its time, moves the
// steps by fewer minutes than planning anew, and those of the starter, which shares
// only cooks and oven with it, not at all.
func TestAgainLeavesBe(t *testing.T) {
	t.Parallel()
	s, now := prolonged(t)
	again := Again(context.Background(), s, now)
	if again.Status == plan.Broken {
		t.Errorf("broken: %v", again.Breaks)
	}
	if late := again.Serves[1].Sub(s.Timetable.Serves[1]); late > 20*time.Minute {
		t.Errorf("the main course is %v later for a roast of 20 minutes longer", late)
	}
	for c := range again.Serves {
		if c != 1 && !again.Serves[c].Equal(s.Timetable.Serves[c]) {
			t.Errorf("%s moves from %v to %v", s.Plan.Courses[c].Name, s.Timetable.Serves[c], again.Serves[c])
		}
	}
	move := func(t *plan.Timetable, counts func(i int) bool) (sum time.Duration) {
		for i, slot := range t.Slots {
			if counts(i) {
				sum += slot.Start.Sub(s.Timetable.Slots[i].Start).Abs()
			}
		}
		return sum
	}
	j := translate(s.Plan, factsOf(s, now)) // without a word of the timetable in force
	anew := j.read(solve.Solve(context.Background(), j.prob, live.options()))
	all := func(int) bool { return true }
	if a, b := move(again, all), move(anew, all); a >= b {
		t.Errorf("the steps move by %v, planned anew by %v", a, b)
	}
	if d := move(again, func(i int) bool { return s.Plan.CourseOf(i) == 0 }); d > 0 {
		t.Errorf("the steps of the starter move by %v", d)
	}
	if t.Failed() {
		t.Logf("before\n%safter\n%s", dump(s.Plan, s.Timetable), dump(s.Plan, again))
	}
}

// BenchmarkAgainEverywhere plans a dinner again after each of its steps has run a
// quarter of an hour long, told a minute before its end, and reports the median
// and how long ninety-nine of a hundred take.
func BenchmarkAgainEverywhere(b *testing.B) {
	for _, name := range []string{"harvest", "banquet"} {
		b.Run(name, func(b *testing.B) {
			p := example(b, name)
			tt := Make(context.Background(), p)
			var took []float64
			for b.Loop() {
				for i, slot := range tt.Slots {
					if p.Steps[i].Length.Elastic || slot.End.Sub(slot.Start) < 2*time.Minute {
						continue
					}
					now := slot.End.Add(-time.Minute)
					s, err := underWay(b, p, tt, now, i).Apply(run.Event{Kind: run.Prolonged, Step: p.Steps[i].ID, By: 15 * time.Minute, At: now})
					if err != nil {
						b.Fatal(err)
					}
					begun := time.Now()
					Again(context.Background(), s, now)
					took = append(took, time.Since(begun).Seconds()*1000)
				}
			}
			slices.Sort(took)
			b.ReportMetric(took[len(took)/2], "ms-median")
			b.ReportMetric(took[len(took)*99/100], "ms-p99")
		})
	}
}
