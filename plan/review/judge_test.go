package review_test

import (
	"context"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/review"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

const soup = `kettledrum: 1
title: Soup and bread
table: 2026-10-17 19:00
zone: UTC
dishes:
  - name: Soup
    steps:
      - {do: Chop, takes: 10m}
      - {do: Simmer, takes: 30m (25m-40m), burner: small, keeps: freely}
      - {do: Blend, takes: 5m, at_once: true}
  - name: Bread
    steps:
      - {do: Bake, takes: 25m (15m-30m), oven: 375-450F, keeps: freely}
      - {do: Cool, waits: 5m to 40m}
      - {do: Slice, takes: 3m}
`

func decoded(t testing.TB, text string) *plan.Plan {
	t.Helper()
	p, ps := planfile.Decode([]byte(text), planfile.Options{Now: time.Date(2026, 10, 1, 8, 0, 0, 0, time.UTC), Local: time.UTC})
	if ps.HasErrors() {
		t.Fatal(ps)
	}
	return p
}

// evening is a dinner on a real session, told by hand: minutes count from the planned
// start of its first step.
type evening struct {
	t testing.TB
	p *plan.Plan
	c *clocktest.Manual
	s *session.Session
	// zero is when the step that is told of is planned to start.
	zero time.Time
}

func open(t testing.TB, p *plan.Plan, step string, made time.Time) *evening {
	t.Helper()
	return openWith(t, p, planner.Make(t.Context(), p), step, made, planner.Again)
}

// openWith is open with a first timetable, and with what plans again.
func openWith(t testing.TB, p *plan.Plan, first *plan.Timetable, step string, made time.Time, again func(context.Context, *run.State, time.Time) *plan.Timetable) *evening {
	t.Helper()
	zero := first.Slots[p.StepIndex(step)].Start
	c := clocktest.New(zero.Add(-2 * time.Hour))
	if !made.IsZero() {
		c = clocktest.New(made)
	}
	cfg := config(p, &journal.Memory{}, c, first)
	cfg.Copy.Rehearse, cfg.Made, cfg.Again = false, made, again
	s, err := session.Open(t.Context(), cfg)
	if err != nil {
		t.Fatal(err)
	}
	return &evening{t, p, c, s, zero}
}

// at turns the clock to a minute and tells something.
func (e *evening) at(minute int, events ...run.Event) {
	e.t.Helper()
	e.c.Jump(e.zero.Add(time.Duration(minute) * time.Minute))
	for k := range events { // one at a time, as a cook tells
		if _, err := e.s.Record(events[k]); err != nil {
			e.t.Fatal(err)
		}
	}
}

// when is an instant by its minute.
func (e *evening) when(minute int) time.Time { return e.zero.Add(time.Duration(minute) * time.Minute) }

func started(step string) run.Event  { return run.Event{Kind: run.Started, Step: step} }
func finished(step string) run.Event { return run.Event{Kind: run.Finished, Step: step} }

// TestJudged: what counts as the length of a step, and why the others do not.
func TestJudged(t *testing.T) {
	t.Parallel()
	const chop, simmer, blend, bake = "soup/chop", "soup/simmer", "soup/blend", "bread/bake"
	temp := float64(plan.FromFahrenheit(450))
	for _, c := range []struct {
		name, step string
		tell       func(e *evening)
		took       int
		why        review.Reason
	}{
		{"told", chop, func(e *evening) { e.at(1, started(chop)); e.at(13, finished(chop)) }, 12, ""},
		{"sooner", simmer, func(e *evening) { e.at(0, started(simmer)); e.at(21, finished(simmer)) }, 21, ""},
		{"longer-and-told-so", chop, func(e *evening) {
			e.at(0, started(chop))
			e.at(9, run.Event{Kind: run.Prolonged, Step: chop, By: 8 * time.Minute})
			e.at(16, finished(chop))
		}, 16, ""},
		{"told-later-with-its-time", chop, func(e *evening) {
			e.at(20, run.Event{Kind: run.Started, Step: chop, At: e.when(2)}, run.Event{Kind: run.Finished, Step: chop, At: e.when(19)})
		}, 17, ""},
		{"as-planned-afterwards", chop, func(e *evening) {
			e.at(40)
			all := run.AllAsPlanned(run.Conduct(e.s.State(), e.c.Now()))
			if len(all) < 2 {
				e.t.Fatalf("%d are unconfirmed", len(all))
			}
			if _, err := e.s.Record(all...); err != nil {
				e.t.Fatal(err)
			}
		}, 0, review.Assumed},
		{"end-as-planned-afterwards", chop, func(e *evening) {
			e.at(0, started(chop))
			e.at(30)
			if _, err := e.s.Record(run.AllAsPlanned(run.Conduct(e.s.State(), e.c.Now()))...); err != nil {
				e.t.Fatal(err)
			}
		}, 0, review.Assumed},
		{"only-the-end", chop, func(e *evening) { e.at(11, finished(chop)) }, 0, review.NoStart},
		{"only-the-start", chop, func(e *evening) { e.at(0, started(chop)) }, 0, review.NoEnd},
		{"ended-by-what-follows", chop, func(e *evening) { e.at(0, started(chop)); e.at(12, started(simmer)) }, 0, review.NoEnd},
		{"followed-from-the-next", chop, func(e *evening) { e.at(12, started(simmer)) }, 0, review.Untold},
		{"never", chop, func(*evening) {}, 0, review.Untold},
		{"ended-by-the-serve", blend, func(e *evening) {
			e.at(-40, started(simmer))
			e.at(0, finished(simmer))
			e.at(6, run.Event{Kind: run.Served, Course: "Dinner"})
		}, 0, review.NoEnd},
		{"at-once-after-a-told-end", blend, func(e *evening) { e.at(-35, started(simmer)); e.at(0, finished(simmer)); e.at(7, finished(blend)) }, 7, ""},
		{"paused", chop, func(e *evening) {
			e.at(0, started(chop))
			e.at(3, run.Event{Kind: run.Paused, Step: chop})
			e.at(7, run.Event{Kind: run.Resumed, Step: chop})
			e.at(15, finished(chop))
		}, 11, ""},
		{"paused-to-its-end", chop, func(e *evening) {
			e.at(0, started(chop))
			e.at(9, run.Event{Kind: run.Paused, Step: chop})
			e.at(15, finished(chop))
		}, 9, ""},
		{"cook-away", chop, func(e *evening) {
			e.at(0, started(chop))
			e.at(4, run.Event{Kind: run.Away, Cook: "Cook", By: 6 * time.Minute})
			e.at(17, finished(chop))
		}, 11, ""},
		{"cook-away-and-back", chop, func(e *evening) {
			e.at(0, started(chop))
			e.at(4, run.Event{Kind: run.Away, Cook: "Cook"})
			e.at(9, run.Event{Kind: run.Back, Cook: "Cook"})
			e.at(17, finished(chop))
		}, 12, ""},
		{"paused-while-away", chop, func(e *evening) {
			e.at(0, started(chop))
			e.at(4, run.Event{Kind: run.Paused, Step: chop}, run.Event{Kind: run.Away, Cook: "Cook", By: 6 * time.Minute})
			e.at(12, run.Event{Kind: run.Resumed, Step: chop})
			e.at(17, finished(chop))
		}, 9, ""},
		{"cook-away-from-what-goes-by-itself", bake, func(e *evening) {
			e.at(0, started(bake))
			e.at(4, run.Event{Kind: run.Away, Cook: "Cook", By: 6 * time.Minute})
			e.at(24, finished(bake))
		}, 24, ""},
		{"left-out", chop, func(e *evening) { e.at(0, run.Event{Kind: run.SkippedStep, Step: chop}) }, 0, review.LeftOut},
		{"begun-again", bake, func(e *evening) {
			e.at(0, started(bake))
			e.at(20, run.Event{Kind: run.Redone, Step: bake})
			e.at(21, started(bake))
			e.at(43, finished(bake))
		}, 0, review.Again},
		{"burner-failed", simmer, func(e *evening) {
			e.at(0, started(simmer))
			e.at(5, run.Event{Kind: run.Failed, Burner: "small", Step: simmer})
			e.at(8, run.Event{Kind: run.Put, Step: simmer, Burner: "large"})
			e.at(36, finished(simmer))
		}, 0, review.Displaced},
		{"oven-failed", bake, func(e *evening) {
			e.at(0, started(bake))
			e.at(5, run.Event{Kind: run.Failed, Oven: "oven"})
			e.at(8, run.Event{Kind: run.Works, Oven: "oven"})
			e.at(36, finished(bake))
		}, 0, review.Displaced},
		{"hotter", bake, func(e *evening) {
			e.at(-1, run.Event{Kind: run.RemedyTaken, Text: "hotter", Changes: []plan.Change{{Kind: plan.BakeAt, Step: bake, Temp: &temp, By: 5 * time.Minute}}})
			e.at(0, started(bake))
			e.at(20, finished(bake))
		}, 0, review.Otherwise},
		{"at-one-moment", chop, func(e *evening) { e.at(12, started(chop), finished(chop)) }, 0, review.AtOnce},
		{"taken-back", chop, func(e *evening) {
			e.at(0, started(chop))
			e.at(5, finished(chop))
			last, _ := e.s.State().LastUndoable()
			e.at(6, run.Event{Kind: run.Undone, Undoes: last.Seq})
			e.at(14, finished(chop))
		}, 14, ""},
		{"a-wait", "bread/cool", func(e *evening) { e.at(-25, started(bake)); e.at(0, finished(bake)); e.at(9, started("bread/slice")) }, 0, review.Waits},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p := decoded(t, soup)
			e := open(t, p, c.step, time.Time{})
			c.tell(e)
			got := review.Of(e.s.State(), p).Steps[p.StepIndex(c.step)]
			if got.Took != time.Duration(c.took)*time.Minute || got.Why != c.why {
				t.Errorf("took %v, %q; want %d min, %q", got.Took, got.Why, c.took, c.why)
			}
			if got.Why != review.Judged && got.Why.Words() == "" {
				t.Error("the reason has no words")
			}
		})
	}
}

// TestJudgedMadeAhead: what was written down without a word when the run was opened says
// nothing of how long it took.
func TestJudgedMadeAhead(t *testing.T) {
	t.Parallel()
	p := example(t, "harvest")
	e := open(t, p, p.Steps[0].ID, p.CookDay())
	ev, n := review.Of(e.s.State(), p), 0
	for i, s := range ev.Steps {
		if s.Why == review.Judged {
			t.Errorf("%s took %v", p.Steps[i].ID, s.Took)
		}
		if s.Why == review.MadeAhead {
			n++
		}
	}
	if n == 0 {
		t.Error("nothing was made ahead")
	}
}

// TestNotesBesideTheirSteps: what was noted comes back where it belongs, but for what was taken back.
func TestNotesBesideTheirSteps(t *testing.T) {
	t.Parallel()
	p := decoded(t, soup)
	e := open(t, p, "soup/chop", time.Time{})
	e.at(0, started("soup/chop"), run.Event{Kind: run.Noted, Step: "soup/chop", Text: "two leeks more"}, run.Event{Kind: run.Noted, Text: "a fine evening"})
	e.at(3, run.Event{Kind: run.Noted, Step: "bread/bake", Text: "not this one"})
	last, _ := e.s.State().LastUndoable()
	e.at(4, run.Event{Kind: run.Undone, Undoes: last.Seq}, run.Event{Kind: run.Added, Text: "set the table", By: 5 * time.Minute})
	ev := review.Of(e.s.State(), p)
	chop := ev.Steps[p.StepIndex("soup/chop")].Notes
	if len(chop) != 1 || chop[0].Text != "two leeks more" || !chop[0].At.Equal(e.when(0)) {
		t.Errorf("beside the step: %v", chop)
	}
	if len(ev.Notes) != 2 || ev.Notes[0].Text != "a fine evening" || ev.Notes[1].Kind != run.Added || ev.Notes[1].By != 5*time.Minute {
		t.Errorf("of the dinner: %v", ev.Notes)
	}
	if n := ev.Steps[p.StepIndex("bread/bake")].Notes; len(n) > 0 {
		t.Errorf("what was taken back: %v", n)
	}
}

// TestCourses: when each came, against what was asked and planned.
func TestCourses(t *testing.T) {
	t.Parallel()
	p := decoded(t, soup)
	e := open(t, p, "soup/chop", time.Time{})
	e.at(0, started("soup/chop"))
	e.c.Jump(p.Table.Add(-time.Minute))
	for _, id := range []string{"soup/chop", "soup/simmer", "soup/blend", "bread/bake", "bread/slice"} {
		if e.s.State().Steps[p.StepIndex(id)].Status != plan.Done {
			if _, err := e.s.Record(finished(id)); err != nil {
				t.Fatal(err)
			}
		}
	}
	for _, c := range []struct {
		late   time.Duration
		missed bool
	}{{12 * time.Minute, false}, {25 * time.Minute, true}} {
		e.c.Jump(p.Table.Add(c.late))
		if _, err := e.s.Record(run.Event{Kind: run.Served, Course: "Dinner"}); err != nil {
			t.Fatal(err)
		}
		got := review.Of(e.s.State(), p).Courses[0]
		if !got.Asked.Equal(p.Table) || got.Late != c.late || got.Missed != c.missed || !got.Told {
			t.Errorf("%+v, want %v late, missed %v", got, c.late, c.missed)
		}
		last, _ := e.s.State().LastUndoable()
		if _, err := e.s.Record(run.Event{Kind: run.Undone, Undoes: last.Seq}); err != nil {
			t.Fatal(err)
		}
	}
	if got := review.Of(e.s.State(), p).Courses[0]; !got.Served.IsZero() || got.Told {
		t.Errorf("not served: %+v", got)
	}
}
