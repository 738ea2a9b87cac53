package tui_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/tui"
	"example.org/kettledrum/tui/tuitest"
)

// answered answers what is being written.
func answered(s *tuitest.Screen) {
	s.Deaf = false
	var rec tui.Record
	for _, e := range s.Effects {
		if r, ok := e.(tui.Record); ok {
			rec = r
		}
	}
	state, err := s.Run.Record(rec.Events...)
	s.Send(tui.RecordedMsg{Instants: tui.Instants{At: s.Now, Real: s.Real}, State: state, Err: err, Said: rec.Said})
}

// writing is a screen on which a first + is being written.
func writing(t *testing.T) *tuitest.Screen {
	t.Helper()
	s := normal(t, "three-at-once")
	s.Beat()
	s.Deaf = true
	s.Keys("+")
	return s
}

func TestKeysWaitWhileSomethingIsWritten(t *testing.T) {
	t.Parallel()
	s := writing(t)
	s.Press("+")
	pressed := s.Now
	s.Press("t")
	s.Type("tea 4")
	s.Press("enter")
	want(t, "mode meanwhile", s.Model.Mode(), tui.Main)
	if text := "then: + t t e a space 4 enter"; !strings.Contains(s.Frame(), text) {
		t.Errorf("the frame does not show %q:\n%s", text, s.Frame())
	}
	s.Turn(20 * time.Second)
	answered(s)
	want(t, "recorded", recorded(s), []string{"record(prolonged potatoes/peel 5m0s)", "record(prolonged potatoes/peel 5m0s)",
		"record(timer tea 4m0s)"})
	want(t, "when the last was told", s.Run.Told[2].At, pressed)
	if strings.Contains(s.Frame(), "then:") {
		t.Errorf("keys still wait:\n%s", s.Frame())
	}
}

func TestEscDropsWhatWaits(t *testing.T) {
	t.Parallel()
	s := writing(t)
	s.Keys("+ d esc")
	want(t, "message", s.Model.Message(), "what waited was dropped: + d")
	answered(s)
	want(t, "recorded", len(recorded(s)), 1)
}

func TestTooManyKeysAreRefusedVisibly(t *testing.T) {
	t.Parallel()
	s := writing(t)
	for range tui.MostWaiting + 3 {
		s.Press("+")
	}
	if text := "writing: no more keys until it is written"; !strings.Contains(s.Frame(), text) {
		t.Errorf("the frame lacks %q:\n%s", text, s.Frame())
	}
	answered(s)
	want(t, "recorded", len(recorded(s)), 1+tui.MostWaiting)
}

func TestWhatWaitedIsDroppedWhereWritingFails(t *testing.T) {
	t.Parallel()
	s := writing(t)
	s.Keys("+ d")
	s.Run.Fail = errors.New("no space left on device")
	answered(s)
	want(t, "recorded", len(recorded(s)), 1)
	want(t, "message", s.Model.Message(), "not written: no space left on device; keys that waited were dropped: + d")
}

// A space that waits answers nothing that came up after it was pressed.
func TestAWaitingSpaceAnswersOnlyWhatWasShown(t *testing.T) {
	t.Parallel()
	s := normal(t, "three-at-once")
	s.Beat()
	s.Deaf = true
	s.Keys("space space")
	s.TurnTo(tuitest.At(17, 20).Add(30 * time.Second)) // peeling ends, the beans are due
	answered(s)
	if len(s.Model.Moment().Cues) == 0 {
		t.Fatal("nothing is due after the first")
	}
	want(t, "recorded", recorded(s), []string{"record(started pears/simmer)"})
	want(t, "message", s.Model.Message(), "that has only just come up: read it, then press again")
}
