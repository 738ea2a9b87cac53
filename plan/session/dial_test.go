package session_test

import (
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan/run"
)

// TestDialIsAskedForOnce: an oven that was set as asked, by whatever clock in the
// minute in which it was due, stands once in the timetable and is not asked for again.
func TestDialIsAskedForOnce(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		name, dinner string
		late         time.Duration // told for so long after it was due
		now          time.Duration // and it is so long after that
		off          float64       // degrees Celsius: as read from a dial of another unit
	}{
		{"on-time", "weeknight", 0, 0, 0},
		{"microseconds-ahead-of-the-clock", "weeknight", 20 * time.Microsecond, -20 * time.Microsecond, 0},
		{"a-tenth-ahead-of-the-clock", "weeknight", 100 * time.Millisecond, -100 * time.Millisecond, 0},
		{"a-tenth-late", "weeknight", 100 * time.Millisecond, 0, 0},
		{"a-minute-late", "harvest", time.Minute, 0, 0},
		{"a-minute-late-by-another-unit", "harvest", time.Minute, 0, 0.4},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			s, c := openExample(t, tt.dinner)
			last := -1 // the hottest: where a minute counts most
			sets := s.State().Timetable.Sets
			for k, set := range sets {
				if !set.Off && (last < 0 || set.To > sets[last].To) {
					last = k
				}
			}
			set := sets[last]
			if _, err := s.FastForward(set.At.Add(-time.Minute)); err != nil {
				t.Fatal(err)
			}
			at := set.At.Add(tt.late)
			c.Set(at.Add(tt.now))
			temp := float64(set.To) + tt.off
			p := s.State().Plan
			st, err := s.Record(run.Event{
				Kind: run.OvenTurned, At: at, Oven: p.Kitchen.Ovens[set.Oven].Name, Temp: &temp, Step: p.Steps[set.For].ID,
			})
			if err != nil {
				t.Fatal(err)
			}
			times := 0
			for _, x := range st.Timetable.Sets {
				if !x.Off && x.For == set.For {
					times++
				}
			}
			if times != 1 {
				t.Errorf("it is %d times in the timetable: %v", times, st.Timetable.Sets)
			}
			for _, cue := range run.Conduct(st, at.Add(time.Second)).Cues {
				if strings.HasPrefix(cue.ID, "set:") {
					t.Errorf("asked again: %s", cue.Text)
				}
			}
		})
	}
}
