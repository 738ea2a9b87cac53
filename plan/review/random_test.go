package review_test

import (
	"context"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/remedy"
	"example.org/kettledrum/plan/review"
	"example.org/kettledrum/plan/run"
)

// TestAnyRun: whatever is told, in any order, taken back or said afterwards, a run is
// reviewed: what is judged took a minute at least and no longer than from its beginning
// to its end, the rest has a reason, and what went wrong makes a script that can be read.
func TestAnyRun(t *testing.T) {
	t.Parallel()
	p := decoded(t, soup)
	first := planner.Make(t.Context(), p)
	// Nothing is planned again: it is what is told that is drawn, not what is made of it.
	none := func(context.Context, *run.State, time.Time) *plan.Timetable { return nil }
	rapid.Check(t, func(r *rapid.T) {
		e := openWith(t, p, first, "soup/chop", time.Time{}, none)
		minute := -70
		for range rapid.IntRange(1, 40).Draw(r, "events") {
			minute += rapid.IntRange(0, 9).Draw(r, "later")
			e.c.Jump(e.when(minute))
			if rapid.IntRange(0, 5).Draw(r, "all") == 0 {
				_, _ = e.s.Record(run.AllAsPlanned(run.Conduct(e.s.State(), e.c.Now()))...)
				continue
			}
			_, _ = e.s.Record(anything(r, e)) // what cannot have been is refused
		}
		ev := review.Of(e.s.State(), p)
		for i, s := range ev.Steps {
			span := s.End.Sub(s.Start)
			switch {
			case s.Why == review.Judged && (s.Took < time.Minute || s.Took+s.Stood != span || s.Stood < 0):
				r.Fatalf("%s: took %v, stood %v, of %v", p.Steps[i].ID, s.Took, s.Stood, span)
			case s.Why != review.Judged && (s.Took != 0 || s.Why.Words() == ""):
				r.Fatalf("%s: took %v, %q", p.Steps[i].ID, s.Took, s.Why)
			}
		}
		review.Compare([]*review.Evening{ev, ev})
		script := review.Mishaps(e.s.State(), func([]run.Event, time.Time) []remedy.Remedy { return nil })
		text := planfile.WriteScript(p, script.Mishaps, nil, script.Left)
		if _, ps := planfile.Mishaps(text, p, p.Table); ps.HasErrors() {
			r.Fatalf("%v\n%s", ps, text)
		}
	})
}

// anything draws something that a cook might tell.
func anything(r *rapid.T, e *evening) run.Event {
	step := e.p.Steps[rapid.IntRange(0, len(e.p.Steps)-1).Draw(r, "step")].ID
	by := time.Duration(rapid.IntRange(0, 20).Draw(r, "by")) * time.Minute
	kind := rapid.SampledFrom([]run.Kind{run.Started, run.Started, run.Started, run.Finished, run.Finished, run.Finished, run.Prolonged, run.Paused,
		run.Resumed, run.SkippedStep, run.Added, run.Reading, run.OvenTurned, run.Served, run.Held, run.Released, run.TimerSet, run.Away,
		run.Back, run.Failed, run.Works, run.Put, run.Redone, run.Dropped, run.Noted, run.Undone}).Draw(r, "kind")
	v := run.Event{Kind: kind, By: by, At: e.c.Now().Add(-time.Duration(rapid.IntRange(0, 3).Draw(r, "ago")) * 4 * time.Minute)}
	burner := rapid.SampledFrom([]string{"small", "large"}).Draw(r, "burner")
	switch kind {
	case run.Added, run.Noted, run.TimerSet:
		v.Text = "something"
		if kind == run.Added && rapid.Bool().Draw(r, "by the cook") {
			v.Cook = e.p.Kitchen.Cooks[0].Name
		}
	case run.Reading:
		v.Step, v.Temp = step, degrees(float64(rapid.IntRange(10, 90).Draw(r, "temp")))
	case run.OvenTurned:
		v.Oven, v.Temp = e.p.Kitchen.Ovens[0].Name, degrees(204)
	case run.Served, run.Held, run.Released:
		v.Course = e.p.Courses[0].Name
	case run.Away, run.Back:
		v.Cook = e.p.Kitchen.Cooks[0].Name
	case run.Failed, run.Works:
		if v.Burner = burner; rapid.Bool().Draw(r, "oven") {
			v.Burner, v.Oven = "", e.p.Kitchen.Ovens[0].Name
		} else if st := e.s.State(); kind == run.Failed && st.Steps[e.p.StepIndex(step)].Status == plan.Begun {
			v.Step = step
		}
	case run.Put:
		v.Step, v.Burner = step, burner
	case run.Dropped:
		v.Dish = e.p.Dishes[0].ID
	case run.Undone:
		last, _ := e.s.State().LastUndoable()
		v.Undoes = last.Seq
	default:
		v.Step = step
	}
	return v
}
