package session_test

import (
	"context"
	"errors"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/journal/journaltest"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

// resume opens a session on what a journal in memory holds.
func resume(t *testing.T, b *plantest.Builder, log *journal.Memory, c *clocktest.Manual) *session.Session {
	t.Helper()
	past, err := session.Load(log.Records())
	if err != nil {
		t.Fatal(err)
	}
	cfg := config(&b.Plan, log, c)
	cfg.Past = past
	s, err := session.Open(context.Background(), cfg)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestResumeWritesNothing(t *testing.T) {
	t.Parallel()
	b := supper()
	s, c, log := begin(t, b)
	if _, err := s.FastForward(b.At("19:02")); err != nil {
		t.Fatal(err)
	}
	c.Set(b.At("19:02"))
	if _, err := s.Record(longer, run.Event{Kind: run.TimerSet, Text: "Tea", By: 5 * time.Minute}); err != nil {
		t.Fatal(err)
	}
	n, want := len(log.Records()), deadlines(s.State(), c.Now())
	c.Set(b.At("19:04")) // two minutes later
	again := resume(t, b, log, c)
	if len(log.Records()) != n {
		t.Errorf("going on wrote %d records", len(log.Records())-n)
	}
	same(t, again.State(), s.State())
	if d := cmp.Diff(want, deadlines(again.State(), c.Now())); d != "" {
		t.Errorf("deadlines (-before +after):\n%s", d)
	}
}

func TestOpenAfterDyingBeforeTheFirstTimetable(t *testing.T) {
	t.Parallel()
	b := supper()
	log := &fullLog{room: 1}
	c := clocktest.New(start(b))
	if _, err := session.Open(context.Background(), config(&b.Plan, log, c)); !errors.Is(err, errFull) {
		t.Fatalf("error %v", err)
	}
	s := resume(t, b, &log.Memory, c)
	if st := s.State(); st.Timetable == nil || len(st.Events) != 2 {
		t.Errorf("%d events, a timetable: %v", len(st.Events), st.Timetable != nil)
	}
}

func TestOpenRefusesAStrangePast(t *testing.T) {
	t.Parallel()
	b := supper()
	now := start(b)
	for name, past := range map[string][]run.Event{
		"no-opening":   {{Seq: 1, Kind: run.Started, Step: "roast/season", At: now}},
		"other-dishes": {{Seq: 1, Kind: run.Opened, At: now, Plan: &run.PlanCopy{}}, {Seq: 2, Kind: run.Started, Step: "pie/bake", At: now}},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			cfg := config(&b.Plan, &journal.Memory{}, clocktest.New(now))
			cfg.Past = past
			if _, err := session.Open(context.Background(), cfg); err == nil {
				t.Error("opened")
			}
		})
	}
}

func TestLoadNamesTheRecord(t *testing.T) {
	t.Parallel()
	_, err := session.Load([]journal.Record{{Seq: 1, Payload: []byte(`{"kind":"opened"}`)}, {Seq: 2, Payload: []byte(`[1]`)}})
	if err == nil || !slices.Contains([]string{err.Error()[:9]}, "record 2 ") {
		t.Errorf("error %v", err)
	}
}

func TestFastForward(t *testing.T) {
	t.Parallel()
	b := supper()
	s, c, _ := begin(t, b)
	// At 18:50: roast and broth are going, the dough is being mixed.
	st, err := s.FastForward(b.At("18:50"))
	if err != nil {
		t.Fatal(err)
	}
	c.Set(b.At("18:50"))
	want := map[string]plan.Progress{
		"broth/simmer": plan.Begun, "roast/season": plan.Done, "roast/bake": plan.Begun, "flatbreads/mix": plan.Begun,
	}
	for i := range st.Steps {
		if id := b.Plan.Steps[i].ID; st.Steps[i].Status != want[id] {
			t.Errorf("%s: status %d, want %d", id, st.Steps[i].Status, want[id])
		}
	}
	m := run.Conduct(st, c.Now())
	if len(m.Cues) != 0 || len(m.Unconfirmed) != 0 || len(st.Sets) != 1 {
		t.Errorf("cues %v, unconfirmed %v, oven settings %d", m.Cues, m.Unconfirmed, len(st.Sets))
	}
	if _, err := s.FastForward(b.At("18:50")); err != nil {
		t.Errorf("a second time: %v", err)
	}
	if err := session.Simulate(context.Background(), s, c, b.At("23:00"), nil); err != nil {
		t.Error(err)
	}
	if n := adoptions(s.State()); n != 1 {
		t.Errorf("%d timetables, want 1", n)
	}
}

// script is a cook-day on a journal: as cued, the roast 20 minutes longer, a
// timer, a step undone and done again. It returns the last state that was safe.
func script(b *plantest.Builder, fsys journal.FS, c *clocktest.Manual) (*run.State, error) {
	j, recs, _, err := journal.Open(fsys, "/run")
	if err != nil {
		return nil, err
	}
	past, err := session.Load(recs)
	if err != nil {
		return nil, err
	}
	cfg := config(&b.Plan, j, c)
	cfg.Past = past
	s, err := session.Open(context.Background(), cfg)
	if err != nil {
		return nil, err
	}
	once := map[run.Kind]bool{}
	for _, e := range past {
		once[e.Kind] = true
	}
	tell := func(e run.Event) {
		if err == nil && !once[e.Kind] {
			once[e.Kind] = true
			_, err = s.Record(e)
		}
	}
	sim := session.Simulate(context.Background(), s, c, b.At("23:30"), func(cue run.Cue, _ time.Time) {
		switch cue.ID {
		case "end:roast/bake":
			tell(longer)
		case "start:potatoes/boil":
			tell(run.Event{Kind: run.TimerSet, Text: "Tea", By: 4 * time.Minute})
			if undo, ok := s.State().LastUndoable(); ok && undo.Kind == run.TimerSet {
				tell(run.Event{Kind: run.Undone, Undoes: undo.Seq})
			}
		}
	})
	return s.State(), errors.Join(err, sim)
}

// TestCrashAtEveryWrite stops the machine at every write and sync of a cook-day
// and goes on: what was shown as done is there, the same steps are going until
// the same times, and the dinner is cooked to its end.
func TestCrashAtEveryWrite(t *testing.T) {
	t.Parallel()
	b := supper()
	for k := 0; ; k++ {
		fsys, c := journaltest.New(uint64(k)), clocktest.New(start(b))
		fsys.FailAt(k, journaltest.Crash)
		safe, err := script(b, fsys, c)
		failed := fsys.Failed()
		if failed != (err != nil) {
			t.Fatalf("crash at operation %d: %v, error %v", k, failed, err)
		}
		if !failed {
			if k < 60 {
				t.Errorf("only %d operations: the script is too short", k)
			}
			return
		}
		fsys.Restart()
		if safe != nil {
			goesOn(t, b, fsys, safe, c.Now())
		}
		if end, err := script(b, fsys, c); err != nil || !run.Conduct(end, c.Now()).Finished {
			t.Errorf("going on to the end: %v", err)
		}
		if t.Failed() {
			t.Fatalf("with a crash at operation %d", k)
		}
	}
}

// goesOn checks what is in the journal against the last state that was safe.
func goesOn(t *testing.T, b *plantest.Builder, fsys journal.FS, safe *run.State, now time.Time) {
	t.Helper()
	recs, _, err := journal.Read(fsys, "/run")
	if err != nil {
		t.Fatal(err)
	}
	evs, err := session.Load(recs)
	if err != nil {
		t.Fatal(err)
	}
	if n := len(evs) - len(safe.Events); n < 0 || n > 1 {
		t.Fatalf("%d events were safe, %d are there", len(safe.Events), len(evs))
	}
	got, err := run.Fold(&b.Plan, evs[:len(safe.Events)])
	if err != nil {
		t.Fatal(err)
	}
	same(t, got, safe)
	if d := cmp.Diff(deadlines(safe, now), deadlines(got, now)); d != "" {
		t.Errorf("deadlines (-safe +found):\n%s", d)
	}
}
