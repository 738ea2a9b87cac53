//go:build !race

// The race detector holds memory of its own.

package session_test

import (
	"context"
	"runtime"
	"testing"
	"time"

	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

// TestMemoryStaysFlat cooks a dinner from ten in the morning to ten at night, with
// something told every ten seconds: what is due, and else a timer, a note, a cue
// that was seen, each quarter of an hour a step that takes a minute longer. What a
// run holds on to are its events and the timetables that it adopted, and nothing
// else. Not in parallel: the heap is everybody's.
func TestMemoryStaysFlat(t *testing.T) {
	b := supper()
	c := clocktest.New(b.At("10:00"))
	s, err := session.Open(context.Background(), config(&b.Plan, &forgetful{}, c))
	if err != nil {
		t.Fatal(err)
	}
	const (
		hours, each  = 12, 360
		perEvent     = 1 << 10 // an event is some 300 bytes, and its place in a slice that grows
		perTimetable = 8 << 10 // of eleven steps
	)
	held, events, adopted := []int{}, []int{}, []int{}
	for n := range hours * each {
		c.Advance(10 * time.Second)
		now := c.Now()
		tell := []run.Event{[]run.Event{
			{Kind: run.TimerSet, Text: "Tea", By: time.Minute}, {Kind: run.Noted, Text: "as it should be"}, {Kind: run.Acknowledged, Cue: "seen"},
		}[n%3]}
		m := run.Conduct(s.State(), now)
		for _, cue := range m.Cues {
			if cue.Step >= 0 && n%90 == 0 && cue.Class == run.Look {
				tell = []run.Event{{Kind: run.Prolonged, Step: b.Plan.Steps[cue.Step].ID, By: time.Minute}}
				break
			}
			if len(cue.Answer) > 0 && cue.Class != run.Soon {
				tell = cue.Answer
				break
			}
		}
		if _, err := s.Record(tell...); err != nil {
			t.Fatal(err)
		}
		if (n+1)%each == 0 {
			var stats runtime.MemStats
			runtime.GC()
			runtime.ReadMemStats(&stats)
			held, events, adopted = append(held, int(stats.HeapAlloc)), append(events, len(s.State().Events)), append(adopted, adoptions(s.State()))
		}
	}
	t.Logf("bytes %v, events %v, timetables %v", held, events, adopted)
	for h := 1; h < hours; h++ {
		may := (events[h]-events[0])*perEvent + (adopted[h]-adopted[0])*perTimetable
		if grown := held[h] - held[0]; grown > may {
			t.Errorf("after %d hours %d bytes more are held than after one, want %d at most", h+1, grown, may)
		}
	}
	for _, course := range s.State().Courses {
		if course.Served.IsZero() {
			t.Error("a course was not served")
		}
	}
	runtime.KeepAlive(s)
}

// forgetful is a log that keeps nothing: what a journal writes is on the disk.
type forgetful struct{ n uint64 }

func (l *forgetful) Append([]byte) (uint64, error) {
	l.n++
	return l.n, nil
}
