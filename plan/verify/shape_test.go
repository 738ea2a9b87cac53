package verify_test

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/verify"
)

// TestShape: a timetable of another plan, or a damaged one, is answered in words.
func TestShape(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		name   string
		change func(s *supper)
		want   string
	}{
		{"slot-missing", func(s *supper) { s.t.Slots = s.t.Slots[1:] }, "10 slots, the plan has 11 steps"},
		{"serve-missing", func(s *supper) { s.t.Serves = nil }, "0 serves, the plan has 2 courses"},
		{"empty", func(s *supper) { s.t = plan.Timetable{} }, "0 slots"},
		{"no-time", func(s *supper) { s.slot(s.rest).End = time.Time{} }, "Gratin: Rest has no time"},
		{"no-serve-time", func(s *supper) { s.t.Serves[1] = time.Time{} }, "Main has no time"},
		{"third-cook", func(s *supper) { s.slot(s.slice).Cook = 2 }, "cook 2"},
		{"second-oven", func(s *supper) { s.slot(s.bake).Oven = 1 }, "oven 1"},
		{"touch-of-no-step", func(s *supper) { s.t.Touches[0].Step = 11 }, "step 11"},
		{"set-for-no-step", func(s *supper) { s.t.Sets[0].For = -1 }, "step -1"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			s := newSupper()
			tt.change(s)
			breaks := s.check()
			if len(breaks) == 0 || !strings.Contains(breaks[0].Text, tt.want) {
				t.Fatalf("got %v, want one with %q", told(breaks), tt.want)
			}
			if got := verify.Status(&s.Plan, &s.t, breaks); got != plan.Broken {
				t.Errorf("status %s, want broken", got)
			}
		})
	}
}

// anyDinner is one of those made by hand.
func anyDinner(t *rapid.T) *dinner {
	if rapid.Bool().Draw(t, "feast") {
		return &newFeast().dinner
	}
	return &newSupper().dinner
}

// shake moves slots, touches and settings about by up to an hour.
func shake(t *rapid.T, s *dinner) {
	by := rapid.IntRange(-3600, 3600)
	for i := range s.t.Slots {
		if rapid.Bool().Draw(t, "slot") {
			slot := s.slot(i)
			slot.Start = slot.Start.Add(time.Duration(by.Draw(t, "start")) * time.Second)
			slot.End = slot.End.Add(time.Duration(by.Draw(t, "end")) * time.Second)
			slot.Cook = rapid.IntRange(-1, 1).Draw(t, "cook")
			slot.Progress = plan.Progress(rapid.IntRange(0, 3).Draw(t, "progress"))
		}
	}
	for i := range s.t.Touches {
		if rapid.Bool().Draw(t, "touch") {
			s.t.Touches[i].At = s.t.Touches[i].At.Add(time.Duration(by.Draw(t, "at")) * time.Second)
		}
	}
	for i := range s.t.Sets {
		s.t.Sets[i].At = s.t.Sets[i].At.Add(time.Duration(by.Draw(t, "at")) * time.Second)
	}
	if rapid.Bool().Draw(t, "past") {
		s.since = s.At("18:30").Add(time.Duration(by.Draw(t, "since")) * time.Second)
	}
}

// TestAnyTimetable: whatever the times, Check answers, in order, and each break
// says what, where and how far.
func TestAnyTimetable(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := anyDinner(t)
		shake(t, s)
		breaks := s.check()
		for i, b := range breaks {
			if i > 0 && b.At.Before(breaks[i-1].At) {
				t.Fatalf("%v before %v", told(breaks[i-1:i]), told(breaks[i:i+1]))
			}
			if (b.Step < 0) == (b.Course < 0) || b.Minutes < 0 || b.Text == "" {
				t.Fatalf("%+v says not what, where or how far", b)
			}
		}
	})
}

// TestShiftedDinner: the same dinner two days later breaks the same
// rules at the same times of the dinner.
func TestShiftedDinner(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := anyDinner(t)
		shake(t, s)
		before := s.check()
		const d = 48 * time.Hour
		s.shift(d)
		after := s.check()
		if len(before) != len(after) {
			t.Fatalf("%d breaks, shifted %d", len(before), len(after))
		}
		for i, b := range before {
			if a := after[i]; a.Kind != b.Kind || a.Step != b.Step || a.Minutes != b.Minutes || !a.At.Equal(b.At.Add(d)) {
				t.Fatalf("%+v, shifted %+v", b, a)
			}
		}
	})
}

func (s *dinner) shift(d time.Duration) {
	s.Plan.Table = s.Plan.Table.Add(d)
	for i := range s.Plan.Kitchen.Cooks {
		for k, w := range s.Plan.Kitchen.Cooks[i].Free {
			s.Plan.Kitchen.Cooks[i].Free[k] = plan.Window{From: w.From.Add(d), To: w.To.Add(d)}
		}
	}
	for i := range s.t.Slots {
		s.t.Slots[i].Start, s.t.Slots[i].End = s.t.Slots[i].Start.Add(d), s.t.Slots[i].End.Add(d)
	}
	for i := range s.t.Serves {
		s.t.Serves[i] = s.t.Serves[i].Add(d)
	}
	for i := range s.t.Touches {
		s.t.Touches[i].At = s.t.Touches[i].At.Add(d)
	}
	for i := range s.t.Sets {
		s.t.Sets[i].At, s.t.Sets[i].Ready = s.t.Sets[i].At.Add(d), s.t.Sets[i].Ready.Add(d)
	}
	if !s.since.IsZero() {
		s.since = s.since.Add(d)
	}
}
