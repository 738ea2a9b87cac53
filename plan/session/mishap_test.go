package session_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
	"example.org/kettledrum/plan/verify"

	"github.com/google/go-cmp/cmp"
)

// unplanned tells something that nobody planned; what cannot be is refused.
func unplanned(rng *rand.Rand, s *session.Session, now time.Time) {
	p, st := s.State().Plan, s.State()
	step, course := p.Steps[rng.IntN(len(p.Steps))], p.Courses[rng.IntN(len(p.Courses))].Name
	by := time.Duration(1+rng.IntN(20)) * time.Minute
	evs := []run.Event{
		{Kind: run.Held, Course: course, By: by}, {Kind: run.Released, Course: course},
		{Kind: run.Away, Cook: "Ines", By: by}, {Kind: run.Back, Cook: "Ines"},
		{Kind: run.Failed, Burner: "large"}, {Kind: run.Works, Burner: "large"},
		{Kind: run.Failed, Oven: "oven"}, {Kind: run.Works, Oven: "oven"},
		{Kind: run.Redone, Step: step.ID, At: now.Add(-4 * time.Minute)}, {Kind: run.Dropped, Dish: p.Dishes[step.Dish].ID},
		{Kind: run.Paused, Step: step.ID}, {Kind: run.Put, Step: step.ID, Burner: "large"},
		{Kind: run.RemedyTaken, Text: "later", Changes: []plan.Change{{Kind: plan.TolerateLate, Course: course, By: by}}},
	}
	for i := range st.Steps { // nothing stays paused
		if !st.Steps[i].Paused.IsZero() {
			evs = []run.Event{{Kind: run.Resumed, Step: p.Steps[i].ID}}
		}
	}
	s.Record(evs[rng.IntN(len(evs))])
}

// TestMishaps cooks dinners in which much goes wrong, by seed: answers come
// late, steps run long or are dropped, what is told is undone. Whatever happens, every
// course is served, no more timetables are adopted than things were told, and
// each says what the verifier says of it.
func TestMishaps(t *testing.T) {
	t.Parallel()
	for seed := range uint64(25) {
		t.Run(fmt.Sprintf("seed-%d", seed), func(t *testing.T) {
			t.Parallel()
			b := limited()
			s, c, _ := begin(t, b)
			rng := rand.New(rand.NewPCG(seed, 0))
			prolonged := map[string]bool{}
			tell := func(e run.Event) {
				if _, err := s.Record(e); err != nil {
					t.Errorf("at %s, %s %s: %v", c.Now().Format("15:04"), e.Kind, e.Step, err)
				}
			}
			err := session.Simulate(context.Background(), s, c, b.At("23:59"), func(cue run.Cue, _ time.Time) {
				step := ""
				if cue.Step >= 0 {
					step = b.Plan.Steps[cue.Step].ID
				}
				switch p := rng.IntN(100); {
				case p < 15:
					c.Advance(time.Duration(rng.IntN(240)) * time.Second)
				case p < 20:
					c.Advance(12 * time.Minute)
				case p < 40 && cue.Class == run.Look && step != "" && !prolonged[step]:
					prolonged[step] = true
					tell(run.Event{Kind: run.Prolonged, Step: step, By: time.Duration(5+rng.IntN(16)) * time.Minute})
				case p < 43 && cue.Class == run.Act && step != "" && cue.ID == "start:"+step:
					tell(run.Event{Kind: run.SkippedStep, Step: step})
				case p < 50:
					unplanned(rng, s, c.Now())
				case p < 55:
					if e, ok := s.State().LastUndoable(); ok && e.Kind != run.Finished && e.Kind != run.Started && e.Kind != run.Served {
						tell(run.Event{Kind: run.Undone, Undoes: e.Seq})
					}
				}
			})
			if err != nil {
				t.Error(err)
			}
			st := s.State()
			told := len(st.Events) - adoptions(st)
			for i, e := range st.Events {
				if e.Kind != run.Adopted || i < 2 {
					continue
				}
				if len(e.Why) > 3 {
					t.Errorf("%d lines say why: %q", len(e.Why), e.Why)
				}
				then, err := run.Fold(st.Base, st.Events[:i+1])
				if err != nil {
					t.Fatal(err)
				}
				known := verify.Check(then.At(e.At).Plan, e.Timetable, e.At)
				if len(e.Timetable.Breaks) > len(known) {
					t.Errorf("breaks (-verifier +timetable):\n%s", cmp.Diff(known, e.Timetable.Breaks))
				}
			}
			t.Logf("seed %d: %d events, %d timetables", seed, told, adoptions(st))
		})
	}
}
