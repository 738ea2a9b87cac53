package session_test

import (
	"context"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

// weekend is a dinner of two courses begun two days ahead by a cook who sits: a
// tart whose dough is made on Thursday and filled on Friday, a joint salted the day
// before, a stock in the only pot; the table is laid, coffee made.
func weekend() *plantest.Builder {
	b := plantest.New("2026-10-17 19:00")
	b.Sits(b.Cook("Ines", "-2d 19:00-21:30", "-1d 18:00-18:50", "12:00-23:00"))
	pot := b.Tool("pot", 1)
	b.Wash(pot, 5)
	b.Cold("fridge", 3)
	main := b.Course("Main", 0, 40*time.Minute, 20*time.Minute)
	sweet := b.Course("Sweet", time.Hour, 30*time.Minute, 20*time.Minute)
	b.Dish("Tart", sweet)
	b.Step("Make dough", plantest.Takes(20), plantest.Chilled(72, "fridge", 1))
	b.Step("Fill", plantest.Takes(30), plantest.Chilled(30, "fridge", 1))
	b.Step("Bake", plantest.Takes(40), plantest.Oven(180, 2), plantest.Remind(plan.Halfway, 0), plantest.Limit(120))
	b.Step("Slice", plantest.Takes(5))
	b.Dish("Pork", main)
	b.Step("Salt", plantest.Takes(15), plantest.Chilled(36, "fridge", 1))
	b.Step("Roast", plantest.Takes(120), plantest.Oven(180, 2), plantest.Remind(plan.Every, 40))
	b.Step("Rest", plantest.Waits(15, 40))
	b.Step("Carve", plantest.Takes(10), plantest.Keeps(5, 20))
	b.Dish("Broth", main)
	b.Step("Simmer", plantest.Takes(40), plantest.Burner(plan.Small), plantest.Vessel(pot))
	b.Step("Strain", plantest.Takes(10), plantest.Vessel(pot))
	b.Chore("Lay the table", main, plan.Chore{After: -1, Ahead: 6 * time.Hour, HasAhead: true}, plantest.Takes(20))
	b.Chore("Make coffee", sweet, plan.Chore{After: main}, plantest.Takes(8))
	return b
}

// weekendPlanned is the timetable of that dinner: it is always the same.
var weekendPlanned = sync.OnceValue(func() *plan.Timetable {
	return planner.Make(context.Background(), &weekend().Plan)
})

// beginDays opens a session before the first day's work.
func beginDays(t *testing.T, b *plantest.Builder) (*session.Session, *clocktest.Manual, *journal.Memory) {
	t.Helper()
	log, c := &journal.Memory{}, clocktest.New(b.At("-2d 18:30"))
	cfg := config(&b.Plan, log, c)
	cfg.Make = func(context.Context, *plan.Plan) *plan.Timetable { return weekendPlanned() }
	s, err := session.Open(context.Background(), cfg)
	if err != nil {
		t.Fatal(err)
	}
	if tt := s.State().Timetable; tt.Status != plan.Whole {
		t.Fatalf("the first timetable is %s: %v", tt.Status, tt.Breaks)
	}
	return s, c, log
}

func TestSimulateDays(t *testing.T) {
	t.Parallel()
	b := weekend()
	s, c, log := beginDays(t, b)
	first := s.State().Timetable
	reminded := 0
	err := session.Simulate(context.Background(), s, c, b.At("23:00"), func(cue run.Cue, now time.Time) {
		if cue.Class == run.Look && len(cue.Answer) > 0 && cue.Answer[0].Kind == run.Acknowledged {
			reminded++
		}
		if now.After(cue.Due.Add(time.Minute)) {
			t.Errorf("%s comes at %s, was due %s", cue.ID, now, cue.Due)
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	st := s.State()
	for i, course := range st.Courses {
		if !course.Served.Equal(first.Serves[i]) {
			t.Errorf("%s served at %s, planned %s", b.Plan.Courses[i].Name, course.Served, first.Serves[i])
		}
	}
	for i, step := range st.Steps {
		if step.Status != plan.Done {
			t.Errorf("step %s is not done", b.Plan.Steps[i].ID)
		}
	}
	if n := adoptions(st); n != 1 {
		t.Errorf("%d timetables were adopted, want 1: %v", n, st.Why)
	}
	consistent(t, s, log)
	if reminded != 3 { // the tart's once, the roast's at 40 and 80 minutes
		t.Errorf("%d reminders, want 3", reminded)
	}
}

// What a rehearsal skips went as planned: nothing of it is asked again.
func TestFastForwardDays(t *testing.T) {
	t.Parallel()
	for _, to := range []string{"-2d 22:00", "-1d 12:00", "-1d 22:00", "12:00", "18:00", "19:30", "19:55", "22:00"} {
		t.Run(to, func(t *testing.T) {
			t.Parallel()
			b := weekend()
			s, c, _ := beginDays(t, b)
			c.Set(b.At(to))
			st, err := s.FastForward(c.Now())
			if err != nil {
				t.Fatal(err)
			}
			if got := unanswered(run.Conduct(st, c.Now())); len(got) > 0 {
				t.Errorf("unanswered: %v", got)
			}
			for i, slot := range st.Timetable.Slots {
				want := plan.Ahead
				switch {
				case slot.End.Before(c.Now()):
					want = plan.Done
				case slot.Start.Before(c.Now()):
					want = plan.Begun
				}
				if st.Steps[i].Status != want {
					t.Errorf("%s is %d, want %d", b.Plan.Steps[i].ID, st.Steps[i].Status, want)
				}
			}
		})
	}
}

func unanswered(m run.Moment) []string {
	var out []string
	for _, u := range m.Unconfirmed {
		out = append(out, u.Cue.ID)
	}
	return out
}

// Whoever comes back after a day finds what was to be done meanwhile, and nothing
// else; and what was not done can be begun then.
func TestComingBackAnotherDay(t *testing.T) {
	t.Parallel()
	b := weekend()
	s, c, log := beginDays(t, b)
	due := func(from, to string) (ids []string) { // what the timetable has done in a stretch of time
		for i, slot := range s.State().Timetable.Slots {
			if !slot.Start.Before(b.At(from)) && slot.End.Before(b.At(to)) {
				ids = append(ids, b.Plan.Steps[i].ID)
			}
		}
		return ids
	}
	thursday, friday := due("-2d 00:00", "-1d 00:00"), due("-1d 00:00", "00:00")
	if len(thursday) == 0 || len(friday) == 0 {
		t.Fatalf("made ahead on Thursday %v, on Friday %v: too little for this test", thursday, friday)
	}
	c.Set(b.At("-2d 22:00"))
	if _, err := s.FastForward(c.Now()); err != nil {
		t.Fatal(err)
	}
	for _, now := range []string{"-1d 10:00", "-1d 18:30", "-1d 20:59", "11:00"} {
		c.Set(b.At(now))
		again := resume(t, b, log, c)
		st, err := again.Tick()
		if err != nil {
			t.Fatal(err)
		}
		want := map[string]bool{}
		for _, id := range friday {
			if slot := st.Timetable.Slots[b.Plan.StepIndex(id)]; !slot.Start.Add(run.UnconfirmedAfter).After(c.Now()) {
				want["start:"+id] = true
			}
			if slot := st.Timetable.Slots[b.Plan.StepIndex(id)]; !slot.End.Add(run.UnconfirmedAfter).After(c.Now()) {
				want["end:"+id] = true
			}
		}
		got := map[string]bool{}
		for _, id := range unanswered(run.Conduct(st, c.Now())) {
			got[id] = true
		}
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("%s (-want +got):\n%s", now, d)
		}
		if n := adoptions(st); n != 1 {
			t.Errorf("%s: %d timetables, want 1: %v", now, n, st.Why)
		}
	}
	// On Saturday at noon what was to be done on Friday is told to begin now.
	c.Set(b.At("12:05"))
	again := resume(t, b, log, c)
	if _, err := again.Record(run.Event{Kind: run.Started, Step: friday[0]}); err != nil {
		t.Fatal(err)
	}
	if err := session.Simulate(context.Background(), again, c, b.At("23:30"), nil); err != nil {
		t.Fatal(err)
	}
	consistent(t, again, log)
	for i, course := range again.State().Courses {
		if late := course.Served.Sub(b.Plan.Asked(i)); late > 0 {
			t.Errorf("%s is %s late", b.Plan.Courses[i].Name, late)
		}
	}
}

// A roast that runs long on the day is made up for or told, with the days before
// left as they were.
func TestRunningLongAfterDays(t *testing.T) {
	t.Parallel()
	b := weekend()
	s, c, _ := beginDays(t, b)
	told := false
	err := session.Simulate(context.Background(), s, c, b.At("23:30"), func(cue run.Cue, _ time.Time) {
		if cue.ID == "end:pork/roast" && !told {
			told = true
			if _, err := s.Record(run.Event{Kind: run.Prolonged, Step: "pork/roast", By: 25 * time.Minute}); err != nil {
				t.Error(err)
			}
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	st := s.State()
	for i, course := range st.Courses {
		if late := course.Served.Sub(b.Plan.Asked(i)); late > 30*time.Minute {
			t.Errorf("%s is %s late: %v", b.Plan.Courses[i].Name, late, st.Why)
		}
	}
	if !told || adoptions(st) > 4 {
		t.Errorf("told: %v, %d timetables: %v", told, adoptions(st), st.Why)
	}
}
