package verify_test

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/verify"
)

// TestAbsences: one cook sits with the Soup from 19:00 to 19:20, away for 4 minutes
// at most, at once with the Fish until 19:40, away for 6, and with the Sweet from
// 20:00 on. Each row says when that cook works at something for the Sweet.
func TestAbsences(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		name, since string
		works       []string
		want        []string
	}{
		{"apart", "", []string{"19:05-19:09", "19:15-19:19"}, nil},
		{"too-soon", "", []string{"19:05-19:09", "19:14-19:18"}, []string{
			"19:14 hands 1: Work: Ines leaves the table at 19:14, 9 min after the last time, 10 min at least",
		}},
		{"one-after-the-other", "", []string{"19:05-19:07", "19:07-19:10"}, []string{
			"19:09 hands 1: Work: Ines is away from the table for 5 min from 19:05, 4 min at most",
		}},
		{"too-long-for-the-first", "", []string{"19:05-19:10"}, []string{
			"19:05 hands 5: Work: Ines is at table for 5 min from 19:05",
		}},
		{"long-enough-for-the-second", "", []string{"19:25-19:31"}, nil},
		{"from-one-course-into-the-next", "", []string{"19:17-19:20", "19:20-19:23"}, []string{
			"19:21 hands 2: Work: Ines is away from the table for 6 min from 19:17, 4 min at most",
		}},
		{"too-soon-in-the-next-course", "", []string{"19:17-19:20", "19:25-19:28"}, []string{
			"19:25 hands 2: Work: Ines leaves the table at 19:25, 8 min after the last time, 10 min at least",
		}},
		{"between-two-sittings", "", []string{"19:39-19:42", "19:42-19:58"}, nil},
		{"too-long-but-for-its-end-at-table", "", []string{"18:50-19:02"}, []string{
			"19:00 hands 2: Work: Ines is at table for 2 min from 19:00",
		}},
		{"begun-before-the-serve", "", []string{"18:58-19:02", "19:09-19:12"}, []string{
			"19:09 hands 1: Work: Ines leaves the table at 19:09, 9 min after the last time, 10 min at least",
		}},
		{"all-over", "19:19", []string{"19:05-19:09", "19:14-19:18"}, nil},
		{"the-first-is-over", "19:10", []string{"19:05-19:09", "19:14-19:18"}, []string{
			"19:14 hands 1: Work: Ines leaves the table at 19:14, 9 min after the last time, 10 min at least",
		}},
		{"too-long-and-going", "19:10", []string{"19:05-19:07", "19:07-19:11"}, []string{
			"19:10 hands 1: Work: Ines is away from the table for 6 min from 19:05, 4 min at most",
		}},
		{"who-does-not-sit", "", []string{"19:05-19:08 Tomas", "19:08-19:12 Tomas", "19:14-19:18 Tomas"}, nil},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			b := plantest.New("2026-10-17 19:00")
			b.Sits(b.Cook("Ines", "18:00-23:00"))
			b.Cook("Tomas", "18:00-23:00")
			b.Course("Soup", 0, 20*time.Minute, 0)
			b.Course("Fish", 20*time.Minute, 20*time.Minute, 0)
			sweet := b.Course("Sweet", time.Hour, 20*time.Minute, 0)
			b.Plan.Courses[0].SlipsAway, b.Plan.Courses[1].SlipsAway = 4*time.Minute, 6*time.Minute
			d := dinner{Builder: b, t: plan.Timetable{Serves: []time.Time{b.At("19:00"), b.At("19:20"), b.At("20:00")}}}
			for _, w := range tt.works {
				hours, cook, ok := strings.Cut(w, " ")
				if !ok {
					cook = "Ines"
				}
				from, to, _ := strings.Cut(hours, "-")
				slot := b.Slot(from, to, cook)
				b.Chore("Work", sweet, plan.Chore{After: -1}, plantest.Takes(int(slot.End.Sub(slot.Start).Minutes())))
				d.t.Slots = append(d.t.Slots, slot)
			}
			if tt.since != "" {
				d.since = b.At(tt.since)
				d.passed()
			}
			if diff := cmp.Diff(tt.want, told(verify.Check(&b.Plan, &d.t, d.since))); diff != "" {
				t.Errorf("breaks differ, - wanted, + got:\n%s", diff)
			}
		})
	}
}

// TestServedOnTheHalfMinute: a course served at 19:00:30 keeps whoever sits until
// the minute is full.
func TestServedOnTheHalfMinute(t *testing.T) {
	t.Parallel()
	b := plantest.New("2026-10-17 19:00")
	b.Sits(b.Cook("Ines", "18:00-23:00"))
	b.Course("Soup", 0, 20*time.Minute, 0)
	sweet := b.Course("Sweet", time.Hour, 20*time.Minute, 0)
	b.Chore("Work", sweet, plan.Chore{After: -1}, plantest.Takes(5))
	tt := &plan.Timetable{Slots: []plan.Slot{b.Slot("19:20", "19:25", "Ines")}, Serves: []time.Time{b.At("19:00:30"), b.At("20:00")}}
	want := []string{"19:20 hands 1: Work: Ines is at table for 1 min from 19:20"}
	if diff := cmp.Diff(want, told(verify.Check(&b.Plan, tt, b.At("19:10")))); diff != "" {
		t.Errorf("breaks differ, - wanted, + got:\n%s", diff)
	}
}

// TestStandsStill: a step that has begun may stand still for as long as its timetable
// says, while its cook is away; for more, the cook is missed.
func TestStandsStill(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		name  string
		still time.Duration
		want  []string
	}{
		{"not", 0, []string{"19:05 hands 10: Work: Ines is not there for 10 min from 19:05"}},
		{"all-of-it", 10 * time.Minute, nil},
		{"seconds-rounded-up", 9*time.Minute + 20*time.Second, nil},
		{"less", 6 * time.Minute, []string{"19:11 hands 4: Work: Ines is not there for 4 min from 19:11"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			b := plantest.New("2026-10-17 19:00")
			b.Cook("Ines", "18:00-19:05", "19:15-23:00")
			sweet := b.Course("Sweet", time.Hour, 20*time.Minute, 0)
			b.Chore("Work", sweet, plan.Chore{After: -1}, plantest.Takes(10))
			slot := b.Slot("19:00", "19:20", "Ines")
			slot.Progress, slot.Still = plan.Begun, tt.still
			table := &plan.Timetable{Slots: []plan.Slot{slot}, Serves: []time.Time{b.At("20:00")}}
			if diff := cmp.Diff(tt.want, told(verify.Check(&b.Plan, table, b.At("19:02")))); diff != "" {
				t.Errorf("breaks differ, - wanted, + got:\n%s", diff)
			}
		})
	}
}
