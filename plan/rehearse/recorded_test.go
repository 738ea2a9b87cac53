package rehearse_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan/mishap"
	"example.org/kettledrum/plan/rehearse"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

// cues are those of a dinner's last hours with a script, as they come up, and its run.
func cues(t *testing.T, d dinner, script []mishap.Mishap) ([]string, *run.State) {
	t.Helper()
	from := d.from.Add(-2 * time.Minute)
	s, c, err := stageOf().Open(t.Context(), d.p, d.timetable(), from)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	player := rehearse.New(t.Context(), s, script, from, rehearse.Watcher{
		Cue: func(c run.Cue, at time.Time) {
			out = append(out, fmt.Sprintf("%s %s %s", at.Format("15:04:05"), c.Class, c.Text))
		},
		Mishap: func(m rehearse.Played) {
			if m.Refused != "" {
				t.Logf("refused: %s: %s", m.Text(d.p), m.Refused)
			}
		},
	})
	if err := session.Play(t.Context(), s, c, d.to.Add(8*time.Hour), player); err != nil {
		t.Fatal(err)
	}
	return out, s.State()
}

// TestRecordedAgain: the mishaps of a run that was recorded, rehearsed again, give the
// same cues: of what seeds draw, and of each kind of mishap.
func TestRecordedAgain(t *testing.T) {
	t.Parallel()
	d := cooked(t, "weeknight")
	again := func(t *testing.T, script []mishap.Mishap) {
		first, st := cues(t, d, script)
		second, _ := cues(t, d, rehearse.Recorded(st, d.from.Add(-2*time.Minute)))
		if diff := cmp.Diff(first, second); diff != "" {
			t.Errorf("(-recorded +again):\n%s", diff)
		}
	}
	for seed := range uint64(12) {
		t.Run(fmt.Sprint("seed-", seed), func(t *testing.T) {
			t.Parallel()
			drawn := rehearse.Draw(d.p, d.timetable(), d.from.Add(-2*time.Minute), seed)
			again(t, drawn.Script())
		})
	}
	for _, kind := range kinds {
		now := d.moment(1)
		st, err := run.Fold(d.p, d.until(now))
		if err != nil {
			t.Fatal(err)
		}
		script := kind.make(view{st, now})
		if script == nil || kind.name == "remedy" || kind.name == "silent" {
			continue
		}
		t.Run(kind.name, func(t *testing.T) {
			t.Parallel()
			again(t, script)
		})
	}
}

// TestRecordedLeavesOut what was taken back, and takes a cook who did something else for
// one who was away.
func TestRecordedLeavesOut(t *testing.T) {
	t.Parallel()
	d := cooked(t, "weeknight")
	s, c, err := stageOf().Open(t.Context(), d.p, d.timetable(), d.from)
	if err != nil {
		t.Fatal(err)
	}
	st, err := s.Record(run.Event{Kind: run.Held, Course: d.p.Courses[0].Name, By: 10 * time.Minute})
	if err != nil {
		t.Fatal(err)
	}
	held, ok := st.LastUndoable()
	if !ok || held.Kind != run.Held {
		t.Fatalf("last is %v", held.Kind)
	}
	if _, err = s.Record(run.Event{Kind: run.Undone, Undoes: held.Seq}); err != nil {
		t.Fatal(err)
	}
	cook := d.p.Kitchen.Cooks[0].Name
	if st, err = s.Record(run.Event{Kind: run.Added, Cook: cook, Text: "the door", By: 5 * time.Minute}); err != nil {
		t.Fatal(err)
	}
	want := mishap.None(mishap.Away)
	want.Cook, want.At, want.By = 0, c.Now(), 5*time.Minute
	if diff := cmp.Diff([]mishap.Mishap{want}, rehearse.Recorded(st, d.from)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
