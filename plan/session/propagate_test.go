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
				var fresh []*run.State // each is told one thing, as in a run: the events of the newest are not copied
				for b.Loop() {
					if len(fresh) == 0 {
						b.StopTimer()
						fresh = untold(b, st, at)
						b.StartTimer()
					}
					next, err := fresh[0].Apply(e)
					if err != nil {
						b.Fatal(err)
					}
					run.Conduct(next, at) // projects it
					fresh = fresh[1:]
				}
			})
		}
	}
}

// untold are states of one run to which nothing was told yet but a note.
func untold(b *testing.B, st *run.State, at time.Time) (out []*run.State) {
	b.Helper()
	for range 32 {
		next, err := st.Apply(run.Event{Kind: run.Noted, Text: "all is well", At: at, Noted: at})
		if err != nil {
			b.Fatal(err)
		}
		out = append(out, next)
	}
	return out
}
