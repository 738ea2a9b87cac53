package tui_test

import (
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan/remedy"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui"
	"example.org/kettledrum/tui/tuitest"
)

// found answers the search for ways out.
func found(s *tuitest.Screen, ways ...remedy.Remedy) {
	s.Send(tui.RemediesMsg{Found: ways, After: len(s.Model.State().Events)})
}

func cheese() remedy.Remedy {
	return remedy.Remedy{Kind: remedy.DropDish, Do: "leave out the salad", Gain: "Main comes on time",
		Event: run.Event{Kind: run.RemedyTaken, Text: "leave out the salad"}}
}

// tookWay reports whether a way out was taken.
func tookWay(s *tuitest.Screen) bool {
	for _, e := range s.Effects {
		if _, ok := e.(tui.TakeRemedy); ok {
			return true
		}
	}
	return false
}

func TestWaysOutAreOfTheDinnerAsItIs(t *testing.T) {
	t.Parallel()
	s := normal(t, "moved")
	s.Keys("r")
	want(t, "before any is known", s.Model.Message(), "Main 10 min late: ways out are being worked out, they come up here")
	found(s, cheese())
	if text := "Main 10 min late, 1 way out: r shows"; !strings.Contains(s.Frame(), text) {
		t.Errorf("the frame lacks %q:\n%s", text, s.Frame())
	}
	s.Keys("+") // the dinner changes
	s.Keys("r")
	want(t, "mode with an old list", s.Model.Mode(), tui.Main)
	if msg := s.Model.Message(); !strings.Contains(msg, "late: ways out are being worked out anew") {
		t.Errorf("after a change r says %q", msg)
	}
	s.Turn(20 * time.Second) // the message goes, the line stays
	if text := "ways out are being worked out anew"; !strings.Contains(s.Frame(), text) {
		t.Errorf("the frame lacks %q:\n%s", text, s.Frame())
	}
	found(s)
	s.Keys("r")
	if msg := s.Model.Message(); !strings.Contains(msg, "no way out was found") {
		t.Errorf("where none was found r says %q", msg)
	}
}

// Ways out may be known where no course is late but a rule would not be kept.
func TestOneWayOutIsOne(t *testing.T) {
	t.Parallel()
	s := normal(t, "three-at-once")
	found(s, cheese())
	if text := " 1 way out: r shows"; !strings.Contains(s.Frame(), text) {
		t.Errorf("the frame lacks %q:\n%s", text, s.Frame())
	}
}

// A list that is open while the dinner changes is closed, and what is pressed then
// takes nothing.
func TestAnOldListOfWaysOutIsRefused(t *testing.T) {
	t.Parallel()
	for _, under := range []string{"", "?"} { // with the help over it
		t.Run("under-"+under, func(t *testing.T) {
			t.Parallel()
			s := normal(t, "moved")
			found(s, cheese())
			s.Keys("r " + under)
			s.Deaf = true
			next, err := s.Run.Record(run.Event{Kind: run.Noted, Text: "another", At: s.Now})
			if err != nil {
				t.Fatal(err)
			}
			s.Send(tui.TickedMsg{Instants: tui.Instants{At: s.Now, Real: s.Real}, State: next})
			if under != "" {
				s.Keys("esc")
			}
			s.Press("1")
			if tookWay(s) {
				t.Fatal("a way out of the dinner as it was is taken")
			}
			want(t, "mode", s.Model.Mode(), tui.Main)
		})
	}
	s := normal(t, "moved")
	found(s, cheese())
	s.Keys("r 1")
	if !tookWay(s) {
		t.Error("a way out of the dinner as it is is not taken")
	}
}
