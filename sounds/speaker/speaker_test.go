package speaker_test

import (
	"bytes"
	"context"
	"errors"
	"log/slog"
	"strings"
	"sync"
	"testing"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/sounds"
	"example.org/kettledrum/sounds/speaker"
)

var bank = sounds.Render()

// way is a way that a test holds by the hand: it tells what it is to play, and then
// does as it is told.
type way struct {
	asked chan []int16
	do    chan error // nil: heard; else it failed so
}

func newWay() *way { return &way{asked: make(chan []int16), do: make(chan error)} }

func (w *way) Name() string { return "hand" }

func (w *way) Play(ctx context.Context, pcm []int16) error {
	select {
	case w.asked <- pcm:
	case <-ctx.Done():
		return ctx.Err()
	}
	select {
	case err := <-w.do:
		if errors.Is(err, errPanic) {
			panic("on purpose")
		}
		return err
	case <-ctx.Done():
		return ctx.Err()
	}
}

var errPanic = errors.New("panic")

// book is a log that a test reads.
type book struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (l *book) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.Write(p)
}

// lines are the messages so far, without times.
func (l *book) lines() []string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return strings.Split(strings.TrimSpace(l.b.String()), "\n")
}

func (l *book) logger() *slog.Logger {
	return slog.New(slog.NewTextHandler(l, &slog.HandlerOptions{ReplaceAttr: func(_ []string, a slog.Attr) slog.Attr {
		if a.Key == slog.TimeKey || a.Key == slog.LevelKey {
			return slog.Attr{}
		}
		return a
	}}))
}

func loud(c run.Class) sounds.Sound { return sounds.Sound{Class: c, Volume: sounds.FullVolume} }

// which is the class that samples are of.
func which(t *testing.T, pcm []int16) run.Class {
	t.Helper()
	for _, m := range sounds.Motifs() {
		if len(bank.PCM(loud(m.Class))) == len(pcm) {
			return m.Class
		}
	}
	t.Fatalf("%d samples are of no motif", len(pcm))
	return 0
}

func TestMoreUrgentCutsOff(t *testing.T) {
	t.Parallel()
	w := newWay()
	s := speaker.New(bank, []speaker.Way{w}, new(book).logger())
	defer s.Close()
	s.Ring(loud(run.Act))
	if got := which(t, <-w.asked); got != run.Act {
		t.Fatalf("%v sounds, want act", got)
	}
	s.Ring(loud(run.Danger)) // cuts off; nothing tells the way to end
	if got := which(t, <-w.asked); got != run.Danger {
		t.Fatalf("%v sounds, want danger", got)
	}
	// Of what waits the most urgent is played first.
	for _, c := range []run.Class{run.Note, run.Look, run.Act} {
		s.Ring(loud(c))
	}
	w.do <- nil
	if got := which(t, <-w.asked); got != run.Look {
		t.Errorf("%v sounds next, want look", got)
	}
	s.Ring(loud(run.Look)) // not more urgent than what sounds: it waits
	s.Ring(loud(run.Look)) // and once, though it is told twice
	// What waited for something more urgent was counted as rung, and is heard.
	for _, want := range []run.Class{run.Look, run.Act, run.Note} {
		w.do <- nil
		if got := which(t, <-w.asked); got != want {
			t.Errorf("%v sounds, want %v", got, want)
		}
	}
	w.do <- nil
}

// TestTroubleIsToldOnce: what is wrong is logged when it begins, when it changes and
// when it ends.
func TestTroubleIsToldOnce(t *testing.T) {
	t.Parallel()
	w, log := newWay(), new(book)
	s := speaker.New(bank, []speaker.Way{w}, log.logger())
	for _, err := range []error{nil, speaker.ErrHangs, speaker.ErrHangs, speaker.ErrHangs, errPanic, nil, nil, speaker.ErrGone} {
		s.Ring(loud(run.Look))
		<-w.asked
		w.do <- err
	}
	s.Ring(loud(run.Look)) // the one before is noted by the time that this one sounds
	<-w.asked
	if got := s.Trouble(); !errors.Is(got, speaker.ErrGone) {
		t.Errorf("trouble is %v, want that it went away", got)
	}
	s.Close() // in the middle of a sound
	want := []string{
		`msg="no sound" why="hand: does not answer"`,
		`msg="no sound" why="hand: a bug: on purpose"`,
		`msg="sound works again" by=hand`,
		`msg="no sound" why="hand: went away"`,
	}
	if got := log.lines(); strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("the log is\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestPlayTriesEachWay(t *testing.T) {
	t.Parallel()
	bad, good := newWay(), newWay()
	go func() {
		<-bad.asked
		bad.do <- speaker.ErrAbsent
		<-good.asked
		good.do <- nil
	}()
	pcm := bank.PCM(loud(run.Note))
	if by, err := speaker.Play(context.Background(), []speaker.Way{bad, good}, pcm); err != nil || by != "hand" {
		t.Errorf("Play = %q, %v", by, err)
	}
	if _, err := speaker.Play(context.Background(), nil, pcm); !errors.Is(err, speaker.ErrAbsent) {
		t.Errorf("without a way: %v, want that there is none", err)
	}
}

func TestVolumeZeroAsksNoWay(t *testing.T) {
	t.Parallel()
	w := newWay()
	s := speaker.New(bank, []speaker.Way{w}, new(book).logger())
	defer s.Close()
	s.Ring(sounds.Sound{Class: run.Danger})
	s.Ring(loud(run.Note))
	if got := which(t, <-w.asked); got != run.Note {
		t.Errorf("%v sounds, want note", got)
	}
}

func TestBell(t *testing.T) {
	t.Parallel()
	for c, want := range map[run.Class]string{run.Danger: "\a", run.LateCue: "\a", run.Look: "\a", run.Act: "\a", run.Soon: "", run.Note: ""} {
		var out strings.Builder
		speaker.NewBell(&out).Ring(loud(c))
		if out.String() != want {
			t.Errorf("%v wrote %q, want %q", c, out.String(), want)
		}
	}
	var out strings.Builder
	speaker.NewBell(&out).Ring(sounds.Sound{Class: run.Danger})
	if out.Len() > 0 {
		t.Errorf("at volume 0 the bell rings")
	}
}
