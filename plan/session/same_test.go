package session_test

import (
	"encoding/json"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan/run"
)

// same compares two states of a run: what is going, since when and until when,
// what is done, which timetable is in force.
func same(t *testing.T, got, want *run.State) {
	t.Helper()
	if d := cmp.Diff(facts(want), facts(got)); d != "" {
		t.Errorf("state (-want +got):\n%s", d)
	}
}

// facts is a state without its plan, by way of JSON: times in the journal lose
// nothing but the name of their zone.
func facts(s *run.State) (out map[string]any) {
	utc := *s
	utc.Plan, utc.Base = nil, nil
	data, err := json.Marshal(utc)
	if err != nil {
		panic(err)
	}
	if err := json.Unmarshal(data, &out); err != nil {
		panic(err)
	}
	return out
}

// deadlines is what a screen counts down to at an instant.
func deadlines(s *run.State, now time.Time) map[string]time.Time {
	out := map[string]time.Time{}
	for _, g := range run.Conduct(s, now).Going {
		out[g.Label] = g.End.UTC()
	}
	return out
}
