package session_test

import (
	"context"
	"slices"
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

// kinds are the events that may lead to another timetable, each at a moment of a
// dinner of which everything went as planned until then: nothing where it cannot be.
var kinds = []struct {
	name string
	tell func(st *run.State, now time.Time) (run.Event, bool)
}{
	{"prolonged", ofGoing(func(e *run.Event) { e.Kind, e.By = run.Prolonged, 15*time.Minute })},
	{"finished-early", ofGoing(func(e *run.Event) { e.Kind = run.Finished })},
	{"skipped", ofNext(func(e *run.Event) { e.Kind = run.SkippedStep })},
	{"begun-again", ofGoing(func(e *run.Event) { e.Kind = run.Redone })},
	{"held", func(st *run.State, _ time.Time) (run.Event, bool) {
		c := slices.IndexFunc(st.Courses, func(c run.CourseState) bool { return c.Served.IsZero() })
		return run.Event{Kind: run.Held, Course: st.Plan.Courses[max(0, c)].Name, By: 15 * time.Minute}, c >= 0
	}},
	{"away", func(st *run.State, _ time.Time) (run.Event, bool) {
		return run.Event{Kind: run.Away, Cook: st.Plan.Kitchen.Cooks[1].Name, By: 15 * time.Minute}, true
	}},
	{"burner-fails", func(*run.State, time.Time) (run.Event, bool) {
		return run.Event{Kind: run.Failed, Burner: "large"}, true
	}},
	{"given-away", ofNext(func(e *run.Event) { e.Kind, e.Cook = run.Reassigned, "" })},
}

// ofGoing is an event about the food that goes and is done soonest.
func ofGoing(fill func(*run.Event)) func(*run.State, time.Time) (run.Event, bool) {
	return func(st *run.State, now time.Time) (run.Event, bool) {
		pick := -1
		for i, s := range st.Steps {
			if s.Status == plan.Begun && !st.Plan.Steps[i].Length.Elastic && (pick < 0 || st.Timetable.Slots[i].End.Before(st.Timetable.Slots[pick].End)) {
				pick = i
			}
		}
		if pick < 0 {
			return run.Event{}, false
		}
		e := run.Event{Step: st.Plan.Steps[pick].ID}
		fill(&e)
		return e, true
	}
}

// ofNext is an event about the work that comes next; a cook that it wants is another
// one than planned.
func ofNext(fill func(*run.Event)) func(*run.State, time.Time) (run.Event, bool) {
	return func(st *run.State, now time.Time) (run.Event, bool) {
		pick := -1
		for i, s := range st.Steps {
			if s.Status == plan.Ahead && st.Plan.Steps[i].Hands.Working() && (pick < 0 || st.Timetable.Slots[i].Start.Before(st.Timetable.Slots[pick].Start)) {
				pick = i
			}
		}
		if pick < 0 {
			return run.Event{}, false
		}
		e := run.Event{Step: st.Plan.Steps[pick].ID}
		if fill(&e); e.Kind == run.Reassigned {
			cooks := st.Plan.Kitchen.Cooks
			e.Cook = cooks[(st.Timetable.Slots[pick].Cook+1)%len(cooks)].Name
		}
		return e, true
	}
}

// cookDay is a built-in dinner with its timetable, on the evening of the examples.
func cookDay(tb testing.TB, name string) (*plan.Plan, *plan.Timetable) {
	tb.Helper()
	src, _ := examples.Get(name)
	p, ps := planfile.Decode(src, planfile.Options{Serve: "2026-10-17 19:00", Now: time.Date(2026, 10, 17, 8, 0, 0, 0, time.UTC), Local: time.UTC})
	if ps.HasErrors() {
		tb.Fatal(ps)
	}
	return p, planner.Make(context.Background(), p)
}

// asPlannedUntil opens a session of which everything went as planned until now.
func asPlannedUntil(tb testing.TB, p *plan.Plan, first *plan.Timetable, now time.Time) (*session.Session, *journal.Memory, *clocktest.Manual) {
	tb.Helper()
	log, c := &journal.Memory{}, clocktest.New(p.CookDay().AddDate(0, 0, -3))
	cfg := config(p, log, c)
	cfg.Make = func(context.Context, *plan.Plan) *plan.Timetable { return first }
	s, err := session.Open(context.Background(), cfg)
	if err != nil {
		tb.Fatal(err)
	}
	if _, err := s.FastForward(now); err != nil {
		tb.Fatal(err)
	}
	c.Set(now)
	return s, log, c
}

// BenchmarkReplan is what the cook waits for after an event: until it is written,
// folded, and whatever timetable it leads to is in force. Each kind of event at each
// tenth minute of the last five hours of a dinner; of those that lead to another
// timetable the median and the 99th percentile, and how many they are.
func BenchmarkReplan(b *testing.B) {
	for _, name := range []string{"harvest", "banquet"} {
		p, first := cookDay(b, name)
		last := first.Serves[len(first.Serves)-1]
		var all []float64
		for _, kind := range kinds {
			b.Run(name+"/"+kind.name, func(b *testing.B) {
				var took []float64
				for b.Loop() {
					for at := last.Add(-5 * time.Hour).Truncate(10 * time.Minute); at.Before(last); at = at.Add(10 * time.Minute) {
						now := at.Add(30 * time.Second)
						s, _, _ := asPlannedUntil(b, p, first, now)
						e, ok := kind.tell(s.State(), now)
						if !ok {
							continue
						}
						n, begun := adoptions(s.State()), time.Now()
						st, err := s.Record(e)
						if err == nil && adoptions(st) > n {
							took = append(took, time.Since(begun).Seconds()*1000)
						}
					}
				}
				all = append(all, took...)
				report(b, took)
			})
		}
		b.Run(name+"/all", func(b *testing.B) { report(b, all) })
	}
}

func report(b *testing.B, took []float64) {
	b.ReportMetric(0, "ns/op")
	if len(took) == 0 {
		return
	}
	slices.Sort(took)
	b.ReportMetric(took[len(took)/2], "ms-median")
	b.ReportMetric(took[len(took)*99/100], "ms-p99")
	b.ReportMetric(float64(len(took)), "adopted")
}

// BenchmarkRemedies is how long the ways out of a roast of half an hour more take to
// be worked out, beside the screen.
func BenchmarkRemedies(b *testing.B) {
	for _, x := range []struct{ name, step, at string }{{"harvest", "pork-shoulder/roast", "18:30"}, {"banquet", "braised-brisket/reheat", "20:30"}} {
		b.Run(x.name, func(b *testing.B) {
			p, first := cookDay(b, x.name)
			s, _, _ := asPlannedUntil(b, p, first, evening(p, x.at))
			if _, err := s.Record(run.Event{Kind: run.Prolonged, Step: x.step, By: 30 * time.Minute}); err != nil {
				b.Fatal(err)
			}
			n := 0
			for b.Loop() {
				n = len(s.Remedies(context.Background()))
			}
			b.ReportMetric(float64(n), "offered")
		})
	}
}
