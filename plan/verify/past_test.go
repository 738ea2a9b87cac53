package verify_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/verify"
)

// TestPastIsFact breaks rules before and after since: only what is still to come
// is told.
func TestPastIsFact(t *testing.T) {
	t.Parallel()
	for _, tt := range []rule{
		{"nothing-broken", func(s *supper) { s.since = s.At("18:40"); s.passed() }, nil},
		{"length-of-what-is-done", func(s *supper) {
			s.slot(s.slice).Start = s.At("18:00")
			s.since = s.At("18:40")
			s.passed()
		}, nil},
		{"length-of-what-is-going", func(s *supper) {
			s.stretch(s.simmer, 2)
			s.since = s.At("18:40")
			s.passed()
		}, nil},
		{"seconds-of-what-is-going", func(s *supper) {
			s.slot(s.simmer).Start = s.At("18:31:12")
			s.since = s.At("18:40")
			s.passed()
		}, nil},
		{"going-runs-into-the-next", func(s *supper) {
			s.stretch(s.simmer, 5)
			s.since = s.At("18:40")
			s.passed()
		}, []string{"18:52 order 3: Leeks: Dress starts 3 min before Simmer ends"}},
		{"keep-of-two-facts", func(s *supper) {
			s.slot(s.slice).Start, s.slot(s.slice).End = s.At("17:00"), s.At("17:20")
			s.since = s.At("18:40")
			s.passed()
		}, nil},
		{"keep-of-one-fact", func(s *supper) {
			s.slot(s.slice).Start, s.slot(s.slice).End = s.At("17:00"), s.At("17:20")
			s.since = s.At("18:29")
			s.passed()
		}, []string{"17:50 keep 40: Gratin: Slice waits 1 h 10 min for Bake, 30 min at most"}},
		{"cook-was-away", func(s *supper) {
			s.Plan.Kitchen.Cooks[s.ines].Free = []plan.Window{{From: s.At("18:20"), To: s.At("23:00")}}
			s.since = s.At("18:22")
			s.passed()
		}, nil},
		{"cook-will-be-away", func(s *supper) {
			s.Plan.Kitchen.Cooks[s.ines].Free = []plan.Window{{From: s.At("18:24"), To: s.At("23:00")}}
			s.since = s.At("18:22")
			s.passed()
		}, []string{"18:22 hands 2: Gratin: Slice: Ines is not there for 2 min from 18:22"}},
		{"touch-missed", func(s *supper) {
			s.drop(s.proveStart)
			s.since = s.At("18:22")
			s.passed()
		}, nil},
		{"touch-of-just-now", func(s *supper) {
			s.since = s.At("18:30")
			s.passed()
		}, nil},
		{"oven-was-cold", func(s *supper) {
			s.t.Sets[s.setBake].At, s.t.Sets[s.setBake].Ready = s.At("18:22"), s.At("18:34")
			s.since = s.At("18:34")
			s.passed()
		}, nil},
		{"oven-is-still-cold", func(s *supper) {
			s.t.Sets[s.setBake].At, s.t.Sets[s.setBake].Ready = s.At("18:25"), s.At("18:37")
			s.since = s.At("18:34")
			s.passed()
		}, []string{"18:34 oven 3: Gratin: Bake wants 175 °C to 185 °C: oven is at 152 °C at 18:34, wrong for 3 min"}},
		{"burner-was-taken", func(s *supper) {
			s.step(s.simmer).Burner.Count = 2
			s.since = s.At("18:47")
			s.passed()
		}, []string{"18:47 burner 3: Leeks: Simmer: 2 small burners wanted, the kitchen has 1, for 3 min from 18:47"}},
		{"served-too-late", func(s *supper) {
			s.t.Serves[s.starter] = s.At("19:22")
			s.step(s.dress).Keeps.Kind = plan.Freely
			s.since = s.At("19:23")
			s.passed()
		}, []string{"19:45 early 2: Main is served 2 min before the guests are through with Starter"}},
		{"skipped", func(s *supper) {
			s.slot(s.reduce).Progress = plan.Skipped
			s.slot(s.reduce).Start, s.slot(s.reduce).End = s.At("19:41"), s.At("19:41")
			s.slot(s.reduce).Burner = plan.AnyBurner
			var rest []plan.Touch
			for _, t := range s.t.Touches {
				if t.Step != s.reduce {
					rest = append(rest, t)
				}
			}
			s.t.Touches = rest
		}, nil},
		{"order-past-a-skipped-step", func(s *supper) {
			s.slot(s.rest).Progress = plan.Skipped
			s.slot(s.rest).Start, s.slot(s.rest).End = s.At("19:00"), s.At("19:00")
			s.move(s.plate, -16)
			s.step(s.plate).Keeps.Kind = plan.Freely
			s.step(s.plate).After = s.step(s.plate).After[:1]
			s.step(s.reduce).Keeps.Kind = plan.Freely
		}, []string{"19:19 order 1: Gratin: Plate starts 1 min before Brown ends"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			s := newSupper()
			tt.change(s)
			if diff := cmp.Diff(tt.want, told(s.check())); diff != "" {
				t.Errorf("breaks differ, - wanted, + got:\n%s", diff)
			}
		})
	}
}

// passed marks what is done and begun at since.
func (s *dinner) passed() {
	for i := range s.t.Slots {
		switch slot := s.slot(i); {
		case !slot.End.After(s.since):
			slot.Progress = plan.Done
		case !slot.Start.After(s.since):
			slot.Progress = plan.Begun
		}
	}
}

func TestStatus(t *testing.T) {
	t.Parallel()
	s := newSupper()
	late := newSupper()
	late.Plan.Courses[late.main].Serve -= 5 * time.Minute
	for _, tt := range []struct {
		name   string
		s      *supper
		breaks []plan.Break
		want   plan.Status
	}{
		{"nothing", s, nil, plan.Whole},
		{"liking", s, []plan.Break{{Kind: plan.BreakLiking}}, plan.Whole},
		{"late-within-tolerance", late, nil, plan.Late},
		{"late-and-liking", late, []plan.Break{{Kind: plan.BreakLiking}}, plan.Late},
		{"hard", late, []plan.Break{{Kind: plan.BreakLiking}, {Kind: plan.BreakTool}}, plan.Broken},
	} {
		if got := verify.Status(&tt.s.Plan, &tt.s.t, tt.breaks); got != tt.want {
			t.Errorf("%s: got %s, want %s", tt.name, got, tt.want)
		}
	}
}
