package run_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// A caution comes with its step, stays until somebody has seen it, and is not told
// again; one that the plan accepts is never told.
func TestCautionsComeOnceWithTheirStep(t *testing.T) {
	t.Parallel()
	s := newSupper()
	s.t.Cautions = []plan.Caution{
		{Code: "under-minimum", Step: s.roast, Text: "done at 130 °F", Do: "cook on", Source: "a chart"},
		{Code: "allergen", Step: s.poach, Text: "contains nuts", Source: "a list"},
		{Code: "allergen", Step: s.poach, Text: "contains milk", Source: "a list"},
		{Code: "two-hours", Step: s.carve, Text: "out too long", Source: "a chart", Accepted: "it stays hot"},
	}
	const seen = "15:21 acknowledged caution:under-minimum:lamb/roast"
	for _, c := range []struct {
		name   string
		now    string
		events []string
		want   []string
	}{
		{"before", "15:17", []string{"15:00 started lamb/season"}, nil},
		{"due-soon", "15:18", []string{"15:00 started lamb/season"}, []string{"caution:under-minimum:lamb/roast"}},
		{"going", "15:25", []string{"15:00 started lamb/season", "15:20 started lamb/roast"}, []string{"caution:under-minimum:lamb/roast"}},
		{"seen", "15:25", []string{"15:00 started lamb/season", "15:20 started lamb/roast", seen}, nil},
		{"over", "18:21", []string{"15:00 started lamb/season", "15:20 started lamb/roast", "18:20 finished lamb/roast"}, nil},
		{"two-of-a-code", "19:09", nil, []string{"caution:allergen:pears/poach", "caution:allergen:pears/poach:2"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			var got []string
			m := run.Conduct(s.run(t, c.events...), s.At(c.now))
			for _, cue := range m.Cautions {
				got = append(got, cue.ID)
				if cue.Class != run.Note || len(cue.Answer) != 1 || cue.Answer[0].Cue != cue.ID {
					t.Errorf("%s is %v with the answer %v, want a note that is acknowledged", cue.ID, cue.Class, cue.Answer)
				}
			}
			if d := cmp.Diff(c.want, got); d != "" {
				t.Error(d)
			}
		})
	}
}

// A journal of before cautions had a reason and an answer is read as it was, and
// what a timetable has not is not written.
func TestTimetablesOfOldJournalsAreRead(t *testing.T) {
	t.Parallel()
	const old = `{"status":"whole","slots":[],"serves":[],"touches":null,"sets":null,"latest_start":"2026-10-17T12:00:00Z","cautions":[{"code":"two-hours","step":1,"text":"out too long","source":"a chart"}]}`
	var tt plan.Timetable
	if err := json.Unmarshal([]byte(old), &tt); err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff([]plan.Caution{{Code: "two-hours", Step: 1, Text: "out too long", Source: "a chart"}}, tt.Cautions); d != "" {
		t.Error(d)
	}
	again, err := json.Marshal(&tt)
	if err != nil {
		t.Fatal(err)
	}
	if string(again) != old {
		t.Errorf("written again it is\n%s\nand was\n%s", again, old)
	}
	tt.Cautions = nil
	if again, err = json.Marshal(&tt); err != nil || strings.Contains(string(again), "caution") {
		t.Errorf("without cautions: %s, %v", again, err)
	}
}
