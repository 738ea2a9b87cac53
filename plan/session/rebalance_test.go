package session_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

// cooked is a supper under way: everything as planned up to a time, and a
// planner that can be replaced.
type cooked struct {
	*session.Session
	b     *plantest.Builder
	clock *clocktest.Manual
	asked int // how often another timetable was asked for
}

type again func(context.Context, *run.State, time.Time) *plan.Timetable

func cookUntil(t *testing.T, b *plantest.Builder, at string, find again) *cooked {
	t.Helper()
	log, c := &journal.Memory{}, &cooked{b: b, clock: clocktest.New(start(b))}
	cfg := config(&b.Plan, log, c.clock)
	cfg.Again = func(ctx context.Context, s *run.State, now time.Time) *plan.Timetable {
		c.asked++
		return find(ctx, s, now)
	}
	var err error
	if c.Session, err = session.Open(context.Background(), cfg); err != nil {
		t.Fatal(err)
	}
	if _, err := c.FastForward(b.At(at)); err != nil {
		t.Fatal(err)
	}
	c.clock.Set(b.At(at))
	t.Cleanup(func() { consistent(t, c.Session, log) })
	return c
}

func (c *cooked) tell(t *testing.T, e run.Event) *run.State {
	t.Helper()
	st, err := c.Record(e)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

func none(context.Context, *run.State, time.Time) *plan.Timetable { return nil }

// boaster claims that nothing is late and everything stays.
func boaster(_ context.Context, s *run.State, _ time.Time) *plan.Timetable {
	t := *s.Timetable
	t.Status, t.Breaks = plan.Whole, nil
	return &t
}

var longer = run.Event{Kind: run.Prolonged, Step: "roast/bake", By: 20 * time.Minute}

// limited is the supper with potatoes that keep for a quarter of an hour only.
func limited() *plantest.Builder {
	b := supper()
	b.Plan.Steps[b.Plan.StepIndex("potatoes/dress")].Keeps = plan.Keep{Kind: plan.Limit, For: 15 * time.Minute, AtMost: 15 * time.Minute}
	return b
}

// liking is the supper with potatoes that would rather not wait.
func liking() *plantest.Builder {
	b := supper()
	b.Plan.Steps[b.Plan.StepIndex("potatoes/dress")].Keeps = plan.Keep{Kind: plan.Liking, For: 15 * time.Minute, AtMost: 2 * time.Hour}
	return b
}

// TestRoastRunsLong tells at 19:02, before the potatoes go on, that the roast
// takes 20 minutes longer.
func TestRoastRunsLong(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name   string
		b      *plantest.Builder
		find   again
		boil   string // when the potatoes go on, in the timetable then in force
		status plan.Status
		why    []string
	}{
		{"projection-tells-the-truth", supper(), none, "19:05", plan.Late,
			[]string{"Main 20 min later: 20:00", "Rest: starts 19:35 instead of 19:15", "+2 more steps move"}},
		{"boast-is-not-believed", supper(), boaster, "19:05", plan.Late,
			[]string{"Main 20 min later: 20:00", "Rest: starts 19:35 instead of 19:15", "+2 more steps move"}},
		{"nothing-mends-the-keep", limited(), none, "19:05", plan.Broken,
			[]string{"Main 20 min later: 20:00", "Rest: starts 19:35 instead of 19:15", "+2 more steps move"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			c := cookUntil(t, tt.b, "19:02", tt.find)
			st := c.tell(t, longer)
			if n := adoptions(st); n != 2 {
				t.Fatalf("%d timetables, want 2", n)
			}
			if d := cmp.Diff(tt.why, st.Why); d != "" {
				t.Errorf("why (-want +got):\n%s", d)
			}
			if got := at(st, "potatoes/boil"); got != tt.boil || st.Timetable.Status != tt.status {
				t.Errorf("%s, potatoes at %s; want %s, %s: %v", st.Timetable.Status, got, tt.status, tt.boil, st.Timetable.Breaks)
			}
			last := st.Events[len(st.Events)-1]
			if last.Cause != last.Seq-1 || st.Events[len(st.Events)-2].Kind != run.Prolonged {
				t.Errorf("adoption %d names cause %d", last.Seq, last.Cause)
			}
		})
	}
}

// TestSolvingAgainMends: where potatoes wait too long, they go on later.
func TestSolvingAgainMends(t *testing.T) {
	t.Parallel()
	for name, b := range map[string]*plantest.Builder{"a-limit": limited(), "a-liking": liking()} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			c := cookUntil(t, b, "19:02", planner.Again)
			st := c.tell(t, longer)
			if st.Timetable.Status != plan.Late || len(st.Timetable.Breaks) != 0 {
				t.Errorf("%s: %v", st.Timetable.Status, st.Timetable.Breaks)
			}
			if got := at(st, "potatoes/dress"); got <= "19:25" {
				t.Errorf("potatoes at %s, as if nothing had happened", got)
			}
			if len(st.Why) != 3 || st.Why[0] != "Main 20 min later: 20:00" {
				t.Errorf("why: %q", st.Why)
			}
		})
	}
}

// TestDoneEarlierThanFeared: what was prolonged and comes out sooner after all
// brings the course forward again.
func TestDoneEarlierThanFeared(t *testing.T) {
	t.Parallel()
	c := cookUntil(t, supper(), "19:02", planner.Again)
	c.tell(t, longer)
	c.clock.Set(c.b.At("19:20"))
	if _, err := c.FastForward(c.b.At("19:20")); err != nil {
		t.Fatal(err)
	}
	st := c.tell(t, run.Event{Kind: run.Finished, Step: "roast/bake"})
	if got := st.Timetable.Serves[1].Format("15:04"); got >= "19:57" {
		t.Errorf("Main at %s, though the roast is out", got)
	}
	if len(st.Why) == 0 || !strings.HasSuffix(st.Why[0], "min earlier: "+st.Timetable.Serves[1].Format("15:04")) {
		t.Errorf("why: %q", st.Why)
	}
}

// at is when a step starts by the timetable in force.
func at(st *run.State, step string) string {
	return st.Timetable.Slots[st.Plan.StepIndex(step)].Start.Format("15:04")
}

// TestWhatStillHoldsWritesNothing: no timetable for what hurts nobody.
func TestWhatStillHoldsWritesNothing(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name string
		at   string
		e    run.Event
	}{
		{"on-time", "19:05", run.Event{Kind: run.Started, Step: "potatoes/boil"}},
		{"early", "19:00", run.Event{Kind: run.Started, Step: "potatoes/boil"}},
		{"a-minute-late", "19:16", run.Event{Kind: run.Finished, Step: "roast/bake"}},
		{"a-timer", "18:00", run.Event{Kind: run.TimerSet, Text: "Tea", By: time.Minute}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			b := supper()
			c := cookUntil(t, b, min(tt.at, "19:00"), none)
			c.clock.Set(b.At(tt.at))
			if st := c.tell(t, tt.e); adoptions(st) != 1 {
				t.Errorf("another timetable was adopted: %q", st.Why)
			}
		})
	}
}

// TestUndoTakesTheTimetableBack: what was adopted because of an event goes with it.
func TestUndoTakesTheTimetableBack(t *testing.T) {
	t.Parallel()
	c := cookUntil(t, supper(), "19:02", planner.Again)
	first := c.State().Timetable
	st := c.tell(t, longer)
	e, ok := st.LastUndoable()
	if !ok || e.Kind != run.Prolonged {
		t.Fatalf("undoes %s", e.Kind)
	}
	st = c.tell(t, run.Event{Kind: run.Undone, Undoes: e.Seq})
	if st.Timetable != first || adoptions(st) != 2 {
		t.Errorf("not back at the first timetable; %d adoptions", adoptions(st))
	}
}

// TestSameMinuteIsLookedAtOnce: time alone seeks nothing, and what breaks a rule
// and cannot be mended is not
// tried again at every key, but at the first one of another minute.
func TestSameMinuteIsLookedAtOnce(t *testing.T) {
	t.Parallel()
	b := limited()
	c := cookUntil(t, b, "19:22", none)
	// Done at 19:22, the potatoes wait 18 minutes for the Main, and should 15.
	c.tell(t, run.Event{Kind: run.Finished, Step: "potatoes/dress"})
	if c.asked != 1 {
		t.Fatalf("sought %d times, want once", c.asked)
	}
	ack := run.Event{Kind: run.Acknowledged, Cue: "soon:roast/carve"}
	c.tell(t, ack)
	c.tell(t, ack)
	if c.asked != 1 {
		t.Errorf("sought %d times in one minute", c.asked)
	}
	c.clock.Advance(time.Minute)
	if _, err := c.Tick(); err != nil || c.asked != 1 {
		t.Errorf("sought %d times, though only time has passed; error %v", c.asked, err)
	}
	c.tell(t, ack)
	if c.asked != 2 {
		t.Errorf("sought %d times after an event in another minute, want twice", c.asked)
	}
	if n := adoptions(c.State()); n != 1 {
		t.Errorf("%d timetables, want 1", n)
	}
}

// TestNobodyAnswers: a cook who goes away after the first keys finds, an hour
// later, what was due, taken to have gone as planned: time alone does not push
// the dinner ahead of itself.
func TestNobodyAnswers(t *testing.T) {
	t.Parallel()
	b := limited()
	c := cookUntil(t, b, "18:20", planner.Again)
	first := c.State().Timetable
	for c.clock.Now().Before(b.At("20:30")) {
		c.clock.Advance(time.Minute)
		if _, err := c.Tick(); err != nil {
			t.Fatal(err)
		}
	}
	st := c.State()
	if st.Timetable != first {
		t.Errorf("time alone changed the timetable %d times", adoptions(st)-1)
	}
	m := run.Conduct(st, c.clock.Now())
	if len(m.Unconfirmed) == 0 {
		t.Error("nothing is unconfirmed")
	}
	for i, s := range m.Projection.Serves {
		if d := s.Sub(first.Serves[i]); d > 2*run.UnconfirmedAfter {
			t.Errorf("%s is taken to come %s later", b.Plan.Courses[i].Name, d)
		}
	}
	if st, err := c.Record(run.AllAsPlanned(m)...); err != nil {
		t.Errorf("all as planned: %v", err)
	} else if got, want := st.Courses[0].Served, first.Serves[0]; !got.Equal(want) {
		t.Errorf("as planned, %s is written down at %s, planned at %s", b.Plan.Courses[0].Name, got, want)
	}
}
