package run_test

import (
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// TestGuests: how much longer the guests had Main and Sweet wait, whatever else they were
// asked for later for.
func TestGuests(t *testing.T) {
	t.Parallel()
	later := run.Event{Kind: run.RemedyTaken, Text: "later", Changes: []plan.Change{{Kind: plan.ServeLater, Course: "Main", By: 25 * time.Minute}}}
	held := func(course string, by time.Duration) run.Event {
		return run.Event{Kind: run.Held, Course: course, By: by}
	}
	for name, c := range map[string]struct {
		events []run.Event // a minute apart, from 18:31
		want   [2]time.Duration
		asked  [2]time.Duration // by how much later they are asked for in all
	}{
		"nothing":      {nil, [2]time.Duration{}, [2]time.Duration{}},
		"late-guests":  {[]run.Event{held("Main", 15*time.Minute)}, [2]time.Duration{15 * time.Minute, 15 * time.Minute}, [2]time.Duration{15 * time.Minute, 15 * time.Minute}},
		"sweet-alone":  {[]run.Event{held("Sweet", 10*time.Minute)}, [2]time.Duration{0, 10 * time.Minute}, [2]time.Duration{0, 10 * time.Minute}},
		"a-way-out":    {[]run.Event{later}, [2]time.Duration{}, [2]time.Duration{25 * time.Minute, 25 * time.Minute}},
		"both":         {[]run.Event{later, held("Main", 10*time.Minute)}, [2]time.Duration{10 * time.Minute, 10 * time.Minute}, [2]time.Duration{35 * time.Minute, 35 * time.Minute}},
		"told-wrongly": {[]run.Event{held("Main", 15*time.Minute), {Kind: run.Undone, Undoes: 3}}, [2]time.Duration{}, [2]time.Duration{}},
		// Held until released, which was at 18:32: before it was asked for.
		"released-early": {[]run.Event{held("Main", 0), {Kind: run.Released, Course: "Main"}}, [2]time.Duration{}, [2]time.Duration{}},
	} {
		s := newSupper()
		st := s.run(t)
		for k, e := range c.events {
			e.At = s.At("18:31").Add(time.Duration(k) * time.Minute)
			e.Noted = e.At
			next, err := st.Apply(e)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			st = next
		}
		guests := st.Guests()
		for k := range c.want {
			if got, all := guests.Asked(k).Sub(s.Plan.Asked(k)), st.Plan.Asked(k).Sub(s.Plan.Asked(k)); got != c.want[k] || all != c.asked[k] {
				t.Errorf("%s: course %d waits %s for the guests and %s in all, want %s and %s", name, k, got, all, c.want[k], c.asked[k])
			}
		}
	}
}
