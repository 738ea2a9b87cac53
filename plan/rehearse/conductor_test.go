package rehearse_test

import (
	"testing"
	"time"

	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/mishap"
	"example.org/kettledrum/plan/rehearse"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

// TestConductorPlaysOnTicks: on a screen a mishap happens at the first tick that is
// not before it, at its own time, once; what lies before the rehearsal is refused.
func TestConductorPlaysOnTicks(t *testing.T) {
	t.Parallel()
	d := cooked(t, "weeknight")
	now := d.moment(0)
	c := clocktest.New(now)
	s, err := session.Open(t.Context(), config(d.p, &journal.Memory{}, c, nil))
	if err != nil {
		t.Fatal(err)
	}
	at := now.Add(3 * time.Minute)
	hold := mishap.None(mishap.Hold)
	hold.At, hold.Course, hold.By = at, 0, 10*time.Minute
	before := hold
	before.At = now.Add(-time.Hour)
	var told []rehearse.Played
	player := rehearse.New(t.Context(), s, []mishap.Mishap{hold, before}, now, rehearse.Watcher{Mishap: func(m rehearse.Played) { told = append(told, m) }})
	x := rehearse.Conductor{Session: s, Player: player, Clock: c}
	for _, step := range []struct {
		after time.Duration
		held  int
		told  int
	}{{0, 0, 1}, {2 * time.Minute, 0, 1}, {2 * time.Minute, 1, 2}, {time.Minute, 1, 2}} {
		c.Advance(step.after)
		st, err := x.Tick()
		if err != nil {
			t.Fatal(err)
		}
		held := 0
		for _, e := range st.Events {
			if e.Kind == run.Held {
				held++
				if !e.At.Equal(at) {
					t.Errorf("held at %s, want %s", e.At, at)
				}
			}
		}
		if held != step.held || len(told) != step.told {
			t.Errorf("at %s: held %d times, %d mishaps told; want %d, %d", c.Now().Format("15:04"), held, len(told), step.held, step.told)
		}
	}
	if told[0].Refused == "" || told[1].Refused != "" {
		t.Errorf("refused: %q, %q; want the first", told[0].Refused, told[1].Refused)
	}
}
