package session

import (
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// TestWorth: at seven, four steps of ten minutes each are to come from a moment
// on, for a course that comes a quarter of an hour late, tolerated. Another timetable
// has it less late by some minutes, with each step moved by as many, forward or back.
func TestWorth(t *testing.T) {
	t.Parallel()
	seven := time.Date(2026, 10, 17, 19, 0, 0, 0, time.UTC)
	p := &plan.Plan{Table: seven.Add(time.Hour), Courses: []plan.Course{{Name: "Main", LateOK: 20 * time.Minute}}, Steps: make([]plan.Step, 4)}
	broken := func(kind plan.BreakKind, minutes int) []plan.Break {
		return []plan.Break{{Kind: kind, Step: 0, Course: -1, Minutes: minutes}}
	}
	tests := []struct {
		name        string
		ahead       time.Duration // of every step
		gain, move  int           // minutes
		was, breaks []plan.Break  // of the projection, of the other
		elsewhere   bool          // each with another cook
		want        bool
	}{
		{name: "too-little", ahead: time.Hour, gain: 2, want: false},
		{name: "enough", ahead: time.Hour, gain: 3, want: true},
		// 4 · 8 · ¼ = 8
		{name: "near-eight", gain: 8, move: 8, want: false},
		{name: "near-nine", gain: 9, move: 8, want: true},
		// 4 · 8 · ¼ · ½ = 4
		{name: "ten-ahead-four", ahead: 10 * time.Minute, gain: 4, move: 8, want: false},
		{name: "ten-ahead-five", ahead: 10 * time.Minute, gain: 5, move: 8, want: true},
		{name: "an-hour-ahead", ahead: time.Hour, gain: 3, move: 40, want: true},
		// 4 · 5 · ¼ = 5
		{name: "other-cooks-five", gain: 5, elsewhere: true, want: false},
		{name: "other-cooks-six", gain: 6, elsewhere: true, want: true},
		// The nearer of two places counts: from 10 to 0 minutes ahead is now.
		{name: "sooner", ahead: 10 * time.Minute, gain: 10, move: -10, want: false},
		{name: "mends", was: broken(plan.BreakKeep, 2), move: 60, want: true},
		{name: "eases-a-little", was: broken(plan.BreakKeep, 4), breaks: broken(plan.BreakKeep, 3), want: false},
		{name: "eases", was: broken(plan.BreakKeep, 6), breaks: broken(plan.BreakKeep, 3), move: 60, want: true},
		{name: "gain-for-harm", gain: 14, breaks: broken(plan.BreakKeep, 2), want: false},
		{name: "over-likings-gains", was: broken(plan.BreakLiking, 9), breaks: broken(plan.BreakLiking, 6), want: true},
		{name: "over-likings-costs", gain: 10, breaks: broken(plan.BreakLiking, 8), want: false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			table := func(late, move int, cook int, breaks []plan.Break) *plan.Timetable {
				tt := &plan.Timetable{Serves: []time.Time{p.Table.Add(time.Duration(late) * time.Minute)}, Breaks: breaks}
				for range p.Steps {
					start := seven.Add(time.Duration(move) * time.Minute)
					tt.Slots = append(tt.Slots, plan.Slot{Start: start, End: start.Add(10 * time.Minute), Cook: cook})
				}
				return tt
			}
			ahead, cook := int(tt.ahead/time.Minute), 0
			if tt.elsewhere {
				cook = 1
			}
			st := &run.State{Plan: p, Steps: make([]run.StepState, 4), Courses: make([]run.CourseState, 1), Timetable: table(15, ahead, 0, nil)}
			projected, other := table(15, ahead, 0, tt.was), table(15-tt.gain, ahead+tt.move, cook, tt.breaks)
			if got := worth(st, seven, other, other.Breaks, projected); got != tt.want {
				t.Errorf("worth %v, want %v: gains %v, moves %v", got, tt.want,
					cost(st, projected, projected.Breaks)-cost(st, other, other.Breaks), moves(st, seven, other))
			}
		})
	}
}
