package risk_test

import (
	"context"
	"flag"
	"testing"
	"time"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/kept"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/rehearse"
	"example.org/kettledrum/plan/risk"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

var all = flag.Bool("all", false, "whole, where a part is looked at otherwise: some minutes")

// example returns a built-in dinner and its timetable.
func example(t testing.TB, name string) (*plan.Plan, *plan.Timetable) {
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
	return p, planner.Make(context.Background(), p)
}

// evening plays one run in a session whose first timetable stays in force.
func evening(t *testing.T, p *plan.Plan, table *plan.Timetable, took []int64) *run.State {
	t.Helper()
	first := table.Serves[0]
	for _, slot := range table.Slots {
		first = plan.Earlier(first, slot.Start)
	}
	for _, set := range table.Sets {
		first = plan.Earlier(first, set.At)
	}
	c := clock.NewFast(clocktest.New(first), first.Add(-time.Hour), 0)
	s, err := session.Open(t.Context(), session.Config{
		Log: new(journal.Memory), Plan: p, Clock: c, Hold: true,
		Copy:   run.PlanCopy{Rehearse: true},
		Make:   func(context.Context, *plan.Plan) *plan.Timetable { return table },
		Verify: func(*plan.Plan, *plan.Timetable, time.Time) []plan.Break { return nil },
	})
	if err != nil {
		t.Fatal(err)
	}
	player := rehearse.New(t.Context(), s, risk.Script(p, took), first.Add(-time.Hour), rehearse.Watcher{})
	if err := session.Play(t.Context(), s, c, table.Serves[len(table.Serves)-1].Add(12*time.Hour), player); err != nil {
		t.Fatal(err)
	}
	return s.State()
}

// A dispatched dinner is the one that the session conducts: each step begins and ends,
// and each course is served, at the same second.
func TestDispatcherEqualsSession(t *testing.T) {
	t.Parallel()
	part := map[string]int{"harvest": 10, "banquet": 2} // a session conducts four harvest dinners a second
	if racing {
		part = map[string]int{"harvest": 1, "banquet": 1}
	}
	for _, name := range examples.Names() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			p, table := example(t, name)
			runs := 100
			if n, ok := part[name]; ok && !*all {
				runs = n
			}
			equalsSession(t, p, table, runs)
		})
	}
	t.Run("with-slack", func(t *testing.T) {
		t.Parallel()
		p, table := example(t, "weeknight")
		s := risk.BeSure(t.Context(), p, table, risk.SureOptions{Target: 0.95, Seed: 1, Make: planner.Make, Again: planner.From, Check: checked, Hot: kept.Hot(p)})
		equalsSession(t, p, s.Timetable, 100)
	})
}

func equalsSession(t *testing.T, p *plan.Plan, table *plan.Timetable, runs int) {
	t.Helper()
	e := risk.Compile(p, table).Evening()
	source := risk.NewSampler(p, table).Source()
	took := make([]int64, len(p.Steps))
	at := func(ns int64) time.Time { return p.Table.Add(time.Duration(ns)) }
	differ := 0
	for n := range runs {
		source.Draw(7, n, took)
		e.Run(took)
		st := evening(t, p, table, took)
		bad := false
		for c := range p.Courses {
			if got, want := at(e.Serve(c)), st.Courses[c].Served; !got.Equal(want) {
				bad = true
				t.Errorf("run %d: %s dispatched at %s, served at %s", n, p.Courses[c].Name, got.Format("15:04:05"), want.Format("15:04:05"))
			}
		}
		for i := range p.Steps {
			s := &st.Steps[i]
			if !at(e.Start(i)).Equal(s.Started) || !at(e.End(i)).Equal(s.Finished) {
				bad = true
				t.Errorf("run %d: %s dispatched %s to %s, was %s to %s (%v)", n, p.Steps[i].ID,
					at(e.Start(i)).Format("15:04:05"), at(e.End(i)).Format("15:04:05"), s.Started.Format("15:04:05"), s.Finished.Format("15:04:05"), s.Status)
			}
		}
		if bad {
			if differ++; differ > 2 {
				t.FailNow()
			}
		}
	}
}
