package session_test

import (
	"context"
	"errors"
	"strings"
	"sync"
	"testing"
	"time"

	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

func TestRecordFillsTimes(t *testing.T) {
	t.Parallel()
	b := supper()
	s, c, _ := begin(t, b)
	c.Set(b.At("17:38"))
	st, err := s.Record(run.Event{Kind: run.Started, Step: "roast/season", At: b.At("17:36")}, run.Event{Kind: run.TimerSet, Text: "Kettle", By: 4 * time.Minute})
	if err != nil {
		t.Fatal(err)
	}
	told, timer := st.Events[2], st.Events[3]
	if !told.At.Equal(b.At("17:36")) || !told.Noted.Equal(c.Now()) {
		t.Errorf("told later: at %s, noted %s", told.At, told.Noted)
	}
	if !timer.At.Equal(c.Now()) || !timer.Noted.Equal(c.Now()) || !st.Timers[0].Due.Equal(b.At("17:42")) {
		t.Errorf("told now: at %s, noted %s, due %s", timer.At, timer.Noted, st.Timers[0].Due)
	}
}

func TestRefusedEventsWriteNothing(t *testing.T) {
	t.Parallel()
	good := run.Event{Kind: run.Started, Step: "roast/season"}
	tests := []struct {
		name string
		evs  []run.Event
	}{
		{"unknown-step", []run.Event{{Kind: run.Started, Step: "roast/flambee"}}},
		{"nothing-to-undo", []run.Event{{Kind: run.Undone, Undoes: 99}}},
		{"first-good-second-not", []run.Event{good, good}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			s, _, log := begin(t, supper())
			before, n := s.State(), len(log.Records())
			st, err := s.Record(tt.evs...)
			if err == nil {
				t.Error("recorded")
			}
			if len(log.Records()) != n || st != before || s.State() != before {
				t.Errorf("%d records were %d; state the same: %v", len(log.Records()), n, st == before)
			}
		})
	}
}

// fullLog is a log that takes so many records and no more.
type fullLog struct {
	journal.Memory
	room int
}

var errFull = errors.New("no space left on device")

func (l *fullLog) Append(p []byte) (uint64, error) {
	if l.room == 0 {
		return 0, errFull
	}
	l.room--
	return l.Memory.Append(p)
}

func TestFullJournal(t *testing.T) {
	t.Parallel()
	b := supper()
	log := &fullLog{room: 3}
	s, err := session.Open(context.Background(), config(&b.Plan, log, clocktest.New(start(b))))
	if err != nil {
		t.Fatal(err)
	}
	st, err := s.Record(run.Event{Kind: run.Started, Step: "roast/season"}, run.Event{Kind: run.Started, Step: "broth/simmer"})
	var not *session.NotWrittenError
	if !errors.As(err, &not) || !errors.Is(err, errFull) || not.Kind != run.Started {
		t.Errorf("error %v", err)
	}
	const want = "not written: started: no space left on device; nothing you entered before is lost"
	if err != nil && err.Error() != want {
		t.Errorf("error %q, want %q", err, want)
	}
	if len(st.Events) != 3 || st.Steps[b.Plan.StepIndex("broth/simmer")].Started != (time.Time{}) {
		t.Errorf("the state has %d events, the journal 3", len(st.Events))
	}
	log.room = 100
	if st, err = s.Record(run.Event{Kind: run.Started, Step: "broth/simmer"}); err != nil || st.Events[3].Seq != 4 {
		t.Errorf("with room again: %v", err)
	}
	consistent(t, s, &log.Memory)
}

// twoWriters is a log that something else writes to as well.
type twoWriters struct{ journal.Memory }

func (l *twoWriters) Append(p []byte) (uint64, error) {
	if len(l.Records()) == 2 {
		if _, err := l.Memory.Append([]byte(`{}`)); err != nil {
			return 0, err
		}
	}
	return l.Memory.Append(p)
}

func TestSecondWriterIsNoticed(t *testing.T) {
	t.Parallel()
	b := supper()
	s, err := session.Open(context.Background(), config(&b.Plan, &twoWriters{}, clocktest.New(start(b))))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.Record(run.Event{Kind: run.Started, Step: "roast/season"}); err == nil || !strings.Contains(err.Error(), "something else writes to it") {
		t.Errorf("error %v", err)
	}
}

func TestTogether(t *testing.T) {
	t.Parallel()
	s, _, _ := begin(t, supper())
	var wg sync.WaitGroup
	for range 4 {
		wg.Go(func() {
			for range 5 {
				if _, err := s.Record(run.Event{Kind: run.TimerSet, Text: "Tea", By: time.Minute}); err != nil {
					t.Error(err)
				}
				if _, err := s.Tick(); err != nil {
					t.Error(err)
				}
				_ = run.Conduct(s.State(), s.State().Plan.Table)
			}
		})
	}
	wg.Wait()
	if n := len(s.State().Timers); n != 20 {
		t.Errorf("%d timers, want 20", n)
	}
}
