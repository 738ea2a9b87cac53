package session_test

import (
	"context"
	"testing"
	"time"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

// BenchmarkPropagate is what an event costs before anything is planned anew: it is
// folded, the run projected, and all that a screen shows worked out.
func BenchmarkPropagate(b *testing.B) {
	for _, name := range []string{"harvest", "banquet"} {
		src, _ := examples.Get(name)
		p, ps := planfile.Decode(src, planfile.Options{Serve: "2026-10-17 19:00", Now: time.Date(2026, 10, 17, 8, 0, 0, 0, time.UTC), Local: time.UTC})
		if ps.HasErrors() {
			b.Fatal(ps)
		}
		c := clocktest.New(p.CookDay().AddDate(0, 0, -3))
		s, err := session.Open(context.Background(), config(p, &journal.Memory{}, c))
		if err != nil {
			b.Fatal(err)
		}
		at := evening(p, "18:35")
		st, err := s.FastForward(at)
		if err != nil {
			b.Fatal(err)
		}
		for _, e := range []run.Event{
			{Kind: run.TimerSet, By: time.Minute},
			{Kind: run.Held, Course: p.Courses[1].Name, By: 10 * time.Minute},
			{Kind: run.Away, Cook: p.Kitchen.Cooks[1].Name, By: 10 * time.Minute},
			{Kind: run.Failed, Burner: "large"},
			{Kind: run.Undone, Undoes: st.Events[len(st.Events)-1].Seq},
		} {
			b.Run(name+"/"+string(e.Kind), func(b *testing.B) {
				e.At, e.Noted = at, at
				b.ReportAllocs()
				for b.Loop() {
					next, err := st.Apply(e)
					if err != nil {
						b.Fatal(err)
					}
					run.Conduct(next, at) // projects it
				}
			})
		}
	}
}
