package tui_test

import (
	"context"
	"io"
	"testing"

	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui"
	"example.org/kettledrum/tui/theme"
	"example.org/kettledrum/tui/tuitest"
)

// slow is a conductor whose journal takes its time: until it is let.
type slow struct {
	*tuitest.Memory
	began, let chan struct{}
}

func (s slow) Record(evs ...run.Event) (*run.State, error) {
	close(s.began)
	<-s.let
	return s.Memory.Record(evs...)
}

// What was entered a moment before the screen ended is in the journal when Run
// returns, however slow the disk is.
func TestQuitWaitsForTheJournal(t *testing.T) {
	t.Parallel()
	p, tt := tuitest.Dinner()
	state, err := run.Fold(p, tuitest.Opening(p, tt))
	if err != nil {
		t.Fatal(err)
	}
	c := slow{tuitest.NewMemory(state), make(chan struct{}), make(chan struct{})}
	in, keys := io.Pipe()
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan tui.Result, 1)
	go func() {
		r, _ := tui.Run(ctx, tui.Options{
			Conductor: c, Clock: clocktest.New(tuitest.At(15, 0)), In: in, Out: io.Discard, Theme: theme.Bare(false),
		})
		ended <- r
	}()
	if _, err := keys.Write([]byte("t")); err != nil { // a quick timer: the prompt
		t.Fatal(err)
	}
	if _, err := keys.Write([]byte("tea 4")); err != nil {
		t.Fatal(err)
	}
	if _, err := keys.Write([]byte("\r")); err != nil {
		t.Fatal(err)
	}
	<-c.began
	stop() // as a signal does
	close(c.let)
	if r := <-ended; len(r.State.Timers) != 1 {
		t.Errorf("the timer entered before the end is not in the state: %+v", r.State.Timers)
	}
}
