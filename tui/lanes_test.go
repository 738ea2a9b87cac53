package tui_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
	"example.org/kettledrum/tui/tuitest"
)

// How a step stands is told without colour, in both sets of symbols, however short it
// is drawn.
func TestLaneStatesAreToldApart(t *testing.T) {
	t.Parallel()
	for _, ascii := range []bool{false, true} {
		for _, w := range []int{1, 2, 3, 5, 8, 13, 40} {
			t.Run(fmt.Sprintf("ascii-%v-%d", ascii, w), func(t *testing.T) {
				t.Parallel()
				s := at(t, stage("going"), tuitest.Config{Width: 80, Height: 24, Theme: theme.Bare(ascii)})
				drawn := map[string]string{}
				for state, text := range s.Model.DrawPieces("Roast the chicken", w) {
					if other, same := drawn[text]; same {
						t.Errorf("%s and %s are both drawn %q", state, other, text)
					}
					drawn[text] = state
				}
			})
		}
	}
}

// Now is in view when the hours are opened, though the marked step began long before
// them; and one key leads back to it.
func TestNowIsAmongTheHours(t *testing.T) {
	t.Parallel()
	now := tuitest.At(19, 0)
	s := at(t, tuitest.Stage{Name: "overnight", Now: now, Events: []run.Event{
		{Kind: run.Started, Step: "flatbreads/rise", At: now.Add(-22 * time.Hour), Noted: now.Add(-22 * time.Hour)}}},
		tuitest.Config{Width: 80, Height: 24})
	s.Keys("esc") // the list on return
	s.Type("/rise")
	s.Keys("enter esc")
	want(t, "marked", s.Model.Marked(), "Let the dough rise · Flatbreads")
	s.Keys("v")
	line := func() string {
		for _, l := range strings.Split(s.Frame(), "\n") {
			if strings.Contains(l, "▼") {
				return l
			}
		}
		return ""
	}
	if !strings.Contains(line(), "▼19:00") {
		t.Errorf("now is not in view:\n%s", s.Frame())
	}
	s.Keys("[ [ [")
	if line() != "" {
		t.Fatalf("the hours did not move:\n%s", s.Frame())
	}
	s.Keys(".")
	if !strings.Contains(line(), "▼19:00") {
		t.Errorf("the key does not lead back to now:\n%s", s.Frame())
	}
	s.Keys("esc o")
	if text := "Fri 21:00 to Sat "; !strings.Contains(s.Frame(), text) {
		t.Errorf("the end of a step over midnight lacks its day:\n%s", s.Frame())
	}
}
