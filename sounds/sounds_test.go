package sounds

import (
	"slices"
	"strings"
	"testing"

	"example.org/kettledrum/plan/run"
)

func TestBellRingsByTheCatalog(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		class run.Class
		want  string
	}{
		{run.Danger, "\a"},
		{run.LateCue, "\a"},
		{run.Look, "\a"},
		{run.Act, "\a"},
		{run.Soon, ""},
		{run.Note, ""},
	} {
		t.Run(tt.class.String(), func(t *testing.T) {
			t.Parallel()
			var out strings.Builder
			NewBell(&out).Ring(tt.class)
			if out.String() != tt.want {
				t.Errorf("Ring(%v) wrote %q, want %q", tt.class, out.String(), tt.want)
			}
		})
	}
}

// A worse thing is repeated at least as often as a lesser one that repeats.
func TestDangerIsTheMostInsistent(t *testing.T) {
	t.Parallel()
	danger := Of(run.Danger)
	for c := run.Danger; c <= run.Note; c++ {
		if s := Of(c); s.Every > 0 && s.Every < danger.Every {
			t.Errorf("%v repeats every %v, more often than danger (%v)", c, s.Every, danger.Every)
		}
		if s := Of(c); !s.Rings && s.Every > 0 {
			t.Errorf("%v repeats but never rings", c)
		}
	}
}

func TestUnknownClassIsSilent(t *testing.T) {
	t.Parallel()
	for _, c := range []run.Class{-1, run.Note + 1} {
		if s := Of(c); s != (Signal{}) {
			t.Errorf("Of(%d) = %+v, want silence", int(c), s)
		}
	}
}

func TestRecorderKeepsWhatRings(t *testing.T) {
	t.Parallel()
	var r Recorder
	for _, c := range []run.Class{run.Act, run.Note, run.Danger} {
		r.Ring(c)
	}
	if got, want := r.Rung(), []run.Class{run.Act, run.Danger}; !slices.Equal(got, want) {
		t.Errorf("rung %v, want %v", got, want)
	}
	Silent{}.Ring(run.Danger)
}
