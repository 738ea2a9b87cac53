package tui_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/tuitest"
)

// TestBurnersFree: a long name on one burner does not cut off that another is free.
func TestBurnersFree(t *testing.T) {
	t.Parallel()
	stages, show := harvest(t)
	st := stages[slices.IndexFunc(stages, func(s tuitest.Stage) bool { return s.Name == "roast-due" })]
	at := st.Now.Add(-time.Minute)
	st.Events = append(slices.Clone(st.Events), run.Event{Kind: run.Started, Step: "leeks-with-mustard-and-egg/boil-leeks", At: at, Noted: at})
	frame := show(st, tuitest.Config{Width: 120, Height: 40}).Frame()
	if !strings.Contains(frame, "large: 1 free, Leeks") {
		t.Errorf("the screen does not say that a large burner is free:\n%s", frame)
	}
}
