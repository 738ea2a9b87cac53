package session_test

import (
	"context"
	"sync"
	"testing"
	"time"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

// planned holds the first timetable of each example: it is always the same.
var planned sync.Map

// openExample opens a session on one of the built-in dinners.
func openExample(t *testing.T, name string) (*session.Session, *clocktest.Manual) {
	t.Helper()
	return openExampleWith(t, name, planner.Again)
}

// openExampleWith is openExample with a planner that can be replaced.
func openExampleWith(t *testing.T, name string, find again) (*session.Session, *clocktest.Manual) {
	t.Helper()
	src, ok := examples.Get(name)
	if !ok {
		t.Fatalf("no example %q", name)
	}
	p, ps := planfile.Decode(src, planfile.Options{
		Serve: "2026-10-17 19:00", Now: time.Date(2026, 10, 17, 8, 0, 0, 0, time.UTC), Local: time.UTC,
	})
	if ps.HasErrors() {
		t.Fatal(ps)
	}
	first := p.CookDay()
	for _, cook := range p.Kitchen.Cooks {
		if len(cook.Free) > 0 && cook.Free[0].From.Before(first) {
			first = cook.Free[0].From
		}
	}
	log, c := &journal.Memory{}, clocktest.New(first)
	cfg := config(p, log, c)
	cfg.Again = find
	solve := cfg.Make
	table, _ := planned.LoadOrStore(name, sync.OnceValue(func() *plan.Timetable { return solve(context.Background(), p) }))
	cfg.Make = func(context.Context, *plan.Plan) *plan.Timetable { return table.(func() *plan.Timetable)() }
	s, err := session.Open(context.Background(), cfg)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { consistent(t, s, log) })
	return s, c
}

// TestExamplesAsPlanned: a built-in dinner whose every cue is answered in time
// is served as planned, without a second timetable.
func TestExamplesAsPlanned(t *testing.T) {
	t.Parallel()
	for _, name := range examples.Names() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s, c := openExample(t, name)
			first := s.State().Timetable
			if err := session.Simulate(context.Background(), s, c, s.State().Plan.Table.AddDate(0, 0, 1), nil); err != nil {
				t.Fatal(err)
			}
			st := s.State()
			for i, course := range st.Courses {
				if !course.Served.Equal(first.Serves[i]) {
					t.Errorf("%s served at %s, planned %s", st.Plan.Courses[i].Name, course.Served, first.Serves[i])
				}
			}
			if n := adoptions(st); n != 1 {
				t.Errorf("%d timetables, want 1; the last because of %q", n, st.Why)
			}
		})
	}
}

// TestNothingMovesByItself: before anything has happened each timetable of the
// planner is its own projection, so no order that the run reads from it is tighter
// than what the planner kept.
func TestNothingMovesByItself(t *testing.T) {
	t.Parallel()
	check := func(t *testing.T, st *run.State, now time.Time) {
		t.Helper()
		pr := run.Project(st, now)
		for i, slot := range st.Timetable.Slots {
			if !pr.Start[i].Equal(slot.Start) || !pr.End[i].Equal(slot.End) {
				t.Errorf("%s: projected %s to %s, planned %s to %s", st.Plan.Steps[i].ID, pr.Start[i], pr.End[i], slot.Start, slot.End)
			}
		}
		for c, at := range st.Timetable.Serves {
			if !pr.Serves[c].Equal(at) {
				t.Errorf("%s: projected %s, planned %s", st.Plan.Courses[c].Name, pr.Serves[c], at)
			}
		}
		for _, b := range run.Conduct(st, now).Breaks {
			if b.Kind.Hard() && st.Timetable.Status == plan.Whole {
				t.Errorf("breaks %s: %s", b.Kind, b.Text)
			}
		}
	}
	for _, name := range examples.Names() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s, c := openExample(t, name)
			check(t, s.State(), c.Now())
		})
	}
	t.Run("weekend", func(t *testing.T) {
		t.Parallel()
		s, c, _ := beginDays(t, weekend())
		check(t, s.State(), c.Now())
	})
}

// TestExamplesRunLong prolongs each uncertain step of a built-in dinner in turn
// when its time is up: every course is served, and none later than by as much, or
// by a minute that is not worth a word. A dinner that cannot be has no order to
// keep; of a large one some steps do.
func TestExamplesRunLong(t *testing.T) {
	t.Parallel()
	const by = 15 * time.Minute
	for _, name := range examples.Names() {
		s, _ := openExample(t, name)
		if s.State().Timetable.Status == plan.Broken || racing && name == "banquet" {
			continue
		}
		for i, step := range s.State().Plan.Steps {
			if large := len(s.State().Plan.Steps) > 30; large && i%5 != 0 {
				continue
			}
			if step.Length.Elastic || step.Hands != plan.Free && step.Hands != plan.Near {
				continue
			}
			t.Run(name+"/"+step.ID, func(t *testing.T) {
				t.Parallel()
				s, c := openExample(t, name)
				first := s.State().Timetable
				told := false
				err := session.Simulate(context.Background(), s, c, s.State().Plan.Table.AddDate(0, 0, 1), func(cue run.Cue, _ time.Time) {
					if cue.ID == "end:"+step.ID && !told {
						told = true
						if _, err := s.Record(run.Event{Kind: run.Prolonged, Step: step.ID, By: by}); err != nil {
							t.Error(err)
						}
					}
				})
				if err != nil {
					t.Fatal(err)
				}
				for _, e := range s.State().Events {
					if e.Kind == run.Adopted {
						t.Log(e.At.Format("15:04"), e.Timetable.Status, e.Why)
						for _, b := range e.Timetable.Breaks {
							t.Log(b.Kind, b.Minutes, b.Text)
						}
					}
				}
				for k, course := range s.State().Courses {
					if late := course.Served.Sub(first.Serves[k]); late >= by+session.ServeMoves {
						t.Errorf("%s is %s later, the step %s", s.State().Plan.Courses[k].Name, late, by)
					}
				}
				if d := s.State().Steps[i].Finished.Sub(s.State().Steps[i].Started); told && d != step.Length.Planned()+by {
					t.Errorf("took %s, want %s", d, step.Length.Planned()+by)
				}
			})
		}
	}
}
