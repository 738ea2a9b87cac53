package session_test

import (
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/run"
)

// TestCalledAway: what a cook is at when called away stands still. It ends later by as
// long, in every timetable from then on, and nobody is missed at it: not before it is
// done, nor when it is looked back on.
func TestCalledAway(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		name string
		back int // minutes after it was told; 0: as told
		want int // minutes for which carving stands still
	}{{"as-told", 0, 12}, {"back-early", 5, 5}} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			b := supper()
			b.Cook("Tomas", "14:00-23:00") // who sees to all else
			carve := b.Plan.StepIndex("roast/carve")
			c := cookUntil(t, b, "18:50", planner.Again)
			slot := c.State().Timetable.Slots[carve]
			if _, err := c.FastForward(slot.Start.Add(time.Minute)); err != nil {
				t.Fatal(err)
			}
			who := b.Plan.Kitchen.Cooks[slot.Cook].Name
			left := slot.Start.Add(2*time.Minute + 20*time.Second)
			c.clock.Set(left)
			st := c.tell(t, run.Event{Kind: run.Away, Cook: who, By: 12*time.Minute - 20*time.Second})
			if tt.back > 0 {
				c.clock.Set(left.Add(time.Duration(tt.back)*time.Minute - 20*time.Second))
				st = c.tell(t, run.Event{Kind: run.Back, Cook: who})
			}
			want := slot.End.Add(time.Duration(tt.want)*time.Minute - 20*time.Second)
			if got := run.Project(st, c.clock.Now()).End[carve]; !got.Equal(want) {
				t.Errorf("projected to be done at %s, want %s", got.Format("15:04:05"), want.Format("15:04:05"))
			}
			again := planner.Again(t.Context(), st, c.clock.Now())
			if again.Status == plan.Broken {
				t.Errorf("planned again it breaks %v", again.Breaks)
			}
			c.clock.Set(want)
			done := c.tell(t, run.Event{Kind: run.Finished, Step: "roast/carve"})
			for what, breaks := range map[string][]plan.Break{
				"told": st.Timetable.Breaks, "planned again": again.Breaks, "done": done.Timetable.Breaks, "looked back on": c.Happened().Breaks,
			} {
				for _, x := range breaks {
					if x.Kind == plan.BreakHands && x.Step == carve {
						t.Errorf("%s: %s", what, x.Text)
					}
				}
			}
			if got := again.Slots[carve].End; got.Before(want) {
				t.Errorf("planned again to be done at %s, want %s", got.Format("15:04:05"), want.Format("15:04:05"))
			}
		})
	}
}
