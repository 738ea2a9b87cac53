package session_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
	"example.org/kettledrum/plan/verify"
)

// live is what happens at a time of the dinner, of which everything went as
// planned until then.
type live struct {
	name, at string
	tell     func(st *run.State, now time.Time) []run.Event
	mended   bool // by what is told next: the kitchen is then as it was
}

func events(evs ...run.Event) func(*run.State, time.Time) []run.Event {
	return func(*run.State, time.Time) []run.Event { return evs }
}

// lives are mishaps that a run of any plan can have, with the words of that plan.
func lives(first, course, cook, burner, oven, again, dish string) []live {
	return []live{
		{"guests-late", "18:40", events(run.Event{Kind: run.Held, Course: first, By: 25 * time.Minute}), false},
		{"held", "19:20", events(run.Event{Kind: run.Held, Course: course, By: 20 * time.Minute}), false},
		{"held-until-released", "19:20", events(run.Event{Kind: run.Held, Course: course}), false},
		{"released", "19:20", events(run.Event{Kind: run.Held, Course: course, By: 30 * time.Minute}, run.Event{Kind: run.Released, Course: course}), true},
		{"back-in-ten", "18:35", events(run.Event{Kind: run.Away, Cook: cook, By: 10 * time.Minute}), false},
		{"back", "18:35", events(run.Event{Kind: run.Away, Cook: cook}, run.Event{Kind: run.Back, Cook: cook}), true},
		{"all-leave", "18:35", func(st *run.State, _ time.Time) (out []run.Event) {
			for _, c := range st.Plan.Kitchen.Cooks {
				out = append(out, run.Event{Kind: run.Away, Cook: c.Name, By: 7 * time.Minute})
			}
			return out
		}, false},
		{"burner-fails", "18:20", events(run.Event{Kind: run.Failed, Burner: burner}), false},
		{"burner-works-again", "18:20", events(run.Event{Kind: run.Failed, Burner: burner}, run.Event{Kind: run.Works, Burner: burner}), true},
		{"oven-fails", "19:10", events(run.Event{Kind: run.Failed, Oven: oven}), false},
		{"begun-again", "19:00", func(st *run.State, now time.Time) []run.Event {
			id := again
			if s := st.Steps[st.Plan.StepIndex(id)]; s.Status == plan.Ahead || s.Started.After(now) {
				panic(id + " has not begun")
			}
			return []run.Event{{Kind: run.Redone, Step: id}}
		}, false},
		{"dropped", "19:00", events(run.Event{Kind: run.Dropped, Dish: dish}), false},
		{"reassigned", "18:00", func(st *run.State, now time.Time) []run.Event { // what is next for somebody else
			next := -1
			for i, slot := range st.Timetable.Slots {
				ahead := st.Steps[i].Status == plan.Ahead && slot.Start.After(now.Add(15*time.Minute))
				if ahead && slot.Cook >= 0 && st.Plan.Kitchen.Cooks[slot.Cook].Name != cook && st.Plan.Steps[i].By < 0 &&
					(next < 0 || slot.Start.Before(st.Timetable.Slots[next].Start)) {
					next = i
				}
			}
			return []run.Event{{Kind: run.Reassigned, Step: st.Plan.Steps[next].ID, Cook: cook}}
		}, false},
		{"four-minutes-ago", "19:04", func(_ *run.State, now time.Time) []run.Event {
			return []run.Event{{Kind: run.Held, Course: course, By: 10 * time.Minute, At: now.Add(-4 * time.Minute)}}
		}, false},
		{"remedy", "19:00", events(run.Event{Kind: run.RemedyTaken, Text: "later", Changes: []plan.Change{
			{Kind: plan.TolerateLate, Course: course, By: 10 * time.Minute}, {Kind: plan.LeaveTable, Course: first, By: 4 * time.Minute},
		}}), false},
	}
}

// TestLive has one mishap happen in a built-in dinner: what has happened stays as
// it was, every timetable says truly what it breaks, whatever the projection breaks
// is named, and when nothing else goes wrong the courses come as projected. Undone,
// it might never have been.
func TestLive(t *testing.T) {
	t.Parallel()
	for name, all := range map[string][]live{
		"harvest": lives("Starter", "Main", "Tomas", "large", "oven", "flatbreads/shape", "bitter-salad"),
		"banquet": lives("Bread", "Soup", "Jun", "large", "top oven", "pumpkin-soup/reheat", "oat-biscuits-and-cheese"),
	} {
		if racing && name == "banquet" {
			continue
		}
		for _, l := range all {
			t.Run(name+"/"+l.name, func(t *testing.T) {
				t.Parallel()
				replan := true
				s, c := openExampleWith(t, name, func(ctx context.Context, st *run.State, now time.Time) *plan.Timetable {
					if !replan {
						return nil
					}
					return planner.Again(ctx, st, now)
				})
				before := s.State()
				at := evening(before.Plan, l.at)
				if _, err := s.FastForward(at); err != nil {
					t.Fatal(err)
				}
				c.Set(at)
				before = s.State()
				evs := l.tell(before, at)
				st, err := s.Record(evs...)
				if err != nil {
					t.Fatal(err)
				}
				keptPast(t, before, st, evs)
				truthful(t, st)
				named(t, st, at)
				if l.mended {
					if d := cmp.Diff(before.Plan.Kitchen, st.Plan.Kitchen); d != "" {
						t.Errorf("the kitchen is not what it was: %s", d)
					}
				}
				undone(t, before, st, at)

				replan = false
				projected := run.Project(st, at).Serves
				open := st.Courses[0].Open || st.Courses[1].Open || len(st.Courses) > 3 && st.Courses[3].Open
				err = session.Simulate(context.Background(), s, c, at.Add(6*time.Hour), nil)
				if open {
					return // nobody releases it
				}
				if err != nil {
					t.Fatal(err)
				}
				for k, course := range s.State().Courses {
					if st.Courses[k].Served.IsZero() && course.Served.Sub(projected[k]).Abs() > time.Minute {
						t.Errorf("%s is served at %s, projected %s", st.Plan.Courses[k].Name, hm(course.Served), hm(projected[k]))
					}
				}
			})
		}
	}
}

func hm(t time.Time) string { return t.Format("15:04") }

// evening is a time of the dinner's day.
func evening(p *plan.Plan, clock string) time.Time {
	at, err := time.Parse("15:04", clock)
	if err != nil {
		panic(err)
	}
	y, m, d := p.Table.Date()
	return time.Date(y, m, d, at.Hour(), at.Minute(), 0, 0, p.Table.Location())
}

// keptPast checks that what is known of steps that no event is about is as it was,
// and that the timetable has it so.
func keptPast(t *testing.T, before, after *run.State, evs []run.Event) {
	t.Helper()
	for i, was := range before.Steps {
		is, slot := after.Steps[i], after.Timetable.Slots[i]
		if is.Again > was.Again || is.Status == plan.Skipped {
			if kind := evs[0].Kind; kind != run.Redone && kind != run.Dropped {
				t.Errorf("%s: %s touched it", after.Plan.Steps[i].ID, kind)
			}
			continue
		}
		if d := cmp.Diff(was.Started, is.Started) + cmp.Diff(was.Finished, is.Finished); d != "" {
			t.Errorf("%s: %s", after.Plan.Steps[i].ID, d)
		}
		if was.Status != plan.Ahead && slot.Start.Sub(was.Started).Abs() > session.Tolerance || was.Status == plan.Done && slot.End.Sub(was.Finished).Abs() > session.Tolerance {
			t.Errorf("%s: timetable has %s-%s, it was %s-%s", after.Plan.Steps[i].ID, hm(slot.Start), hm(slot.End), hm(was.Started), hm(was.Finished))
		}
	}
}

// truthful checks that each timetable adopted by a re-plan says what the verifier
// says of it, by the plan as it stood.
func truthful(t *testing.T, st *run.State) {
	t.Helper()
	for k, e := range st.Events {
		if e.Kind != run.Adopted || e.Cause == 0 {
			continue
		}
		then, err := run.Fold(st.Base, st.Events[:k+1])
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(verify.Check(then.At(e.At).Plan, e.Timetable, e.At), e.Timetable.Breaks); d != "" {
			t.Errorf("breaks (-verifier +timetable): %s", d)
		}
	}
}

// named checks that what the verifier finds broken in the projection is told: as
// a break of the moment or of the timetable in force, of the same step or course.
func named(t *testing.T, st *run.State, now time.Time) {
	t.Helper()
	at := st.At(now)
	m := run.Conduct(st, now)
	told := map[string]bool{}
	for _, b := range append(m.Breaks, st.Timetable.Breaks...) {
		told[fmt.Sprint(b.Kind.Hard(), b.Step, b.Course)] = true
	}
	for _, b := range verify.Check(at.Plan, session.Moved(at, m.Projection, now), now) {
		small := time.Duration(b.Minutes)*time.Minute <= session.Tolerance
		if b.Kind != plan.BreakTouch && !small && !told[fmt.Sprint(b.Kind.Hard(), b.Step, b.Course)] {
			t.Errorf("not named: %s, %d min: %s", b.Kind, b.Minutes, b.Text)
		}
	}
}

// undone checks that taking the events back leaves what was before.
func undone(t *testing.T, before, after *run.State, now time.Time) {
	t.Helper()
	st := after
	for range len(after.Events) {
		e, ok := st.LastUndoable()
		if !ok || int(e.Seq) <= len(before.Events) {
			break
		}
		next, err := st.Apply(run.Event{Kind: run.Undone, Undoes: e.Seq, At: now, Noted: now})
		if err != nil {
			t.Fatal(err)
		}
		st = next
	}
	left := *st
	left.Events = before.Events
	same(t, &left, before)
	if d := cmp.Diff(before.Plan, st.Plan); d != "" {
		t.Errorf("the plan is not what it was: %s", d)
	}
}
