package run_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// steps tells the state of each step that is not ahead: "lamb/rest begun 18:20".
func steps(st *run.State) []string {
	var out []string
	for i, x := range st.Steps {
		id := st.Plan.Steps[i].ID
		switch x.Status {
		case plan.Begun:
			out = append(out, id+" "+hm(x.Started)+"-")
		case plan.Done:
			out = append(out, id+" "+hm(x.Started)+"-"+hm(x.Finished))
		case plan.Skipped:
			out = append(out, id+" skipped "+hm(x.Finished))
		}
	}
	return out
}

func TestFold(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		events []string
		want   string
	}{
		{"started", []string{"15:02 started lamb/season"}, "lamb/season 15:02-"},
		{"finished", []string{"15:02 started lamb/season", "15:20 finished lamb/season"}, "lamb/season 15:02-15:20"},
		{"finished-implies-started-as-planned", []string{"15:20 finished lamb/season"}, "lamb/season 15:00-15:20"},
		{"finished-before-it-was-planned", []string{"14:50 finished lamb/season"}, "lamb/season 14:50-14:50"},
		{
			"starting-implies-what-it-follows", []string{"15:30 started lamb/roast"},
			"lamb/season 15:00-15:15, lamb/roast 15:30-",
		},
		{
			"early-start-ends-what-goes", []string{"15:00 started lamb/season", "15:10 started lamb/roast"},
			"lamb/season 15:00-15:10, lamb/roast 15:10-",
		},
		{
			"implied-start-not-before-the-step-before", []string{"15:25 finished lamb/season", "18:20 finished lamb/roast"},
			"lamb/season 15:00-15:25, lamb/roast 15:25-18:20, lamb/rest 18:20-",
		},
		{
			"at-once", []string{"15:20 started lamb/roast", "18:31 finished lamb/roast"},
			"lamb/season 15:00-15:15, lamb/roast 15:20-18:31, lamb/rest 18:31-",
		},
		{
			"follower-ends-a-wait", []string{"17:15 started flatbreads/prove", "18:42 started flatbreads/bake"},
			"flatbreads/knead 17:00-17:15, flatbreads/prove 17:15-18:42, flatbreads/bake 18:42-",
		},
		{
			"carving-implies-the-roast", []string{"18:55 started lamb/carve"},
			"lamb/season 15:00-15:15, lamb/roast 15:20-18:20, lamb/rest 18:20-18:55, lamb/carve 18:55-",
		},
		{"skipped", []string{"17:00 skipped flatbreads/knead"}, "flatbreads/knead skipped 17:00"},
		{
			// Nothing to rest: it does not begin by itself.
			"skipped-before-at-once", []string{"15:00 skipped lamb/season", "15:01 skipped lamb/roast"},
			"lamb/season skipped 15:00, lamb/roast skipped 15:01",
		},
		{
			"serving-ends-the-last-wait", []string{"19:30 started pears/cool", "19:52 served Sweet"},
			"pears/poach 19:10-19:30, pears/cool 19:30-19:52",
		},
		{
			"serving-ends-what-goes", []string{"18:50 started lamb/carve", "19:05 served Main"},
			"lamb/season 15:00-15:15, lamb/roast 15:20-18:20, lamb/rest 18:20-18:50, lamb/carve 18:50-19:00, " +
				"flatbreads/knead 17:00-17:15, flatbreads/prove 17:15-18:40, flatbreads/bake 18:40-18:52",
		},
		{
			"serving-leaves-the-rest-out", []string{"17:15 finished flatbreads/knead", "18:30 finished lamb/roast", "18:30 served Main"},
			"lamb/season 15:00-15:15, lamb/roast 15:20-18:30, lamb/rest 18:30-18:30, lamb/carve skipped 18:30, " +
				"flatbreads/knead 17:00-17:15, flatbreads/prove 17:15-18:30, flatbreads/bake skipped 18:30",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			s := newSupper()
			if diff := cmp.Diff(c.want, strings.Join(steps(s.run(t, c.events...)), ", ")); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestRefused(t *testing.T) {
	t.Parallel()
	s := newSupper()
	for _, c := range []struct {
		name   string
		before []string
		event  run.Event
		want   string
	}{
		{"unknown-kind", nil, run.Event{Kind: "sung"}, `unknown kind of event "sung"`},
		{"unknown-step", nil, run.Event{Kind: run.Started, Step: "lamb/rost"}, `unknown step "lamb/rost"`},
		{"unknown-course", nil, run.Event{Kind: run.Served, Course: "Soup"}, `unknown course "Soup"`},
		{"unknown-oven", nil, run.Event{Kind: run.OvenTurned, Oven: "grill"}, `unknown oven "grill"`},
		{"unknown-cook", nil, run.Event{Kind: run.Away, Cook: "Bob"}, `unknown cook "Bob"`},
		{"unknown-timer", nil, run.Event{Kind: run.Acknowledged, Cue: "timer:9"}, `unknown timer "9"`},
		{"no-step", nil, run.Event{Kind: run.Finished}, "finished needs the step"},
		{"no-length", nil, run.Event{Kind: run.Prolonged, Step: "lamb/roast"}, "prolonged needs how much longer, more than zero"},
		{"negative", nil, run.Event{Kind: run.TimerSet, By: -time.Minute}, "timer needs how long, more than zero"},
		{"no-timetable", nil, run.Event{Kind: run.Adopted}, "adopted needs a timetable"},
		{
			"foreign-timetable", nil, run.Event{Kind: run.Adopted, Timetable: &plan.Timetable{}},
			"timetable has 0 steps, the plan has 9",
		},
		{"opened-twice", nil, run.Event{Kind: run.Opened, Plan: &run.PlanCopy{}}, "the run is open already"},
		{
			"start-twice", []string{"15:00 started lamb/season"}, run.Event{Kind: run.Started, Step: "lamb/season"},
			`"Season" is going since 15:00 already`,
		},
		{
			"start-done", []string{"15:15 finished lamb/season"}, run.Event{Kind: run.Started, Step: "lamb/season"},
			`"Season" is done since 15:15 already, undo that first`,
		},
		{
			"finish-skipped", []string{"15:15 skipped lamb/season"}, run.Event{Kind: run.Finished, Step: "lamb/season"},
			`"Season" was skipped at 15:15, undo that first`,
		},
		{
			"finish-before-start", []string{"22:15 started lamb/season"}, run.Event{Kind: run.Finished, Step: "lamb/season"},
			`"Season" began at 22:15, it cannot be done at 22:00`,
		},
		{
			"prolong-done", []string{"15:15 finished lamb/season"}, run.Event{Kind: run.Prolonged, Step: "lamb/season", By: time.Minute},
			`"Season" is done since 15:15 already, undo that first`,
		},
		{
			"skip-done", []string{"15:15 finished lamb/season"}, run.Event{Kind: run.SkippedStep, Step: "lamb/season"},
			`"Season" is done since 15:15 already, it cannot be skipped`,
		},
		{"serve-twice", []string{"19:02 served Main"}, run.Event{Kind: run.Served, Course: "Main"}, "Main is on the table since 19:02 already"},
		{"undo-nothing", nil, run.Event{Kind: run.Undone, Undoes: 9}, "event 9 to undo is not in the journal"},
		{"undo-itself", nil, run.Event{Kind: run.Undone, Undoes: 3}, "event 3 to undo is not in the journal"},
		{"undo-opening", nil, run.Event{Kind: run.Undone, Undoes: 1}, "event 1 opened the run, that cannot be undone"},
		{
			"undo-twice", []string{"15:00 started lamb/season", "15:01 undone 3"}, run.Event{Kind: run.Undone, Undoes: 3},
			"event 3 (started) is undone already",
		},
		{
			// Undoing the undo would have the step start twice.
			"undo-that-clashes", []string{"15:00 started lamb/season", "15:01 undone 3", "15:02 started lamb/season"},
			run.Event{Kind: run.Undone, Undoes: 4},
			`undoing event 4 is not possible, event 5 (started) came after it: "Season" is going since 15:00 already`,
		},
		{"old-number", nil, run.Event{Kind: run.Started, Step: "lamb/season", Seq: 2}, "event number 2 after 2, must be greater"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			st := s.run(t, c.before...)
			c.event.At = s.At("22:00")
			_, err := st.Apply(c.event)
			if err == nil || err.Error() != c.want {
				t.Errorf("got error %v, want %q", err, c.want)
			}
		})
	}
}

// The journal has a format for another plan, which no program writes: a run goes on
// with its own, and what alters that is a change of it.
func TestAnotherPlanIsRefused(t *testing.T) {
	t.Parallel()
	s := newSupper()
	_, err := s.run(t).Apply(run.Event{Kind: run.PlanChanged, Plan: &run.PlanCopy{}, At: s.At("18:00")})
	if !errors.Is(err, run.ErrNotYet) || !strings.Contains(err.Error(), string(run.PlanChanged)) {
		t.Errorf("got %v, want %q and that it is not yet supported", err, run.PlanChanged)
	}
}

// What was not in the plan goes as long as it takes, and whoever does it carves
// after it.
func TestAdded(t *testing.T) {
	t.Parallel()
	s := newSupper()
	cook := s.Plan.Kitchen.Cooks[0].Name
	st, now := s.run(t), s.At("18:00")
	before := run.Project(st, now)
	for _, e := range []run.Event{
		{Kind: run.Added, Text: "More rice", By: 12 * time.Minute, At: now},
		{Kind: run.Added, Text: "A cake for the neighbours", By: 3 * time.Hour, Cook: cook, At: now},
	} {
		next, err := st.Apply(e)
		if err != nil {
			t.Fatal(err)
		}
		st = next
		m := run.Conduct(st, now)
		if !slices.ContainsFunc(m.Going, func(g run.Going) bool { return g.Label == e.Text && g.End.Equal(now.Add(e.By)) }) {
			t.Errorf("%q is not going: %+v", e.Text, m.Going)
		}
		if last := len(before.Serves) - 1; (e.Cook != "") != run.Project(st, now).Serves[last].After(before.Serves[last]) {
			t.Errorf("%q: served at %v, before it at %v", e.Text, run.Project(st, now).Serves[last], before.Serves[last])
		}
	}
}

// A state is a snapshot: applying to it changes nothing in it.
func TestApplyLeavesTheState(t *testing.T) {
	t.Parallel()
	s := newSupper()
	base := s.run(t, s.upTo("18:20", "18:21 timer 5m eggs")...)
	if _, err := base.Apply(s.event("18:29 timer 3m first-to-be-told")); err != nil {
		t.Fatal(err) // what is in memory after the events of base is not its own
	}
	before := cmp.Diff(nil, base)
	for _, line := range []string{
		"18:30 finished flatbreads/bake", "18:30 prolonged lamb/rest 5m", "18:30 skipped lamb/carve", "18:31 acknowledged timer:12",
		"17:00 oven_set oven 180C lamb/roast", "18:30 timer 3m rice", "19:00 served Main", "19:00 undone 3",
	} {
		if _, err := base.Apply(s.event(line)); err != nil {
			t.Fatalf("%s: %v", line, err)
		}
	}
	if after := cmp.Diff(nil, base); after != before {
		t.Errorf("the state changed: %s", cmp.Diff(before, after))
	}
}

// Whatever is told of one state, by several at the same time too, each has the events
// that it told and no other.
func TestStatesDoNotShareWhatIsTold(t *testing.T) {
	t.Parallel()
	s := newSupper()
	base := s.run(t, s.upTo("18:20")...)
	n := len(base.Events)
	var all sync.WaitGroup
	for k := range 8 {
		all.Go(func() {
			st := base
			for minute := range 20 {
				told := s.event(fmt.Sprintf("18:%02d timer 5m of-%d-%d", 21+minute, k, minute))
				next, err := st.Apply(told)
				if err != nil {
					t.Error(err)
					return
				}
				st = next
			}
			for minute, e := range st.Events[n:] {
				if want := fmt.Sprintf("of-%d-%d", k, minute); e.Text != want || e.Seq != uint64(n+minute+1) {
					t.Errorf("event %d is %q, want %q", e.Seq, e.Text, want)
				}
			}
		})
	}
	all.Wait()
	if len(base.Events) != n {
		t.Errorf("%d events, were %d", len(base.Events), n)
	}
}

func TestUndo(t *testing.T) {
	t.Parallel()
	s := newSupper()
	other := newSupper().t
	other.Serves = append([]time.Time(nil), other.Serves...)
	other.Serves[0] = s.At("19:10")
	events := s.events("15:00 started lamb/season", "15:12 prolonged lamb/season 10m") // 3, 4
	events = append(events, run.Event{Kind: run.Adopted, At: s.At("15:12"), Timetable: &other, Why: []string{"Main 10 min later"}, Cause: 4})
	st, err := run.Fold(&s.Plan, events) // 5
	if err != nil {
		t.Fatal(err)
	}
	if !st.Timetable.Serves[0].Equal(s.At("19:10")) || len(st.Why) != 1 {
		t.Fatalf("the new timetable is not in force: %v", st.Timetable.Serves)
	}
	e, ok := st.LastUndoable()
	if !ok || e.Seq != 4 {
		t.Fatalf("last undoable: got %d, want 4", e.Seq)
	}
	undone, err := st.Apply(s.event("15:13 undone 4"))
	if err != nil {
		t.Fatal(err)
	}
	if undone.Timetable != &s.t || len(undone.Why) != 0 || undone.Steps[s.season].Extra != 0 {
		t.Errorf("undone, but the timetable it led to is in force, or the extra time is still there")
	}
	if e, ok := undone.LastUndoable(); !ok || e.Seq != 3 {
		t.Errorf("last undoable after that: got %d, want 3", e.Seq)
	}
	redone, err := undone.Apply(s.event("15:14 undone 6"))
	if err != nil {
		t.Fatal(err)
	}
	if redone.Timetable != &other || redone.Steps[s.season].Extra != 10*time.Minute {
		t.Errorf("the undo is undone, but its event does not count")
	}
	if got := s.run(t); got != nil {
		if e, ok := got.LastUndoable(); ok {
			t.Errorf("nothing was told, but undo would take back %s", e.Kind)
		}
	}
}

func TestTimers(t *testing.T) {
	t.Parallel()
	s := newSupper()
	st := s.run(t, "18:00 timer 5m eggs")
	for _, c := range []struct{ now, cues, going, unconfirmed string }{
		{"18:04:59", "", "eggs 18:00-18:05", ""},
		{"18:05", "look timer:3", "eggs 18:00-18:05 over", ""},
		{"18:10", "", "", "18:05 timer:3"},
	} {
		m := run.Conduct(st, s.At(c.now))
		var timerCues, timerGoing, timerUnconfirmed []string
		for _, x := range cues(m) {
			if strings.Contains(x, "timer:") {
				timerCues = append(timerCues, x)
			}
		}
		for _, x := range going(m) {
			if strings.HasPrefix(x, "eggs") {
				timerGoing = append(timerGoing, x)
			}
		}
		for _, x := range unconfirmed(m) {
			if strings.Contains(x, "timer:") {
				timerUnconfirmed = append(timerUnconfirmed, x)
			}
		}
		got := []string{strings.Join(timerCues, ", "), strings.Join(timerGoing, ", "), strings.Join(timerUnconfirmed, ", ")}
		if diff := cmp.Diff([]string{c.cues, c.going, c.unconfirmed}, got); diff != "" {
			t.Errorf("%s: %s", c.now, diff)
		}
	}
	stopped := s.run(t, "18:00 timer 5m eggs", "18:03 acknowledged timer:3")
	if m := run.Conduct(stopped, s.At("18:05")); find(m, "timer:3").Class >= 0 {
		t.Error("stopped, but it rings")
	}
}
